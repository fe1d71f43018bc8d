"""Updates in the JSON of the Bot API's reference (core.telegram.org/bots/api); people and chats are invented."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from telegram import Update, User

from benchbot.channels.telegram.reading import incoming_of
from benchbot.desk.incoming import Incoming

Json = dict[str, Any]

ME = User(501, "Bench Bot", True, username="BenchBot")
NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
SENT = 1_777_879_000
SENT_AT = datetime.fromtimestamp(SENT, UTC)
EDITED = SENT + 90

TECH: Json = {
    "id": 71,
    "is_bot": False,
    "first_name": "Ilka",
    "last_name": "Moor",
    "username": "ilka",
    "language_code": "en",
}
OURS: Json = {"id": 501, "is_bot": True, "first_name": "Bench Bot", "username": "BenchBot"}
PRIVATE: Json = {"id": 71, "first_name": "Ilka", "last_name": "Moor", "username": "ilka", "type": "private"}
GROUP: Json = {"id": -4011, "title": "Bay crew", "type": "group", "all_members_are_administrators": True}
FORUM: Json = {"id": -1009001, "title": "Bay crew", "type": "supergroup", "is_forum": True}
CHANNEL: Json = {"id": -1009002, "title": "Shop news", "type": "channel"}

PHOTO = [{"file_id": "AgAC1", "file_unique_id": "AQ1", "width": 90, "height": 67, "file_size": 1100}]


def message(chat: Json = PRIVATE, **more: Any) -> Json:
    """A message of the technician; a key of None is left out."""
    plain = {"message_id": 314, "from_": TECH, "chat": chat, "date": SENT} | more
    return {("from" if key == "from_" else key): value for key, value in plain.items() if value is not None}


def update(**content: Any) -> Update:
    return Update.de_json({"update_id": 8801} | content, None)


def read(**content: Any) -> Incoming | None:
    return incoming_of(update(**content), ME, NOW)


def said(chat: Json = PRIVATE, **more: Any) -> Incoming | None:
    """What a message is read as."""
    return read(message=message(chat, **more))


def the(incoming: Incoming | None) -> Incoming:
    """It is something."""
    assert incoming is not None
    return incoming


def mark(kind: str, text: str, part: str, **more: Any) -> Json:
    """A mark on the first `part` of the text, counted in UTF-16 units as the Bot API's reference says."""
    at = text.index(part)
    return {"type": kind, "offset": _units(text[:at]), "length": _units(part)} | more


def _units(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2
