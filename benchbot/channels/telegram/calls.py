"""Calls of the Bot API: the connections they take, and what a failed one tells about what the server did."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import timedelta
from importlib.util import find_spec
from typing import Any, Literal

import httpx
from telegram import Bot
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)
from telegram.ext import AIORateLimiter, ExtBot
from telegram.request import HTTPXRequest

from benchbot.channels.telegram.settings import Settings

# Without it the library warns about every RetryAfter, and gives its seconds as a number.
os.environ.setdefault("PTB_TIMEDELTA", "true")

if find_spec("sniffio") is None:
    # httpcore imports it several times a call where it is there; to look for it each time takes a tenth of an answer.
    sys.modules["sniffio"] = None  # type: ignore[assignment]

# Sendings in hand, most of which wait for what Telegram allows, and calls on their way at the same time. Of the latter
# each may have been shown when the process is killed; eight do for 30 a second as long as one takes a quarter of one.
AT_ONCE, _CONNECTIONS = 32, 8
_NOT_SENT = (
    httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout, httpx.ProxyError, httpx.UnsupportedProtocol,
    httpx.InvalidURL,
)  # fmt: skip
_INTERNAL_ERROR = 500

What = Literal["wait", "not done", "unknown", "garbled", "moved", "forbidden", "token", "bad"]
# Whether the call that this task makes has gone out; what goes wrong after that is no fault in what we wanted to send.
_gone_out: ContextVar[bool] = ContextVar("gone_out", default=False)


class ServerFault(NetworkError):
    """The server, or one in front of it, answered with a 5xx status, whatever else it said."""

    def __init__(self, status: int) -> None:
        super().__init__(f"the server answered with status {status}")
        self.status = status


class Garbled(NetworkError):
    """The server was asked, and nobody can read what it answered: what was asked for may well be done."""


@contextmanager
def garbled_told() -> Iterator[None]:
    """Around one call: Garbled when the library trips over the answer. What it trips over before stays as it is."""
    token = _gone_out.set(False)
    try:
        yield
    except TelegramError:
        raise
    except Exception as error:  # Whatever the library trips over.
        if _gone_out.get():
            raise Garbled(f"the answer cannot be read ({type(error).__name__}: {error})") from error
        raise
    finally:
        _gone_out.reset(token)


class Line(HTTPXRequest):
    """Connections that tell a 5xx answer by its status, which the library leaves out of its errors.

    last: what the server said last, for updates that the library cannot take in as a whole.
    """

    def __init__(self, connections: int, read_seconds: float) -> None:
        # Longer than httpx keeps them: a new connection costs an answer two more ways to the server and back.
        limits = httpx.Limits(max_connections=connections, keepalive_expiry=30)
        super().__init__(
            read_timeout=read_seconds,
            write_timeout=read_seconds,
            connect_timeout=min(10.0, read_seconds),
            pool_timeout=10.0,
            httpx_kwargs={"limits": limits},
        )
        self.last: Any = None

    async def do_request(self, *args: Any, **settings: Any) -> tuple[int, bytes]:
        _gone_out.set(True)
        status, body = await super().do_request(*args, **settings)
        if status >= _INTERNAL_ERROR:
            raise ServerFault(status)
        return status, body

    def parse_json_payload(self, payload: bytes) -> dict[str, Any]:  # type: ignore[override]
        try:
            self.last = HTTPXRequest.parse_json_payload(payload)
        except TelegramError as error:
            raise Garbled("the answer is no JSON") from error
        plain: dict[str, Any] = self.last
        return plain


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a failed call comes to.

    wait: nothing was done, and the server says how long to wait. not done: nothing was done, try again. unknown: it
    may have been done. garbled: the same, and asking again may bring the same answer. moved: the group has the number
    `chat` now. forbidden: this chat is closed to us. token: the server does not know us. bad: the server refused what
    was in it.
    """

    what: What
    why: str
    wait: timedelta = timedelta(0)
    chat: str = ""


def verdict(error: TelegramError) -> Verdict:
    """What the server did, as far as the error tells."""
    why = f"{type(error).__name__}: {error}"
    if isinstance(error, RetryAfter):
        wait = error.retry_after
        return Verdict("wait", why, wait if isinstance(wait, timedelta) else timedelta(seconds=wait))
    if isinstance(error, ChatMigrated):
        return Verdict("moved", why, chat=str(error.new_chat_id))
    if isinstance(error, Forbidden):
        return Verdict("forbidden", why)
    if isinstance(error, InvalidToken):
        # Its own text may hold the token.
        return Verdict("token", "InvalidToken")
    if isinstance(error, BadRequest):
        return Verdict("bad", why)
    if isinstance(error, Garbled) and not isinstance(error.__cause__, _NOT_SENT):
        return Verdict("garbled", why)
    internal = isinstance(error, ServerFault) and error.status == _INTERNAL_ERROR
    if internal or isinstance(error.__cause__, _NOT_SENT):
        return Verdict("not done", why)
    return Verdict("unknown", why)


def new_bot(settings: Settings, polling: Line) -> ExtBot[Any]:
    """A bot with a line of its own for polling, so that sending never waits for it."""
    return ExtBot(
        settings.token,
        base_url=f"{settings.api_url}/bot",
        base_file_url=f"{settings.api_url}/file/bot",
        request=Line(_CONNECTIONS, settings.send_seconds),
        get_updates_request=polling,
        rate_limiter=AIORateLimiter(
            overall_max_rate=settings.sends_per_second,
            group_max_rate=settings.group_sends_per_minute,
            max_retries=0,
        ),
    )


def polling_line(settings: Settings) -> Line:
    """The library adds the time that a poll is held open to the time that an answer may take."""
    return Line(1, min(10.0, settings.send_seconds))


def plain_bot(settings: Settings) -> Bot:
    """A bot for a few calls by hand."""
    return Bot(settings.token, base_url=f"{settings.api_url}/bot", request=Line(1, settings.send_seconds))
