"""The day on the phones of a shop: the running bot over HTTP, with a server that stands in for the messenger's."""

from __future__ import annotations

import subprocess
import sys
import time
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import ClassVar

from running_bot import CLOCK, SECONDS, Log, Running
from script import MORNING, Person
from shop import Phone, Shop
from stage import KILLED, MOVED, Stage
from standin.looks import Shown

from benchbot.records.entry import moment

FOUNDER = "telegram 1"
IN_HAND = """
SELECT (SELECT count(*) FROM arrival WHERE handled_at = '')
     + (SELECT count(*) FROM sending WHERE state IN ('waiting', 'sending'))
     + (SELECT count(*) FROM errand WHERE state = 'waiting' AND not_before <= :now)
"""
OPEN = """
SELECT 'in', body FROM arrival WHERE handled_at = ''
UNION ALL SELECT 'out', body FROM sending WHERE state IN ('waiting', 'sending')
UNION ALL SELECT what, body FROM errand WHERE state = 'waiting'
"""


@dataclass
class Phones(Stage):
    """The clock of the bot stands still until the test moves it, by a minute for each thing that somebody does."""

    copies: ClassVar[int] = 2
    shop: Shop = field(kw_only=True)
    phones: dict[str, Phone] = field(default_factory=dict)

    def begin(self) -> None:
        self.shop.set_clock(MORNING)
        self.move_clock(MORNING)
        self._start()

    def join(self, one: Person) -> None:
        phone = self.shop.newcomer(one.name)
        self.phones[one.name] = phone
        assert phone.say(f"/start {self.code(one)}").text.startswith("You are in")
        if one.role == "owner":
            self.own_all(f"telegram {phone.person}", one, FOUNDER)
        self.settle()

    def say(self, who: str, text: str) -> None:
        self._a_minute_later()
        self.phones[who].write(text)
        self.settle()

    def press(self, who: str, label: str, on: str) -> None:
        self._a_minute_later()
        phone = self.phones[who]
        found = [one for one in phone.shown if label in one.labels and on in one.text]
        assert found, f"{who} has no button {label!r}: {[(one.text, one.labels) for one in phone.shown[-4:]]}"
        phone.server.press(phone.chat, found[-1].id, label, "", phone.person)
        self.settle()

    def send_page(self, who: str, file: Path) -> None:
        self._a_minute_later()
        self.phones[who].show("photo", content=file.read_bytes())
        self.settle()

    def messages(self, who: str) -> list[str]:
        return [one.text for one in self._shown(who)]

    def kill(self, who: str) -> None:
        assert self.shop.stop(KILLED * -1) == KILLED
        self._start()
        self.settle()

    def revived(self) -> bool:
        if self._running.process.poll() is None:
            return False
        assert self._running.ended() == KILLED
        self.shop.server.wait_for(polling=False, seconds=SECONDS)
        self._start()
        self.settle()
        return True

    def comes(self, moment: datetime) -> None:
        self.shop.set_clock(moment)
        self.move_clock(moment)
        self.settle()

    def settle(self) -> None:
        """Until nothing is in hand, or the process has died."""
        until = time.monotonic() + SECONDS
        while self._running.process.poll() is None:
            server = self.shop.server.state()
            if server["pending"] == 0 and self.rows(IN_HAND, now=moment(self.shop.now())) == [(0,)]:
                return
            assert time.monotonic() < until, f"stays in hand: {self.rows(OPEN)}\n{self.shop.log.text}"
            self.shop.log.pause()

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        """The clock of a command runs on."""
        done = super().run(*words)
        self._a_minute_later()
        return done

    def mortals(self) -> list[str]:
        return ["bot", "desk"]

    @property
    def _running(self) -> Running:
        return self.shop.bots[-1]

    def _shown(self, who: str) -> list[Shown]:
        return self.phones[who].shown

    def _a_minute_later(self) -> None:
        now = self.shop.now() + timedelta(minutes=1)
        self.shop.set_clock(now)
        self.move_clock(now)

    def _start(self) -> None:
        settings = self.shop.settings | self.settings("bot") | {CLOCK: str(self.shop.folder / "clock")}
        process = subprocess.Popen(
            [sys.executable, str(MOVED), "--phones"], env=settings, stderr=subprocess.PIPE, text=True,
            encoding="utf-8", errors="replace",
        )  # fmt: skip
        assert process.stderr is not None
        self.shop.bots.append(Running(process, Log(process.stderr)))
        self.shop.server.wait_for(polling=True, seconds=SECONDS)
