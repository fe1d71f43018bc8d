"""What is put on record for one message: who asked what, how it was read, what was shown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime


@dataclass(frozen=True, slots=True)
class GapPart:
    """One thing that a gap asked for, as the record keeps what was meant.

    kind: "row", "word" or "vehicle". identity: the same text for all who mean the same. years: model years with spaces
    between them, as asked. only_if: as a spec row writes it. component, property: several that it can be with " or "
    between them. words: those that nobody could read, "" when there are none.
    """

    kind: str
    identity: str
    reason: str
    make: str = ""
    model: str = ""
    years: str = ""
    only_if: str = ""
    component: str = ""
    position: str = ""
    property: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class GapEntry:
    """Why the book could not answer, and what was meant.

    memory: that of the chat when the question came, so that it can be asked again.
    """

    reason: str
    detail: str
    parts: tuple[GapPart, ...] = ()
    memory: str | None = None


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
