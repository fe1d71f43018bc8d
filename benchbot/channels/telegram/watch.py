"""Watches that polling goes on, tells others that it does, and ends the process when it does not."""

from __future__ import annotations

import json
import logging
import os
import socket
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from benchbot.channels.telegram.leaving import AGAIN
from benchbot.channels.telegram.logs import event
from benchbot.places import Home

_log = logging.getLogger(__name__)

# So much is left to a process that ends, before it is ended.
GRACE_SECONDS = 15.0
_TELL_SECONDS = 10.0


def alive_file(home: Home) -> Path:
    return home.folder / "telegram.alive"


@dataclass(frozen=True, slots=True)
class Alive:
    """What a running process wrote last. polled_at: its last good poll; counts: such as sent, refused."""

    pid: int
    bot: str
    polled_at: datetime
    counts: dict[str, int]

    @classmethod
    def read(cls, home: Home) -> Alive | None:
        """None when no process runs here, or none has polled yet."""
        try:
            plain: dict[str, Any] = json.loads(alive_file(home).read_text(encoding="utf-8"))
            return cls(
                int(plain["pid"]), str(plain["bot"]), datetime.fromisoformat(plain["polled_at"]), dict(plain["counts"])
            )
        except (OSError, ValueError, KeyError, TypeError):
            return None


def tell_supervisor(word: str, settings: Mapping[str, str] = os.environ) -> None:
    """Sends "READY=1" and the like to systemd (sd_notify(3)) when it listens; it is no fault when nobody does."""
    named = settings.get("NOTIFY_SOCKET", "")
    if not named or not hasattr(socket, "AF_UNIX"):
        return
    address = "\0" + named[1:] if named.startswith("@") else named
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as line:
        line.settimeout(1.0)
        try:
            line.sendto(word.encode(), address)
        except OSError as error:
            event(_log, "the supervisor does not listen", logging.WARNING, why=error)


class Watch:
    """Knows when the last good poll was. limit: seconds without one after which polling counts as dead."""

    def __init__(
        self,
        home: Home,
        bot: str,
        limit: float,
        clock: Callable[[], datetime],
        seconds: Callable[[], float] = time.monotonic,
        tell: Callable[[str], None] = tell_supervisor,
    ) -> None:
        self._file = alive_file(home)
        self._bot = bot
        self._limit = limit
        self._clock = clock
        self._seconds = seconds
        self._tell = tell
        self._last = seconds()
        self._ready = False
        self._told: float | None = None

    def good_poll(self, counts: Mapping[str, int]) -> None:
        """A poll came back and what it brought is on record."""
        self.going_on()
        if not self._ready:
            self._ready = True
            self._tell("READY=1")
        self._tell("WATCHDOG=1")
        if self._told is None or self._last - self._told >= _TELL_SECONDS:
            self._told = self._last
            self._write(counts)

    def going_on(self) -> None:
        """No poll, but work that polling has to wait for was done."""
        self._last = self._seconds()

    @property
    def overdue(self) -> bool:
        return self._seconds() - self._last > self._limit

    def end(self) -> None:
        """The process ends as it should."""
        self._tell("STOPPING=1")
        self._file.unlink(missing_ok=True)

    def _write(self, counts: Mapping[str, int]) -> None:
        plain = {
            "pid": os.getpid(),
            "bot": self._bot,
            "polled_at": self._clock().isoformat(),
            "counts": dict(counts),
        }
        fresh = self._file.with_suffix(".alive.new")
        try:
            fresh.write_text(json.dumps(plain), encoding="utf-8")
            fresh.replace(self._file)
        except OSError as error:
            event(_log, "the time of the last good poll cannot be written", logging.WARNING, why=error)


class Guard:
    """A thread of its own, so that even an event loop that hangs is noticed and ended."""

    def __init__(
        self,
        watch: Watch,
        leave: Callable[[int], object] = os._exit,
        seconds: Callable[[], float] = time.monotonic,
    ) -> None:
        self._watch = watch
        self._stop: Callable[[], object] | None = None
        self._leave = leave
        self._seconds = seconds
        self._leaving: tuple[int, float] | None = None
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._stand, name="guard", daemon=True)

    def start(self, stop: Callable[[], object]) -> None:
        """stop: asks the process to end; called from the guard's own thread."""
        self._stop = stop
        self._thread.start()

    def over(self) -> None:
        """Nothing needs to be guarded any more."""
        self._over.set()

    def hurry(self, code: int) -> None:
        """The process is ending; it gets GRACE_SECONDS, then it is ended with this code."""
        if self._leaving is None:
            self._leaving = code, self._seconds() + GRACE_SECONDS

    def look(self) -> None:
        """One look, as the thread takes it every second."""
        if self._leaving is not None:
            code, at = self._leaving
            if self._seconds() >= at:
                self._leave(code)
        elif self._watch.overdue:
            self.hurry(AGAIN)
            if self._stop is not None:
                self._stop()

    def _stand(self) -> None:
        while not self._over.wait(1.0):
            self.look()
