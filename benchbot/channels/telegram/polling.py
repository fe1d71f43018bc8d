"""Polls the server for updates: what came is on record before the next poll tells the server that we have it."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping, Sequence
from contextlib import suppress
from datetime import datetime, timedelta
from typing import Any

from telegram import Update, User
from telegram.error import Conflict, TelegramError
from telegram.ext import ExtBot

from benchbot.channels.telegram.calls import Line, verdict
from benchbot.channels.telegram.fates import backoff
from benchbot.channels.telegram.lanes import Lanes
from benchbot.channels.telegram.leaving import ACT, Leave
from benchbot.channels.telegram.logs import event, fault
from benchbot.channels.telegram.reading import incoming_of, migrated
from benchbot.channels.telegram.threads import Seat
from benchbot.channels.telegram.watch import Watch
from benchbot.desk.desk import LATE
from benchbot.desk.incoming import Incoming
from benchbot.errors import RecordError
from benchbot.records import arrivals, outbox
from benchbot.records.record import Record

WANTED = ("message", "edited_message", "callback_query", "inline_query", "chosen_inline_result", "my_chat_member")
PENDING_AT_MOST = 1000
CONFLICTS_AT_MOST = 3
# After a week without updates their numbers begin anew, perhaps below the old ones (Bot API, "Update").
_NUMBERS_KEPT = timedelta(days=6)
# While the two desks have enough to do, what comes next gathers at the server: fewer polls leave more time for answers.
_BUSY, _GATHER_SECONDS = 2, 0.1

_log = logging.getLogger(__name__)


class Poller:
    """Takes in what comes and gives it to `feed`, in order.

    counts: what the last good poll tells of besides its time. sleep: how to wait, in seconds.
    """

    def __init__(
        self,
        bot: ExtBot[Any],
        line: Line,
        me: User,
        clerk: Seat[Record],
        lanes: Lanes,
        feed: Callable[[Incoming], None],
        watch: Watch,
        leave: Leave,
        clock: Callable[[], datetime],
        counts: Callable[[], Mapping[str, int]],
        polling_seconds: int = 50,
        sleep: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        self._bot = bot
        self._line = line
        self._me = me
        self._clerk = clerk
        self._lanes = lanes
        self._feed = feed
        self._watch = watch
        self._leave = leave
        self._clock = clock
        self._counts = counts
        self._polling_seconds = polling_seconds
        self._sleep = sleep
        self._offset = 0
        self._polled = False
        self._last_update = clock()
        self._failed = 0
        self._conflicts = 0

    async def run(self) -> None:
        """Until it is cancelled."""
        await self._left_over()
        while True:
            await self._room()
            await self._gather()
            await self.once()

    async def once(self) -> None:
        """One poll, and the pause that a failed one asks for."""
        try:
            updates, beyond = await self._poll()
            await self._take_in(updates)
        except TelegramError as error:
            await self._sleep(await self._pause_after(error))
        except RecordError as error:
            # The server keeps what we could not: the offset stays where it was.
            event(_log, "what came in cannot be kept", logging.ERROR, why=error)
            await self._sleep(self._longer())
        except Exception:  # A fault of ours must not end polling; without good polls the watch ends the process.
            fault(_log, "a poll failed by a fault of ours")
            await self._sleep(self._longer())
        else:
            self._note_offset(beyond)
            self._failed = self._conflicts = 0
            self._polled = True
            self._watch.good_poll(self._counts())

    def _note_offset(self, beyond: int) -> None:
        """beyond: the next number after those of this poll, 0 when it brought none."""
        if beyond:
            self._offset, self._last_update = beyond, self._clock()
        elif self._clock() - self._last_update > _NUMBERS_KEPT:
            # All that came is confirmed, so this asks for whatever is next.
            self._offset = 0

    async def _left_over(self) -> None:
        """What an earlier process took in and did not get to goes first."""
        left = await self._clerk.do(lambda record: arrivals.left(record, str(self._me.id)))
        if left:
            event(_log, "handling what was left over", count=len(left))
        for body in left:
            await self._room()
            try:
                incoming = Incoming.from_text(body)
            except (ValueError, TypeError, KeyError):
                fault(_log, "a left over message cannot be read")
            else:
                if incoming.what in ("press", "inline") and self._clock() - incoming.at > LATE:
                    await self._let_go(incoming)
                else:
                    self._hand_on(incoming)

    async def _let_go(self, incoming: Incoming) -> None:
        """The messenger takes no answer to it any more, and who pressed has long seen that nothing came of it."""
        event(_log, "a press or query of long ago is left alone", chat=incoming.chat, update=incoming.number)
        await self._clerk.do(lambda record: _let_go(record, incoming, self._clock()))

    async def _room(self) -> None:
        while self._lanes.pending >= PENDING_AT_MOST:
            await self._lanes.fewer()
            self._watch.going_on()

    async def _gather(self) -> None:
        with suppress(TimeoutError):
            async with asyncio.timeout(_GATHER_SECONDS):
                while self._lanes.pending >= _BUSY:
                    await self._lanes.fewer()

    async def _poll(self) -> tuple[Sequence[Update], int]:
        """The updates that can be read, and the offset beyond all of them."""
        # The first one comes back at once, so that whoever started us hears soon that polling works.
        held_open = self._polling_seconds if self._polled else 0
        try:
            updates = await self._bot.get_updates(
                offset=self._offset, limit=100, timeout=held_open, allowed_updates=WANTED
            )
        except TelegramError:
            raise
        except Exception:
            # The library takes in all updates or none: one that it cannot read must not hold up the others.
            said = self._line.last
            if not isinstance(said, dict) or not isinstance(said.get("result"), list):
                raise
            return self._one_by_one(said["result"])
        return updates, max((update.update_id + 1 for update in updates), default=0)

    def _one_by_one(self, plain: Sequence[Any]) -> tuple[list[Update], int]:
        updates, beyond = [], 0
        for one in plain:
            number = one.get("update_id") if isinstance(one, dict) else None
            if not isinstance(number, int):
                event(_log, "an update without a number was skipped", logging.ERROR)
                continue
            beyond = max(beyond, number + 1)
            try:
                update = Update.de_json(one, self._bot)
            except Exception as error:  # Whatever the library trips over.
                what = " ".join(sorted(str(key) for key in one))
                event(_log, "an update that cannot be read was skipped", logging.ERROR, parts=what, why=repr(error))
            else:
                updates.append(update)
        return updates, beyond

    async def _take_in(self, updates: Sequence[Update]) -> None:
        if not updates:
            return
        now = self._clock()
        moved = [chats for update in updates if (chats := migrated(update))]
        read = [incoming for update in updates if (incoming := self._read(update, now))]
        rows = [(incoming.number, incoming.chat, _body(incoming)) for incoming in read]
        new = await self._clerk.do(lambda record: _keep(record, str(self._me.id), rows, moved, now))
        event(_log, "came in", updates=len(updates), for_us=len(read), new=len(new), pending=self._lanes.pending)
        for incoming in read:
            # The same update can stand in one answer twice.
            if incoming.number in new:
                new.remove(incoming.number)
                self._hand_on(incoming)

    def _read(self, update: Update, now: datetime) -> Incoming | None:
        try:
            return incoming_of(update, self._me, now)
        except Exception as error:  # One strange update must not stop the rest.
            fault(_log, "an update was not understood and skipped", why=repr(error))
            return None

    def _hand_on(self, incoming: Incoming) -> None:
        self._lanes.expect()
        self._feed(incoming)

    async def _pause_after(self, error: TelegramError) -> float:
        """What the error means for us, and how many seconds to wait."""
        if isinstance(error, Conflict):
            return await self._pause_after_conflict(error)
        found = verdict(error)
        if found.what == "token":
            self._leave(ACT, "the server does not know the token, or no Bot API is at that address: check both")
        if found.what == "wait":
            event(_log, "polling too often", logging.WARNING, wait=found.wait.total_seconds())
            return found.wait.total_seconds()
        level = logging.ERROR if found.what in ("bad", "forbidden") else logging.WARNING
        pause = self._longer()
        event(_log, "a poll failed", level, why=found.why, tries=self._failed, wait=round(pause, 1))
        return pause

    async def _pause_after_conflict(self, error: Conflict) -> float:
        self._conflicts += 1
        event(_log, "another process polls this bot", logging.WARNING, times=self._conflicts)
        if "webhook" in str(error).lower():
            await remove_webhook(self._bot)
        elif self._conflicts >= CONFLICTS_AT_MOST:
            self._leave(ACT, "another process polls this bot, perhaps on another machine: stop it, then start this one")
        return self._longer()

    def _longer(self) -> float:
        self._failed += 1
        return backoff(self._failed).total_seconds()


async def remove_webhook(bot: ExtBot[Any]) -> None:
    """A webhook that was set at some time would keep every poll from us. What waits there stays ours to poll."""
    try:
        await bot.delete_webhook(drop_pending_updates=False)
    except TelegramError as error:
        event(_log, "a webhook could not be removed", logging.WARNING, why=verdict(error).why)


def _keep(
    record: Record, bot: str, rows: Sequence[tuple[int, str, str]], moved: Sequence[tuple[str, str]], now: datetime
) -> set[int]:
    with record.writing() as store:
        for old, new in moved:
            outbox.rechat(store, bot, old, new)
        return arrivals.keep(record, bot, rows, now)


def _let_go(record: Record, incoming: Incoming, now: datetime) -> None:
    with record.writing() as store:
        arrivals.handled(store, incoming.bot, incoming.number, now)


def _body(incoming: Incoming) -> str:
    # Halves of characters are no text to a database.
    return incoming.to_text().encode("utf-8", "replace").decode("utf-8")
