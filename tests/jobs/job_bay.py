"""A shop in which a job can begin: the shipped procedures, a record, two people."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

from benchbot.jobs import doing
from benchbot.jobs.beginning import begin
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import Measured, Refused, Shown, Tightened, Vehicle, Verdict, Who
from benchbot.places import knowledge_folder
from benchbot.procedures.loading import load_procedures
from benchbot.procedures.steps import Procedures
from benchbot.records.record import Record
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary

DANA, MIRO = Who("telegram 11", "Dana"), Who("telegram 12", "Miro")
START = datetime(2026, 3, 2, 8, 30, tzinfo=UTC)
ONDREL = Vehicle("2012 Brackwell Ondrel", "Brackwell", "Ondrel", 2012)
BOLT = "caliper bracket bolt"
RIGHT, LEFT = "front right", "front left"


@cache
def knowledge() -> tuple[Vocabulary, Procedures]:
    vocabulary = load_vocabulary(knowledge_folder())
    return vocabulary, load_procedures(knowledge_folder(), vocabulary)


def url_in(folder: Path) -> str:
    return f"sqlite:///{folder / 'record.sqlite'}"


@dataclass
class Bay:
    """A record with one clock; whatever is done takes a minute."""

    record: Record
    now: datetime = START
    job: int = 0
    refused: list[Refused] = field(default_factory=list)

    def tick(self) -> datetime:
        self.now += timedelta(minutes=1)
        return self.now

    def begin(self, procedure: str = "disc-brake-front", who: Who = DANA, **more: Any) -> JobState:
        vocabulary, procedures = knowledge()
        state = begin(self.record, procedures, vocabulary, ONDREL, procedure, who, self.tick(), **more)
        assert isinstance(state, JobState), state
        self.job = state.number
        return state

    def do(self, what: str, who: Who = DANA, *given: Any, **more: Any) -> JobState:
        done = getattr(doing, what)(self.record, self.job, who, self.tick(), *given, **more)
        assert isinstance(done, JobState), done
        return done

    def refuse(self, what: str, who: Who = DANA, *given: Any, **more: Any) -> Refused:
        before = self.state.events
        done = getattr(doing, what)(self.record, self.job, who, self.tick(), *given, **more)
        assert isinstance(done, Refused)
        assert self.state.events == before
        return done

    @property
    def state(self) -> JobState:
        state = job_state(self.record, self.job)
        assert state is not None
        return state

    def all_steps(self, who: Who = DANA) -> None:
        for step in self.state.sheet.steps:
            if step.key not in self.state.settled:
                self.do("done", who, step.key)

    def all_lines(self, who: Who = DANA) -> None:
        for want in self.state.missing_lines():
            if want.where:
                self.do("measure", who, measured(want.component, want.name, wheel=want.wheel), GOOD)
            else:
                self.do("tighten", who, tightened(want.component, want.wheel, want.name))


GOOD = Verdict("good", "0.9 mm above the limit", (Shown("21.5 mm", "D0007", 2),))
BAD = Verdict("bad", "below the limit: replace both sides", (Shown("21.5 mm", "D0007", 2),))


def measured(
    component: str = "brake rotor",
    name: str = "minimum thickness",
    value: str = "22.4",
    wheel: str = LEFT,
    when: Any = "before",
) -> Measured:
    return Measured(component, name, value, "mm", when, wheel)


def tightened(
    component: str = BOLT, wheel: str = LEFT, which: str = "", held: bool = True, set_to: str = "105 N·m"
) -> Tightened:
    target = Shown("105 N·m", "D0001", 3) if held else None
    return Tightened(component, set_to, "wrench 4", wheel, which, target)
