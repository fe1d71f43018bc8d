"""The exchange: everything the stand-in knows, and who may write where."""

from __future__ import annotations

import asyncio
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, fields
from typing import Any

from .chats import Chat, Message, Person
from .faults import Faults
from .limits import Limits
from .mailbox import Mailbox
from .refusals import OrderError, Refusal, bad, forbidden

FIRST_FILE = 5000


@dataclass(slots=True)
class Call:
    """One call of a method by the bot.

    status: what the bot was told; None while it has no answer, and for good when it never gets one.
    handled: it was carried out, whatever the bot was told.
    """

    method: str
    params: dict[str, Any]
    chat: int | None
    at: float
    status: int | None = None
    description: str = ""
    fault: str = ""
    handled: bool = False


@dataclass(slots=True)
class Query:
    """A press or an inline query that waits for its answer."""

    kind: str
    person: int
    at: float
    text: str = ""
    over: bool = False


@dataclass(slots=True)
class StoredFile:
    id: str
    path: str
    content: bytes


@dataclass(slots=True)
class Exchange:
    """query_seconds: how long a query may be answered. clock: the date (Unix time) of all messages, None: now."""

    token: str
    username: str = "StandInBot"
    privacy: bool = True
    inline: bool = True
    query_seconds: float = 60.0
    clock: int | None = None
    persons: dict[int, Person] = field(default_factory=dict)
    chats: dict[int, Chat] = field(default_factory=dict)
    mailbox: Mailbox = field(default_factory=Mailbox)
    faults: Faults = field(default_factory=Faults)
    limits: Limits = field(default_factory=Limits)
    calls: list[Call] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)
    queries: dict[str, Query] = field(default_factory=dict)
    notices: list[dict[str, Any]] = field(default_factory=list)
    inline_answers: list[dict[str, Any]] = field(default_factory=list)
    inline_messages: dict[str, Message] = field(default_factory=dict)
    menus: dict[tuple[Any, ...], list[dict[str, str]]] = field(default_factory=dict)
    files: dict[str, StoredFile] = field(default_factory=dict)
    webhook: str = ""
    from_bot: int = 0
    crashes: list[str] = field(default_factory=list)
    _numbers: Counter[str] = field(default_factory=Counter)
    _waiters: list[asyncio.Future[None]] = field(default_factory=list)

    @property
    def bot(self) -> dict[str, Any]:
        number = int(self.token.partition(":")[0])
        return {"id": number, "is_bot": True, "first_name": "Stand-in", "username": self.username}

    def now(self) -> int:
        return int(time.time()) if self.clock is None else self.clock

    def number(self, of: str) -> int:
        """Counts 1, 2, 3 ... for whatever is numbered."""
        self._numbers[of] += 1
        return self._numbers[of]

    def keep_file(self, content: bytes, folder: str, ending: str) -> StoredFile:
        number = FIRST_FILE + self.number("file")
        stored = StoredFile(f"AgACAgQAAxkBAA{number}", f"{folder}/file_{number}{ending}", content)
        self.files[stored.id] = stored
        return stored

    def person(self, number: int) -> Person:
        found = self.persons.get(number)
        if found is None:
            raise OrderError(f"there is no person {number}; add them first")
        return found

    def chat(self, number: int) -> Chat:
        found = self.chats.get(number)
        if found is None:
            raise OrderError(f"there is no chat {number}; add it first")
        return found

    def known_chat(self, chat_id: str) -> Chat:
        """The chat of a call. Server source, check_chat."""
        if not chat_id:
            raise bad("chat_id is empty")
        if chat_id.startswith("@"):
            named = [one for one in self.chats.values() if one.username.lower() == chat_id[1:].lower()]
            chat = named[0] if named and named[0].person is None else None
        else:
            chat = self.chats.get(int(chat_id)) if chat_id.lstrip("-").isdecimal() else None
        if chat is None:
            raise bad("chat not found")
        return chat

    def writable(self, chat_id: str) -> Chat:
        """The chat of a call that writes. Server source, check_chat_access; of private chats, value from memory."""
        chat = self.known_chat(chat_id)
        if chat.person is not None:
            if chat.person.is_bot:
                raise forbidden("bots can't send messages to bots")
            if chat.blocked:
                raise forbidden("bot was blocked by the user")
            if not chat.opened:
                raise forbidden("bot can't initiate conversation with a user")
            return chat
        if chat.migrated_to is not None:
            parameters = {"migrate_to_chat_id": chat.migrated_to}
            raise Refusal(400, "Bad Request: group chat was upgraded to a supergroup chat", parameters)
        if chat.bot == "kicked":
            raise forbidden(f"bot was kicked from the {chat.kind} chat")
        if chat.bot == "left":
            raise forbidden(f"bot is not a member of the {chat.kind} chat")
        if chat.kind == "channel" and chat.bot != "administrator":
            raise bad("need administrator rights in the channel chat")
        return chat

    def add_message(self, chat: Chat, message: Message) -> Message:
        """Numbers the message and puts it into its chat."""
        if chat.shares_ids:
            message.id = self.number("message")
        else:
            # The first message of such a chat is that of its making, and 1 is also the id of the general topic.
            chat.last_id = max(chat.last_id, 1) + 1
            message.id = chat.last_id
        chat.messages[message.id] = message
        if message.ours:
            chat.from_bot += 1
            self.from_bot += 1
        self.changed()
        return message

    def changed(self) -> None:
        """Something happened that a test may wait for."""
        if self._waiters:
            waiters, self._waiters = self._waiters, []
            for waiter in waiters:
                if not waiter.done():
                    waiter.set_result(None)

    def forget(self) -> None:
        """Begins anew with nobody in it. Numbers go on, so that nothing old is taken for something new."""
        fresh = Exchange(self.token, self.username)
        fresh.mailbox = Mailbox(self.mailbox.next)
        fresh._numbers = self._numbers
        fresh.crashes = self.crashes
        self.changed()
        for one in fields(self):
            setattr(self, one.name, getattr(fresh, one.name))

    async def until(self, holds: Callable[[], bool], seconds: float) -> bool:
        """Waits until the condition holds; False when it did not in time."""
        loop = asyncio.get_running_loop()
        end = loop.time() + seconds
        while not holds():
            left = end - loop.time()
            if left <= 0:
                return False
            waiter: asyncio.Future[None] = loop.create_future()
            self._waiters.append(waiter)
            await asyncio.wait((waiter,), timeout=left)
        return True
