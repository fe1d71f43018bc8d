"""What is put on record for one message: who asked what, how it was read, what was shown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime


@dataclass(frozen=True, slots=True)
class GapEntry:
    """Why the book could not answer."""

    reason: str
    detail: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One message and its outcome.

    message: the channel's id of it, or None when the channel has none. reading, reply, state: JSON texts.
    specs: (id, revision) of every row shown. state None leaves the chat's state as it is; else `expires_at` counts.
    location: where the person stands, None where nobody has said. instead_of: the answer whose question was edited
    into this one; its gap, if it has one, is nobody's question any more.
    """

    chat: str
    person: str
    message: str | None
    text: str
    at: datetime
    outcome: str
    reading: str
    reply: str
    specs: tuple[tuple[str, int], ...] = ()
    book_version: int | None = None
    gap: GapEntry | None = None
    state: str | None = None
    expires_at: datetime | None = None
    location: int | None = None
    instead_of: int | None = None


@dataclass(frozen=True, slots=True)
class Kept:
    """Where an entry lies in the record: its answer, its gap or None; fresh: it was not there before."""

    answer: int
    gap: int | None
    fresh: bool


def moment(at: datetime) -> str:
    """A time as the record writes it: UTC, always the same length, so that texts compare as times do."""
    if at.tzinfo is None:
        raise ValueError(f"{at} has no time zone; give an aware time")
    return at.astimezone(UTC).isoformat(timespec="microseconds")
