"""Figures as they are written at the bench: decimals with point or comma, fractions and mixed numbers, held exactly."""

from __future__ import annotations

import re
from decimal import Decimal, localcontext

from benchbot.errors import QuantityError
from benchbot.quantities.units import tidy_signs

NUMBER = r"[+-]?(?:[0-9]+(?:[ ]+|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+)"
"""Pattern of everything that may be a figure; `read_number` decides whether it is one."""

_SIGNED = re.compile(r"([+-]?)(.*)", re.DOTALL)
_MIXED = re.compile(r"(?:([0-9]+)(?:[ ]+|-))?([0-9]+)[ ]?/[ ]?([0-9]+)")
_POINT = re.compile(r"[0-9]*\.[0-9]+|[0-9]+")
_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_GROUPED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+|[0-9]{1,3}(?:,[0-9]{3}){2,}")

_MOST_DIGITS = 20
# A third of a turn must still come out as 120 degrees after conversion, so fractions keep more digits than shown.
_FRACTION_DIGITS = 40


def read_number(text: str) -> Decimal:
    """The figure that the whole text writes.

    "26.5", "26,5" (decimal comma), ".0015", "5/8", "1 1/8", "1-1/8", "-40". QuantityError for anything else, and
    for a comma that could also part thousands ("1,500").
    """
    tidied = tidy_signs(text)
    signed = _SIGNED.fullmatch(tidied)
    sign, figure = (signed[1], signed[2]) if signed else ("", tidied)
    if not figure:
        raise QuantityError(f"{text!r} holds no figure; write one such as 26.5 or 5/8")
    if sum(letter.isdigit() for letter in figure) > _MOST_DIGITS:
        raise QuantityError(
            f"{text[:30]!r} has more than {_MOST_DIGITS} digits; write the figure as the source prints it"
        )
    held = _unsigned(figure, text)
    # copy_negate, because unary minus would round the digits kept for fractions to the context's precision.
    return held.copy_negate() if sign == "-" else held


def _unsigned(figure: str, text: str) -> Decimal:
    mixed = _MIXED.fullmatch(figure)
    if mixed:
        return _fraction(mixed, text)
    if _POINT.fullmatch(figure):
        return Decimal(figure)
    comma = _COMMA.fullmatch(figure)
    if comma:
        whole, rest = comma[1], comma[2]
        if len(rest) == 3 and 1 <= len(whole) <= 3 and whole.strip("0"):
            raise QuantityError(
                f"{text!r} can mean {whole}{rest} or {whole}.{rest}; write it without the comma or with a point"
            )
        return Decimal(f"{whole}.{rest}")
    if _GROUPED.fullmatch(figure):
        return Decimal(figure.replace(",", ""))
    raise QuantityError(f"{text!r} is no figure; write digits with at most one point, or a fraction such as 1 1/8")


def _fraction(mixed: re.Match[str], text: str) -> Decimal:
    whole, top, bottom = int(mixed[1] or 0), int(mixed[2]), int(mixed[3])
    if bottom == 0:
        raise QuantityError(f"{text!r} divides by zero; write the fraction as the source prints it")
    if mixed[1] is not None and top >= bottom:
        raise QuantityError(
            f"{text!r} is no mixed number: {top}/{bottom} is not less than one; write it as one fraction"
        )
    with localcontext() as context:
        context.prec = _FRACTION_DIGITS
        return Decimal(whole * bottom + top) / Decimal(bottom)


def last_digit(text: str) -> Decimal:
    """What one step of the last printed place of a figure is worth: "22.0" -> 0.1, "17" -> 1, "5/32" -> 1/32."""
    tidied = tidy_signs(text).lstrip("+-")
    mixed = _MIXED.fullmatch(tidied)
    if mixed:
        return Decimal(1) / Decimal(mixed[3])
    exponent = read_number(tidied).as_tuple().exponent
    return Decimal(1).scaleb(exponent) if isinstance(exponent, int) else Decimal(1)
