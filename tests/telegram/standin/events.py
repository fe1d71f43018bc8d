"""Who and what there is: persons, private chats, groups, topics, channels; who comes, leaves, blocks the bot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from .chats import GENERAL, Chat, Message, Person
from .delivery import deliver, put, service, standing, told
from .exchange import Exchange
from .refusals import OrderError


def person(
    exchange: Exchange,
    person: int,
    first_name: str = "",
    username: str = "",
    last_name: str = "",
    language: str = "en",
    opened: bool = True,
    is_bot: bool = False,
) -> None:
    """Adds a person or renames a known one. opened: they once started the bot, so that it may write to them."""
    if person <= 0:
        raise OrderError("the id of a person is above 0")
    found = exchange.persons.setdefault(person, Person(person, ""))
    found.first_name, found.username, found.last_name = first_name or f"Person {person}", username, last_name
    found.language, found.is_bot = language, is_bot
    if person not in exchange.chats:
        exchange.chats[person] = Chat(person, "private", "", f"instance{person}", person=found, opened=opened)


def group(
    exchange: Exchange,
    chat: int,
    title: str = "",
    members: tuple[int, ...] = (),
    supergroup: bool = True,
    forum: bool = False,
    privacy: bool = True,
    bot: str = "member",
) -> None:
    """A group that the bot is in already. privacy: its privacy mode counts here. bot: its standing."""
    _new_chat(exchange, chat)
    if forum and not supergroup:
        raise OrderError("only a supergroup has topics")
    made = Chat(chat, "supergroup" if supergroup else "group", title or f"Group {chat}", f"instance{chat}")
    made.members = {number: exchange.person(number) for number in members}
    made.forum, made.hears_all, made.bot = forum, not privacy, bot
    if forum:
        made.topics[GENERAL] = "General"
    exchange.chats[chat] = made


def channel(exchange: Exchange, chat: int, title: str = "", username: str = "", bot: str = "administrator") -> None:
    _new_chat(exchange, chat)
    made = Chat(chat, "channel", title or f"Channel {chat}", f"instance{chat}", username)
    made.bot = bot
    exchange.chats[chat] = made


def topic(exchange: Exchange, chat: int, title: str, person: int) -> int:
    """A person opens a topic; its id is that of the service message that tells of it."""
    found = exchange.chat(chat)
    if not found.forum:
        raise OrderError(f"chat {chat} is no forum")
    content = {"forum_topic_created": {"name": title, "icon_color": 7322096}}
    sender = _member_of(exchange, found, person)
    message = Message(0, found, exchange.now(), "service", sender.shown(), content=content)
    exchange.add_message(found, message)
    message.thread, message.topic = message.id, True
    found.topics[message.id] = title
    deliver(exchange, message)
    return message.id


def close_topic(exchange: Exchange, chat: int, topic: int) -> None:
    """The topic is deleted with all that stood in it; the bot is not told."""
    found = exchange.chat(chat)
    if topic == GENERAL or topic not in found.topics:
        raise OrderError(f"chat {chat} has no topic {topic}")
    del found.topics[topic]
    for message in found.messages.values():
        if message.topic and message.thread == topic:
            message.deleted = True


def join(exchange: Exchange, chat: int, person: int) -> dict[str, Any]:
    found, who = exchange.chat(chat), exchange.person(person)
    found.members[person] = who
    return service(exchange, found, who, {"new_chat_members": [who.shown()]})


def leave(exchange: Exchange, chat: int, person: int) -> dict[str, Any]:
    found = exchange.chat(chat)
    who = _member_of(exchange, found, person)
    del found.members[person]
    return service(exchange, found, who, {"left_chat_member": who.shown()})


def block(exchange: Exchange, person: int) -> int | None:
    found = exchange.chat(person)
    if found.blocked or not found.opened:
        raise OrderError(f"person {person} cannot block a bot that they blocked or never started")
    found.blocked = True
    return standing(exchange, found, exchange.person(person), "member", "kicked")


def unblock(exchange: Exchange, person: int) -> int | None:
    found = exchange.chat(person)
    if not found.blocked:
        raise OrderError(f"person {person} has not blocked the bot")
    found.blocked, found.opened = False, True
    return standing(exchange, found, exchange.person(person), "kicked", "member")


def stand(exchange: Exchange, chat: int, person: int, status: str) -> int | None:
    """Somebody makes the bot a member, an administrator, or puts it out: left or kicked."""
    found = exchange.chat(chat)
    if status not in ("member", "administrator", "left", "kicked") or found.kind == "private":
        raise OrderError(f"the bot cannot be {status!r} in chat {chat}")
    before, found.bot = found.bot, status
    if before in ("left", "kicked") and status == "member" and found.kind != "channel":
        number = standing(exchange, found, exchange.person(person), before, status)
        service(exchange, found, exchange.person(person), {"new_chat_members": [exchange.bot]})
        return number
    return standing(exchange, found, exchange.person(person), before, status)


def migrate(exchange: Exchange, chat: int, to: int) -> dict[str, Any]:
    """A group becomes a supergroup with another id; both chats get their service message."""
    old = exchange.chat(chat)
    if old.kind != "group" or old.migrated_to is not None:
        raise OrderError(f"chat {chat} is no group that can become a supergroup")
    _new_chat(exchange, to)
    new = Chat(to, "supergroup", old.title, f"instance{to}", members=dict(old.members), bot=old.bot)
    new.hears_all = old.hears_all
    exchange.chats[to] = new
    sender = next(iter(old.members.values()), None)
    moved = service(exchange, old, sender, {"migrate_to_chat_id": to})
    old.migrated_to = to
    message = Message(0, new, exchange.now(), "service", content={"migrate_from_chat_id": chat})
    exchange.add_message(new, message)
    return {"old": moved, "new": told(message, deliver(exchange, message))}


def raw_update(exchange: Exchange, kind: str, body: dict[str, Any]) -> int | None:
    """Any update at all, as it is."""
    return put(exchange, kind, body)


def _new_chat(exchange: Exchange, chat: int) -> None:
    if chat >= 0:
        raise OrderError("the id of a group or channel is below 0")
    if chat in exchange.chats:
        raise OrderError(f"there is a chat {chat} already")


def _member_of(exchange: Exchange, chat: Chat, person: int) -> Person:
    if person not in chat.members:
        raise OrderError(f"person {person} is no member of chat {chat.id}")
    return exchange.person(person)


ORDERS: dict[str, Callable[..., Any]] = {
    "person": person,
    "group": group,
    "channel": channel,
    "topic": topic,
    "close_topic": close_topic,
    "join": join,
    "leave": leave,
    "block": block,
    "unblock": unblock,
    "stand": stand,
    "migrate": migrate,
    "raw_update": raw_update,
}
