"""What a day is played on: a shop with its book and its people, whatever they write with, and its command line."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from abc import ABC, abstractmethod
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, ClassVar

from moved import CLOCK, DIES
from script import MORNING, PEOPLE, QUIET, UNITS, Person
from summary import summary

from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Joined, Location, Refused, Role
from benchbot.places import Home
from benchbot.records.record import Record

MOVED = Path(__file__).with_name("moved.py")
ROLES: dict[str, Role] = {"owner": "owner", "curator": "curator", "technician": "technician"}
KILLED = -9


@dataclass
class Stage(ABC):
    """folder: the test's own; the home lies in it. Everything waits until what comes of it was sent.

    copies: how many messages may be on their way at once, and stand twice when their process dies.
    """

    copies: ClassVar[int] = 0

    folder: Path
    home: Home
    record: Record
    deaths: list[str] = field(default_factory=list)
    point: str = ""

    # What people do

    @abstractmethod
    def join(self, one: Person) -> None:
        """Becomes a member, over the channel."""

    @abstractmethod
    def say(self, who: str, text: str) -> None: ...

    @abstractmethod
    def press(self, who: str, label: str, on: str) -> None:
        """On the last message that has the label and holds the words."""

    @abstractmethod
    def send_page(self, who: str, file: Path) -> None: ...

    @abstractmethod
    def messages(self, who: str) -> list[str]:
        """What stands in their chat, in order."""

    # What happens to the processes

    @abstractmethod
    def kill(self, who: str) -> None:
        """kill -9; who: the one who did something last, "" for all. What comes next is served by another process."""

    @abstractmethod
    def revived(self) -> bool:
        """Whether a process died where it was told to; another has taken over then, and all is settled."""

    @abstractmethod
    def comes(self, moment: datetime) -> None: ...

    @abstractmethod
    def settle(self) -> None: ...

    def die_at(self, point: str) -> None:
        """Whichever process passes there next dies; with "" none does."""
        self.point = point
        for file in self.folder.glob("dies*"):
            file.unlink()
        if point:
            for name in self.mortals():
                (self.folder / f"dies {name}").write_text(point, encoding="utf-8")

    @abstractmethod
    def mortals(self) -> list[str]:
        """The names of the processes that can be told to die."""

    # The shop

    @property
    def clock(self) -> Path:
        return self.folder / "seconds"

    def move_clock(self, moment: datetime) -> None:
        seconds = (moment - datetime.now(UTC)).total_seconds()
        fresh = self.clock.with_suffix(".new")
        fresh.write_text(str(seconds), encoding="utf-8")
        fresh.replace(self.clock)

    def settings(self, name: str) -> dict[str, str]:
        """The environment of a process of that name."""
        kept = {key: value for key, value in os.environ.items() if not key.startswith(("BENCHBOT_", "NOTIFY_SOCKET"))}
        return kept | {
            "BENCHBOT_HOME": str(self.home.folder),
            CLOCK: str(self.clock),
            DIES: str(self.folder / f"dies {name}"),
        }

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        """A command line of the shop."""
        return subprocess.run(
            [sys.executable, str(MOVED), *words],
            env=self.settings("desk"), capture_output=True, text=True, encoding="utf-8", check=False,
        )  # fmt: skip

    def summary(self) -> dict[str, Any]:
        return summary(self.record, {one.name: self.messages(one.name) for one in PEOPLE})

    def rows(self, statement: str, **values: object) -> list[tuple[object, ...]]:
        return [tuple(row) for row in self.record.rows(statement, values)]

    def furnish(self, founder: str) -> None:
        """The two locations, their units and their quiet hours; the founder leaves once somebody else owns them."""
        people = People(self.record)
        for name, units in UNITS.items():
            made = people.add_location(name, founder, MORNING)
            assert isinstance(made, Location)
            people.set_defaults(made.number, units="US" if units == "US" else "metric")
            if name in QUIET:
                people.set_hours(made.number, "UTC", *QUIET[name])

    def code(self, one: Person) -> str:
        """Of an invite for them."""
        place = next(place for place in People(self.record).locations() if place.name == one.place)
        return invites.make(self.record, place.number, ROLES[one.role], 1, 30, "test", MORNING)[1]

    def own_all(self, person: str, one: Person, founder: str) -> None:
        """An owner owns every location, and the founder none any more."""
        people = People(self.record)
        for place in people.locations():
            if place.name != one.place:
                _, code = invites.make(self.record, place.number, "owner", 1, 30, "test", MORNING)
                assert isinstance(invites.redeem(self.record, code, person, one.name, MORNING), Joined)
            assert not isinstance(people.remove(founder, place.number, "test", MORNING), Refused)


def fresh_shop(published: Path, folder: Path) -> Home:
    """A copy of a home with the book of the day."""
    shutil.copytree(published, folder / "home")
    return Home(folder / "home")
