"""The gaps that are open, the books whose askers were told, and what is filled once nobody asks for it any more."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store
from benchbot.records.statements import PUT_MEANING_CHANGE

_GAP = """
SELECT gap.gap, gap.question, gap.memory, gap.person, gap.location, gap.waits, gap.at, answer.book_version, gap.state
FROM gap JOIN answer ON answer.answer = gap.answer
"""

OPEN_GAPS = f"{_GAP} WHERE gap.state = 'open' ORDER BY gap.gap"

OPEN_SINCE = f"{_GAP} WHERE gap.state = 'open' AND gap.at >= :since ORDER BY gap.gap"

ONE_GAP = f"{_GAP} WHERE gap.gap = :gap"

# Both take the row's turn: on a server, whoever else is at the same gap waits.
FILL_GAP = "UPDATE gap SET state = 'filled' WHERE gap = :gap AND state = 'open' RETURNING waits"

REOPEN_GAP = "UPDATE gap SET state = 'open' WHERE gap = :gap AND state = 'filled' RETURNING gap"

MEANINGS_OF = "SELECT meaning FROM gap_part WHERE gap = :gap"

STILL_OPEN = """
SELECT gap_part.gap FROM gap_part JOIN gap ON gap.gap = gap_part.gap
WHERE gap_part.meaning = :meaning AND gap.state = 'open' LIMIT 1
"""

FILL_MEANING = """
UPDATE meaning SET state = 'filled', why = :why, author = :author, at = :at
WHERE meaning = :meaning AND state <> 'filled' RETURNING meaning
"""

REOPEN_MEANING = """
UPDATE meaning SET state = 'open', why = :why, author = :author, at = :at
WHERE meaning = :meaning AND state = 'filled' RETURNING meaning
"""

FOLLOWED = "SELECT at FROM followed WHERE version = :version"

PUT_FOLLOWED = """
INSERT INTO followed (version, at) VALUES (:version, :at) ON CONFLICT (version) DO NOTHING RETURNING version
"""

VERSION = "SELECT last_spec_entry FROM book_version WHERE version = :version"

FOLLOWED_BEFORE = """
SELECT max(book_version.last_spec_entry) FROM followed
JOIN book_version ON book_version.version = followed.version WHERE followed.version < :version
"""

ALL = (
    OPEN_GAPS, OPEN_SINCE, ONE_GAP, FILL_GAP, REOPEN_GAP, MEANINGS_OF, STILL_OPEN, FILL_MEANING,
    REOPEN_MEANING, FOLLOWED, PUT_FOLLOWED, VERSION, FOLLOWED_BEFORE,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class OpenGap:
    """A question that the book did not answer. question: the message, or the number of the choice that was pressed.

    memory: of the chat when it came. waits: its asker wants to be told. version: of the book that it was asked of.
    state: open, filled, or edited into another question.
    """

    number: int
    question: str
    memory: str | None
    person: str
    location: int | None
    waits: bool
    at: datetime
    version: int | None
    state: str


def open_gaps(record: Record | Store, since: datetime | None = None) -> list[OpenGap]:
    """Those that are open, or those of them that were asked at that time or later."""
    if since is None:
        return [_gap(row) for row in record.rows(OPEN_GAPS, {})]
    return [_gap(row) for row in record.rows(OPEN_SINCE, {"since": moment(since)})]


def gap(record: Record | Store, number: int) -> OpenGap | None:
    """One gap, open or not."""
    row = record.row(ONE_GAP, {"gap": number})
    return None if row is None else _gap(row)


def meanings_of(store: Store, number: int) -> list[int]:
    """All that a gap asked for."""
    return [int(row[0]) for row in store.rows(MEANINGS_OF, {"gap": number})]


def fill(store: Store, number: int) -> bool | None:
    """The gap is filled: whether its asker waits; None when it is not open any more."""
    row = store.row(FILL_GAP, {"gap": number})
    return None if row is None else bool(row[0])


def reopen(store: Store, number: int, why: str, author: str, now: datetime) -> None:
    """What had filled the gap is not in the book any more: it is open again, and what it meant with it."""
    if store.row(REOPEN_GAP, {"gap": number}) is None:
        return
    for (meaning,) in store.rows(MEANINGS_OF, {"gap": number}):
        values = {"meaning": meaning, "why": why, "author": author, "at": moment(now)}
        if store.row(REOPEN_MEANING, values) is not None:
            store.run(PUT_MEANING_CHANGE, values | {"state": "open"})


def fill_meanings(store: Store, gaps: Collection[int], why: str, author: str, now: datetime) -> None:
    """What these gaps meant is filled where no other gap that meant the same is open."""
    meant = {int(row[0]) for number in gaps for row in store.rows(MEANINGS_OF, {"gap": number})}
    for meaning in sorted(meant):
        if store.row(STILL_OPEN, {"meaning": meaning}) is None:
            values = {"meaning": meaning, "why": why, "author": author, "at": moment(now)}
            if store.row(FILL_MEANING, values) is not None:
                store.run(PUT_MEANING_CHANGE, values | {"state": "filled"})


def followed_at(record: Record | Store, version: int) -> datetime | None:
    """When the askers of that book were told; None while they were not."""
    row = record.row(FOLLOWED, {"version": version})
    return None if row is None else datetime.fromisoformat(row[0])


def put_followed(store: Store, version: int, now: datetime) -> bool:
    """Whether this is the first time; a second one waits here until the first has ended."""
    return store.row(PUT_FOLLOWED, {"version": version, "at": moment(now)}) is not None


def spec_entries(record: Record | Store, version: int) -> tuple[int, int] | None:
    """(after, up to): the entries of revisions that are new since the last book that was followed before this one.

    None when that version is not on record.
    """
    row = record.row(VERSION, {"version": version})
    if row is None:
        return None
    before = record.row(FOLLOWED_BEFORE, {"version": version})
    return int(before[0] or 0) if before is not None else 0, int(row[0])


def _gap(row: tuple[Any, ...]) -> OpenGap:
    number, question, memory, person, location, waits, at, version, state = row
    return OpenGap(
        int(number), question, memory, person, location, bool(waits), datetime.fromisoformat(at), version, state
    )
