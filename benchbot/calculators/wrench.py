"""How far a torque wrench may be off, and whether a torque lies in its range: ISO 6789-1.

The deviations are those of ISO 6789-1:2017, 5.1.5 (the same as in ISO 6789:2003, table 2). Class A of type II, the
click wrench with a scale, was checked against a maker's extract of the standard; the other classes are from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Kind = Literal["click", "dial", "electronic", "beam", "screwdriver"]
Verdict = Literal["below", "within", "above"]

SMALL_TOOL = Decimal(10)
"""A tool whose most is this many N·m or less may be off by the wider share."""

# Share in percent: for tools up to SMALL_TOOL, and for larger ones.
_DEVIATIONS: dict[Kind, tuple[Decimal, Decimal]] = {
    "click": (Decimal(6), Decimal(4)),
    "dial": (Decimal(6), Decimal(4)),
    "electronic": (Decimal(6), Decimal(4)),
    "beam": (Decimal(6), Decimal(6)),
    "screwdriver": (Decimal(6), Decimal(6)),
}
LOWEST_TESTED = Decimal("0.2")
"""The share of the most at which the 2003 edition begins to test a tool."""


def deviation(kind: Kind, most: Decimal) -> Decimal:
    """The permissible deviation in percent of the torque; most: the largest torque of the tool in N·m."""
    small, large = _DEVIATIONS[kind]
    return small if most <= SMALL_TOOL else large


def fits(torque: Decimal, least: Decimal, most: Decimal) -> Verdict:
    """Where a torque lies to the marked range of a tool, all three in one unit; both ends belong to the range."""
    if torque < least:
        return "below"
    return "above" if torque > most else "within"


@dataclass(frozen=True, slots=True)
class Click:
    """What one click can mean: the least and the most torque, in the unit of the setting."""

    least: Decimal
    most: Decimal


def click(set_: Decimal, percent: Decimal) -> Click:
    """The torques that a tool within its deviation can give at a setting.

    ISO 6789 puts the deviation as a share of the torque reached; on paper and on the bench it is read as a share of
    the setting, and at 6 % the two differ by less than half a percent.
    """
    off = set_ * percent / 100
    return Click(set_ - off, set_ + off)
