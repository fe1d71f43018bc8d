"""Reads a value as a source sheet writes it into a kind of value, and refuses whatever is not plainly one."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from typing import get_args

from benchbot.errors import QuantityError, UnitError
from benchbot.quantities.amounts import Amount, Plain, Single, Span, Tolerance, Value, ValueKind, Words
from benchbot.quantities.fittings import read_thread, read_tool_size
from benchbot.quantities.numbers import NUMBER, read_number
from benchbot.quantities.stages import has_stages, read_stages
from benchbot.quantities.units import BARE, UNITS, BareUnitError, Dimension, Unit, fold_spelling, read_unit, tidy_signs

_DIMENSIONS: tuple[str, ...] = get_args(Dimension)
_KINDS: tuple[str, ...] = get_args(ValueKind)
_MAY_BE_NEGATIVE = frozenset({"temperature"})
_MAY_BE_ZERO = frozenset({"temperature", "length", "pressure"})

# A hyphen may tie a unit to its figure ("18-mm"); with a space beside it, it is the middle of a range.
_AMOUNT = re.compile(rf"({NUMBER})(?:-(?=[A-Za-z])|\s*)(.*)", re.DOTALL)
_TOLERANCE = re.compile(r"(.*?)\s*(?:\u00b1|\+\s?/?\s?-)\s*(.*)", re.DOTALL)
_SPAN = re.compile(rf"({NUMBER})\s*([^0-9]*?)\s*(?:\.{{2,3}}|-|\bto\b)\s*({NUMBER})\s*(.*)", re.DOTALL | re.IGNORECASE)
_UNEVEN = re.compile(r"\+\s?[0-9.,]+\s?[^0-9;+]{0,12}[/ ,]\s?-\s?[0-9]")
_PERCENT = re.compile(rf"({NUMBER})\s*%")
_SLASHED_32NDS = re.compile(r"[0-9]+\s?/\s?32")
_32NDS_SUFFIX = re.compile(r"(/\s?32)\s?nds?\b", re.IGNORECASE)

_LONGEST = 200
# A tolerance or a range this narrow beside its value is a misplaced point; no instrument in the bay resolves it.
_NARROWEST = Decimal("0.00001")

_USUAL_UNITS: dict[str, tuple[str, ...]] = {
    "torque": ("N\u00b7m", "lb-ft", "lb-in"),
    "length": ("mm", "in"),
    "volume": ("L", "qt"),
    "angle": ("deg", "turns"),
    "pressure": ("kPa", "psi", "bar"),
    "temperature": ("\u00b0C", "\u00b0F"),
}
_POUNDS_MEAN: dict[str, tuple[str, ...]] = {"torque": ("lb-ft", "lb-in"), "pressure": ("psi",)}


def parse_value(kind: ValueKind, text: str) -> Value:
    """The value that the whole text writes.

    kind: a dimension, "thread", "tool size" or "words". A torque (or an angle) may come in stages. UnitError when
    the unit is missing (a BareUnitError, with the units to ask between), unknown or of another dimension;
    QuantityError for every other text that is no such value.
    """
    if kind not in _KINDS:
        raise QuantityError(f"{kind!r} is no kind of value; use one of {', '.join(_KINDS)}")
    entered = _checked(text)
    if kind == "words":
        return Words(entered)
    if kind == "thread":
        return read_thread(entered)
    if kind == "tool size":
        return read_tool_size(entered)
    if _UNEVEN.search(tidy_signs(entered)):
        raise QuantityError(f"{text!r} has an uneven tolerance; write it as a range, such as 95..110 N\u00b7m")
    if kind == "torque" and has_stages(entered):
        return read_stages(entered, read_plain)
    return read_plain(kind, entered)


def read_plain(dimension: Dimension, text: str) -> Plain:
    """A single amount, a range or a tolerance of one dimension."""
    tidied = _32NDS_SUFFIX.sub(r"\1", tidy_signs(text))
    tolerance = _TOLERANCE.fullmatch(tidied)
    if tolerance:
        return _tolerance(dimension, text, tolerance[1], tolerance[2])
    span = _SPAN.fullmatch(tidied)
    if span and _AMOUNT.fullmatch(tidied) and not _reads_as_single(tidied):
        return _span(dimension, text, span)
    number, spelling = _parted(dimension, tidied)
    if dimension == "length" and _SLASHED_32NDS.fullmatch(number) and _is_inch_or_none(spelling):
        top = number.partition("/")[0].strip()
        return Single(_sound(Amount(read_number(top), "32nds", top), dimension, text), text)
    return Single(_amount(dimension, number, spelling, text), text)


def _checked(text: str) -> str:
    entered = text.strip()
    if not entered:
        raise QuantityError("the value is empty; write what the source prints")
    if len(entered) > _LONGEST:
        raise QuantityError(f"the value has {len(entered)} characters; {_LONGEST} is the most, move the rest to a note")
    for letter in entered:
        if unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn"):
            raise QuantityError(f"the value holds an invisible character (U+{ord(letter):04X}); type it again")
    return entered


def _reads_as_single(tidied: str) -> bool:
    """Whether the text is one figure and one unit after all: "1-1/8 in" is a mixed number and no range."""
    match = _AMOUNT.fullmatch(tidied)
    return match is not None and (not match[2] or read_unit(match[2]) is not None)


def _is_inch_or_none(spelling: str) -> bool:
    unit = read_unit(spelling) if spelling else None
    return not spelling or (unit is not None and unit.symbol == "in")


def _parted(dimension: Dimension, tidied: str) -> tuple[str, str]:
    match = _AMOUNT.fullmatch(tidied)
    if match is None:
        example = _USUAL_UNITS[dimension][0]
        raise QuantityError(f"{tidied!r} does not start with a figure; write a {dimension} such as 12 {example}")
    return match[1], match[2].strip()


def _unit(dimension: Dimension, spelling: str, number: Decimal | None, text: str) -> Unit:
    usual = _USUAL_UNITS[dimension]
    if not spelling:
        raise BareUnitError(number, "", usual, f"{text!r} has no unit; write {' or '.join(usual)} behind the figure")
    folded = fold_spelling(spelling)
    if folded in BARE:
        choices = _POUNDS_MEAN.get(dimension, usual)
        message = f"{text!r}: {spelling!r} alone is no unit of {dimension}; write {' or '.join(choices)}"
        raise BareUnitError(number, spelling, choices, message)
    unit = read_unit(spelling)
    if unit is None:
        raise UnitError(f"{text!r}: {spelling!r} is no unit we know; write a {dimension} in {' or '.join(usual)}")
    if unit.dimension != dimension:
        raise UnitError(
            f"{text!r}: {unit.symbol} measures {unit.dimension}; a {dimension} is wanted, in {' or '.join(usual)}"
        )
    return unit


def _amount(dimension: Dimension, number: str, spelling: str, text: str) -> Amount:
    held = read_number(number)
    unit = _unit(dimension, spelling, held, text)
    return _sound(Amount(held, unit.symbol, number), dimension, text)


def _sound(amount: Amount, dimension: Dimension, text: str) -> Amount:
    if amount.number < 0 and dimension not in _MAY_BE_NEGATIVE:
        raise QuantityError(f"{text!r} is negative; a {dimension} never is")
    if amount.number == 0 and dimension not in _MAY_BE_ZERO:
        raise QuantityError(f"{text!r} is zero; leave the value out if there is none")
    most = UNITS[amount.unit].most
    if abs(amount.number) > most:
        raise QuantityError(f"{text!r} is more than {most} {amount.unit}; look for a slipped point or a wrong unit")
    return amount


def _tolerance(dimension: Dimension, text: str, left: str, right: str) -> Tolerance:
    number, spelling = _parted(dimension, left)
    percent = _PERCENT.fullmatch(right)
    if percent:
        middle = _amount(dimension, number, spelling, text)
        share = middle.number * read_number(percent[1]) / 100
        return _ordered_tolerance(middle, Amount(share, middle.unit, f"{share:f}"), text)
    width, width_spelling = _parted(dimension, right)
    middle = _amount(dimension, number, spelling or width_spelling, text)
    within = _amount(dimension, width, width_spelling or spelling, text)
    if middle.unit != within.unit:
        raise UnitError(
            f"{text!r} has a tolerance in {within.unit} on a figure in {middle.unit}; write both in one unit"
        )
    return _ordered_tolerance(middle, within, text)


def _ordered_tolerance(middle: Amount, within: Amount, text: str) -> Tolerance:
    if within.number <= 0:
        raise QuantityError(f"{text!r} has a tolerance of zero or less; write the figure alone")
    if within.number >= abs(middle.number) and middle.unit not in ("\u00b0C", "\u00b0F"):
        raise QuantityError(f"{text!r} has a tolerance as large as its figure; look for a slipped point")
    if within.number < abs(middle.number) * _NARROWEST:
        raise QuantityError(f"{text!r} has a tolerance too small to measure; look for a slipped point")
    return Tolerance(middle, within, text)


def _span(dimension: Dimension, text: str, span: re.Match[str]) -> Span:
    low_number, low_spelling, high_number, high_spelling = span.groups()
    high = _amount(dimension, high_number, high_spelling.strip(), text)
    low = _amount(dimension, low_number, low_spelling.strip() or high_spelling.strip(), text)
    if low.unit != high.unit:
        raise UnitError(f"{text!r} runs from {low.unit} to {high.unit}; write both ends in one unit")
    if low.number >= high.number:
        raise QuantityError(f"{text!r} does not run from low to high; write the lower figure first")
    if high.number - low.number < abs(high.number) * _NARROWEST:
        raise QuantityError(f"{text!r} is a range too narrow to measure; look for a slipped point")
    return Span(low, high, text)
