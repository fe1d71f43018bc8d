"""Whether the two figures that a source prints in two units agree, and which slip explains it when they do not.

Makers round through kgf·m or to whole lb-ft, so agreement is judged inside the larger of 3% and one step of the last
printed place; up to 6% is passed with a warning, and anything beyond is rejected.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from benchbot.errors import UnitError
from benchbot.quantities.amounts import Amount, Plain, Single, Span, Staged, Tolerance, Value
from benchbot.quantities.convert import convert, convert_step
from benchbot.quantities.numbers import last_digit
from benchbot.quantities.units import UNITS

Grade = Literal["pass", "warn", "reject"]

_PASS = Decimal("0.03")
_WARN = Decimal("0.06")
_NEAR_SLIP = Decimal("0.03")
_ORDER: dict[Grade, int] = {"pass": 0, "warn": 1, "reject": 2}

# Ratio of the two figures -> what was probably done; by dimension, "" for every one.
_SLIPS: tuple[tuple[Decimal, str, str], ...] = (
    (Decimal(10), "", "10 times: the decimal point slipped"),
    (Decimal(100), "", "100 times: the decimal point slipped twice"),
    (Decimal(12), "torque", "12 times: lb-ft and lb-in were swapped"),
    (Decimal("1.3558"), "torque", "1.36 times: N\u00b7m and lb-ft were swapped"),
    (Decimal("9.80665"), "torque", "9.8 times: kgf\u00b7m and N\u00b7m were swapped"),
    (Decimal("25.4"), "length", "25.4 times: mm and inches were swapped"),
    (Decimal("1.20095"), "volume", "1.2 times: US and imperial measure were swapped"),
)


@dataclass(frozen=True, slots=True)
class Agreement:
    """The verdict: its grade, how far the second lies from the first (a share of it), likely slips, and the wording.

    off is None when the two cannot be compared figure by figure. text is empty for a pass.
    """

    grade: Grade
    off: Decimal | None
    slips: tuple[str, ...]
    text: str


def compare_second(first: Value, second: Value) -> Agreement:
    """Compares a value with the same value in a second unit.

    UnitError when either is no quantity or the two measure different things.
    """
    if isinstance(first, Staged) or isinstance(second, Staged):
        if isinstance(first, Staged) and isinstance(second, Staged):
            return _compare_stages(first, second)
        return _different_shape(first, second, "one of them comes in stages and the other does not")
    if not (isinstance(first, (Single, Span, Tolerance)) and isinstance(second, (Single, Span, Tolerance))):
        raise UnitError(
            f"{first.text!r} and {second.text!r} cannot be checked against each other; leave the second out"
        )
    return _compare_plain(first, second)


def _compare_plain(first: Plain, second: Plain) -> Agreement:
    if isinstance(first, Single) and isinstance(second, Single):
        return _compare(first.amount, second.amount)
    if isinstance(second, Single) or isinstance(first, Single):
        reduced = _compare(_middle(first), _middle(second))
        if reduced.grade == "reject":
            return reduced
        text = f"{first.text!r} and {second.text!r}: only one of them has a range; write the range in both"
        return Agreement("warn", reduced.off, reduced.slips, text)
    low = _compare(_ends(first)[0], _ends(second)[0])
    high = _compare(_ends(first)[1], _ends(second)[1])
    return low if _ORDER[low.grade] > _ORDER[high.grade] else high


def _compare_stages(first: Staged, second: Staged) -> Agreement:
    if len(first.stages) != len(second.stages):
        return _different_shape(first, second, "they do not have the same number of stages")
    worst = Agreement("pass", Decimal(0), (), "")
    for number, (one, other) in enumerate(zip(first.stages, second.stages, strict=True), start=1):
        if one.words.casefold() != other.words.casefold() or (one.amount is None) != (other.amount is None):
            return _different_shape(first, second, f"stage {number} says two different things")
        if one.amount is None or other.amount is None:
            continue
        dimensions = {UNITS[_middle(plain).unit].dimension for plain in (one.amount, other.amount)}
        if len(dimensions) == 2:
            return _different_shape(first, second, f"stage {number} is a torque in one and an angle in the other")
        stage = _compare_plain(one.amount, other.amount)
        if "angle" in dimensions and stage.off != 0:
            return _different_shape(first, second, f"stage {number} turns by two different angles")
        if _ORDER[stage.grade] > _ORDER[worst.grade]:
            worst = stage
    return worst


def _different_shape(first: Value, second: Value, why: str) -> Agreement:
    return Agreement("reject", None, (), f"{first.text!r} and {second.text!r} do not agree: {why}; correct one of them")


def _compare(first: Amount, second: Amount) -> Agreement:
    unit = first.unit
    found = convert(second.number, second.unit, unit)
    apart = abs(found - first.number)
    # The printed place of either figure may be the coarse one, and which of them came first must not matter.
    place = max(last_digit(first.text), convert_step(last_digit(second.text), second.unit, unit))
    whole = abs(first.number) or abs(found)
    off = apart / whole if whole else Decimal(0)
    slips = _slips(first, second, found) if off > _PASS else ()
    if off <= _PASS or (apart <= place and not slips):
        return Agreement("pass", off, (), "")
    grade: Grade = "warn" if off <= _WARN or apart <= place else "reject"
    likely = f"; likely slip: {' or '.join(slips)}" if slips else ""
    text = (
        f"{first.text} {unit} and {second.text} {second.unit} are {off:.0%} apart "
        f"({second.text} {second.unit} is {found:.4g} {unit}){likely}; check both against the source"
    )
    return Agreement(grade, off, slips, text)


def _slips(first: Amount, second: Amount, found: Decimal) -> tuple[str, ...]:
    if first.number <= 0 or found <= 0:
        return ()
    ratio = max(found / first.number, first.number / found)
    dimension = UNITS[first.unit].dimension
    named = [slip for factor, kind, slip in _SLIPS if kind in ("", dimension) and abs(ratio / factor - 1) <= _NEAR_SLIP]
    swapped = _swapped_digits(first, second)
    return (*named, swapped) if swapped else tuple(named)


def _swapped_digits(first: Amount, second: Amount) -> str:
    """The slip that two neighbouring digits changed places, when changing them back makes the figures agree."""
    for one, other in ((first, second), (second, first)):
        wanted = convert(other.number, other.unit, one.unit)
        digits = one.text
        for at in range(len(digits) - 1):
            pair = digits[at : at + 2]
            if not (pair.isdigit() and pair.isascii()) or pair[0] == pair[1]:
                continue
            turned = digits[:at] + pair[::-1] + digits[at + 2 :]
            if _is_plain_figure(turned) and abs(Decimal(turned) - wanted) <= last_digit(one.text):
                return f"two digits of {one.text} {one.unit} were swapped ({turned})"
    return ""


def _is_plain_figure(text: str) -> bool:
    return text.replace(".", "", 1).isdigit() and not text.startswith(".")


def _middle(plain: Plain) -> Amount:
    if isinstance(plain, Single):
        return plain.amount
    if isinstance(plain, Tolerance):
        return plain.middle
    middle = (plain.low.number + plain.high.number) / 2
    return Amount(middle, plain.low.unit, f"{middle:f}")


def _ends(plain: Plain) -> tuple[Amount, Amount]:
    if isinstance(plain, Span):
        return plain.low, plain.high
    if isinstance(plain, Tolerance):
        low = plain.middle.number - plain.within.number
        high = plain.middle.number + plain.within.number
        return Amount(low, plain.middle.unit, f"{low:f}"), Amount(high, plain.middle.unit, f"{high:f}")
    return plain.amount, plain.amount
