"""The bot as a process of its own at one of the servers, and its log."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from benchbot.places import Home

_TELEGRAM_TESTS = Path(__file__).parent.parent
_SECONDS = 10.0


class Bot:
    """The running process."""

    def __init__(self, process: subprocess.Popen[bytes], log: Path) -> None:
        self._process = process
        self._log = log

    def until(self, met: Callable[[], bool]) -> None:
        """Waits until something holds; fails when it does not in time, or when the bot ends instead."""
        last = time.monotonic() + _SECONDS
        while not met():
            if self._process.poll() is not None:
                pytest.fail(f"the bot ended with {self._process.returncode}:\n{self._said()}")
            if time.monotonic() > last:
                pytest.fail(f"it did not come to pass within {_SECONDS:.0f} s; the bot says:\n{self._said()}")
            time.sleep(0.05)

    def stop(self) -> int:
        """Asks it to stop; its exit code."""
        self._process.send_signal(signal.SIGTERM)
        return self._process.wait(2 * _SECONDS)

    def log(self) -> list[dict[str, Any]]:
        """What it logged; anything else that it printed, such as a warning, is none of its lines and fails."""
        return [json.loads(line) for line in self._said().splitlines()]

    def _said(self) -> str:
        return self._log.read_text(encoding="utf-8")


@contextmanager
def running(way: str, home: Home, url: str, token: str) -> Iterator[Bot]:
    """way: polling or webhook. url: the server's; the token's number is the one that the server gives the bot."""
    log = home.folder / "bot.log"
    surroundings = {name: value for name, value in os.environ.items() if not name.startswith("BENCHBOT_")} | {
        "BENCHBOT_HOME": str(home.folder),
        "BENCHBOT_TELEGRAM_TOKEN": token,
        "BENCHBOT_TELEGRAM_API_URL": url,
        "NO_PROXY": "127.0.0.1",
        "PYTHONPATH": str(_TELEGRAM_TESTS),
    }
    command = [sys.executable, "-W", "error", "-m", "foreign.bot", way]
    with (
        log.open("wb") as said,
        subprocess.Popen(
            command, cwd=home.folder, env=surroundings, stdin=subprocess.PIPE, stdout=said, stderr=said
        ) as process,
    ):
        try:
            yield Bot(process, log)
        finally:
            if process.poll() is None:
                process.kill()
