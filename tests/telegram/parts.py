"""Parts that the tests of the running bot share: a home, a clerk, a clock, and whatever notes what it was told."""

from __future__ import annotations

import asyncio
import atexit
import shutil
import tempfile
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from benchbot.channels.telegram.threads import Seat
from benchbot.desk.incoming import Incoming
from benchbot.desk.sheets import Parcel, Sheet
from benchbot.places import Home
from benchbot.records import outbox
from benchbot.records.record import Record, open_record
from benchbot.reply.reply import Block

Result = TypeVar("Result")
NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
BOT = "7100200300"
# Invented; of the form of a token.
TOKEN = f"{BOT}:AAInventedForTheseTestsOnly_0123456789"


@dataclass(slots=True)
class Clock:
    moment: datetime = NOW

    def __call__(self) -> datetime:
        return self.moment

    def forward(self, seconds: float) -> None:
        self.moment += timedelta(seconds=seconds)


@dataclass(slots=True)
class Noted:
    """Notes each call: a way to leave, to sleep, to feed, to tell."""

    calls: list[tuple[Any, ...]] = field(default_factory=list)

    def __call__(self, *told: Any) -> None:
        self.calls.append(told)

    async def sleep(self, seconds: float) -> None:
        self.calls.append((seconds,))
        await asyncio.sleep(0)


@cache
def _empty_record() -> Path:
    folder = Path(tempfile.mkdtemp(prefix="benchbot-tests-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    open_record(f"sqlite:///{folder / 'record.sqlite'}").close()
    return folder / "record.sqlite"


def fresh_home(folder: Path) -> Home:
    """A home with an empty record."""
    shutil.copy(_empty_record(), folder / "record.sqlite")
    return Home(folder)


def record_of(home: Home) -> Record:
    """Its own record, whatever database a setting names."""
    return open_record(f"sqlite:///{home.record}")


@contextmanager
def clerk_of(home: Home) -> Iterator[Seat[Record]]:
    clerk = Seat("clerk", lambda: record_of(home))
    clerk.open().result()
    try:
        yield clerk
    finally:
        clerk.close()


def run(work: Awaitable[Result], seconds: float = 20) -> Result:
    """The result of a coroutine, which must not take for ever."""

    async def limited() -> Result:
        async with asyncio.timeout(seconds):
            return await work

    return asyncio.run(limited())


async def until(met: Callable[[], Awaitable[bool]]) -> None:
    """Waits until something holds."""
    while not await met():
        await asyncio.sleep(0)


def post(chat: str, text: str = "a line", **more: Any) -> Parcel:
    return Parcel("post", chat, Sheet((Block("note", text),)), **more)


def add(home: Home, *parcels: Parcel, card: int | None = None) -> list[int]:
    """Puts parcels into the outbox; their numbers."""
    with record_of(home) as record, record.writing() as store:
        return [outbox.add(store, BOT, one.chat, one.to_text(), NOW, one.card or card) for one in parcels]


def states(home: Home) -> list[tuple[str, str]]:
    """(chat, state) of everything in the outbox, in order."""
    with record_of(home) as record:
        return [tuple(row) for row in record.rows("SELECT chat, state FROM sending ORDER BY sending", {})]


def asked(number: int, chat: str = "5", text: str = "a question", **more: Any) -> Incoming:
    told: dict[str, Any] = {
        "bot": BOT, "number": number, "what": "text", "chat": chat, "private": True, "person": f"telegram {chat}",
        "name": "Nobody", "at": NOW, "message": str(number), "text": text,
    }  # fmt: skip
    return Incoming(**told | more)
