"""Whether the two figures that a source prints for one value agree, and which slip explains it when they do not."""

from __future__ import annotations

from benchbot.checking.found import Found, Level
from benchbot.checking.rows import HeldRow
from benchbot.errors import QuantityError
from benchbot.quantities.agreement import Grade, compare_second
from benchbot.quantities.reading import parse_value
from benchbot.specs.properties import PROPERTIES

_LEVELS: dict[Grade, Level] = {"pass": "passed", "warn": "warning", "reject": "refused"}


def two_units(row: HeldRow) -> Found | None:
    """The verdict on a row with a second value; None without one.

    Passed within the larger of 3 % and one step of the last printed digit, a warning to 6 %, refused beyond.
    """
    if not row.second_value:
        return None
    kind = PROPERTIES[row.property]
    second = parse_value(kind, row.second_value)
    try:
        agreement = compare_second(row.figure(), second)
    except QuantityError as error:
        return Found("two units", "refused", str(error), "leave the second value out")
    if agreement.grade == "pass":
        apart = f", {agreement.off:.1%} apart" if agreement.off else ""
        return Found("two units", "passed", f"{row.value} and {row.second_value} agree{apart}", "")
    mend = "compare both with the source page and correct the one that is wrong"
    return Found("two units", _LEVELS[agreement.grade], agreement.text, mend)
