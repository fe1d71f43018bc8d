"""What was meant by the questions that the book could not answer, on record: who asked, how it stands, its history."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from benchbot.records.entry import moment
from benchbot.records.record import Record
from benchbot.records.statements import PUT_MEANING_CHANGE, SET_MEANING

Kind = Literal["row", "word", "vehicle"]
State = Literal["open", "being filled", "waiting", "filled", "set aside"]

_COLUMNS = (
    "meaning, kind, identity, make, model, years, only_if, component, position, property, words, state, why, author, at"
)
_GAPS = """
SELECT gap_part.meaning, gap.gap, gap.person, gap.location, gap.at, gap.waits, gap.state, gap_part.reason
FROM gap_part JOIN gap ON gap.gap = gap_part.gap
"""

ONE = f"SELECT {_COLUMNS} FROM meaning WHERE meaning = :meaning"

IN_STATE = f"SELECT {_COLUMNS} FROM meaning WHERE state = :state AND kind = 'row' ORDER BY meaning"

# Words are joined across states: a misspelling of a word that was set aside is set aside as well.
OF_WORDS = f"SELECT {_COLUMNS} FROM meaning WHERE kind <> 'row' ORDER BY meaning"

GAPS_OF = f"{_GAPS} WHERE gap_part.meaning = :meaning AND gap.state <> 'edited' ORDER BY gap.gap"

GAPS_IN_STATE = f"""{_GAPS} JOIN meaning ON meaning.meaning = gap_part.meaning
WHERE meaning.state = :state AND meaning.kind = 'row' AND gap.state <> 'edited' ORDER BY gap.gap
"""

GAPS_OF_WORDS = f"""{_GAPS} JOIN meaning ON meaning.meaning = gap_part.meaning
WHERE meaning.kind <> 'row' AND gap.state <> 'edited' ORDER BY gap.gap
"""

QUESTIONS_OF = """
SELECT gap.gap, gap.answer, gap.question, gap.reading, gap_part.reason, gap.chat, gap.person, person.name, gap.location,
location.name, gap.at, gap.waits, gap.memory
FROM gap_part JOIN gap ON gap.gap = gap_part.gap
LEFT JOIN person ON person.person = gap.person
LEFT JOIN location ON location.location = gap.location
WHERE gap_part.meaning = :meaning AND gap.state <> 'edited' ORDER BY gap.gap DESC LIMIT :most
"""

DETAILS_OF_WORDS = """
SELECT gap.gap, gap.detail, gap.reading FROM gap_part JOIN gap ON gap.gap = gap_part.gap
JOIN meaning ON meaning.meaning = gap_part.meaning
WHERE meaning.kind <> 'row' AND gap.state <> 'edited'
"""

BEFORE = """
SELECT answer, asked, reading FROM answer WHERE chat = :chat AND person = :person AND answer < :answer
AND at <= (SELECT at FROM answer WHERE answer = :answer) ORDER BY at DESC, answer DESC LIMIT 1
"""

OF_GAP = "SELECT meaning FROM gap_part WHERE gap = :gap ORDER BY meaning"

OPEN_GAPS = """
SELECT count(*) FROM gap_part JOIN gap ON gap.gap = gap_part.gap
WHERE gap_part.meaning = :meaning AND gap.state = 'open'
"""

HISTORY = "SELECT state, why, author, at FROM meaning_change WHERE meaning = :meaning ORDER BY entry"

STOP_WAITING = "UPDATE gap SET waits = 0 WHERE gap = :gap AND person = :person AND waits = 1 RETURNING gap"

SPEC_HELD = "SELECT spec FROM spec_revision WHERE spec = :spec LIMIT 1"

ALL = (
    ONE, IN_STATE, OF_WORDS, GAPS_OF, GAPS_IN_STATE, GAPS_OF_WORDS, QUESTIONS_OF, DETAILS_OF_WORDS, BEFORE, OF_GAP,
    OPEN_GAPS, HISTORY, STOP_WAITING, SPEC_HELD,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Meaning:
    """One meaning on record; columns as in `GapPart`, `at` as the record writes a time."""

    number: int
    kind: Kind
    identity: str
    make: str
    model: str
    years: str
    only_if: str
    component: str
    position: str
    property: str
    words: str
    state: State
    why: str
    author: str
    at: str


@dataclass(frozen=True, slots=True)
class GapSeen:
    """One question that asked for a meaning; open: nobody has answered it; at: as the record writes a time."""

    meaning: int
    gap: int
    person: str
    location: int | None
    at: str
    waits: bool
    open: bool
    reason: str


@dataclass(frozen=True, slots=True)
class Question:
    """One question behind a meaning, as it lies on record; reading: JSON; name, place: None where nobody knows."""

    gap: int
    answer: int
    question: str
    reading: str
    reason: str
    chat: str
    person: str
    name: str | None
    location: int | None
    place: str | None
    at: str
    waits: bool
    memory: str | None


@dataclass(frozen=True, slots=True)
class Change:
    """What a meaning was set to, why, by whom and when."""

    state: State
    why: str
    author: str
    at: datetime


def one(record: Record, number: int) -> Meaning | None:
    row = record.row(ONE, {"meaning": number})
    return None if row is None else _meaning(row)


def rows_in_state(record: Record, state: State) -> list[Meaning]:
    """The missing rows that are in a state, the oldest first."""
    return [_meaning(row) for row in record.rows(IN_STATE, {"state": state})]


def of_words(record: Record) -> list[Meaning]:
    """Every word and vehicle that nobody knew, whatever became of it, the oldest first."""
    return [_meaning(row) for row in record.rows(OF_WORDS, {})]


def gaps_of(record: Record, number: int) -> list[GapSeen]:
    """The questions that asked for it, but for those that were changed afterwards; so are the two below."""
    return _gaps(record.rows(GAPS_OF, {"meaning": number}))


def gaps_in_state(record: Record, state: State) -> list[GapSeen]:
    return _gaps(record.rows(GAPS_IN_STATE, {"state": state}))


def gaps_of_words(record: Record) -> list[GapSeen]:
    return _gaps(record.rows(GAPS_OF_WORDS, {}))


def questions_of(record: Record, number: int, most: int) -> list[Question]:
    """The latest questions that asked for it, the latest first."""
    return [Question(*row) for row in record.rows(QUESTIONS_OF, {"meaning": number, "most": most})]


def details_of_words(record: Record) -> dict[int, tuple[str, str]]:
    """Detail and reading, both JSON, of each question that held a word or vehicle that nobody knew."""
    return {int(gap): (detail, reading) for gap, detail, reading in record.rows(DETAILS_OF_WORDS, {})}


def answer_before(record: Record, chat: str, person: str, answer: int) -> tuple[int, str, str] | None:
    """Number, message and reading of what the person said in the chat before that."""
    row = record.row(BEFORE, {"chat": chat, "person": person, "answer": answer})
    return None if row is None else (int(row[0]), str(row[1]), str(row[2]))


def of_gap(record: Record, gap: int) -> list[int]:
    """The numbers of all that a gap asked for."""
    return [int(row[0]) for row in record.rows(OF_GAP, {"gap": gap})]


def open_gaps(record: Record, number: int) -> int:
    """How many questions that asked for it are not answered yet."""
    row = record.row(OPEN_GAPS, {"meaning": number})
    return 0 if row is None else int(row[0])


def set_state(record: Record, number: int, state: State, why: str, author: str, now: datetime) -> None:
    """Sets how a meaning stands, and keeps that in its history."""
    change = {"meaning": number, "state": state, "why": why, "author": author, "at": moment(now)}
    with record.writing() as store:
        store.run(SET_MEANING, change)
        store.run(PUT_MEANING_CHANGE, change)


def history(record: Record, number: int) -> list[Change]:
    """What it was set to, the oldest first; that it was put on record is no change."""
    found = record.rows(HISTORY, {"meaning": number})
    return [Change(state, why, author, datetime.fromisoformat(at)) for state, why, author, at in found]


def stop_waiting(record: Record, gap: int, person: str) -> bool:
    """The person does not wait for an answer any more; whether they did."""
    with record.writing() as store:
        return store.row(STOP_WAITING, {"gap": gap, "person": person}) is not None


def spec_is_held(record: Record, spec: str) -> bool:
    """Whether any spec on record has that id."""
    return record.row(SPEC_HELD, {"spec": spec}) is not None


def _meaning(row: tuple[Any, ...]) -> Meaning:
    return Meaning(int(row[0]), *row[1:])


def _gaps(rows: Iterable[tuple[Any, ...]]) -> list[GapSeen]:
    return [
        GapSeen(int(meaning), int(gap), person, None if location is None else int(location), at, bool(waits),
                state == "open", reason)
        for meaning, gap, person, location, at, waits, state, reason in rows
    ]  # fmt: skip
