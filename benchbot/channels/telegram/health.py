"""Looks at everything that the bot needs to answer, and says what to do about what is missing."""

from __future__ import annotations

import asyncio
import time
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from typing import Any

from telegram.error import TelegramError

from benchbot.book.reader import Book
from benchbot.channels.telegram.calls import garbled_told, plain_bot, verdict
from benchbot.channels.telegram.settings import Settings
from benchbot.channels.telegram.token import bot_number
from benchbot.channels.telegram.watch import Alive
from benchbot.errors import BookError, RecordError, SettingError
from benchbot.places import Home
from benchbot.records.newest import NEWEST
from benchbot.records.record import Record, open_record
from benchbot.records.sqlite import applied, sqlite_path

# What can be sent goes out within seconds; RetryAfter and a lost connection may take minutes.
WAITING_AT_MOST = timedelta(minutes=10)

WAITING = """
SELECT COUNT(*), MIN(at) FROM sending WHERE state IN ('waiting', 'sending') AND bot = :bot
"""
UNSURE = "SELECT COUNT(*) FROM sending WHERE state = 'unsure' AND bot = :bot"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing looked at. todo: what a person can do about it, when it is not ok."""

    name: str
    ok: bool
    says: str
    todo: str = ""

    def line(self) -> str:
        return f"{'ok' if self.ok else 'not ok':<7} {self.name}: {self.says}{'; ' if self.todo else ''}{self.todo}"

    def to_plain(self) -> dict[str, Any]:
        return asdict(self)


def findings(settings: Settings | SettingError, home: Home, now: datetime) -> list[Finding]:
    """Everything, in the order in which a person would mend it; what needs no token also when that is wrong."""
    if isinstance(settings, SettingError):
        return [Finding("settings", False, str(settings)), *_record(home, "", now), _book(home)]
    bot = bot_number(settings.token)
    return [
        *asyncio.run(_server(settings)),
        *_record(home, bot, now),
        _book(home),
        _poll(home, bot, now, timedelta(seconds=settings.give_up_seconds)),
    ]


async def _server(settings: Settings) -> list[Finding]:
    """Whether the server is there, and knows the token."""
    bot = plain_bot(settings)
    begun = time.monotonic()
    try:
        with garbled_told():
            await bot.initialize()
        took, me = time.monotonic() - begun, bot.bot
    except TelegramError as error:
        return _unreached(settings, error)
    finally:
        await bot.shutdown()
    return [
        Finding("server", True, f"{settings.api_url} answered in {1000 * took:.0f} ms"),
        Finding("token", True, f"it is @{me.username}, number {me.id}"),
    ]


def _unreached(settings: Settings, error: TelegramError) -> list[Finding]:
    found = verdict(error)
    if found.what == "token":
        return [
            Finding("server", True, f"{settings.api_url} answered"),
            Finding(
                "token",
                False,
                "the server does not know it, or no Bot API is at that address",
                "set the token that the messenger shows for the bot now",
            ),
        ]
    return [
        Finding(
            "server", False, f"{settings.api_url}: {found.why}", "check the network, a proxy, BENCHBOT_TELEGRAM_API_URL"
        ),
        Finding("token", False, "unknown while the server cannot be asked", "mend the way to the server first"),
    ]


def _record(home: Home, bot: str, now: datetime) -> list[Finding]:
    try:
        behind = _migration(home)
        if behind is not None:
            return [behind]
        with open_record(home) as record:
            opens = Finding("database", True, f"opens, at migration {NEWEST}, which this benchbot works with")
            return [opens, *_sendings(record, bot, now)]
    except RecordError as error:
        # The text of these says what to do.
        return [Finding("database", False, str(error))]


def _migration(home: Home) -> Finding | None:
    """What is wrong with the record's migration; opening it would change it, and a look must not."""
    path = sqlite_path(home.record_url)
    if path is not None:
        where, at = str(path), applied(path)
    else:
        from benchbot.records.server import applied_on_server

        where, at = "the database server", applied_on_server(home.record_url)
    if at == NEWEST:
        return None
    if at is None:
        return Finding("database", False, f"{where}: there is no record yet", "begin with: benchbot specs import FILE")
    # Only a record that is not at the newest pays for loading the migrations.
    from benchbot.records.migrate import known_migrations

    says = f"{where}: at migration {at}, this benchbot works with {NEWEST}"
    if at not in known_migrations():
        return Finding("database", False, says, "benchbot telegram would refuse it; install the newer benchbot")
    todo = f"benchbot telegram brings it to {NEWEST} when it starts, after which an older one refuses it: back it up"
    return Finding("database", False, says, todo)


def _sendings(record: Record, bot: str, now: datetime) -> list[Finding]:
    waiting = record.row(WAITING, {"bot": bot})
    unsure = record.row(UNSURE, {"bot": bot})
    count, oldest = (0, None) if waiting is None else waiting
    age = timedelta(0) if oldest is None else now - datetime.fromisoformat(oldest)
    says = f"{count} waiting" if oldest is None else f"{count} waiting, the oldest for {_ago(age)}"
    late = age > WAITING_AT_MOST
    return [
        Finding("to send", not late, says, "see why in the log of the bot" if late else ""),
        Finding("unsure", True, f"{0 if unsure is None else unsure[0]} of which nobody knows whether they arrived"),
    ]


def _book(home: Home) -> Finding:
    try:
        with Book.open(home.book) as book:
            return Finding("book", True, f"version {book.version}, {book.rows:,} rows, made on {book.made_on}")
    except BookError as error:
        return Finding("book", False, str(error))


def _poll(home: Home, bot: str, now: datetime, limit: timedelta) -> Finding:
    alive = Alive.read(home)
    if alive is None:
        return Finding("polling", False, "no bot runs in this home", "start it with: benchbot telegram")
    age = now - alive.polled_at
    says = f"process {alive.pid}, last good poll {_ago(age)} ago"
    if alive.bot != bot:
        return Finding("polling", False, f"{says}, but of the bot {alive.bot}", "check which token is set")
    if age > limit:
        return Finding("polling", False, says, "if that process is gone, start the bot; else see its log")
    return Finding("polling", True, says)


def _ago(age: timedelta) -> str:
    seconds = max(0, round(age.total_seconds()))
    return f"{seconds} s" if seconds < 120 else f"{seconds // 60} min"
