"""Cards on record: our messages that have buttons, or that a changed question changes."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record, number_of

_COLUMNS = "card, chat, keeper, kind, asked, message, state, body, expires_at"

PUT = """
INSERT INTO card (chat, keeper, kind, asked, message, state, body, at, expires_at)
VALUES (:chat, :keeper, :kind, :asked, '', :state, :body, :at, :expires_at) RETURNING card
"""

CHANGE = "UPDATE card SET kind = :kind, state = :state, body = :body, expires_at = :expires_at WHERE card = :card"

STANDS_ON = "UPDATE card SET message = :message WHERE card = :card"

ONE = f"SELECT {_COLUMNS} FROM card WHERE card = :card"

ASKED = f"SELECT {_COLUMNS} FROM card WHERE chat = :chat AND asked = :asked ORDER BY card DESC LIMIT 1"

LAST = "SELECT max(card) FROM card WHERE chat = :chat AND asked <> '' AND kind <> 'album'"

LAST_QUESTION = "SELECT max(card) FROM card WHERE chat = :chat AND kind = 'question'"

SINCE = "SELECT count(*) FROM card WHERE chat = :chat AND asked = :asked AND at > :since"

# The last one stays: SQLite would give its number to another one, which an old button would then press.
FORGET = "DELETE FROM card WHERE expires_at < :before AND card < (SELECT MAX(card) FROM card)"

ALL = (PUT, CHANGE, STANDS_ON, ONE, ASKED, LAST, LAST_QUESTION, SINCE, FORGET)


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


def stands_on(record: Record, card: int, message: str) -> None:
    """The card stands on that message of ours now."""
    with record.writing() as store:
        store.run(STANDS_ON, {"card": card, "message": message})


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


def stood_since(record: Record, chat: str, asked: str, since: datetime) -> bool:
    """Whether a card for `asked` was made after that moment."""
    row = record.row(SINCE, {"chat": chat, "asked": asked, "since": moment(since)})
    return row is not None and bool(row[0])


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
