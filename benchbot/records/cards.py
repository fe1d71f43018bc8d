"""Cards on record: our messages that have buttons, or that a changed question changes."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

_COLUMNS = "card, chat, keeper, kind, asked, message, state, body, expires_at"

PUT = """
INSERT INTO card (chat, keeper, kind, asked, message, state, body, at, expires_at)
VALUES (:chat, :keeper, :kind, :asked, '', :state, :body, :at, :expires_at) RETURNING card
"""

CHANGE = "UPDATE card SET kind = :kind, state = :state, body = :body, expires_at = :expires_at WHERE card = :card"

ONE = f"SELECT {_COLUMNS} FROM card WHERE card = :card"

ASKED = f"SELECT {_COLUMNS} FROM card WHERE chat = :chat AND asked = :asked ORDER BY card DESC LIMIT 1"

LAST = "SELECT max(card) FROM card WHERE chat = :chat AND asked <> '' AND kind <> 'album'"

LAST_QUESTION = "SELECT max(card) FROM card WHERE chat = :chat AND kind = 'question'"

LAST_ASKED = """
SELECT asked FROM card WHERE chat = :chat AND asked <> '' AND kind IN ('question', 'answer', 'said', 'standing')
ORDER BY card DESC LIMIT 1
"""

LAST_OF = f"SELECT {_COLUMNS} FROM card WHERE chat = :chat AND kind = :kind ORDER BY card DESC LIMIT 1"

SINCE = "SELECT count(*) FROM card WHERE chat = :chat AND asked = :asked AND at > :since"

WRITERS = """
SELECT person FROM answer WHERE chat LIKE :within UNION SELECT keeper FROM card WHERE chat LIKE :within ORDER BY 1
"""

# The last one stays: SQLite would give its number to another one, which an old button would then press.
FORGET = "DELETE FROM card WHERE expires_at < :before AND card < (SELECT MAX(card) FROM card)"

# From there on they count: phones hold buttons with numbers that a restored record does not know it ever gave.
LEAP = """
INSERT INTO card (card, chat, keeper, kind, asked, message, state, body, at, expires_at)
SELECT coalesce(max(card), 0) + 1000000, '', '', 'leap', '', '', 'open', '{}', :at, :at FROM card
"""

ALL = (LEAP, PUT, CHANGE, ONE, ASKED, LAST, LAST_QUESTION, LAST_ASKED, LAST_OF, SINCE, WRITERS, FORGET)


@dataclass(frozen=True, slots=True)
class Card:
    """chat: the chat's name in the conversation. keeper: who may press its buttons. asked: the message it answers."""

    number: int
    chat: str
    keeper: str
    kind: str
    asked: str
    message: str
    state: str
    body: dict[str, Any]
    expires_at: str

    def alive(self, now: datetime) -> bool:
        return self.expires_at > moment(now)


def put(
    record: Record, chat: str, keeper: str, kind: str, asked: str, body: dict[str, Any], now: datetime, until: datetime
) -> int:
    """A new card; its number."""
    values = {"chat": chat, "keeper": keeper, "kind": kind, "asked": asked, "state": "open", "body": _text(body)}
    with record.writing() as store:
        return number_of(store.row(PUT, values | {"at": moment(now), "expires_at": moment(until)}))


def change(record: Record, card: int, kind: str, body: dict[str, Any], until: datetime, state: str = "open") -> None:
    """The card shows something else from now on."""
    values = {"card": card, "kind": kind, "state": state, "body": _text(body), "expires_at": moment(until)}
    with record.writing() as store:
        store.run(CHANGE, values)


def one(record: Record, number: int) -> Card | None:
    return _card(record.row(ONE, {"card": number}))


def asked(record: Record, chat: str, message: str) -> Card | None:
    """The card that answers a message."""
    return _card(record.row(ASKED, {"chat": chat, "asked": message}))


def last(record: Record, chat: str) -> int:
    """The number of the newest card that answers something in the chat; 0 when there is none."""
    return _number(record.row(LAST, {"chat": chat}))


def last_question(record: Record, chat: str) -> int:
    """The number of the newest card in the chat that asks back; 0 when there is none."""
    return _number(record.row(LAST_QUESTION, {"chat": chat}))


def last_of(record: Record, chat: str, kind: str) -> Card | None:
    """The newest card of that kind in the chat."""
    return _card(record.row(LAST_OF, {"chat": chat, "kind": kind}))


def stood_since(record: Record, chat: str, asked: str, since: datetime) -> bool:
    """Whether a card for `asked` was made after that moment."""
    row = record.row(SINCE, {"chat": chat, "asked": asked, "since": moment(since)})
    return row is not None and bool(row[0])


def writers(record: Record, place: str) -> list[str]:
    """Everybody who was answered in a group, in whichever of its topics. place: what its chats' names begin with."""
    return [str(row[0]) for row in record.rows(WRITERS, {"within": f"{place} %"})]


def last_asked(record: Record, chat: str) -> str:
    """The message of the last question in the chat; empty before there is one."""
    row = record.row(LAST_ASKED, {"chat": chat})
    return "" if row is None else str(row[0])


def leap(store: Store, now: datetime) -> None:
    """Cards made from now on have numbers that no button of a lost record bears."""
    store.run(LEAP, {"at": moment(now)})


def forget(record: Record, before: datetime) -> None:
    """Cards whose time was over before that moment."""
    with record.writing() as store:
        store.run(FORGET, {"before": moment(before)})


def _number(row: tuple[Any, ...] | None) -> int:
    return 0 if row is None or row[0] is None else int(row[0])


def _text(body: dict[str, Any]) -> str:
    return json.dumps(body, ensure_ascii=False, separators=(",", ":"))


def _card(row: tuple[Any, ...] | None) -> Card | None:
    if row is None:
        return None
    number, chat, keeper, kind, asked_, message, state, body, expires_at = row
    return Card(int(number), chat, keeper, kind, asked_, message, state, json.loads(body), expires_at)
