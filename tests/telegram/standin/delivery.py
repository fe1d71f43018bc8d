"""From what happens in a chat to the update that the bot gets, if it is one that reaches it."""

from __future__ import annotations

from typing import Any

from .chats import Chat, Message, Person
from .exchange import Exchange
from .privacy import hears

_RIGHTS = (
    "can_be_edited", "is_anonymous", "can_manage_chat", "can_delete_messages", "can_manage_video_chats",
    "can_restrict_members", "can_promote_members", "can_change_info", "can_invite_users", "can_post_stories",
    "can_edit_stories", "can_delete_stories",
)  # fmt: skip


def deliver(exchange: Exchange, message: Message, edited: bool = False) -> int | None:
    """The number of the update; None when the bot does not get to know of the message."""
    if not hears(exchange, message.chat, message):
        return None
    kind = "channel_post" if message.chat.kind == "channel" else "message"
    return put(exchange, f"edited_{kind}" if edited else kind, message.shown())


def put(exchange: Exchange, kind: str, body: dict[str, Any]) -> int | None:
    number = exchange.mailbox.put(kind, body)
    exchange.changed()
    return number


def service(exchange: Exchange, chat: Chat, sender: Person | None, content: dict[str, Any]) -> dict[str, Any]:
    """A service message: somebody came, left, or the like."""
    message = Message(0, chat, exchange.now(), "service", sender.shown() if sender else None, content=content)
    exchange.add_message(chat, message)
    return told(message, deliver(exchange, message))


def standing(exchange: Exchange, chat: Chat, by: Person, before: str, after: str) -> int | None:
    """my_chat_member: the bot's own standing in a chat changed."""
    body = {
        "chat": chat.shown(),
        "from": by.shown(),
        "date": exchange.now(),
        "old_chat_member": _member(exchange.bot, before),
        "new_chat_member": _member(exchange.bot, after),
    }
    return put(exchange, "my_chat_member", body)


def told(message: Message, update: int | None) -> dict[str, Any]:
    """What a test gets to know of what it made a person do."""
    return {"message": message.id, "update": update}


def _member(user: dict[str, Any], status: str) -> dict[str, Any]:
    found: dict[str, Any] = {"user": user, "status": status}
    if status == "kicked":
        found["until_date"] = 0
    if status == "administrator":
        found.update(dict.fromkeys(_RIGHTS, False))
    return found
