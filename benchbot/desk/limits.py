"""How much one person and one chat may ask in a while, so that a flood from one does not keep the others waiting."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

Judged = Literal["fine", "first too many", "too many"]

PERSON_A_MINUTE = 30
CHAT_A_MINUTE = 60
_REMEMBERED = 20_000


@dataclass(slots=True)
class _Share:
    """What is left to one person or chat; it fills up again evenly over a minute."""

    left: float
    at: datetime
    warned: bool = False


@dataclass(slots=True)
class Limits:
    """Shared by every desk of one process."""

    person_a_minute: int = PERSON_A_MINUTE
    chat_a_minute: int = CHAT_A_MINUTE
    _shares: dict[tuple[str, str], _Share] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def judge(self, person: str, chat: str, now: datetime) -> Judged:
        """Takes one message off the shares of the person and the chat."""
        with self._lock:
            shares = (
                self._share("person", person, self.person_a_minute, now),
                self._share("chat", chat, self.chat_a_minute, now),
            )
            empty = [share for share in shares if share.left < 1]
            if empty:
                first = not any(share.warned for share in empty)
                for share in empty:
                    share.warned = True
                return "first too many" if first else "too many"
            for share, a_minute in zip(shares, (self.person_a_minute, self.chat_a_minute), strict=True):
                # one line a flood, not one whenever there is room for a single message again
                share.warned = share.warned and share.left < a_minute / 2
                share.left -= 1
            return "fine"

    def _share(self, kind: str, name: str, a_minute: int, now: datetime) -> _Share:
        share = self._shares.get((kind, name))
        if share is None:
            if len(self._shares) >= _REMEMBERED:
                self._drop_the_full(now)
            share = self._shares[kind, name] = _Share(a_minute, now)
            return share
        gone = max(0.0, (now - share.at).total_seconds())
        share.left = min(a_minute, share.left + gone * a_minute / 60)
        share.at = now
        return share

    def _drop_the_full(self, now: datetime) -> None:
        """Whoever was silent for a minute has their whole share again and need not be remembered."""
        silent = [key for key, share in self._shares.items() if (now - share.at).total_seconds() >= 60]
        for key in silent or list(self._shares)[: _REMEMBERED // 2]:
            del self._shares[key]
