"""A shop on the messenger: the running bot in a process of its own, the stand-in that it talks to, people's phones."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

from parts import fresh_home, record_of
from running_bot import CLOCK, SECONDS, Log, Running, moment_in
from standin.client import StandIn
from standin.looks import InlineAnswer, Made, Shown

from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Location, Role
from benchbot.places import Home
from benchbot.records.record import Record

BENCHBOT = (sys.executable, "-m", "benchbot")
NOBODY = 1  # owns every location that has no other owner
IN_HAND = """
SELECT (SELECT count(*) FROM arrival WHERE handled_at = '')
     + (SELECT count(*) FROM sending WHERE state IN ('waiting', 'sending'))
"""

_persons = count(501)
_groups = count(1)


@dataclass(slots=True)
class Shop:
    """A home, its record as the test sees it, and the server. Everything that a test asks for waits, nothing sleeps."""

    folder: Path
    home: Home
    server: StandIn
    record: Record
    people: People
    bots: list[Running] = field(default_factory=list)
    codes: list[str] = field(default_factory=list)
    _refused: int = 0
    _read: int = 0

    # The process

    @property
    def log(self) -> Log:
        return self.bots[-1].log

    @property
    def settings(self) -> dict[str, str]:
        """The environment of every process of this shop; locks are its own, so that shops do not disturb each other."""
        others = ("BENCHBOT_", "NOTIFY_SOCKET")
        kept = {name: value for name, value in os.environ.items() if not name.startswith(others)}
        return kept | {
            "BENCHBOT_HOME": str(self.home.folder),
            "BENCHBOT_TELEGRAM_TOKEN": self.server.token,
            "BENCHBOT_TELEGRAM_API_URL": self.server.url,
            "TMPDIR": str(self.folder),
            "NO_PROXY": "*",
        }

    def command(self, *words: str) -> subprocess.CompletedProcess[str]:
        """What a command of this shop prints."""
        return subprocess.run(
            [*BENCHBOT, *words], env=self.settings, capture_output=True, text=True, encoding="utf-8", check=False
        )

    def launch(self, *words: str, at: datetime | None = None, hasty: bool = False, **settings: str) -> Running:
        """Begins a process. at: with a clock that says this; hasty: with SEND_SECONDS of patience."""
        line = [*BENCHBOT, "telegram", "--log-json", "--polling-timeout", "10", *words]
        if at is not None:
            self.set_clock(at)
            settings = {CLOCK: str(self._clock), **settings}
        if at is not None or hasty:
            line = [sys.executable, str(Path(__file__).with_name("running_bot.py"))]
        process = subprocess.Popen(
            line, env=self.settings | settings, stderr=subprocess.PIPE, text=True, encoding="utf-8", errors="replace"
        )
        assert process.stderr is not None
        self.bots.append(Running(process, Log(process.stderr)))
        self._read = 0
        return self.bots[-1]

    def start(self, *words: str, at: datetime | None = None, hasty: bool = False) -> Running:
        """Begins a process and waits until it polls."""
        running = self.launch(*words, at=at, hasty=hasty)
        self.server.wait_for(polling=True, seconds=SECONDS)
        return running

    def stop(self, how: int = signal.SIGTERM) -> int:
        """Ends the process; its exit code."""
        code = self.bots[-1].stop(how)
        self.server.wait_for(polling=False, seconds=SECONDS)
        return code

    @property
    def _clock(self) -> Path:
        return self.folder / "clock"

    def set_clock(self, moment: datetime) -> None:
        """What the process and the server take for now."""
        fresh = self._clock.with_suffix(".new")
        fresh.write_text(moment.isoformat(), encoding="utf-8")
        fresh.replace(self._clock)
        self.server.settings(clock=int(moment.timestamp()))

    def settle(self) -> None:
        """Until all that came was handled and all that waits was sent."""
        self.server.wait_for(pending=0, seconds=SECONDS)
        until = time.monotonic() + SECONDS
        while self.rows(IN_HAND) != [(0,)]:
            assert time.monotonic() < until, f"something stays in hand\n{self.log.text}"
            self.log.pause()

    # What went wrong; a test that is about it takes it, and nothing may be left when it ends

    def refusals(self) -> list[str]:
        """The calls that the server refused since the last look."""
        refused = self.server.refused()
        new, self._refused = refused[self._refused :], len(refused)
        return [f"{call.method}: {call.description}" for call in new]

    def faults(self) -> list[str]:
        """The errors in the log since the last look."""
        lines = self.log.lines if self.bots else []
        new, self._read = lines[self._read :], len(lines)
        return [f"{one['event']}: {one.get('why', '')}" for one in new if one["level"] in ("error", "critical")]

    @contextmanager
    def looked_after(self) -> Iterator[Shop]:
        """One test: nothing of it goes on afterwards, and the server had nothing to refuse."""
        yield self
        if self.bots and self.bots[-1].process.poll() is None:
            self.settle()
        left = self.refusals(), self.faults(), self.server.state()["outstanding"]
        self.server.clear_faults()
        assert left == ([], [], 0), "refused calls, errors in the log, ordered faults that never happened"

    def close(self) -> None:
        """Ends everything; neither the token nor a code may stand in any log."""
        running = [one for one in self.bots if one.process.poll() is None]
        codes = [one.stop() for one in running]
        self.record.close()
        written = "".join(one.log.text for one in self.bots)
        assert codes == [0] * len(running), written
        assert self.server.token.partition(":")[2] not in written
        assert [code for code in self.codes if code in written or code.replace("-", "") in written] == []

    # People and places

    def rows(self, statement: str, **values: Any) -> list[tuple[Any, ...]]:
        return [tuple(row) for row in self.record.rows(statement, values)]

    def location(self, name: str) -> Location:
        """The location of that name, made when there is none."""
        known = next((one for one in self.people.locations() if one.name == name), None)
        made = known or self.people.add_location(name, f"telegram {NOBODY}", datetime.now(UTC))
        assert isinstance(made, Location)
        return made

    def code(self, location: Location, role: Role = "technician") -> str:
        """The code of a new invite for one person, made by the clock of the process."""
        _, code = invites.make(self.record, location.number, role, 1, 365, "test", self.now())
        self.codes.append(code)
        return code

    def now(self) -> datetime:
        """What the process takes for now."""
        if self.bots and self._clock.exists():
            return moment_in(self._clock)
        return datetime.now(UTC)

    def newcomer(self, name: str, username: str = "") -> Phone:
        """The phone of somebody who never wrote to the bot."""
        person = self.server.person(next(_persons), name, username, opened=False)
        return Phone(self, person, name, person)

    def phone(self, name: str, **roles: str) -> Phone:
        """The phone of somebody new. roles: of the names of locations that they join, over the messenger."""
        phone = self.newcomer(name)
        for role, location in roles.items():
            word: Role = next(one for one in ("technician", "curator", "owner") if one == role)
            came = phone.say(f"/start {self.code(self.location(location), word)}")
            assert came.text.startswith("You are "), came.text
        return phone

    def group(self, *phones: Phone, title: str = "Bays", **given: Any) -> int:
        """A group with these people and the bot; its id."""
        kind = {"supergroup": True} | given
        number = next(_groups)
        chat = -100_000 - number if kind["supergroup"] else -number
        return self.server.group(chat, [one.person for one in phones], title, **kind)


@dataclass(slots=True)
class Phone:
    """One person's phone. chat: where it writes. said: id of the message written last; notice: what a press got."""

    shop: Shop
    person: int
    name: str
    chat: int
    topic: int | None = None
    said: int = 0
    notice: str = ""

    @property
    def server(self) -> StandIn:
        return self.shop.server

    def in_group(self, chat: int, topic: int | None = None) -> Phone:
        """The same person in a group."""
        return Phone(self.shop, self.person, self.name, chat, topic)

    # What is done and not waited for

    def write(self, text: str, **given: Any) -> Made:
        return self._noted(self.server.say(self.chat, text, self.person, topic=self.topic, **given))

    def show(self, kind: str, caption: str = "", **given: Any) -> Made:
        return self._noted(self.server.send(self.chat, kind, self.person, caption, topic=self.topic, **given))

    def _noted(self, made: Made) -> Made:
        self.said = made.message
        return made

    # What is waited for

    def say(self, text: str, **given: Any) -> Shown:
        """Writes, and gives the next message of the bot in this chat."""
        sent = self.count
        self.write(text, **given)
        return self.answer(sent + 1)

    def answer(self, messages: int) -> Shown:
        """The last of so many messages of the bot in this chat."""
        return self.server.wait_for_answer(self.chat, messages, SECONDS)

    def change(self, text: str, message: int | None = None) -> Shown:
        """Changes what was written last, or that message; gives the last message of the bot once one has changed."""
        edits = self.edits
        self.server.edit(self.chat, message or self.said, text)
        self.server.wait_for(self.chat, SECONDS, edits=edits + 1)
        return self.last

    def press(self, label: str, on: Shown | None = None) -> Shown:
        """Presses a button of the last message or another; gives that message once it has changed."""
        shown, edits = on or self.last, self.edits
        self.press_only(label, shown)
        self.server.wait_for(self.chat, SECONDS, edits=edits + 1)
        return self.server.message(self.chat, shown.id)

    def press_only(self, label: str, on: Shown | None = None, data: str = "") -> str:
        """Presses; what the press was answered with. data: of a button that may be gone."""
        shown = on or self.last
        pressed = self.server.press(self.chat, shown.id, "" if data else label, data, self.person, stale=bool(data))
        self.notice = self.server.wait_for_notice(pressed.query, SECONDS).text
        return self.notice

    def inline(self, text: str) -> InlineAnswer:
        """Types the bot's name and a text in some other chat; what the bot offers for it."""
        return self.server.wait_for_inline(self.server.inline(self.person, text).query, SECONDS)

    @property
    def last(self) -> Shown:
        return self.server.last(self.chat)

    @property
    def shown(self) -> list[Shown]:
        """The messages of the bot in this chat."""
        return self.server.answers(self.chat)

    @property
    def count(self) -> int:
        return sum(one.ours for one in self.server.transcript(self.chat, deleted=True))

    @property
    def edits(self) -> int:
        return sum(one.edits for one in self.server.transcript(self.chat, deleted=True) if one.ours)

    @property
    def menu(self) -> tuple[str, ...]:
        """The commands of their private chat."""
        menus = [one for one in self.server.menus() if (one.scope, one.chat) == ("chat", self.person)]
        return tuple(name for name, _ in menus[0].commands) if menus else ()


@contextmanager
def opened(demo_shop: Home, folder: Path, *words: str) -> Iterator[Shop]:
    """A shop with the demo book and nobody in it. words: of the stand-in's command line. No process runs yet."""
    (folder / "home").mkdir()
    home = fresh_home(folder / "home")
    shutil.copy(demo_shop.book, home.book)
    with StandIn.start(*words) as server, record_of(home) as record:
        server.person(NOBODY, "Nobody")
        shop = Shop(folder, home, server, record, People(record))
        try:
            yield shop
        finally:
            shop.close()


def later(shop: Shop, **time: int) -> None:
    """Sets the clock of a process that has one forward."""
    shop.set_clock(shop.now() + timedelta(**time))
