"""What the next plain message of a person in a chat is an entry for, on record."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record

PUT = """
INSERT INTO expected (chat, person, what, body, expires_at) VALUES (:chat, :person, :what, :body, :expires_at)
ON CONFLICT (chat, person) DO UPDATE SET
what = excluded.what, body = excluded.body, expires_at = excluded.expires_at
"""

ONE = "SELECT what, body FROM expected WHERE chat = :chat AND person = :person AND expires_at > :now"

TAKE = "DELETE FROM expected WHERE chat = :chat AND person = :person"

FORGET = "DELETE FROM expected WHERE expires_at < :before"

ALL = (PUT, ONE, TAKE, FORGET)


@dataclass(frozen=True, slots=True)
class Expected:
    """what: the kind of entry; body: what it belongs to."""

    what: str
    body: dict[str, Any]


def put(record: Record, chat: str, person: str, entry: Expected, until: datetime) -> None:
    """Takes the place of whatever was expected before."""
    values = {"chat": chat, "person": person, "what": entry.what, "body": json.dumps(entry.body, ensure_ascii=False)}
    with record.writing() as store:
        store.run(PUT, values | {"expires_at": moment(until)})


def one(record: Record, chat: str, person: str, now: datetime) -> Expected | None:
    row = record.row(ONE, {"chat": chat, "person": person, "now": moment(now)})
    return None if row is None else Expected(str(row[0]), json.loads(row[1]))


def taken(record: Record, chat: str, person: str) -> None:
    """Nothing is expected any more."""
    with record.writing() as store:
        store.run(TAKE, {"chat": chat, "person": person})


def forget(record: Record, before: datetime) -> None:
    """Removes what was awaited until before that moment and never came."""
    with record.writing() as store:
        store.run(FORGET, {"before": moment(before)})
