"""What a difference between two pads, or between the two ends of one, points to.

After the wear guide of Tomorrow's Technician ("Brake pad wear guide") and common practice; none of it is a limit.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

Sign = Literal["even", "inner worn more", "outer worn more", "taper"]


def difference(one: Decimal, other: Decimal) -> Decimal:
    """How far two thicknesses lie apart, in their unit."""
    return abs(one - other)


def of_pair(inner: Decimal, outer: Decimal) -> Sign:
    """Which pad of a wheel is worn more; inner: the one on the side of the piston."""
    if inner == outer:
        return "even"
    return "inner worn more" if inner < outer else "outer worn more"


def of_ends(one: Decimal, other: Decimal) -> Sign:
    """Whether a single pad is worn to a wedge."""
    return "even" if one == other else "taper"
