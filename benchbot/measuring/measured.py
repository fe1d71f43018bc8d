"""What a person measured: figures as they were said, each with its unit and the place it was taken at."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from benchbot.quantities.numbers import last_digit, read_number

FEWEST_READINGS = 3
"""So many figures of one place are readings around a rotor; two may as well be its two sides."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One figure.

    text: as it was said ("22.4"); unit: a symbol of length, "" where none was said beyond doubt. where: "left",
    "right", "driver", "passenger", "inner", "outer", or two of them; axle: "front" or "rear" where both were measured.
    part: the component that it was taken off, where a message has figures of several; else "".
    """

    text: str
    unit: str = ""
    where: str = ""
    axle: str = ""
    part: str = ""

    @property
    def number(self) -> Decimal:
        return read_number(self.text)

    @property
    def step(self) -> Decimal:
        """What one step of the last place said is worth, in the figure's unit."""
        return last_digit(self.text)

    def shown(self) -> str:
        return f"{self.text} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class Measured:
    """All figures of one message.

    with_plate: a pad or shoe was measured together with its plate. unit_chosen: the unit was asked for and told.
    limit_asked: the message asked for the limit by name, and only that one is shown.
    """

    measures: tuple[Measure, ...]
    with_plate: bool = False
    unit_chosen: bool = False
    limit_asked: bool = False

    @property
    def readings(self) -> bool:
        """Whether they were taken at several places around one rotor."""
        return any(len(at_place) >= FEWEST_READINGS for at_place in self.places().values())

    @property
    def unsettled(self) -> bool:
        return any(not one.unit for one in self.measures)

    @property
    def parts(self) -> tuple[str, ...]:
        """The components that were measured, in the order they were said; empty where the figures name none."""
        return tuple(dict.fromkeys(one.part for one in self.measures if one.part))

    def of_part(self, part: str) -> Measured:
        """Those of one component; those that name none belong to each."""
        return replace(self, measures=tuple(one for one in self.measures if one.part in ("", part)))

    def places(self) -> dict[tuple[str, str], tuple[Measure, ...]]:
        """(axle, where) -> its figures, in the order they were said."""
        found: dict[tuple[str, str], tuple[Measure, ...]] = {}
        for one in self.measures:
            found[one.axle, one.where] = (*found.get((one.axle, one.where), ()), one)
        return found

    def of_axle(self, axle: str) -> Measured:
        """Those of one axle; those that name none belong to each."""
        return replace(self, measures=tuple(one for one in self.measures if not axle or one.axle in ("", axle)))

    def in_unit(self, unit: str) -> Measured:
        """The same; the figures without a unit have this one."""
        return replace(self, measures=tuple(one if one.unit else replace(one, unit=unit) for one in self.measures))

    def with_chosen(self, unit: str) -> Measured:
        """The same, every figure in the unit that was told when it was asked for."""
        return replace(self, measures=tuple(replace(one, unit=unit) for one in self.measures), unit_chosen=True)

    def figures(self) -> str:
        """The figures alone, as they were said."""
        return ", ".join(one.shown() for one in self.measures)

    def shown(self) -> str:
        """The figures with the parts and the places they were taken at."""
        words = ((one.axle, one.where, one.part, one.shown()) for one in self.measures)
        return ", ".join(" ".join(word for word in said if word) for said in words)

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Measured:
        measures = tuple(Measure(**one) for one in plain["measures"])
        return cls(measures, plain["with_plate"], plain["unit_chosen"], plain["limit_asked"])
