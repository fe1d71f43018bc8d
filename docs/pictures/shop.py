"""An invented shop with the demo book: phones write to the real desk, and its answers go out by the real sender."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import count
from typing import Any, cast
from unittest.mock import patch

from messenger import LINK, ME, Asked, Message, Messenger
from story import Aside, Entry, Notice, Picture, Said, Shown
from telegram import Update
from telegram.ext import ExtBot

from benchbot.channels.telegram.at_once import answer
from benchbot.channels.telegram.reading import incoming_of
from benchbot.channels.telegram.sending import Sender
from benchbot.desk.desk import Desk
from benchbot.desk.incoming import Bot
from benchbot.desk.sheets import Parcel
from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Joined, Location, Role
from benchbot.people.wall_picture import wall_picture
from benchbot.places import Home
from benchbot.records import arrivals, outbox
from benchbot.records.record import Record, open_record

OPENED = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
A_WHILE = timedelta(seconds=20)
FIRST = "North bay"
# Anybody can read the codes of these pictures, so they say themselves that they are examples.
CODE = "EX4MP-C0DE2-DEM{number}"
Json = dict[str, Any]


@dataclass(slots=True)
class Shop:
    """One desk on one home, with one location, its owner and its own time."""

    home: Home
    now: datetime = OPENED
    messenger: Messenger = field(default_factory=Messenger)
    people: People = field(init=False)
    first: Location = field(init=False)
    owner: Phone = field(init=False)
    _record: Record = field(init=False)
    _desk: Desk = field(init=False)
    _sender: Sender = field(init=False)
    _scanned: str = ""
    _updates: count[int] = field(default_factory=lambda: count(1))
    _persons: count[int] = field(default_factory=lambda: count(7001))

    def __post_init__(self) -> None:
        self._record = open_record(self.home)
        self._desk = Desk(self.home, Bot(str(ME.id), ME.username or "", LINK), lambda: self.now)
        self._sender = Sender(cast(ExtBot[Any], self.messenger), self._draw)
        self.people = People(self._record)
        opened = self.people.open_first(FIRST, self.now)
        assert isinstance(opened, Location), "the home of a picture is new"
        self.first = opened
        self.owner = self.phone("Mara", "owner")

    @property
    def code(self) -> str:
        """The code that the newest page for a wall hands in when it is scanned."""
        return self._scanned.partition("?start=")[2]

    def close(self) -> None:
        self._desk.close()
        self._record.close()

    def phone(self, name: str, role: Role | None = None) -> Phone:
        """The phone of somebody with that role at the first location; without a role, of a stranger."""
        number = next(self._persons)
        if role is not None:
            _, code = invites.make(self._record, self.first.number, role, 1, 1, "picture", self.now)
            came = invites.redeem(self._record, code, f"telegram {number}", name, self.now)
            assert isinstance(came, Joined)
        return Phone(self, number, name, number, {"id": number, "type": "private", "first_name": name})

    def take(self, content: Json) -> None:
        """An update comes in as the messenger sends it; everything that the bot does for it is done."""
        number = next(self._updates)
        before = {chat: len(story) for chat, story in self.messenger.stories.items()}
        update = Update.de_json({"update_id": number} | content, None)
        incoming = incoming_of(update, ME, self.now)
        assert incoming is not None, f"the bot reads nothing in {content}"
        arrivals.keep(self._record, incoming.bot, [(number, incoming.chat, incoming.to_text())], self.now)
        for thing in self._desk.take(incoming):
            asyncio.run(answer(cast(ExtBot[Any], self.messenger), thing))
        self._deliver()
        for chat, story in self.messenger.stories.items():
            # a message that was changed stands above those that came with the change
            at = before.get(chat, 0)
            story[at:] = sorted(story[at:], key=lambda entry: not (isinstance(entry, Shown) and entry.changed))
        self.now += A_WHILE

    def _draw(self, link: str, title: str, lines: Sequence[str]) -> bytes:
        self._scanned = link
        return wall_picture(link, title, lines)

    def _deliver(self) -> None:
        while claimed := outbox.claim(self._record, str(ME.id), (), self.now, 50):
            for one in claimed:
                parcel = Parcel.from_text(one.body)
                message = asyncio.run(self._sender.send(parcel, one.chat, one.card_message))
                outbox.sent(self._record, one.number, message, self.now)


@dataclass(slots=True)
class Phone:
    """One person's phone, in their private chat with the bot or in a group."""

    shop: Shop
    person: int
    name: str
    chat: int
    _chat: Json
    _drawn: int = 0

    def in_group(self, chat: int, title: str) -> Phone:
        return Phone(self.shop, self.person, self.name, chat, {"id": chat, "type": "supergroup", "title": title})

    def say(self, text: str) -> Message:
        """Writes; gives what was written."""
        wrote = self.shop.messenger.wrote(self.chat, self.name, text)
        self.shop.take({"message": self._message(wrote.message_id, text)})
        return wrote

    def change(self, wrote: Message, text: str) -> None:
        self._story.append(Said(self.name, text, changed=True))
        edited = self._message(wrote.message_id, text) | {"edit_date": self._seconds()}
        self.shop.take({"edited_message": edited})

    def press(self, label: str, on: Message | None = None) -> None:
        """Presses a button of the newest message of the bot, or of another."""
        message = on or self.shop.messenger.last(self.chat)
        shown, before = message.shown, len(self._story)
        query = f"press {before}"
        self.shop.messenger.queries[query] = Asked(self.name, self.chat, label)
        stands = {"message_id": message.message_id, "date": self._seconds(), "chat": self._chat}
        content = {"id": query, "from": self._user, "chat_instance": "1", "data": message.data(label)}
        self.shop.take({"callback_query": content | {"message": stands}})
        if shown is not None and not any(isinstance(entry, Notice) for entry in self._story[before:]):
            shown.tapped = label

    def mark(self, label: str, on: Message) -> None:
        """The button will be pressed in the next picture, and is drawn so in this one."""
        assert on.shown is not None
        assert on.data(label)
        on.shown.tapped = label

    def type_elsewhere(self, text: str) -> None:
        """Types a query behind the bot's name in another chat, and sends the first result."""
        query = f"typed {len(self._story)}"
        self.shop.messenger.queries[query] = Asked(self.name, self.chat, text)
        self.shop.take({"inline_query": {"id": query, "from": self._user, "query": text, "offset": ""}})
        self.shop.messenger.choose(self.chat, self.name, 0)

    def aside(self, text: str) -> None:
        self._story.append(Aside(text))

    def leave_out(self) -> None:
        """What happened so far stands in no picture."""
        self._drawn = len(self._story)

    def picture(self, name: str, title: str) -> Picture:
        """Everything that happened on this phone since its last picture."""
        drawn, self._drawn = self._drawn, len(self._story)
        return Picture(name, title, self.name, tuple(self._story[drawn:]))

    @property
    def _story(self) -> list[Entry]:
        return self.shop.messenger.story(self.chat)

    @property
    def _user(self) -> Json:
        return {"id": self.person, "is_bot": False, "first_name": self.name}

    def _seconds(self) -> int:
        return int(self.shop.now.timestamp())

    def _message(self, number: int, text: str) -> Json:
        plain: Json = {"message_id": number, "from": self._user, "chat": self._chat, "date": self._seconds()}
        return plain | {"text": text, "entities": _marks(text)}


def _marks(text: str) -> list[Json]:
    """The marks that the messenger puts on a command and on the bot's name; all texts here are plain ASCII."""
    marks = []
    if text.startswith("/"):
        marks.append({"type": "bot_command", "offset": 0, "length": len(text.split()[0])})
    if (at := text.find(f"@{ME.username}")) >= 0:
        marks.append({"type": "mention", "offset": at, "length": len(f"@{ME.username}")})
    return marks


@contextmanager
def example_codes() -> Iterator[None]:
    """New codes of invites are those of `CODE`, with the numbers from 21 up."""
    numbers = count(21)
    with patch.object(invites, "new_code", lambda: CODE.format(number=next(numbers))):
        yield
