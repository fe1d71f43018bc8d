"""The bot as a shop runs it: `benchbot telegram` in a process of its own, on a home with members, over HTTP."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import USES_AT_MOST, Joined, Location, Role
from benchbot.places import Home
from benchbot.records.record import Record, open_record

SHOP = "North bay"
STOP_SECONDS = 30.0


def let_in(home: Home, owner: int, roles: Mapping[Role, Sequence[int]], name: str = SHOP) -> None:
    """Makes a location with its owner and other members, by the numbers that the messenger has for them."""
    now = datetime.now(UTC)
    with open_record(f"sqlite:///{home.record}") as record, record.writing():
        location = People(record).add_location(name, f"telegram {owner}", now)
        assert isinstance(location, Location)
        for role, numbers in roles.items():
            for at in range(0, len(numbers), USES_AT_MOST):
                _redeem(record, location, role, numbers[at : at + USES_AT_MOST], now)


def _redeem(record: Record, location: Location, role: Role, numbers: Sequence[int], now: datetime) -> None:
    _, code = invites.make(record, location.number, role, len(numbers), 1, "test", now)
    for number in numbers:
        came = invites.redeem(record, code, f"telegram {number}", person_name(number), now)
        assert isinstance(came, Joined), came


def person_name(number: int) -> str:
    """As the messenger shows them."""
    return f"Tech {number}"


@dataclass(slots=True)
class BotProcess:
    """One run of the program. log: what it wrote, one JSON object a line."""

    process: subprocess.Popen[bytes]
    log: Path
    began: float = field(default_factory=time.monotonic)

    @classmethod
    def start(cls, home: Home, url: str, token: str, log: Path, *words: str) -> BotProcess:
        """words: further ones of its command line."""
        given = {name: value for name, value in os.environ.items() if not name.startswith("BENCHBOT_")}
        given |= {"BENCHBOT_HOME": str(home.folder), "BENCHBOT_TELEGRAM_API_URL": url, "BENCHBOT_TELEGRAM_TOKEN": token}
        # The lock of a token lies in the folder for temporary files; tests side by side have the same token.
        given["TMPDIR"] = str(home.folder)
        command = [sys.executable, "-m", "benchbot", "telegram", "--log-json", *words]
        with log.open("wb") as file:
            return cls(subprocess.Popen(command, stdin=subprocess.DEVNULL, stderr=file, env=given), log)

    @property
    def pid(self) -> int:
        return self.process.pid

    @property
    def running(self) -> bool:
        return self.process.poll() is None

    def kill(self) -> None:
        """At once, wherever it is."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def stop(self) -> int:
        """As a supervisor stops it; its exit code."""
        self.process.send_signal(signal.SIGTERM)
        try:
            return self.process.wait(STOP_SECONDS)
        except subprocess.TimeoutExpired:
            self.kill()
            raise

    def events(self) -> list[dict[str, Any]]:
        """What it logged; a line that it was killed in is left out."""
        lines = self.log.read_bytes().split(b"\n")[:-1]
        return [json.loads(line) for line in lines]
