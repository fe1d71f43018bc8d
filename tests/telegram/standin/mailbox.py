"""The updates that wait for the bot: numbered, handed out, dropped when the next offset confirms them."""

from __future__ import annotations

import asyncio
from collections import deque
from dataclasses import dataclass
from typing import Any

# https://core.telegram.org/bots/api#getupdates: what a bot gets that never named its kinds.
NOT_BY_DEFAULT = {"chat_member", "message_reaction", "message_reaction_count"}
AT_MOST = 100


@dataclass(slots=True)
class _Waiting:
    number: int
    body: dict[str, Any]
    again: int = 0


class Mailbox:
    """again: the next updates handed out come once more after they were confirmed.

    deaf: so many confirmations are overheard, and what they confirmed comes again.
    """

    def __init__(self, first: int = 700_000_001) -> None:
        self._next = first
        self._waiting: deque[_Waiting] = deque()
        self._again: deque[_Waiting] = deque()
        self._kinds: set[str] | None = None
        self.again = 0
        self.deaf = 0
        self.poller: asyncio.Future[bool] | None = None

    def allow(self, kinds: list[str]) -> None:
        """Holds for what happens from now on; an empty list means the kinds by default."""
        self._kinds = set(kinds) or None

    @property
    def next(self) -> int:
        """The number that the next update will have."""
        return self._next

    @property
    def allowed(self) -> list[str]:
        return sorted(self._kinds or ())

    @property
    def pending(self) -> int:
        return len(self._waiting) + len(self._again)

    def wants(self, kind: str) -> bool:
        return kind in self._kinds if self._kinds else kind not in NOT_BY_DEFAULT

    def put(self, kind: str, body: dict[str, Any]) -> int | None:
        """Returns the number of the update, or None when the bot does not want its kind."""
        if not self.wants(kind):
            return None
        number = self._next
        self._next += 1
        self._waiting.append(_Waiting(number, {"update_id": number, kind: body}))
        if self.poller is not None and not self.poller.done():
            self.poller.set_result(True)
        return number

    def clear(self) -> None:
        self._waiting.clear()
        self._again.clear()

    def take(self, offset: int, limit: int) -> list[dict[str, Any]]:
        self._confirm(offset)
        found: list[dict[str, Any]] = []
        while self._again and len(found) < limit:
            found.append(self._again.popleft().body)
        for one in self._waiting:
            if len(found) >= limit:
                break
            if self.again:
                self.again -= 1
                one.again += 1
            found.append(one.body)
        return found

    def _confirm(self, offset: int) -> None:
        waiting = self._waiting
        if offset < 0:
            while len(waiting) > -offset:
                waiting.popleft()
            return
        if self.deaf and waiting and waiting[0].number < offset:
            self.deaf -= 1
            return
        while waiting and waiting[0].number < offset:
            one = waiting.popleft()
            if one.again:
                one.again -= 1
                self._again.append(one)

    def stand_in_line(self) -> asyncio.Future[bool]:
        """Becomes the poll that waits; one that waited before has to give way."""
        self.dislodge()
        self.poller = asyncio.get_running_loop().create_future()
        return self.poller

    async def wait(self, poller: asyncio.Future[bool], seconds: float) -> bool:
        """Waits for an update. Returns False when another poll took the place of this one."""
        try:
            return await asyncio.wait_for(poller, seconds)
        except TimeoutError:
            return True
        finally:
            if self.poller is poller:
                self.poller = None

    def dislodge(self) -> None:
        """Server source, abort_long_poll: the poll that waits is the one that is refused."""
        if self.poller is not None and not self.poller.done():
            self.poller.set_result(False)
