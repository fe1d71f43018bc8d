"""One process of the bot as a test sees it: its log line by line as it comes, its end.

Started by its path this is the bot itself, with less patience than a shop's, and with a clock that a test sets.
"""

from __future__ import annotations

import json
import logging
import os
import signal
import subprocess
import sys
import threading
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any

SECONDS = 20.0  # a busy machine must not fail a test
SEND_SECONDS = 3.0  # how long a call may take when the bot is started by this file
CLOCK = "BENCHBOT_TEST_CLOCK"


class Log:
    """What the process writes, line by line as it comes; `wait` returns as soon as a line is there."""

    def __init__(self, stream: IO[str]) -> None:
        self.lines: list[dict[str, Any]] = []
        self.text = ""
        self._more = threading.Condition()
        self._thread = threading.Thread(target=self._read, args=(stream,), daemon=True)
        self._thread.start()

    def _read(self, stream: IO[str]) -> None:
        with stream:
            for line in stream:
                plain = json.loads(line) if line.startswith("{") else {"level": "", "event": line.rstrip("\n")}
                with self._more:
                    self.text += line
                    self.lines.append(plain)
                    self._more.notify_all()

    def wait(self, event: str, times: int = 1, since: int = 0, **facts: Any) -> dict[str, Any]:
        """The line that tells of the event with these facts, or the last of so many. since: lines to leave out."""

        def found() -> list[dict[str, Any]]:
            wanted = {"event": event, **facts}
            return [one for one in self.lines[since:] if wanted.items() <= one.items()]

        with self._more:
            if not self._more.wait_for(lambda: len(found()) >= times, SECONDS):
                raise AssertionError(f"not in the log: {event} {facts}\n{self.text}")
            return found()[times - 1]

    def pause(self) -> None:
        """Until the next line, or a moment."""
        with self._more:
            self._more.wait(0.02)

    def end(self) -> None:
        """Until the process has closed it."""
        self._thread.join(SECONDS)


@dataclass(slots=True)
class Running:
    """One process of the bot."""

    process: subprocess.Popen[str]
    log: Log

    def stop(self, how: int = signal.SIGTERM) -> int:
        """Its exit code."""
        self.process.send_signal(how)
        return self.ended()

    def ended(self) -> int:
        """Waits until it has ended by itself; its exit code."""
        try:
            code = self.process.wait(SECONDS)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
            raise
        self.log.end()
        return code


def moment_in(file: Path) -> datetime:
    return datetime.fromisoformat(file.read_text(encoding="utf-8"))


def main() -> int:
    """The bot with less patience, with httpx telling all, and with the clock of the file that a variable may name."""
    from benchbot.channels.telegram.logs import logging_to
    from benchbot.channels.telegram.running import run
    from benchbot.channels.telegram.settings import Settings, read_api_url
    from benchbot.places import home

    clock = os.environ.get(CLOCK, "")
    settings = Settings(
        os.environ["BENCHBOT_TELEGRAM_TOKEN"], read_api_url(os.environ), polling_seconds=10, send_seconds=SEND_SECONDS
    )
    with logging_to(sys.stderr, settings.token, as_json=True):
        # Where it would show the token: this line of httpx tells the whole URL of every call.
        logging.getLogger("httpx").setLevel(logging.INFO)
        return run(settings, home(), lambda: moment_in(Path(clock)) if clock else datetime.now(UTC))


if __name__ == "__main__":
    sys.exit(main())
