"""Why and how the process ends: one reason, the first that came, and its exit code."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

# What a supervisor reads: start again after AGAIN only (it is EX_TEMPFAIL of sysexits.h); ACT needs a person first.
ASKED, ACT, USAGE, AGAIN = 0, 1, 2, 75

Leave = Callable[[int, str], None]


class Leaving:
    """Waits for the first reason to end; later ones change nothing."""

    def __init__(self) -> None:
        self._reason: asyncio.Future[tuple[int, str]] = asyncio.get_running_loop().create_future()

    def __call__(self, code: int, why: str) -> None:
        if not self._reason.done():
            self._reason.set_result((code, why))

    async def reason(self) -> tuple[int, str]:
        """The exit code and why, as soon as there is one."""
        return await asyncio.shield(self._reason)
