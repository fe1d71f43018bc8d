"""Where each person is in a job: everybody walks by themselves, past what somebody else has settled."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.jobs.sheet import StepShown, Want
from benchbot.jobs.state import JobState
from benchbot.records import jobs
from benchbot.records.record import Record


@dataclass(frozen=True, slots=True)
class Place:
    """Where a person is. number, count: "step 3 of 44"; settled: how many are done or skipped.

    state: "open", "done" or "skipped". missing: the lines that this step wants and that nobody has entered.
    """

    step: StepShown
    number: int
    count: int
    settled: int
    state: str
    missing: tuple[Want, ...]


def where(state: JobState, person: str) -> Place | None:
    """The step that a person is at; None when every step is settled and they have not gone back to one."""
    own = [event for event in state.events if event.person == person and event.what in ("moved", "done", "skipped")]
    if own and own[-1].what == "moved":
        return place(state, state.sheet.number(own[-1].step))
    number = _next_open(state, state.sheet.number(own[-1].step) if own else 0)
    return place(state, number) if number else None


def place(state: JobState, number: int) -> Place:
    """The step of that number, from 1."""
    step = state.sheet.steps[number - 1]
    settled = state.settled.get(step.key)
    return Place(
        step,
        number,
        len(state.sheet.steps),
        len(state.settled),
        "open" if settled is None else settled.what,
        state.missing_lines(step.key),
    )


def step_after(state: JobState, person: str) -> str:
    """The next step that is not settled, from where a person is on; "" when there is no other."""
    here = where(state, person)
    if here is None:
        return ""
    number = _next_open(state, here.number)
    return "" if number in (0, here.number) else state.sheet.steps[number - 1].key


def step_before(state: JobState, person: str) -> str:
    """The step before the one that a person is at, settled or not; the first has none before it: ""."""
    here = where(state, person)
    number = len(state.sheet.steps) if here is None else here.number - 1
    return state.sheet.steps[number - 1].key if number else ""


def in_hand(record: Record, person: str) -> int | None:
    """The open job that a person began, joined, resumed or was handed, and has not let go of since."""
    last = jobs.last_in_hand(record, person)
    if last is None:
        return None
    number, what, by_themselves = last
    if by_themselves and what in ("paused", "handed over", "finished"):
        return None
    events = jobs.events(record, number)
    return None if any(event.what == "finished" for event in events) else number


def _next_open(state: JobState, after: int) -> int:
    """The number of the first open step after that one, else of the first open one before it; 0: all are settled."""
    numbers = [n for n, step in enumerate(state.sheet.steps, 1) if step.key not in state.settled]
    return next((n for n in numbers if n > after), numbers[0] if numbers else 0)
