"""One calculated conversion: the exact number, what to say, and the factor or formula behind it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from benchbot.quantities.amounts import Amount
from benchbot.quantities.convert import convert
from benchbot.quantities.rounding import allowed_error, round_half_up, rounding_step

_FACTOR_DIGITS = 6
_FORMULAS: dict[tuple[str, str], str] = {
    ("\u00b0C", "\u00b0F"): "\u00b0F = \u00b0C \u00d7 9/5 + 32",
    ("\u00b0F", "\u00b0C"): "\u00b0C = (\u00b0F \u2212 32) \u00d7 5/9",
}
_ONE: dict[str, str] = {"32nds": "1/32 in", "turns": "1 turn"}


@dataclass(frozen=True, slots=True)
class ConvertedTo:
    """One result: the exact number, the rounded text with its unit, and the factor or formula it came by."""

    unit: str
    exact: Decimal
    text: str
    working: str


def reckon(amount: Amount, target: str) -> ConvertedTo:
    """The amount in another unit (a symbol). UnitError when the dimensions differ."""
    exact = convert(amount.number, amount.unit, target)
    step = rounding_step(exact, target, source=amount.unit, calculated=True)
    return ConvertedTo(target, exact, _said(exact, round_half_up(exact, step), target), _working(amount.unit, target))


def figure_text(number: Decimal) -> str:
    """A rounded figure as people write it: no exponent, no minus before zero."""
    return f"{abs(number) if number.is_zero() else number:f}"


def _said(exact: Decimal, rounded: Decimal, target: str) -> str:
    text = f"{figure_text(rounded)} {target}"
    whole = round_half_up(exact, Decimal(1))
    if target == "32nds" and abs(whole - exact) <= allowed_error(exact, target):
        return f"{text} ({whole}/32 in)"
    return text


def _working(source: str, target: str) -> str:
    formula = _FORMULAS.get((source, target))
    if formula:
        return formula
    factor = convert(Decimal(1), source, target)
    return f"{_ONE.get(source, f'1 {source}')} = {figure_text(_to_digits(factor))} {target}"


def _to_digits(factor: Decimal) -> Decimal:
    """The factor to six digits, without zeros at its end: 0.737562, 25.4, 12."""
    place = Decimal(1).scaleb(factor.adjusted() - _FACTOR_DIGITS + 1)
    return round_half_up(factor, min(place, Decimal(1))).normalize()
