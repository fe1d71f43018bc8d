"""Where a job stands, worked out from all that happened in it and from nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from benchbot.jobs.sheet import JobSheet, StepShown, Want, sheet_of
from benchbot.jobs.terms import HOLD_WHEELS, Vehicle
from benchbot.records import jobs
from benchbot.records.jobs import JobEvent, JobRow
from benchbot.records.record import Record

_SETTLES = ("done", "skipped")
_LINES = ("measured", "tightened")
LEARNED, UNLEARNED = "learned", "unlearned"
ORDER = "repair order"


@dataclass(frozen=True, slots=True)
class JobState:
    """A job at one moment.

    settled: step -> the event that settled it last. lines: what was measured and tightened, without what was struck.
    struck, confirmed: the entry of a line -> the event. explained: the key of an open point -> the event. paused: the
    event, None while the job goes on; finished likewise.
    """

    row: JobRow
    sheet: JobSheet
    events: tuple[JobEvent, ...]
    settled: dict[str, JobEvent] = field(default_factory=dict)
    lines: tuple[JobEvent, ...] = ()
    struck: dict[int, JobEvent] = field(default_factory=dict)
    confirmed: dict[int, JobEvent] = field(default_factory=dict)
    explained: dict[str, JobEvent] = field(default_factory=dict)
    paused: JobEvent | None = None
    finished: JobEvent | None = None

    @property
    def number(self) -> int:
        return self.row.number

    @property
    def vehicle(self) -> Vehicle:
        """As it was said when the job began, with what was asked about it since."""
        begun = Vehicle.from_plain(self.row.vehicle)
        stated = [one.body["states"]["stated"] for one in self.learned if _narrows(one)]
        return replace(begun, only_if=(*begun.only_if, *((str(key), str(value)) for key, value in stated)))

    @property
    def repair_order(self) -> str:
        """The shop's number as it was given last, "" for none."""
        given = [str(event.body["number"]) for event in self.events if event.what == ORDER]
        return given[-1] if given else self.row.repair_order

    @property
    def learned(self) -> tuple[JobEvent, ...]:
        """What was asked about the vehicle and is not taken back."""
        told = [event for event in self.events if event.what in (LEARNED, UNLEARNED)]
        last = max((at for at, event in enumerate(told, 1) if event.what == UNLEARNED), default=0)
        return tuple(told[last:])

    @property
    def begun(self) -> JobEvent:
        """Its body holds what counted when the job began: location, zone, second_person."""
        return self.events[0]

    @property
    def second_person(self) -> bool:
        """Whether a second person confirms what holds the wheels."""
        return bool(self.begun.body["second_person"])

    @property
    def measured(self) -> tuple[JobEvent, ...]:
        return tuple(line for line in self.lines if line.what == "measured")

    @property
    def tightened(self) -> tuple[JobEvent, ...]:
        return tuple(line for line in self.lines if line.what == "tightened")

    @property
    def names(self) -> dict[str, str]:
        """Everybody who did something in the job, by what they were called last."""
        return {event.person: event.name for event in self.events}

    def step(self, key: str) -> StepShown | None:
        return next((step for step in self.sheet.steps if step.key == key), None)

    def skipped(self, step: str) -> bool:
        settled = self.settled.get(step)
        return settled is not None and settled.what == "skipped"

    def unconfirmed(self) -> tuple[JobEvent, ...]:
        """The newest line of each fastener that holds a wheel and that no second person has confirmed."""
        newest = {
            (line.body["component"], line.body["wheel"], line.body["which"]): line
            for line in self.tightened
            if line.body["component"] in HOLD_WHEELS
        }
        return tuple(line for line in newest.values() if line.entry not in self.confirmed)

    def missing_lines(self, step: str = "") -> tuple[Want, ...]:
        """The lines that steps want and that nobody has entered; of one step, or of all that were not skipped."""
        wants = (*self.sheet.measures, *self.sheet.fasteners)
        found: dict[str, Want] = {}
        for want in wants:
            asked_for = want.step == step if step else not self.skipped(want.step)
            if asked_for and not any(_meets(line, want) for line in self.lines):
                found.setdefault(want.key, want)
        return tuple(found.values())


def job_state(record: Record, number: int) -> JobState | None:
    """None when there is no job of that number."""
    row = jobs.one(record, number)
    if row is None:
        return None
    return state_of(row, sheet_of(jobs.procedure(record, row.procedure)), jobs.events(record, number))


def state_of(row: JobRow, sheet: JobSheet, events: Iterable[JobEvent]) -> JobState:
    """The state after those events."""
    happened = tuple(events)
    settled: dict[str, JobEvent] = {}
    struck: dict[int, JobEvent] = {}
    confirmed: dict[int, JobEvent] = {}
    explained: dict[str, JobEvent] = {}
    paused = finished = None
    for event in happened:
        if event.what in _SETTLES:
            settled[event.step] = event
        elif event.what == "struck":
            struck[event.body["line"]] = event
        elif event.what == "confirmed":
            confirmed[event.body["line"]] = event
        elif event.what == "explained":
            explained[event.body["point"]] = event
        elif event.what == "paused":
            paused = event
        elif event.what == "resumed":
            paused = None
        elif event.what == "finished":
            finished = event
    lines = tuple(event for event in happened if event.what in _LINES and event.entry not in struck)
    return JobState(row, sheet, happened, settled, lines, struck, confirmed, explained, paused, finished)


def differs(line: JobEvent) -> bool:
    """Whether a fastener was set to anything else than the book says."""
    return bool(line.body.get("differs"))


def _narrows(event: JobEvent) -> bool:
    return "stated" in event.body["states"]


def _meets(line: JobEvent, want: Want) -> bool:
    if line.body["component"] != want.component or line.body["wheel"] != want.wheel:
        return False
    if line.what == "measured":
        return bool(want.where) and line.body["property"] == want.name
    # a line may tell more of its fasteners apart than the step does
    return not want.where and set(want.name.split()) <= set(str(line.body["which"]).split())
