"""How a place wants to be served, and how a message out of turn is taken."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

VEHICLE_KEPT = timedelta(hours=4)


@dataclass(frozen=True, slots=True)
class Manner:
    """The ways of the place where a person asks.

    location: its number in the record, None where nobody has said. units: shown first among the conversions.
    kept: how long the vehicle on the lift is taken for granted. asks_again: a question that names a part and no
    vehicle is asked which vehicle it is about, once, when another vehicle was named since the last settled one.
    """

    location: int | None = None
    units: tuple[str, ...] = ()
    language: str = "en"
    kept: timedelta = VEHICLE_KEPT
    asks_again: bool = False


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
