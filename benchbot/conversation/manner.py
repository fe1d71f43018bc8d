"""How a place wants to be served, and how an edited message is taken."""

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
class Edited:
    """A message that its writer changed.

    before: the chat's memory as it was when the message first came, None when there was none; instead_of: the answer
    that it got then; last: nothing was said in the chat since, so that its memory goes on from the new reading.
    """

    before: str | None
    instead_of: int
    last: bool
