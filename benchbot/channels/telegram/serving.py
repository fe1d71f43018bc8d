"""Takes one message to a free desk, and what the desk gives back to where it belongs."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable, Sequence
from datetime import datetime
from typing import Any, Protocol

from telegram.ext import ExtBot

from benchbot.channels.telegram.at_once import answer
from benchbot.channels.telegram.leaving import AGAIN, Leave
from benchbot.channels.telegram.logs import event, fault
from benchbot.channels.telegram.threads import Seat
from benchbot.desk.asker import Asker
from benchbot.desk.incoming import Incoming
from benchbot.desk.menus import is_ours
from benchbot.desk.sheets import AtOnce, Notice, Offers, Parcel, Sheet
from benchbot.desk.wording import ENGLISH, Wording
from benchbot.errors import RecordError
from benchbot.people.register import People
from benchbot.records import arrivals, outbox
from benchbot.records.record import Record
from benchbot.reply.reply import Block

# Seconds between tries while the record takes nothing.
_PAUSES = (0.2, 1.0, 3.0)

_log = logging.getLogger(__name__)


class Takes(Protocol):
    """A desk: puts all that comes of a message on record at once, and returns what has to be answered directly."""

    def take(self, incoming: Incoming) -> tuple[AtOnce, ...]: ...
    def close(self) -> None: ...


class Counter:
    """Several desks, each on its own thread; `serve` waits for one that is free, first come first served."""

    def __init__(
        self,
        desks: Sequence[Seat[Takes]],
        clerk: Seat[Record],
        bot: ExtBot[Any],
        wake: Callable[[], None],
        leave: Leave,
        clock: Callable[[], datetime],
        sleep: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        self._free: asyncio.Queue[Seat[Takes]] = asyncio.Queue()
        for desk in desks:
            self._free.put_nowait(desk)
        self._clerk = clerk
        self._bot = bot
        self._wake = wake
        self._leave = leave
        self._clock = clock
        self._sleep = sleep
        self._answers: set[asyncio.Task[None]] = set()
        self.handled = 0
        self.faults = 0

    async def serve(self, incoming: Incoming, _: Any = None) -> None:
        """Everything that comes of a message; a fault in one message must not stop the others."""
        begun = time.monotonic()
        try:
            things = await self._taken(incoming)
        except Exception as error:  # Whatever a desk trips over.
            self.faults += 1
            fault(_log, "a message could not be handled", **_about(incoming))
            things = await self._excuse(incoming, error)
        else:
            self.handled += 1
            ms = round(1000 * (time.monotonic() - begun))
            event(_log, "handled", ms=ms, chars=len(incoming.text), **_about(incoming))
        self._wake()
        for thing in things:
            task = asyncio.create_task(answer(self._bot, thing))
            self._answers.add(task)
            task.add_done_callback(self._answers.discard)

    async def finish(self) -> None:
        """Waits for the direct answers that are on their way."""
        await asyncio.gather(*self._answers)

    async def _taken(self, incoming: Incoming) -> Sequence[AtOnce]:
        for pause in (*_PAUSES, None):
            desk = await self._free.get()
            try:
                return await desk.do(lambda one: one.take(incoming))
            except RecordError as error:
                if pause is None:
                    raise
                event(_log, "the record takes nothing", logging.WARNING, why=error, **_about(incoming))
            finally:
                self._free.put_nowait(desk)
            await self._sleep(pause)
        raise AssertionError("the last try returns or raises")

    async def _excuse(self, incoming: Incoming, error: Exception) -> Sequence[AtOnce]:
        """Says that it went wrong, and lets nobody try this message again: it would go wrong at every start."""
        try:
            words = await self._clerk.do(lambda record: _put_excuse(record, incoming, self._clock()))
        except RecordError:
            fault(_log, "the record takes nothing at all")
            self._leave(AGAIN, f"the record takes nothing ({error})")
            return ()
        if incoming.what == "press":
            return (Notice(incoming.query, words.fault),)
        return (Offers(incoming.query),) if incoming.what == "inline" else ()


def _put_excuse(record: Record, incoming: Incoming, now: datetime) -> Wording:
    """Gives back the sentences in the language that the person is spoken to in."""
    words = _words_for(record, incoming)
    with record.writing() as store:
        arrivals.handled(store, incoming.bot, incoming.number, now)
        meant = incoming.addressed or is_ours(incoming.command)
        if incoming.chat and meant and incoming.what in ("text", "changed", "media"):
            sheet = Sheet((Block("note", words.fault),))
            sorry = Parcel("post", incoming.chat, sheet, topic=incoming.topic, quote=incoming.message)
            outbox.add(store, incoming.bot, incoming.chat, sorry.to_text(), now)
    return words


def _words_for(record: Record, incoming: Incoming) -> Wording:
    try:
        return Asker.of(incoming.person, incoming.name, People(record)).words
    except RecordError:
        raise
    except Exception:  # Perhaps just what the desk tripped over: the excuse must come all the same.
        fault(_log, "nobody knows which language they are spoken to in", **_about(incoming))
        return ENGLISH


def _about(incoming: Incoming) -> dict[str, object]:
    """What a line of the log may say of a message: not what was written, nor by whom."""
    return {"chat": incoming.chat, "update": incoming.number, "what": incoming.what, "command": incoming.command}
