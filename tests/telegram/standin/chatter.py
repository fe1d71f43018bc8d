"""What people do in chats: they write, change what they wrote, send pictures, press buttons, ask inline."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

from .chats import ANONYMOUS_ADMIN, GENERAL, Chat, Message
from .delivery import deliver, put, told
from .exchange import Exchange, Query
from .keyboards import buttons_of
from .markup import Marked, plain_text
from .media import CAPTIONED, content_of
from .refusals import OrderError
from .sending import set_thread
from .spots import entities_of
from .texts import CAPTION_AT_MOST, TEXT_AT_MOST, marked

BY = ("person", "anonymous", "channel", "via_bot")


def say(
    exchange: Exchange,
    chat: int,
    text: str = "",
    person: int | None = None,
    by: str = "person",
    kind: str = "text",
    content: str = "",
    filename: str = "note.pdf",
    reply_to: int | None = None,
    topic: int | None = None,
    album: str = "",
    entities: list[dict[str, Any]] | None = None,
) -> dict[str, Any]:
    """Somebody writes. by: a person (a bot is one too), an anonymous administrator, a channel, a person via our bot.

    text: the caption when `kind` is no text. entities: beside the commands and mentions, which are found.
    """
    found = exchange.chat(chat)
    message = Message(0, found, exchange.now(), kind, captioned=kind != "text")
    _set_sender(exchange, message, person, by)
    if text and kind not in ({"text"} | CAPTIONED):
        raise OrderError(f"a {kind} has no caption")
    if not text and kind == "text":
        raise OrderError("a message of text needs a text")
    message.text = _written(text, kind, entities) if text else None
    if kind != "text":
        message.content, stored = content_of(exchange, kind, content, filename)
        message.file = stored.id if stored else ""
    message.album = album
    if reply_to is not None:
        message.reply_to = found.standing(reply_to)
        if message.reply_to is None:
            raise OrderError(f"chat {chat} has no message {reply_to}")
    if topic is not None and (not found.forum or topic not in found.topics):
        raise OrderError(f"chat {chat} has no topic {topic}")
    set_thread(message, None if topic == GENERAL else topic)
    exchange.add_message(found, message)
    return told(message, deliver(exchange, message))


def album(
    exchange: Exchange,
    chat: int,
    person: int,
    captions: list[str],
    topic: int | None = None,
    reply_to: int | None = None,
) -> list[dict[str, Any]]:
    """Photos that belong together, one for each caption (which may be empty); the bot gets one update for each."""
    number = f"134{exchange.number('album'):014}"
    return [
        say(exchange, chat, one, person, kind="photo", reply_to=reply_to, topic=topic, album=number) for one in captions
    ]


def edit(
    exchange: Exchange, chat: int, message: int, text: str, entities: list[dict[str, Any]] | None = None
) -> dict[str, Any]:
    """The person who wrote the message changes its text or caption."""
    found = _standing(exchange.chat(chat), message)
    if found.ours or found.kind not in ({"text"} | CAPTIONED):
        raise OrderError(f"message {message} cannot be changed by a person")
    if found.text is not None:
        found.earlier.append(found.text.source)
    found.text = _written(text, found.kind, entities)
    found.edits += 1
    found.edit_date = exchange.now()
    exchange.changed()
    return told(found, deliver(exchange, found, edited=True))


def retract(exchange: Exchange, chat: int, message: int) -> None:
    """Somebody deletes a message; no bot is told."""
    _standing(exchange.chat(chat), message).deleted = True
    exchange.changed()


def press(
    exchange: Exchange,
    chat: int,
    person: int,
    message: int,
    data: str = "",
    label: str = "",
    stale: bool = False,
) -> dict[str, Any]:
    """Somebody presses a button, named by its data or its label.

    stale: their screen still shows a button (named by its data) that is gone, or a message that is deleted.
    """
    found = exchange.chat(chat).messages.get(message)
    if found is None or not (found.ours or found.via_bot):
        raise OrderError(f"chat {chat} has no message {message} of the bot")
    who = exchange.person(person)
    here = found.chat.members if found.chat.kind in ("group", "supergroup") else {found.chat.id: who}
    if found.chat.kind != "channel" and person not in here:
        raise OrderError(f"person {person} does not see chat {chat}")
    if not stale:
        data = _button(_standing(found.chat, message), data, label)
    number = f"43{exchange.number('query'):016}"
    exchange.queries[number] = Query("press", person, time.monotonic())
    body: dict[str, Any] = {"id": number, "from": who.shown(), "chat_instance": found.chat.instance, "data": data}
    if found.inline_id:
        body["inline_message_id"] = found.inline_id
    elif found.deleted:
        body["message"] = {"chat": found.chat.shown(), "message_id": found.id, "date": 0}
    else:
        body["message"] = found.shown()
    return {"query": number, "update": put(exchange, "callback_query", body)}


def inline(
    exchange: Exchange, person: int, text: str = "", offset: str = "", chat_type: str = "supergroup"
) -> dict[str, Any]:
    """Somebody types the bot's name and a text in some chat."""
    if not exchange.inline:
        raise OrderError("the bot has no inline mode")
    number = f"52{exchange.number('query'):016}"
    exchange.queries[number] = Query("inline", person, time.monotonic(), text)
    body = {"id": number, "from": exchange.person(person).shown(), "query": text, "offset": offset}
    return {"query": number, "update": put(exchange, "inline_query", body | {"chat_type": chat_type})}


def choose(exchange: Exchange, query: str, result: str, chat: int) -> dict[str, Any]:
    """Whoever asked inline takes a result: it is sent to the chat in their name, via the bot."""
    answers = [one for one in exchange.inline_answers if one["query"] == query]
    results = [one for one in answers[-1]["results"] if one["id"] == result] if answers else []
    if not results:
        raise OrderError(f"query {query} was not answered with a result {result!r}")
    found = exchange.chat(chat)
    message = Message(0, found, exchange.now(), inline_id=f"inline{exchange.number('inline message')}")
    _set_sender(exchange, message, answers[-1]["person"], "via_bot")
    message.text = marked(results[0]["html"], "HTML")
    message.keyboard = results[0]["keyboard"]
    exchange.inline_messages[message.inline_id] = message
    exchange.add_message(found, message)
    chosen = {"result_id": result, "from": message.sender, "query": exchange.queries[query].text}
    put(exchange, "chosen_inline_result", chosen | {"inline_message_id": message.inline_id})
    return told(message, deliver(exchange, message))


def expire_queries(exchange: Exchange) -> None:
    """Every press and inline query until now is too old to be answered."""
    for query in exchange.queries.values():
        query.over = True


def _set_sender(exchange: Exchange, message: Message, person: int | None, by: str) -> None:
    chat = message.chat
    if by not in BY:
        raise OrderError(f"nobody writes as {by!r}; there are {', '.join(BY)}")
    if chat.migrated_to is not None:
        raise OrderError(f"chat {chat.id} became chat {chat.migrated_to}")
    if by == "channel" or chat.kind == "channel":
        if chat.kind != "channel" or by != "channel":
            raise OrderError("a channel's posts are written by the channel, and only those")
        message.sender_chat = chat.shown()
        return
    if by == "anonymous":
        if chat.kind != "supergroup":
            raise OrderError("only in a supergroup an administrator is anonymous")
        message.sender, message.sender_chat = ANONYMOUS_ADMIN, chat.shown()
        return
    if person is None:
        raise OrderError("say which person writes")
    who = exchange.person(person)
    if chat.kind == "private":
        if chat.id != person or chat.blocked:
            raise OrderError(f"person {person} cannot write in chat {chat.id}")
        chat.opened = True
    elif person not in chat.members:
        raise OrderError(f"person {person} is no member of chat {chat.id}")
    message.sender = who.shown()
    if by == "via_bot":
        message.via_bot = exchange.bot


def _written(text: str, kind: str, entities: list[dict[str, Any]] | None) -> Marked:
    stripped = text.strip()
    found = sorted((*entities_of(stripped), *(entities or ())), key=lambda entity: entity["offset"])
    written = plain_text(stripped, tuple(found))
    if written.size > (TEXT_AT_MOST if kind == "text" else CAPTION_AT_MOST) or written.empty:
        raise OrderError("a person cannot send a text that is empty or too long")
    return written


def _standing(chat: Chat, number: int) -> Message:
    found = chat.standing(number)
    if found is None:
        raise OrderError(f"chat {chat.id} has no message {number}")
    return found


def _button(message: Message, data: str, label: str) -> str:
    """The data of the one button that is meant."""
    rows = buttons_of(message.keyboard)
    shown = [one for row in rows for one in row if "callback_data" in one]
    meant = [one for one in shown if data in ("", one["callback_data"]) and label in ("", one["text"])]
    if len(meant) != 1 or not (data or label):
        labels = ", ".join(f"{one['text']} ({one['callback_data']})" for one in shown) or "none"
        raise OrderError(f"message {message.id} has {len(meant)} such buttons; name one of: {labels}")
    return str(meant[0]["callback_data"])


ORDERS: dict[str, Callable[..., Any]] = {
    "say": say,
    "album": album,
    "edit": edit,
    "retract": retract,
    "press": press,
    "inline": inline,
    "choose": choose,
    "expire_queries": expire_queries,
}
