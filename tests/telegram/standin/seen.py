"""What a test can look at: chats as people see them, calls, notices, inline answers, menus."""

from __future__ import annotations

import base64
from collections.abc import Callable
from typing import Any

from .chats import Message
from .exchange import Exchange
from .keyboards import buttons_of


def shown(exchange: Exchange, message: Message) -> dict[str, Any]:
    stored = exchange.files.get(message.file)
    buttons = [[_button(one) for one in row] for row in buttons_of(message.keyboard)]
    return {
        "id": message.id,
        "ours": message.ours,
        "sender": message.sender["id"] if message.sender else None,
        "kind": message.kind,
        "text": message.text.plain if message.text else "",
        "html": message.text.source if message.text else "",
        "buttons": buttons,
        "asked": message.asked,
        "edits": message.edits,
        "earlier": message.earlier,
        "reply_to": message.reply_to.id if message.reply_to else None,
        "thread": message.thread,
        "topic": message.topic,
        "filename": message.content.get("document", {}).get("file_name", ""),
        "file": base64.b64encode(stored.content).decode() if stored else None,
        "album": message.album,
        "via_bot": message.via_bot is not None,
        "deleted": message.deleted,
        "date": message.date,
    }


def _button(button: dict[str, Any]) -> dict[str, str]:
    name = next(name for name in button if name not in ("text", "style", "icon_custom_emoji_id"))
    value = button[name]
    return {"label": button["text"], "does": name, "value": value if isinstance(value, str) else str(value)}


def transcript(exchange: Exchange, chat: int, deleted: bool = False) -> list[dict[str, Any]]:
    """Every message of the chat in order, without service messages; with deleted ones if asked for."""
    return [
        shown(exchange, message)
        for message in exchange.chat(chat).messages.values()
        if message.kind != "service" and (deleted or not message.deleted)
    ]


def calls(exchange: Exchange, method: str = "", chat: int | None = None) -> list[dict[str, Any]]:
    return [
        {
            "method": call.method,
            "params": call.params,
            "chat": call.chat,
            "at": call.at,
            "status": call.status,
            "description": call.description,
            "fault": call.fault,
            "handled": call.handled,
        }
        for call in exchange.calls
        if method.lower() in ("", call.method) and chat in (None, call.chat)
    ]


def state(exchange: Exchange) -> dict[str, Any]:
    """Counts. crashes: faults of the stand-in itself."""
    return {
        "counts": dict(exchange.counts),
        "pending": exchange.mailbox.pending,
        "polling": exchange.mailbox.poller is not None,
        "outstanding": exchange.faults.outstanding,
        "from_bot": exchange.from_bot,
        "webhook": exchange.webhook,
        "crashes": exchange.crashes,
    }


def notices(exchange: Exchange, query: str = "", person: int | None = None) -> list[dict[str, Any]]:
    return [one for one in exchange.notices if query in ("", one["query"]) and person in (None, one["person"])]


def inline_answers(exchange: Exchange, query: str = "") -> list[dict[str, Any]]:
    return [one for one in exchange.inline_answers if query in ("", one["query"])]


def menus(exchange: Exchange) -> list[dict[str, Any]]:
    """The commands, by scope (kind, chat, member, language)."""
    return [
        {"scope": kind, "chat": chat, "person": person, "language": language, "commands": commands}
        for (kind, chat, person, language), commands in exchange.menus.items()
    ]


ORDERS: dict[str, Callable[..., Any]] = {
    "transcript": transcript,
    "calls": calls,
    "state": state,
    "notices": notices,
    "inline_answers": inline_answers,
    "menus": menus,
}
