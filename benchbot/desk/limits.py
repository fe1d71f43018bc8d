"""How much one person and one chat may ask in a while, so that a flood from one does not keep the others waiting."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from datetime import datetime

PERSON_A_MINUTE = 30
CHAT_A_MINUTE = 60
# A messenger sends a query for every few letters that are typed.
INLINE_A_MINUTE = 120
_REMEMBERED = 20_000


@dataclass(slots=True)
class _Share:
    """What is left to one person or chat; it fills up again evenly over a minute."""

    left: float
    at: datetime
    warned: bool = False


@dataclass(slots=True)
class Limits:
    """Shared by every desk of one process. An empty name of a person or a chat has no share and is not judged."""

    person_a_minute: int = PERSON_A_MINUTE
    chat_a_minute: int = CHAT_A_MINUTE
    inline_a_minute: int = INLINE_A_MINUTE
    _shares: dict[tuple[str, str], _Share] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def room_for_message(self, person: str, chat: str, now: datetime) -> bool:
        """Takes one message or press off the shares of the person and the chat, when both have one left."""
        return self._take_off((("person", person, self.person_a_minute), ("chat", chat, self.chat_a_minute)), now)

    def room_for_query(self, person: str, now: datetime) -> bool:
        """Takes one inline query off a share of its own: typing one must not use up the questions of the minute."""
        return self._take_off((("inline", person, self.inline_a_minute),), now)

    def is_told(self, person: str, chat: str) -> bool:
        """Whether a line about this flood was posted already."""
        with self._lock:
            return any(share.warned for share in self._empty(person, chat))

    def told(self, person: str, chat: str) -> None:
        """A line about this flood is posted; the next one only after a pause in it."""
        with self._lock:
            for share in self._empty(person, chat):
                share.warned = True

    def _empty(self, person: str, chat: str) -> list[_Share]:
        found = (self._shares.get(key) for key in (("person", person), ("chat", chat)))
        return [share for share in found if share is not None and share.left < 1]

    def _take_off(self, wanted: tuple[tuple[str, str, int], ...], now: datetime) -> bool:
        with self._lock:
            shares = [(self._share(kind, name, most, now), most) for kind, name, most in wanted if name]
            if any(share.left < 1 for share, _ in shares):
                return False
            for share, most in shares:
                # one line a flood, not one whenever there is room for a single message again
                share.warned = share.warned and share.left < most / 2
                share.left -= 1
            return True

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
