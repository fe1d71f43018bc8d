"""Whether a figure lies far from what the book holds for the same part on other vehicles."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
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

# a vehicle, whether its figure is the torque before an angle, and the logarithm of its size
Size = tuple[VehicleKey, bool, float]


def outlier(row: HeldRow, held: Sequence[HeldRow], components: Components) -> Found | None:
    """The verdict against the rows of the same component, property and position on other vehicles.

    Logarithms are compared: a figure twice as large is as far off as one half as large. Each vehicle counts once, by
    the middle of its rows. None with fewer than 8 other vehicles or without a size.
    """
    name = components.name(row.component)
    same = (
        other
        for other in held
        if other.property == row.property and other.places == row.places and components.name(other.component) == name
    )
    return outlier_among(row, name, sizes_of(same))


def sizes_of(rows: Iterable[HeldRow]) -> list[Size]:
    """What rows of one part, place and property state, as far as that has a size."""
    sized = ((row.vehicle, size_of(row.figure())) for row in rows)
    return [(vehicle, size[0], log(size[1])) for vehicle, size in sized if size is not None]


def outlier_among(row: HeldRow, name: str, sizes: Sequence[Size]) -> Found | None:
    """As `outlier`, beside the sizes of the same part, place and property; name: what the part is called."""
    mine = size_of(row.figure())
    if mine is None:
        return None
    snug, size = mine
    by_vehicle: dict[VehicleKey, list[float]] = {}
    for vehicle, their_snug, their_size in sizes:
        if their_snug == snug and vehicle != row.vehicle:
            by_vehicle.setdefault(vehicle, []).append(their_size)
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
