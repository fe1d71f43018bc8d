"""How often a bot may send: once a second to a chat, thirty times a second in all, twenty times a minute to a group."""

from __future__ import annotations

import math
import time
from collections import deque
from dataclasses import dataclass, field

from .refusals import too_many


@dataclass(slots=True)
class Limits:
    """The figures are those of https://core.telegram.org/bots/faq; they are off until a test asks for them.

    The server's own window and its leniency for short bursts are not published; this one has none.
    """

    on: bool = False
    chat_seconds: float = 1.0
    overall: int = 30
    overall_seconds: float = 1.0
    group: int = 20
    group_seconds: float = 60.0
    _sent: deque[float] = field(default_factory=deque)
    _groups: dict[int, deque[float]] = field(default_factory=dict)
    _last: dict[int, float] = field(default_factory=dict)

    def take(self, chat: int, is_group: bool) -> None:
        """Counts one sending; raises the refusal when it is one too many, which is not counted."""
        if not self.on:
            return
        now = time.monotonic()
        group = self._groups.setdefault(chat, deque()) if is_group else deque()
        waits = (
            self._last.get(chat, -math.inf) + self.chat_seconds - now,
            _wait(self._sent, self.overall, self.overall_seconds, now),
            _wait(group, self.group, self.group_seconds, now),
        )
        if max(waits) > 0:
            raise too_many(math.ceil(max(waits)))
        self._last[chat] = now
        self._sent.append(now)
        group.append(now)


def _wait(stamps: deque[float], count: int, seconds: float, now: float) -> float:
    while stamps and stamps[0] + seconds <= now:
        stamps.popleft()
    return stamps[-count] + seconds - now if len(stamps) >= count else 0.0
