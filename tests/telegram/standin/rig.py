"""A stand-in and a python-telegram-bot Bot that talks to it over HTTP, for the tests of the stand-in itself."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Coroutine
from contextlib import suppress
from dataclasses import dataclass
from types import TracebackType
from typing import Any

from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup, Update
from telegram.error import BadRequest, TelegramError
from telegram.request import HTTPXRequest

from .client import StandIn

ANN, BOB, OTHER_BOT = 501, 502, 601
SHOP, FORUM, SMALL = -100200, -100300, -400


@dataclass(frozen=True, slots=True)
class Refused:
    """What the bot was told in place of a result."""

    kind: type[TelegramError]
    text: str


def bad(text: str) -> Refused:
    """The server's words as the library tells them: with a capital letter, and no other."""
    return Refused(BadRequest, text.capitalize())


class Rig:
    """One event loop for all calls of the bot, which run one after the other unless a test gathers them."""

    def __init__(self, *words: str) -> None:
        self.server = StandIn.start(*words)
        self.runner = asyncio.Runner()
        self.bot = self.new_bot()
        self.offset = 0
        self.run(self.bot.initialize())

    def new_bot(self, token: str = "", read_timeout: float = 5.0) -> Bot:
        return Bot(
            token or self.server.token,
            base_url=self.server.api_url,
            base_file_url=self.server.file_url,
            # Reading the certificates of the system takes longer than a test.
            request=HTTPXRequest(read_timeout=read_timeout, httpx_kwargs={"verify": False}),
            get_updates_request=HTTPXRequest(read_timeout=read_timeout, httpx_kwargs={"verify": False}),
        )

    def __enter__(self) -> Rig:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.run(self.bot.shutdown())
        self.runner.close()
        self.server.__exit__(kind, fault, at)

    def people(self) -> Rig:
        """Begins anew with Ann and Bob, a shop's group with both, a forum, and a small group."""
        self.server.reset()
        self.offset = 0
        self.server.person(ANN, "Ann", "ann_bay")
        self.server.person(BOB, "Bob")
        self.server.person(OTHER_BOT, "Other", "OtherBot", is_bot=True)
        self.server.group(SHOP, (ANN, BOB, OTHER_BOT), "Shop")
        self.server.group(FORUM, (ANN, BOB), "Bays", forum=True)
        self.server.group(SMALL, (ANN, BOB), "Night shift", supergroup=False)
        return self

    def run(self, call: Coroutine[Any, Any, Any]) -> Any:
        return self.runner.run(call)

    def refusal(self, call: Coroutine[Any, Any, Any]) -> Refused:
        try:
            result = self.run(call)
        except TelegramError as fault:
            return Refused(type(fault), fault.message)
        raise AssertionError(f"not refused: {result}")

    def updates(self, **given: Any) -> list[Any]:
        """Fetches what waits and confirms what was fetched before."""
        found: tuple[Update, ...] = self.run(self.bot.get_updates(offset=self.offset, **given))
        if found:
            self.offset = found[-1].update_id + 1
        return list(found)

    def one(self) -> Any:
        found = self.updates()
        assert len(found) == 1, found
        return found[0]

    async def aside(self, order: Any, *words: Any, **given: Any) -> Any:
        """Gives an order to the stand-in while calls of the bot are under way."""
        return await asyncio.to_thread(order, *words, **given)


async def ended(task: asyncio.Task[Any]) -> None:
    task.cancel()
    with suppress(asyncio.CancelledError):
        await task


def keyboard(*rows: list[tuple[str, str]]) -> InlineKeyboardMarkup:
    """Rows of labels and data."""
    return InlineKeyboardMarkup(
        [[InlineKeyboardButton(label, callback_data=data) for label, data in row] for row in rows]
    )


def seconds_of(rig: Rig, call: Coroutine[Any, Any, Any]) -> float:
    began = time.monotonic()
    rig.run(call)
    return time.monotonic() - began
