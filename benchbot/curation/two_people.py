"""Who counts as another person, and whether this shop does without one."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime

from benchbot.people import statements
from benchbot.people.names import NO_NAME, same_name
from benchbot.records import settings
from benchbot.records.record import Record

ONE_PERSON = "one person"
_ALLOWED, _FORBIDDEN = "allowed", "forbidden"
_DESK, _TERMINAL, _MESSENGER = "command line, ", "terminal ", "telegram "
# A wrong socket costs a rounded head, a wrong figure of anything else a brake.
_HARMLESS = frozenset({"socket"})


def safety_relevant(name: str) -> bool:
    """Whether a row of that property needs a second person before it answers."""
    return name not in _HARMLESS


def name_of(record: Record, person: str) -> str:
    """The name that the person is known by now; "" for a messenger's number that never told one."""
    row = record.row(statements.NAME, {"person": person})
    if row is not None and row[0] not in (person, NO_NAME):
        return str(row[0])
    for prefix in (_DESK, _TERMINAL):
        if person.startswith(prefix):
            return person.removeprefix(prefix).strip()
    return "" if person.startswith(_MESSENGER) else person.strip()


def same_person(record: Record, one: str, other: str, known_as: Collection[str] = ()) -> bool:
    """Whether two ids are of one person: they are equal, or so are the names that they go by.

    known_as: further names of `one`, such as the one that it had when it submitted a row.
    """
    if one == other:
        return True
    name = name_of(record, other)
    return bool(name) and any(known and same_name(known, name) for known in (name_of(record, one), *known_as))


def one_person_allowed(record: Record) -> bool:
    """Whether the shop's owner lets rows answer that nobody but their author has checked."""
    setting = settings.setting(record, ONE_PERSON)
    return setting is not None and setting.value == _ALLOWED


def allow_one_person(record: Record, allowed: bool, author: str, now: datetime) -> None:
    """Sets it from now on; rows that answer already stay. That `author` is an owner is for the caller to see to."""
    settings.put(record, ONE_PERSON, _ALLOWED if allowed else _FORBIDDEN, author, now)
