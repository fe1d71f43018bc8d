"""What the shop itself says for parts and vehicles, on record one by one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records import word_states
from benchbot.records.entry import moment
from benchbot.records.record import Record
from benchbot.records.revisions import put_change
from benchbot.records.word_states import Kind, in_use

NAMES = f"SELECT make, model, alias FROM vehicle_alias WHERE {in_use('name')} ORDER BY entry"

HELD = "SELECT 1 FROM spec_revision WHERE make = :make AND model = :model LIMIT 1"

_WORD = """
SELECT shop_word.entry, shop_word.said, shop_word.term, '', change.author, change.at FROM shop_word
JOIN change ON change.change = shop_word.change
"""

_NAME = """
SELECT vehicle_alias.entry, vehicle_alias.alias, vehicle_alias.make, vehicle_alias.model, change.author, change.at
FROM vehicle_alias JOIN change ON change.change = vehicle_alias.change
"""

OWN_WORDS = f"{_WORD} WHERE {in_use('word')} ORDER BY shop_word.entry"

OWN_NAMES = f"{_NAME} WHERE {in_use('name')} ORDER BY vehicle_alias.entry"

ONE_WORD = f"{_WORD} WHERE shop_word.entry = :entry"

ONE_NAME = f"{_NAME} WHERE vehicle_alias.entry = :entry"

_ASKED = """
SELECT answer.answer, answer.chat, answer.person, coalesce(person.name, answer.person), coalesce(location.name, ''),
answer.asked, answer.at, answer.reading, EXISTS (
  SELECT 1 FROM answer_spec JOIN spec_revision
  ON spec_revision.spec = answer_spec.spec AND spec_revision.revision = answer_spec.revision
  WHERE answer_spec.answer = answer.answer AND {about}
)
FROM answer LEFT JOIN person ON person.person = answer.person LEFT JOIN location ON location.location = answer.location
WHERE answer.at >= :since AND answer.chat IN (
  SELECT shown.chat FROM answer AS shown JOIN answer_spec ON answer_spec.answer = shown.answer
  JOIN spec_revision ON spec_revision.spec = answer_spec.spec AND spec_revision.revision = answer_spec.revision
  WHERE shown.at >= :since AND {about}
)
ORDER BY answer.chat, answer.answer
"""

ASKED_OF_PART = _ASKED.format(about="spec_revision.component_read = :component")

ASKED_OF_VEHICLE = _ASKED.format(about="spec_revision.make = :make AND spec_revision.model = :model")

ALL = (NAMES, HELD, OWN_WORDS, OWN_NAMES, ONE_WORD, ONE_NAME, ASKED_OF_PART, ASKED_OF_VEHICLE)


@dataclass(frozen=True, slots=True)
class OwnWord:
    """A word or name. entry: in the table of its kind. about: the component, or make and model."""

    kind: Kind
    entry: int
    said: str
    about: tuple[str, ...]
    author: str
    at: datetime

    @property
    def means(self) -> str:
        return " ".join(self.about)


@dataclass(frozen=True, slots=True)
class Message:
    """A message that somebody wrote; shown: rows of the part or vehicle were shown for it. reading: JSON."""

    answer: int
    chat: str
    person: str
    name: str
    place: str
    asked: str
    at: datetime
    reading: str
    shown: bool


def names(record: Record) -> list[tuple[str, str, str]]:
    """(make, model, alias) of all in use, in the order they came."""
    return [(str(make), str(model), str(alias)) for make, model, alias in record.rows(NAMES, {})]


def all_in_use(record: Record) -> list[OwnWord]:
    """Words first, then names, each in the order they came."""
    found = [_own("word", row) for row in record.rows(OWN_WORDS, {})]
    return found + [_own("name", row) for row in record.rows(OWN_NAMES, {})]


def one(record: Record, kind: Kind, entry: int) -> OwnWord | None:
    """A word or name, in use or taken back."""
    row = record.row(ONE_WORD if kind == "word" else ONE_NAME, {"entry": entry})
    return None if row is None else _own(kind, row)


def holds_vehicle(record: Record, make: str, model: str) -> bool:
    """Whether any row on record is about that vehicle."""
    return record.row(HELD, {"make": make, "model": model}) is not None


def put_word(record: Record, term: str, said: str, author: str, why: str, now: datetime) -> None:
    with record.writing() as store:
        word_states.put_word(store, term, said, put_change(store, author, why, now))


def put_name(record: Record, make: str, model: str, alias: str, author: str, why: str, now: datetime) -> None:
    with record.writing() as store:
        word_states.put_name(store, make, model, alias, put_change(store, author, why, now))


def take_back(record: Record, word: OwnWord, author: str, why: str, now: datetime) -> None:
    """It is not said from the next book on; what it was stays on record."""
    with record.writing() as store:
        word_states.put(store, word.kind, word.entry, "taken back", put_change(store, author, why, now))


def asked_about(record: Record, word: OwnWord, since: datetime) -> list[Message]:
    """All that was written since then in the chats where rows of what the word means were shown, chat by chat."""
    if word.kind == "word":
        values, statement = {"component": word.about[0]}, ASKED_OF_PART
    else:
        values, statement = dict(zip(("make", "model"), word.about, strict=True)), ASKED_OF_VEHICLE
    return [
        Message(int(answer), chat, person, name, place, asked, datetime.fromisoformat(at), reading, bool(shown))
        for answer, chat, person, name, place, asked, at, reading, shown in record.rows(
            statement, values | {"since": moment(since)}
        )
    ]


def _own(kind: Kind, row: tuple[Any, ...]) -> OwnWord:
    entry, said, one, other, author, at = row
    about = (str(one),) if kind == "word" else (str(one), str(other))
    return OwnWord(kind, int(entry), str(said), about, str(author), datetime.fromisoformat(at))
