"""The log: readable, one line an event, and never a token or an invite code in it."""

from __future__ import annotations

import asyncio
import io
import json
import logging
import sys
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager

import httpx
import pytest
from parts import TOKEN, asked
from telegram import Bot
from telegram.error import InvalidToken, TelegramError

from benchbot.channels.telegram.calls import Line
from benchbot.channels.telegram.logs import HIDDEN, Hiding, event, fault, logging_to
from benchbot.people.codes import new_code

SECRET = TOKEN.partition(":")[2]
CODE = "K7QPM-2XWDH-9RTVA"
_log = logging.getLogger("benchbot.test")


@contextmanager
def logged(as_json: bool = False, level: int = logging.INFO, libraries: int | None = None) -> Iterator[io.StringIO]:
    """What is written in the meantime. libraries: a level for those that are silenced otherwise."""
    stream, root = io.StringIO(), logging.getLogger()
    # pytest's own handlers raise where a process would print to standard error.
    others, root.handlers = root.handlers, []
    with logging_to(stream, TOKEN, as_json, level):
        if libraries is not None:
            for name in ("httpx", "httpcore", "telegram", "telegram.ext.ExtBot", "telegram.request.BaseRequest"):
                logging.getLogger(name).setLevel(libraries)
        try:
            yield stream
        finally:
            root.handlers += others


def test_a_line_reads_well() -> None:
    with logged() as stream:
        event(_log, "handled", chat="-100123", ms=41, what="text", why="it has spaces", command="")
    time, rest = stream.getvalue().split(" ", 1)
    assert time.endswith("Z")
    assert rest == 'INFO    handled chat=-100123 ms=41 what=text why="it has spaces" command=""\n'


def test_a_json_line_holds_the_same() -> None:
    with logged(as_json=True) as stream:
        event(_log, "handled", logging.WARNING, chat="-100123", ms=41, event="of mine")
    plain = json.loads(stream.getvalue())
    assert (plain["level"], plain["event"], plain["chat"], plain["ms"]) == ("warning", "handled", "-100123", 41)


def test_nobody_can_write_a_line_of_the_log() -> None:
    with logged() as stream:
        event(_log, "refused", why="first\n2026-11-25T09:00:00Z INFO    forged chat=1")
        _log.warning("a library says\r\nsomething\x1b[31m")
    lines = stream.getvalue().splitlines()
    assert len(lines) == 2
    assert "\x1b" not in stream.getvalue()


@pytest.mark.parametrize("as_json", [False, True])
def test_tracebacks_and_parts_are_cleaned_too(as_json: bool) -> None:
    with logged(as_json) as stream:
        try:
            try:
                raise ValueError(f"https://api.telegram.org/bot{TOKEN}/getMe")
            except ValueError as error:
                raise InvalidToken(f"The token `{TOKEN}` was rejected by the server.") from error
        except InvalidToken as error:
            fault(_log, "failed", why=error, where=("bot", TOKEN))
            _log.error("parts %s and %r", TOKEN, error, stack_info=True)
            _log.exception(f"text {TOKEN}")
    text = stream.getvalue()
    assert SECRET not in text
    assert "Traceback" in text
    assert text.count(HIDDEN) >= 6


def test_another_token_and_a_quoted_one_are_hidden_too() -> None:
    other = "123456:" + "Zy" * 16
    with logged() as stream:
        _log.warning("GET /bot%s/getMe and /bot%s", other, other.replace(":", "%3A"))
    assert "ZyZy" not in stream.getvalue()


def test_a_line_with_the_wrong_number_of_parts_is_logged_and_cleaned(capsys: pytest.CaptureFixture[str]) -> None:
    with logged() as stream:
        _log.warning("one %s two %s", TOKEN)
        _log.warning(f"{TOKEN} %d", "x")
    assert SECRET not in stream.getvalue() + capsys.readouterr().err
    assert len(stream.getvalue().splitlines()) == 2


def test_uncaught_exceptions_are_cleaned(capsys: pytest.CaptureFixture[str]) -> None:
    with logged() as stream:
        thread = threading.Thread(target=lambda: int(f"bot{TOKEN}"))
        thread.start()
        thread.join()
        try:
            int(f"bot{TOKEN}")
        except ValueError as error:
            sys.excepthook(type(error), error, error.__traceback__)
        with warnings.catch_warnings():
            warnings.simplefilter("always")
            warnings.warn(f"about {TOKEN}", stacklevel=1)
    assert SECRET not in stream.getvalue() + capsys.readouterr().err
    assert stream.getvalue().count("invalid literal") == 2
    assert "about" in stream.getvalue()


@pytest.mark.parametrize(
    "text",
    [
        f"/start {CODE}",
        f"https://t.me/SomeBot?start={CODE}",
        "https://t.me/SomeBot?start=K7QPM2XWDH9RTVA",
        "/start k7qpm2xwdh9rtva",
        f"the code {CODE} came",
        f"the code {CODE.lower()} came",
        "K7QPM–2XWDH–9RTVA",
        "k7qpm2xwdh9rtva",
        "K7QPM 2XWDH 9RTVA",
        "start%3DK7QPM2XWDH9RTVA",
    ],
)
def test_invite_codes_are_hidden(text: str) -> None:
    with logged() as stream:
        event(_log, text, said=text)
        _log.warning("%s", {"text": text})
    assert "2XWDH" not in stream.getvalue().upper()


def test_every_code_that_can_be_made_is_hidden() -> None:
    hiding = Hiding()
    for _ in range(200):
        code = new_code()
        for shown in (code, code.replace("-", ""), code.lower()):
            assert hiding.hide(f"it is {shown}.") == f"it is {HIDDEN}."


@pytest.mark.parametrize(
    "text", ["front brake lines", "chat=-1001234567890", "update=712345678901234", "the start of understanding it all"]
)
def test_what_is_no_code_stays(text: str) -> None:
    assert Hiding(TOKEN).hide(text) == text


def test_a_message_that_came_in_is_hidden_where_a_library_prints_it() -> None:
    with logged(level=logging.DEBUG) as stream:
        logging.getLogger("telegram.ext.Application").warning("Processing update %s", asked(1, text=CODE))
        logging.getLogger("telegram.ext.Application").warning(
            "Processing update %s", asked(2, text="K7QPM2XWDH9RTVA", command="start")
        )
    assert "2XWDH" not in stream.getvalue()


async def _answer_once(status: bytes, body: bytes) -> tuple[asyncio.Server, int]:
    async def answer(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await reader.readuntil(b"\r\n\r\n")
        head = b"HTTP/1.1 %s\r\nContent-Length: %d\r\nConnection: close\r\n\r\n" % (status, len(body))
        writer.write(head + body)
        await writer.drain()
        writer.close()
        await writer.wait_closed()

    server = await asyncio.start_server(answer, "127.0.0.1", 0)
    return server, server.sockets[0].getsockname()[1]


async def _call(status: bytes, body: bytes) -> None:
    """A real call of the Bot API, over the real connection, that fails or not."""
    server, port = await _answer_once(status, body)
    line, polling = Line(1, 5), Line(1, 5)
    bot = Bot(TOKEN, f"http://127.0.0.1:{port}/bot", request=line, get_updates_request=polling)
    try:
        await bot.initialize()
    except TelegramError:
        fault(_log, "the server cannot be reached")
    finally:
        server.close()
        await server.wait_closed()
        await bot.shutdown()
        await line.shutdown()
        await polling.shutdown()


ME = b'{"ok": true, "result": {"id": 7100200300, "is_bot": true, "first_name": "A", "username": "ABot"}}'


def test_the_real_connection_at_debug_shows_no_token() -> None:
    with logged(level=logging.DEBUG, libraries=logging.DEBUG) as stream:
        asyncio.run(_call(b"200 OK", ME))
        asyncio.run(_call(b"401 Unauthorized", b'{"ok": false, "error_code": 401, "description": "Unauthorized"}'))
        asyncio.run(_call(b"502 Bad Gateway", b"<html>"))
        asyncio.run(_call(b"200 OK", b"no JSON" + TOKEN.encode()))
    text = stream.getvalue()
    assert SECRET not in text
    assert f"/bot{HIDDEN}/getMe" in text, "the line of httpx with the URL was not there to be cleaned"
    assert f"`{HIDDEN}` was rejected" in text, "the library's own error was not there to be cleaned"
    assert "httpcore" in text or "connect_tcp" in text


def test_without_the_filter_the_token_would_show() -> None:
    """Or the test above proves nothing."""
    stream = io.StringIO()
    handler = logging.StreamHandler(stream)
    logger = logging.getLogger("httpx")
    before = logger.level
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)
    try:
        asyncio.run(_call(b"200 OK", ME))
    finally:
        logger.removeHandler(handler)
        logger.setLevel(before)
    assert SECRET in stream.getvalue()


def test_the_libraries_are_silent_as_a_rule() -> None:
    with logged() as stream:
        asyncio.run(_call(b"200 OK", ME))
        logging.getLogger("telegram.ext.ExtBot").critical("Error while parsing updates! Received data was %r", ["text"])
    assert stream.getvalue() == ""


def test_everything_is_as_it_was_afterwards() -> None:
    root, hooks = logging.getLogger(), (sys.excepthook, threading.excepthook)
    before = root.level, list(root.handlers), logging.getLogger("httpx").level
    with logged():
        assert logging.getLogger("httpx").level == logging.WARNING
    assert (root.level, list(root.handlers), logging.getLogger("httpx").level) == before
    assert (sys.excepthook, threading.excepthook) == hooks


def test_a_url_in_an_error_of_httpx_is_cleaned() -> None:
    with logged() as stream:
        try:
            raise httpx.InvalidURL(f"http://[/bot{TOKEN}/getMe")
        except httpx.InvalidURL:
            fault(_log, "failed")
    assert SECRET not in stream.getvalue()
