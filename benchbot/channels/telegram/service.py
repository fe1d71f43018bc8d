"""The parts of the running bot, put together: polling, lanes, desks and the postman."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import datetime, timedelta
from typing import Any, Protocol

from telegram import BotCommand, BotCommandScopeAllGroupChats, BotCommandScopeAllPrivateChats, User
from telegram.error import TelegramError
from telegram.ext import Application, ApplicationBuilder, TypeHandler

from benchbot.channels.telegram.calls import garbled_told, new_bot, polling_line, verdict
from benchbot.channels.telegram.errands import Runner
from benchbot.channels.telegram.fates import backoff
from benchbot.channels.telegram.lanes import Lanes
from benchbot.channels.telegram.leaving import Leave
from benchbot.channels.telegram.logs import event
from benchbot.channels.telegram.polling import Poller, remove_webhook
from benchbot.channels.telegram.posting import Postman
from benchbot.channels.telegram.sending import Sender
from benchbot.channels.telegram.serving import Counter, Takes
from benchbot.channels.telegram.settings import Settings
from benchbot.channels.telegram.tasks import kept
from benchbot.channels.telegram.threads import Seat
from benchbot.channels.telegram.watch import Watch
from benchbot.desk.bookwork.fetching import keep_fetched
from benchbot.desk.incoming import Bot, Incoming
from benchbot.desk.limits import Limits
from benchbot.desk.menus import GROUP_COMMANDS, meaning
from benchbot.desk.paper_files import paper_file
from benchbot.desk.picture_files import picture_file
from benchbot.desk.sheets import Parcel
from benchbot.desk.wording import Wording, wording_of
from benchbot.errors import RecordError, SettingError
from benchbot.people import known_bot
from benchbot.people.terms import LANGUAGES
from benchbot.people.wall_picture import wall_picture
from benchbot.places import Home
from benchbot.records import arrivals, cards, errands, expected, outbox
from benchbot.records.record import Record, open_record

DESKS = 2
PRIVATE_COMMANDS = ("start", "help")
# The messenger keeps an update for 24 hours (Bot API, "Getting updates"); the rest is room for a clock that is off.
_ARRIVALS_KEPT, _SENDINGS_KEPT, _UNSURE_PICTURES_KEPT = timedelta(days=2), timedelta(days=30), timedelta(days=1)
_TIDY_SECONDS = 6 * 3600
_DRAIN_SECONDS = 5.0

_log = logging.getLogger(__name__)


class MakeDesk(Protocol):
    def __call__(self, home: Home, bot: Bot, clock: Callable[[], datetime], limits: Limits) -> Takes: ...


class Service:
    """Started once and stopped once; `leave` is told when a part of it cannot go on."""

    def __init__(
        self,
        settings: Settings,
        home: Home,
        clerk: Seat[Record],
        watch: Watch,
        leave: Leave,
        clock: Callable[[], datetime],
        make_desk: MakeDesk,
    ) -> None:
        self._settings = settings
        self._home = home
        self._clerk = clerk
        self._watch = watch
        self._leave = leave
        self._clock = clock
        self._make_desk = make_desk
        self._polling = polling_line(settings)
        self._bot = new_bot(settings, self._polling)
        self._lanes = Lanes()
        self._application: Application[Any, Any, Any, Any, Any, Any] = (
            ApplicationBuilder().bot(self._bot).updater(None).job_queue(None).concurrent_updates(self._lanes).build()
        )
        self._desks: list[Seat[Takes]] = []
        self._errands = Seat("errands", lambda: open_record(home))
        self._counter: Counter | None = None
        self._postman: Postman | None = None
        self._tasks: dict[str, asyncio.Task[None]] = {}

    async def start(self) -> None:
        """Returns once everything runs. BenchbotError: a person must act first."""
        me = await self._reach()
        number, username = str(me.id), me.username or ""
        known_bot.save(self._home, number, username)
        await self._open_desks(Bot(number, username, known_bot.link_base(username)))
        sender = Sender(self._bot, self._picture, self._keep_page)
        self._postman = Postman(self._clerk, number, sender, self._leave, self._clock)
        self._counter = Counter(
            self._desks, self._clerk, self._bot, self._postman.wake, self._leave, self._clock
        )  # fmt: skip
        self._application.add_handler(TypeHandler(Incoming, self._counter.serve))
        await self._application.start()
        await self._postman.begin()
        poller = Poller(
            self._bot, self._polling, me, self._clerk, self._lanes, self._application.update_queue.put_nowait,
            self._watch, self._leave, self._clock, self.counts, self._settings.polling_seconds,
        )  # fmt: skip
        runner = Runner(self._errands, self._home, self._postman.wake, self._clock)
        parts = {
            "sending": self._postman.run(), "polling": poller.run(), "errands": runner.run(), "tidying": self._tidy(),
        }  # fmt: skip
        self._tasks = {name: asyncio.create_task(kept(part, self._leave)) for name, part in parts.items()}
        event(_log, "polling", bot=f"@{username}", number=number)
        await self._put_commands()

    async def stop(self) -> None:
        """Takes in nothing more, finishes what is in hand, sends what can be sent now."""
        for name in ("polling", "errands", "tidying"):
            if name in self._tasks:
                self._tasks[name].cancel()
        self._lanes.close()
        if self._application.running:
            await self._application.stop()
        if self._counter is not None:
            await self._counter.finish()
        if self._postman is not None and "sending" in self._tasks:
            with suppress(TimeoutError):
                async with asyncio.timeout(_DRAIN_SECONDS):
                    await self._postman.finish()
            self._postman.close()
            await self._tasks["sending"]
        await self._application.shutdown()
        await self._bot.shutdown()

    def close_desks(self) -> None:
        for desk in self._desks:
            desk.close()
        self._errands.close()

    def counts(self) -> dict[str, int]:
        """What was done since the start, and what waits in memory."""
        sent = dict(self._postman.counts) if self._postman is not None else {}
        handled = {"handled": self._counter.handled, "faults": self._counter.faults} if self._counter else {}
        return {**handled, **sent, "pending": self._lanes.pending}

    def _picture(self, code: str, title: str, lines: Sequence[str]) -> bytes:
        file = picture_file(self._home, code) or paper_file(self._home, code)
        return wall_picture(code, title, lines) if file is None else file.read_bytes()

    async def _reach(self) -> User:
        """Who we are, as soon as the server can be reached; the watch ends waiting for it."""
        tries = 0
        while True:
            try:
                with garbled_told():
                    await self._application.initialize()
            except TelegramError as error:
                found = verdict(error)
                if found.what == "token":
                    raise SettingError(
                        "the server does not know the bot token, or no Bot API is at that address: check both"
                    ) from None
                tries += 1
                pause = found.wait.total_seconds() or backoff(tries).total_seconds()
                event(_log, "the server cannot be reached", logging.WARNING, why=found.why, wait=round(pause, 1))
                await asyncio.sleep(pause)
            else:
                await remove_webhook(self._bot)
                return self._bot.bot

    async def _open_desks(self, bot: Bot) -> None:
        limits = Limits()
        for number in range(1, DESKS + 1):
            self._desks.append(Seat(f"desk {number}", lambda: self._make_desk(self._home, bot, self._clock, limits)))
        opening = [*(desk.open() for desk in self._desks), self._errands.open()]
        await asyncio.gather(*map(asyncio.wrap_future, opening))

    async def _keep_page(self, parcel: Parcel, content: bytes | None) -> None:
        number, now = str(self._bot.bot.id), self._clock()
        await self._clerk.do(lambda record: keep_fetched(record, self._home, number, parcel, content, now))

    async def _put_commands(self) -> None:
        """The menus of whoever has none of their own; answers do not depend on them."""
        try:
            for language in LANGUAGES:
                # By the language that a phone is set to, as far as we speak it; English for every other one.
                phone, words = None if language == "en" else language, wording_of(language)
                private, groups = _menu(PRIVATE_COMMANDS, words), _menu(GROUP_COMMANDS, words)
                await self._bot.set_my_commands(private, BotCommandScopeAllPrivateChats(), phone)
                await self._bot.set_my_commands(groups, BotCommandScopeAllGroupChats(), phone)
        except TelegramError as error:
            event(_log, "the menus could not be set", logging.WARNING, why=verdict(error).why)

    async def _tidy(self) -> None:
        while True:
            now = self._clock()
            try:
                await self._clerk.do(lambda record, now=now: _forget(record, now))  # type: ignore[misc]
            except RecordError as error:
                event(_log, "old messages could not be cleared away", logging.WARNING, why=error)
            await asyncio.sleep(_TIDY_SECONDS)


def _forget(record: Record, now: datetime) -> None:
    arrivals.forget(record, now - _ARRIVALS_KEPT)
    outbox.forget(record, now - _SENDINGS_KEPT)
    outbox.forget_pictures(record, now - _UNSURE_PICTURES_KEPT)
    cards.forget(record, now)
    errands.forget(record, now - _SENDINGS_KEPT)
    expected.forget(record, now)


def _menu(commands: tuple[str, ...], words: Wording) -> list[BotCommand]:
    return [BotCommand(command, meaning(command, words)) for command in commands]
