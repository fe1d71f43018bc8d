"""Whether a figure lies far from what the book holds for the same part on other vehicles."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log
from statistics import median

from benchbot.checking.figures import size_of, unit_of
from benchbot.checking.found import Found
from benchbot.checking.rows import Components, HeldRow, VehicleKey
from benchbot.quantities.units import UNITS, units_of

# With fewer vehicles the middle and the spread of the book say little; common practice, no source.
FEWEST_VEHICLES = 8
# Modified z-score beyond which a figure is looked at: Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993.
MOST_SCORE = 3.5
_NORMAL_SPREAD = 1.4826
# Figures of one part differ by a fifth without meaning anything, even where the book happens to hold the same ones.
LEAST_SPREAD = log(1.2)


def outlier(row: HeldRow, held: Sequence[HeldRow], components: Components) -> Found | None:
    """The verdict against the rows of the same component, property and position on other vehicles.

    Logarithms are compared: a figure twice as large is as far off as one half as large. Each vehicle counts once, by
    the middle of its rows. None with fewer than 8 other vehicles or without a size.
    """
    mine = size_of(row.figure())
    if mine is None:
        return None
    snug, size = mine
    name = components.name(row.component)
    by_vehicle: dict[VehicleKey, list[float]] = {}
    for other in held:
        if other.property != row.property or other.vehicle == row.vehicle or other.places != row.places:
            continue
        if components.name(other.component) != name:
            continue
        theirs = size_of(other.figure())
        if theirs is not None and theirs[0] == snug:
            by_vehicle.setdefault(other.vehicle, []).append(log(theirs[1]))
    if len(by_vehicle) < FEWEST_VEHICLES:
        return None
    logs = [median(sizes) for sizes in by_vehicle.values()]
    middle = median(logs)
    spread = max(_NORMAL_SPREAD * median(abs(one - middle) for one in logs), LEAST_SPREAD)
    score = abs(log(size) - middle) / spread
    told = f"{row.value} is {_ratio(log(size) - middle)} what {len(logs)} other vehicles hold for {name} {row.property}"
    if score <= MOST_SCORE:
        return Found("outlier", "passed", f"{told}, inside their spread", "")
    unit = unit_of(row.figure())
    among = [
        other
        for other in units_of(UNITS[unit].dimension)
        if other != unit and _score(row, other, middle, spread) <= MOST_SCORE
    ]
    hint = f". As {' or '.join(among)} it would lie among them" if among else ""
    told = f"{told}, {score:.1f} times their spread away ({MOST_SCORE} is usual){hint}"
    return Found("outlier", "warning", told, "compare the figure, its unit and the part with the source page")


def _score(row: HeldRow, unit: str, middle: float, spread: float) -> float:
    sized = size_of(row.figure(), unit)
    assert sized is not None, "the row has a size in its own unit"
    return abs(log(sized[1]) - middle) / spread


def _ratio(apart: float) -> str:
    times = exp(apart)
    return f"{times:.2g} times the middle of" if times < 100 else f"{times:.0f} times the middle of"
