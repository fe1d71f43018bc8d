"""Runs the bot as its command does, with the connections and the way in that one of the servers needs."""

from __future__ import annotations

import os
import sys
import threading
from unittest.mock import patch

from benchbot.__main__ import main
from benchbot.channels.telegram import calls, polling, service
from foreign.inlet import Inlet
from foreign.lines import Mended, WithMenus

_TEST_IS_GONE = 3


def run(way: str) -> int:
    """way: polling or webhook. The exit code of the command."""
    line, taker = (Mended, polling.Poller) if way == "polling" else (WithMenus, Inlet)
    with patch.object(calls, "Line", line), patch.object(service, "Poller", taker):
        return main(["telegram", "--log-json"])


def _end_with_the_test() -> None:
    """However the test ends, its end of our standard input is closed then."""
    os.read(sys.stdin.fileno(), 1)
    os._exit(_TEST_IS_GONE)


if __name__ == "__main__":
    threading.Thread(target=_end_with_the_test, daemon=True).start()
    sys.exit(run(sys.argv[1]))
