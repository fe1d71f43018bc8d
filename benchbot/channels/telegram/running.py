"""Runs the bot until it is asked to stop or cannot go on; what is in hand then is finished first."""

from __future__ import annotations

import asyncio
import logging
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime

from benchbot.book.reader import Book
from benchbot.channels.telegram.leaving import AGAIN, ASKED, Leave, Leaving
from benchbot.channels.telegram.locking import only_poller, own_folder
from benchbot.channels.telegram.logs import event, fault
from benchbot.channels.telegram.service import MakeDesk, Service
from benchbot.channels.telegram.settings import Settings
from benchbot.channels.telegram.tasks import kept
from benchbot.channels.telegram.threads import Seat
from benchbot.channels.telegram.token import bot_number
from benchbot.channels.telegram.watch import Guard, Watch
from benchbot.desk.desk import Desk
from benchbot.places import Home
from benchbot.records.record import Record, open_record

STOP_SECONDS = 10.0

_log = logging.getLogger(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


def run(settings: Settings, home: Home, clock: Callable[[], datetime] = _now, make_desk: MakeDesk = Desk) -> int:
    """The exit code, as in `leaving`. BenchbotError: a person must act before it can start."""
    # Opened for a look, so that a shop without a book hears of it before anybody is asked to wait.
    Book.open(home.book).close()
    with only_poller(settings.token, own_folder(), home.folder):
        clerk = Seat("clerk", lambda: open_record(home))
        watch = Watch(home, bot_number(settings.token), settings.give_up_seconds, clock)
        guard = Guard(watch)
        try:
            clerk.open().result()
            return asyncio.run(_run(settings, home, clerk, watch, guard, clock, make_desk))
        finally:
            clerk.close()
            watch.end()
            guard.over()


async def _run(
    settings: Settings,
    home: Home,
    clerk: Seat[Record],
    watch: Watch,
    guard: Guard,
    clock: Callable[[], datetime],
    make_desk: MakeDesk,
) -> int:
    leaving = Leaving()
    loop = asyncio.get_running_loop()
    guard.start(lambda: loop.call_soon_threadsafe(leaving, AGAIN, "no good poll for too long"))
    service = Service(settings, home, clerk, watch, leaving, clock, make_desk)
    with _stopped_by_signals(leaving):
        starting = asyncio.create_task(kept(service.start(), leaving))
        code, why = await leaving.reason()
    guard.hurry(code)
    event(_log, "stopping", logging.INFO if code == ASKED else logging.ERROR, why=why, code=code)
    try:
        async with asyncio.timeout(STOP_SECONDS):
            starting.cancel()
            await asyncio.wait([starting])
            await service.stop()
    except TimeoutError:
        event(_log, "what is still in hand is left to the next start", logging.WARNING)
    except Exception:  # It ends all the same; the code says why it does.
        fault(_log, "stopping went wrong")
    # Outside of the time above: a desk that is at work still is waited for, and the guard sees that it ends.
    service.close_desks()
    event(_log, "stopped", code=code, **service.counts())
    return code


@contextmanager
def _stopped_by_signals(leave: Leave) -> Iterator[None]:
    """The first signal asks to stop; a second one finds nobody who listens, and ends the process at once."""
    loop = asyncio.get_running_loop()
    names = [signal.SIGINT, signal.SIGTERM]
    before = {}
    for name in names:
        try:
            loop.add_signal_handler(name, leave, ASKED, name.name)
        except NotImplementedError:
            # Windows has no such handlers in its loop.
            before[name] = signal.signal(name, lambda *_: loop.call_soon_threadsafe(leave, ASKED, "a signal") and None)
    try:
        yield
    finally:
        for name in names:
            if name in before:
                signal.signal(name, before[name])
            else:
                loop.remove_signal_handler(name)
