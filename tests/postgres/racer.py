"""One of two processes that work on one record at the same moment; says on a line what it did."""

from __future__ import annotations

import json
import os
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from benchbot.following.errands import run_due
from benchbot.people import invites
from benchbot.people.terms import Joined
from benchbot.places import Home
from benchbot.records import outbox
from benchbot.records.entry import Entry
from benchbot.records.record import Record, open_record

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
BOT = "900"


def send(record: Record, who: str) -> object:
    """Sends until all is sent, also what the other holds just now; what it sent, in order."""
    done: list[tuple[str, str]] = []
    while outbox.waiting(record):
        for one in outbox.claim(record, BOT, (), NOW, 3):
            done.append((one.chat, one.body))
            outbox.sent(record, one.number, f"{who}{one.number}", NOW)
    return done


def put(record: Record, who: str) -> object:
    """The same messages as the other puts on record; how many were new to it."""
    return sum(
        record.put(Entry("chat", who, str(number), "a question", NOW, "other", "{}", "[]")).fresh
        for number in range(40)
    )


def redeem(record: Record, who: str) -> object:
    """Tries the codes that lie ready; how many let it in."""
    codes = Path("codes.txt").read_text(encoding="utf-8").split()
    return sum(isinstance(invites.redeem(record, code, f"telegram {who}", who, NOW), Joined) for code in codes)


def errands(record: Record, who: str) -> object:
    """Does what is due until nothing is; what it did."""
    done, until = [], time.monotonic() + 30
    left = "SELECT count(*) FROM errand WHERE state = 'waiting' AND not_before <= :now"
    while record.row(left, {"now": NOW.isoformat(timespec="microseconds")}) != (0,) and time.monotonic() < until:
        done += [(one.what, one.state, one.why) for one in run_due(Home(Path.cwd()), lambda: NOW, record)]
    return done


RACES: dict[str, Callable[[Record, str], object]] = {
    "send": send, "put": put, "redeem": redeem, "errands": errands,
}  # fmt: skip

if __name__ == "__main__":
    # a line each: a race, and then the word to go
    for line in sys.stdin:
        what, who, folder, url = json.loads(line)
        os.chdir(folder)
        os.environ["BENCHBOT_DATABASE_URL"] = url
        with open_record(url) as opened:
            print("ready", flush=True)
            sys.stdin.readline()
            print(json.dumps(RACES[what](opened, who)), flush=True)
