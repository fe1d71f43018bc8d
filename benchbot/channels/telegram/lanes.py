"""What comes in from one chat is handled in order, chats side by side."""

from __future__ import annotations

import asyncio
from collections import Counter
from collections.abc import Awaitable
from typing import Any

from telegram.ext import BaseUpdateProcessor

from benchbot.desk.incoming import Incoming

# More than can ever be taken in: the library's own limit must not let one chat's messages hold up the others.
_NO_LIMIT = 100_000


class Lanes(BaseUpdateProcessor):
    """Handles what it is given one after the other in each lane; after `close` nothing more is begun."""

    __slots__ = ("_closed", "_fewer", "_lanes", "_waiting", "pending")

    def __init__(self) -> None:
        super().__init__(_NO_LIMIT)
        self._lanes: dict[str, asyncio.Lock] = {}
        self._waiting: Counter[str] = Counter()
        self._closed = False
        self._fewer = asyncio.Event()
        self.pending = 0

    def expect(self) -> None:
        """One more is on its way here."""
        self.pending += 1

    async def fewer(self) -> None:
        """Waits until one more has been handled."""
        self._fewer.clear()
        await self._fewer.wait()

    def close(self) -> None:
        self._closed = True

    async def do_process_update(self, update: object, coroutine: Awaitable[Any]) -> None:
        assert isinstance(update, Incoming)
        lane = update.lane
        self._waiting[lane] += 1
        try:
            # asyncio.Lock lets in first who came first.
            async with self._lanes.setdefault(lane, asyncio.Lock()):
                if self._closed:
                    # It is on record, and the next process begins with it.
                    _drop(coroutine)
                else:
                    await coroutine
        finally:
            self._waiting[lane] -= 1
            if not self._waiting[lane]:
                del self._waiting[lane], self._lanes[lane]
            self.pending -= 1
            self._fewer.set()

    async def initialize(self) -> None:
        """Nothing to make ready."""

    async def shutdown(self) -> None:
        """Nothing to clear away."""


def _drop(coroutine: Awaitable[Any]) -> None:
    close = getattr(coroutine, "close", None)
    if close is not None:
        # A coroutine that was never begun warns unless it is closed.
        close()
