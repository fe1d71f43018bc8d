"""Does what was asked for and takes longer than an answer, on a thread of its own beside the desks."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable
from datetime import datetime

from benchbot.channels.telegram.logs import event, fault
from benchbot.channels.telegram.threads import Seat
from benchbot.errors import BenchbotError
from benchbot.following.errands import run_due
from benchbot.places import Home
from benchbot.records.record import Record

_LOOK_AGAIN = 1.0

_log = logging.getLogger(__name__)


class Runner:
    """`run` until it is cancelled; an errand that was begun is finished on its thread all the same.

    seat: a thread with a record of its own. wake: something new may wait to be sent.
    """

    def __init__(
        self,
        seat: Seat[Record],
        home: Home,
        wake: Callable[[], None],
        clock: Callable[[], datetime],
        sleep: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        self._seat = seat
        self._home = home
        self._wake = wake
        self._clock = clock
        self._sleep = sleep

    async def run(self) -> None:
        while True:
            await self.once()
            await self._sleep(_LOOK_AGAIN)

    async def once(self) -> None:
        """Everything that is due now."""
        try:
            done = await self._seat.do(lambda record: run_due(self._home, self._clock, record))
        except BenchbotError as error:
            event(_log, "the errands cannot be looked after", logging.ERROR, why=error)
        except Exception:  # A fault of ours here must not end the answers.
            fault(_log, "the errands cannot be looked after by a fault of ours")
        else:
            for one in done:
                level = logging.INFO if one.state == "done" else logging.ERROR
                event(_log, f"an errand is {one.state}", level, what=one.what, number=one.number, why=one.why)
            if done:
                self._wake()
