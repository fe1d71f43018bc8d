"""Sends what waits in the outbox, one at a time for each chat, and puts on record what came of it."""

from __future__ import annotations

import asyncio
import logging
import time
from collections import Counter
from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from typing import Protocol

from telegram.error import TelegramError

from benchbot.channels.telegram.calls import AT_ONCE, verdict
from benchbot.channels.telegram.fates import Back, Fate, Refused, Sent, Unsure, backoff, fate_of, put_on_record
from benchbot.channels.telegram.leaving import ACT, AGAIN, Leave
from benchbot.channels.telegram.logs import event, fault
from benchbot.channels.telegram.threads import Seat
from benchbot.desk.sheets import Parcel
from benchbot.errors import RecordError
from benchbot.records import outbox
from benchbot.records.outbox import Claimed
from benchbot.records.record import Record

# A record that takes nothing for longer than this will not by waiting.
_TRIES_OF_RECORD = 6
# Errands and the command line put things in, too, and do not wake us.
_LOOK_AGAIN = 1.0

_log = logging.getLogger(__name__)


class Sends(Protocol):
    async def send(self, parcel: Parcel, chat: str, card_message: str) -> str: ...


class Postman:
    """`run` until it is told to stop. counts: sent, back, refused, unsure, and what was repeated after a kill."""

    def __init__(
        self,
        clerk: Seat[Record],
        bot: str,
        sender: Sends,
        leave: Leave,
        clock: Callable[[], datetime],
        at_once: int = AT_ONCE,
    ) -> None:
        self.counts: Counter[str] = Counter()
        self._clerk = clerk
        self._bot = bot
        self._sender = sender
        self._leave = leave
        self._clock = clock
        self._at_once = at_once
        self._flying: dict[str, asyncio.Task[None]] = {}
        self._done: list[tuple[Claimed, Fate]] = []
        self._woken = asyncio.Event()
        self._closing = False

    def wake(self) -> None:
        """Something new may wait."""
        self._woken.set()

    async def begin(self) -> None:
        """Takes up what an earlier process had in hand when it was killed."""
        numbers = await self._clerk.do(lambda record: outbox.unfinished(record, self._bot))
        self.counts["repeated"] += len(numbers)
        if numbers:
            event(_log, "sendings of a killed process are repeated", logging.WARNING, count=len(numbers))

    async def run(self) -> None:
        """Ends after `close`, once everything that was on its way has ended and is on record."""
        failed = 0
        while True:
            self._woken.clear()
            done, self._done = self._done, []
            try:
                claimed, due = await self._clerk.do(lambda record, done=done: self._turn(record, done))  # type: ignore[misc]
                failed = 0
            except RecordError as error:
                self._done = done + self._done
                failed += 1
                event(_log, "the record takes nothing", logging.ERROR, why=error, tries=failed)
                if failed == _TRIES_OF_RECORD:
                    self._leave(AGAIN, "the record takes nothing")
                if failed >= _TRIES_OF_RECORD and self._closing:
                    return
                await asyncio.sleep(backoff(failed).total_seconds())
                continue
            for one, _ in done:
                self._flying.pop(one.chat, None)
            for one in claimed:
                self._flying[one.chat] = asyncio.create_task(self._deliver(one))
            if self._closing and not self._flying and not self._done:
                return
            await self._wait(due)

    async def finish(self) -> None:
        """Waits until nothing more can be sent now."""
        while self._flying or self._done or (not self._closing and await self._is_due()):
            await asyncio.sleep(0.02)

    def close(self) -> None:
        """Nothing new is begun."""
        self._closing = True
        self.wake()

    async def _is_due(self) -> bool:
        due = await self._clerk.do(lambda record: outbox.next_due(record, self._bot))
        return due is not None and due <= self._clock()

    async def _wait(self, due: datetime | None) -> None:
        """Until something new waits, one has ended, or the next of the waiting ones is due."""
        full = len(self._flying) >= self._at_once
        seconds = _LOOK_AGAIN
        if due is not None and not full and not self._closing:
            seconds = min(seconds, max(0.02, (due - self._clock()).total_seconds()))
        try:
            async with asyncio.timeout(seconds):
                await self._woken.wait()
        except TimeoutError:
            return

    def _turn(self, record: Record, done: Sequence[tuple[Claimed, Fate]]) -> tuple[list[Claimed], datetime | None]:
        """On the clerk's thread: what has ended goes on record, and the next ones are claimed, all of it or nothing."""
        now = self._clock()
        free = 0 if self._closing else self._at_once - len(self._flying) + len(done)
        if not done:
            due = outbox.next_due(record, self._bot)
            if due is None or due > now or free <= 0:
                return [], due
        busy = set(self._flying) - {claimed.chat for claimed, _ in done}
        with record.writing():
            for claimed, fate in done:
                put_on_record(record, self._bot, claimed, fate, now)
            taken = outbox.claim(record, self._bot, busy, now, free) if free > 0 else []
            return taken, outbox.next_due(record, self._bot)

    async def _deliver(self, claimed: Claimed) -> None:
        begun = time.monotonic()
        try:
            parcel = Parcel.from_text(claimed.body)
        except (ValueError, TypeError, KeyError, AttributeError) as error:
            fault(_log, "a sending cannot be read", chat=claimed.chat, number=claimed.number)
            fate: Fate = Refused(f"{type(error).__name__}: {error}")
            do = ""
        else:
            fate, do = await self._fate(claimed, parcel), parcel.do
        self._done.append((claimed, fate))
        self._count(claimed, fate, do, begun)
        self._woken.set()

    async def _fate(self, claimed: Claimed, parcel: Parcel) -> Fate:
        try:
            return Sent(await self._sender.send(parcel, claimed.chat, claimed.card_message))
        except TelegramError as error:
            found = verdict(error)
            if found.what == "token" and parcel.do != "menu":
                # Whatever is tried now will be refused; it waits for the next start.
                self.close()
                self._leave(ACT, "the server refuses the token; set the bot's present one")
            elif found.what == "bad":
                event(_log, "the server refused a message of ours", logging.ERROR, chat=claimed.chat, why=found.why)
            return fate_of(found, parcel, claimed.tries)
        except Exception as error:  # A fault of ours in one parcel must not stop the others.
            fault(_log, "a message could not be made", chat=claimed.chat)
            return Refused(f"{type(error).__name__}: {error}")

    def _count(self, claimed: Claimed, fate: Fate, do: str, begun: float) -> None:
        about: dict[str, object] = {"do": do, "chat": claimed.chat, "number": claimed.number, "tries": claimed.tries}
        ms = round(1000 * (time.monotonic() - begun))
        if isinstance(fate, Sent):
            self.counts["sent"] += 1
            event(_log, "sent", message=fate.message, ms=ms, **about)
        elif isinstance(fate, Back):
            self.counts["back"] += 1
            wait = round(fate.wait / timedelta(seconds=1), 1)
            event(_log, "not sent, tried again", logging.WARNING, wait=wait, why=fate.why, ms=ms, **about)
        elif isinstance(fate, Unsure):
            self.counts["unsure"] += 1
            event(_log, "sent or not, nobody knows", logging.WARNING, why=fate.why, ms=ms, **about)
        else:
            self.counts["refused"] += 1
            event(_log, "refused", logging.WARNING, why=fate.why, ms=ms, **about)
