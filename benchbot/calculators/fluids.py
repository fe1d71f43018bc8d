"""Brake fluid grades of 49 CFR 571.116: boiling points, viscosity, colour, and what may be mixed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

SOURCE = "49 CFR 571.116 S5.1.1, S5.1.2, S5.1.3"
COLOUR_SOURCE = "49 CFR 571.116 S5.1.14"

Base = Literal["glycol", "silicone"]
Colour = Literal["amber", "purple"]


@dataclass(frozen=True, slots=True)
class Grade:
    """A grade's minimum boiling points (ERBP) in °C and its most viscosity at -40 °C in mm²/s.

    dry: as it comes; wet: after it took up water as S6.2 says, about 3.7 %. colour: of new fluid by S5.1.14, where
    "amber" is anything from colourless to amber.
    """

    name: str
    base: Base
    dry: int
    wet: int
    viscosity: int
    colour: Colour

    @property
    def label(self) -> str:
        return f"DOT {self.name}"


# S5.1.1, S5.1.2 and S5.1.3. The figures were compared in secondary copies, not in the printed rule itself. Colours by
# the rule's own interpretations of S5.1.14 (aiam4833, nht80-4.11); that of DOT 5.1 is a value from memory.
GRADES: dict[str, Grade] = {
    "3": Grade("3", "glycol", 205, 140, 1500, "amber"),
    "4": Grade("4", "glycol", 230, 155, 1800, "amber"),
    "5": Grade("5", "silicone", 260, 180, 900, "purple"),
    "5.1": Grade("5.1", "glycol", 260, 180, 900, "amber"),
}


def fahrenheit(celsius: int) -> int:
    """The same temperature in whole °F, as the rule prints it beside the °C."""
    return round(celsius * 9 / 5 + 32)


def mixes(one: Grade, other: Grade) -> bool:
    """Whether two fluids may be in one system at all: glycol with glycol, never silicone with glycol."""
    return one.base == other.base


def reaches(used: Grade, asked: Grade) -> bool:
    """Whether a fluid of one grade meets the boiling points of another and may be mixed with it."""
    return mixes(used, asked) and used.dry >= asked.dry and used.wet >= asked.wet
