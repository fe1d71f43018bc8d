"""How a place wants to be served, and how a message out of turn is taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import timedelta
from typing import Any

VEHICLE_KEPT = timedelta(hours=4)


@dataclass(frozen=True, slots=True)
class InHand:
    """The job that a person has in hand.

    procedure: the id of what is done; fitted: what is known to be fitted, of the `only_if` of its steps. make, model,
    year, only_if: the vehicle that it is done on, as the book has it; empty where the book holds no such vehicle.
    """

    procedure: str
    fitted: tuple[str, ...] = ()
    make: str = ""
    model: str = ""
    year: int | None = None
    only_if: tuple[tuple[str, str], ...] = ()

    def to_plain(self) -> dict[str, Any]:
        """As JSON-able values."""
        return asdict(self)

    @classmethod
    def from_plain(cls, plain: Mapping[str, Any]) -> InHand:
        """The inverse of `to_plain`, of what has been through JSON."""
        only_if = tuple((str(key), str(value)) for key, value in plain["only_if"])
        return cls(plain["procedure"], tuple(plain["fitted"]), plain["make"], plain["model"], plain["year"], only_if)


@dataclass(frozen=True, slots=True)
class Manner:
    """The ways of the place where a person asks.

    location: its number in the record, None where nobody has said. units: shown first among the conversions.
    kept: how long the vehicle on the lift is taken for granted. asks_again: a question that names a part and no
    vehicle is asked which vehicle it is about, once, when another vehicle was named since the last settled one.
    in_hand: the job that whoever asks is at, which a question about the work is most likely about.
    """

    location: int | None = None
    units: tuple[str, ...] = ()
    language: str = "en"
    kept: timedelta = VEHICLE_KEPT
    asks_again: bool = False
    in_hand: InHand | None = None


PLAIN = Manner()


@dataclass(frozen=True, slots=True)
class Aside:
    """A message that does not simply come next in its chat: its writer changed it, or it stands alone.

    before: the chat's memory to read it with, None for none. instead_of: the answer that it got before it was changed.
    goes_on: the chat's memory goes on from it.
    """

    before: str | None = None
    instead_of: int | None = None
    goes_on: bool = False
