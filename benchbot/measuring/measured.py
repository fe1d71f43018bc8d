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
        """What one step of the last place said is worth, in the figure's unit.

        A fraction was read to its own parts, but never coarser than to sixteenths: 1/2 may be 8/16.
        """
        step = last_digit(self.text)
        return min(step, Decimal(1) / 16) if "/" in self.text else step

    def shown(self) -> str:
        return f"{self.text} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class Measured:
    """All figures of one message.

    with_plate: a pad or shoe was measured together with its plate. unit_chosen: the unit was asked for and told.
    limit_asked: the message asked for the limit by name, and only that one is shown. damage: the kinds of damage that
    were said of the part, the worst first; damage_said: in the words of the message. stamped: the limit read off the
    part. which_stamped: one of the two figures is such a limit, and the message leaves open which. target: what it is
    to be machined to.
    """

    measures: tuple[Measure, ...]
    with_plate: bool = False
    unit_chosen: bool = False
    limit_asked: bool = False
    damage: tuple[str, ...] = ()
    damage_said: str = ""
    stamped: Measure | None = None
    which_stamped: bool = False
    target: Measure | None = None

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
        stamped = self.stamped if self.stamped is None or self.stamped.unit else replace(self.stamped, unit=unit)
        measures = tuple(one if one.unit else replace(one, unit=unit) for one in self.measures)
        target = self.target if self.target is None or self.target.unit else replace(self.target, unit=unit)
        return replace(self, measures=measures, stamped=stamped, target=target)

    def with_chosen(self, unit: str) -> Measured:
        """The same, every figure in the unit that was told when it was asked for."""
        measures = tuple(replace(one, unit=unit) for one in self.measures)
        return replace(self.in_unit(unit), measures=measures, unit_chosen=True)

    def with_measured(self, shown: str) -> Measured:
        """The same, once it was told which of the two figures was measured: the other one is stamped on the part."""
        taken = tuple(one for one in self.measures if one.shown() == shown)
        others = [one for one in self.measures if one.shown() != shown]
        if len(taken) != 1 or len(others) != 1:
            return self
        return replace(self, measures=taken, stamped=others[0], which_stamped=False)

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
        chosen = (plain["with_plate"], plain["unit_chosen"], plain["limit_asked"])
        # what was remembered before damage and stamped limits were read holds none
        damage = (tuple(plain.get("damage", ())), plain.get("damage_said", ""))
        stamped = Measure(**plain["stamped"]) if plain.get("stamped") else None
        target = Measure(**plain["target"]) if plain.get("target") else None
        return cls(measures, *chosen, *damage, stamped, plain.get("which_stamped", False), target)
