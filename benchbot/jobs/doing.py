"""Everything that can happen in a job: put on record whole, after what others did, or refused with the reason."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, field
from datetime import datetime
from typing import Any

from benchbot.jobs.entries import (
    SHORT_AT_MOST,
    read_measured,
    read_reason,
    read_repair_order,
    read_text,
    read_tightened,
)
from benchbot.jobs.open_points import DECIDED, differs_text, open_points
from benchbot.jobs.retorque import plan, remind
from benchbot.jobs.rules import job_rules
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import ORDER, JobState, differs, job_state
from benchbot.jobs.terms import NOT_JUDGED, Measured, Refused, Tightened, Verdict, Who
from benchbot.jobs.walking import step_after, step_before, where
from benchbot.people.names import same_name
from benchbot.records import jobs
from benchbot.records.jobs import JobEvent
from benchbot.records.record import Record, Store

Result = JobState | Refused


@dataclass(frozen=True, slots=True)
class _Happened:
    what: str
    body: dict[str, Any] = field(default_factory=dict)
    step: str = ""
    other: str = ""


_Find = Callable[[JobState], Sequence[_Happened] | Refused]
_Also = Callable[[Store, JobState, Sequence[_Happened]], None]


def done(record: Record, job: int, who: Who, now: datetime, step: str = "", once: str | None = None) -> Result:
    """The step is done: the one of that key, or the one that the person is at."""
    return _put(record, job, who, now, once, lambda state: _settle(state, who, step, "done", {}))


def skip(
    record: Record, job: int, who: Who, now: datetime, reason: str, step: str = "", once: str | None = None
) -> Result:
    """The step is left out, and why."""
    why = read_text(reason, "why it is skipped")
    if isinstance(why, Refused):
        return why
    return _put(record, job, who, now, once, lambda state: _settle(state, who, step, "skipped", {"reason": why}))


def go_on(record: Record, job: int, who: Who, now: datetime, once: str | None = None) -> Result:
    """To the next open step; the one that the person leaves stays as it is."""
    return _put(
        record, job, who, now, once, lambda state: _move(step_after(state, who.person), "no other step is open")
    )


def go_back(record: Record, job: int, who: Who, now: datetime, once: str | None = None) -> Result:
    """To the step before."""
    return _put(record, job, who, now, once, lambda state: _move(step_before(state, who.person), "this is the first"))


def measure(
    record: Record,
    job: int,
    who: Who,
    now: datetime,
    measured: Measured,
    verdict: Verdict = NOT_JUDGED,
    once: str | None = None,
) -> Result:
    """A measurement, with what was found about it."""

    def find(state: JobState) -> Sequence[_Happened] | Refused:
        read = _of_a_wheel(state, state.sheet.measures, measured) or read_measured(
            measured, verdict, state.sheet.wheels
        )
        if isinstance(read, Refused):
            return read
        step = next(
            (w.step for w in state.sheet.measures if (w.component, w.name) == (read.component, read.property)), ""
        )
        limits = [asdict(limit) for limit in verdict.limits]
        judged = {"judged": verdict.judged, "verdict": " ".join(verdict.text.split()), "limits": limits}
        return [_Happened("measured", asdict(read) | judged, step)]

    return _put(record, job, who, now, once, find)


def tighten(record: Record, job: int, who: Who, now: datetime, tightened: Tightened, once: str | None = None) -> Result:
    """A fastener's own line."""

    def find(state: JobState) -> Sequence[_Happened] | Refused:
        read = _of_a_wheel(state, state.sheet.fasteners, tightened) or read_tightened(tightened, state.sheet.wheels)
        if isinstance(read, Refused):
            return read
        step = next((want.step for want in state.sheet.fasteners if want.component == read.component), "")
        return [_Happened("tightened", asdict(read) | {"differs": read.differs}, step)]

    return _put(record, job, who, now, once, find)


def confirm(
    record: Record, job: int, who: Who, now: datetime, lines: Sequence[int] = (), once: str | None = None
) -> Result:
    """A second person has checked what holds the wheels: those lines, or all that wait for it and are not their own."""

    def find(state: JobState) -> Sequence[_Happened] | Refused:
        waiting = {line.entry: line for line in state.unconfirmed()}
        wanted = lines or [entry for entry, line in waiting.items() if not _own(line, who)]
        for entry in wanted:
            if entry not in waiting:
                return Refused(f"{entry} is no line that waits for a second person.", "line", _texts(waiting))
            if _own(waiting[entry], who):
                return Refused("You tightened it yourself; somebody else confirms it.", "same person")
        if not wanted and waiting:
            return Refused("You tightened them yourself; somebody else confirms them.", "same person")
        if not lines:
            other = [waiting[entry] for entry in wanted if differs(waiting[entry])]
            if other:
                # whoever confirms all in one go has not seen it
                told = "; ".join(f"{one.entry}: {differs_text(one)}" for one in other)
                return Refused(f"Not the book's value. Look at it, then confirm each by its number: {told}.", "differs")
        if not wanted:
            return Refused("No wheel waits for a second person.", "nothing to confirm")
        return [_Happened("confirmed", {"line": e}, waiting[e].step, waiting[e].person) for e in wanted]

    return _put(record, job, who, now, once, find)


def strike(
    record: Record, job: int, who: Who, now: datetime, line: int, reason: str, once: str | None = None
) -> Result:
    """A line was entered wrong: it stays on record, struck out, and counts no more."""
    why = read_text(reason, "why it is struck out")
    if isinstance(why, Refused):
        return why

    def find(state: JobState) -> Sequence[_Happened] | Refused:
        struck = {one.entry: one for one in state.lines}.get(line)
        if struck is None:
            return Refused(f"{line} is no line of this job.", "line", _texts(one.entry for one in state.lines))
        return [_Happened("struck", {"line": line, "reason": why}, struck.step)]

    return _put(record, job, who, now, once, find)


def explain(
    record: Record,
    job: int,
    who: Who,
    now: datetime,
    points: Sequence[str],
    reason: str,
    once: str | None = None,
    decided_by: str = "",
) -> Result:
    """Why open points stay open; points: their keys. decided_by: who answers for it, for those of kinds in DECIDED."""
    why = read_reason(reason, "why it stays open")
    decider = read_text(decided_by, "who decided it", SHORT_AT_MOST, may_be_empty=True)
    for read in (why, decider):
        if isinstance(read, Refused):
            return read

    def find(state: JobState) -> Sequence[_Happened] | Refused:
        held = {point.key: point for point in open_points(state)}
        unknown = next((key for key in points if key not in held), None)
        if unknown is not None or not points:
            return Refused(f"{unknown or 'nothing'!r} is no open point of this job.", "point", tuple(held))
        if not decider and any(held[key].kind in DECIDED for key in points):
            return Refused("Say as well who decided that it stays so, such as the lead tech.", "decided")
        return [
            _Happened(
                "explained",
                {"point": key, "text": held[key].text, "reason": why}
                | {"decided_by": decider if held[key].kind in DECIDED else ""},
                held[key].step,
            )
            for key in dict.fromkeys(points)
        ]

    return _put(record, job, who, now, once, find)


def correct_order(record: Record, job: int, who: Who, now: datetime, number: str, once: str | None = None) -> Result:
    """The repair order was entered wrong, or is known only now; "" takes it away. The record shows the last alone."""
    read = read_repair_order(number)
    if isinstance(read, Refused):
        return read
    return _put(record, job, who, now, once, lambda state: [_Happened(ORDER, {"number": read})])


def pause(record: Record, job: int, who: Who, now: datetime, once: str | None = None) -> Result:
    """The job rests, for everybody, until somebody resumes it."""
    return _put(record, job, who, now, once, lambda state: [_Happened("paused")])


def resume(record: Record, job: int, who: Who, now: datetime, once: str | None = None) -> Result:
    """This person has the job in hand: a paused one goes on, another one is joined."""
    return _put(
        record, job, who, now, once, lambda state: [_Happened("resumed" if state.paused else "joined")], paused_too=True
    )


def hand_over(record: Record, job: int, who: Who, now: datetime, to: Who, once: str | None = None) -> Result:
    """The other has it in hand from now on, this person no more."""
    if to.person == who.person:
        return Refused("You have it already; hand it over to somebody else.", "same person")
    made = [_Happened("handed over", {"to": to.name}, other=to.person)]
    return _put(record, job, who, now, once, lambda state: made)


def finish(record: Record, job: int, who: Who, now: datetime, once: str | None = None) -> Result:
    """Closes the job, and plans the reminder to tighten its wheels again; refused while a point is open."""

    def find(state: JobState) -> Sequence[_Happened] | Refused:
        held = open_points(state)
        if held:
            count = "1 point is" if len(held) == 1 else f"{len(held)} points are"
            reason = f"{count} open: do them, or say why they stay open. First: {held[0].text}."
            return Refused(reason, "open points", tuple(point.key for point in held))
        return [_Happened("finished", {"re_torque": plan(state, job_rules(record, state.row.location), now)})]

    return _put(
        record, job, who, now, once, find, lambda store, state, made: remind(store, state, made[0].body["re_torque"])
    )


def _of_a_wheel(state: JobState, wants: Sequence[Want], given: Measured | Tightened) -> Refused | None:
    """A refusal where the job has one such line for each wheel, and no wheel was said."""
    held = [want.wheel for want in wants if want.component == given.component and want.wheel]
    if given.wheel or not held:
        return None
    choices = tuple(dict.fromkeys(held))
    return Refused(f"Say which wheel: {', '.join(choices)}.", "wheel", choices)


def _own(line: JobEvent, who: Who) -> bool:
    """Whether they did it themselves, on whichever channel: two who go by one name are not told apart."""
    return line.person == who.person or same_name(line.name, who.name)


def _settle(state: JobState, who: Who, step: str, what: str, body: dict[str, Any]) -> Sequence[_Happened] | Refused:
    if step and state.step(step) is None:
        return Refused(f"{step!r} is no step of this job.", "step", tuple(one.key for one in state.sheet.steps))
    at = where(state, who.person)
    if not step and at is None:
        return Refused("Every step is done or skipped.", "step")
    return [_Happened(what, body, step or (at.step.key if at else ""))]


def _move(step: str, none: str) -> Sequence[_Happened] | Refused:
    return [_Happened("moved", step=step)] if step else Refused(f"There is none there: {none}.", "step")


def _texts(entries: Any) -> tuple[str, ...]:
    return tuple(str(entry) for entry in entries)


def _put(
    record: Record,
    job: int,
    who: Who,
    now: datetime,
    once: str | None,
    find: _Find,
    also: _Also | None = None,
    paused_too: bool = False,
) -> Result:
    """One transaction: sees all that others have put, puts what comes of it, or nothing."""
    with record.writing() as store:
        if not jobs.hold(store, job):
            return _NO_JOB
        state = job_state(record, job)
        if state is None:
            return _NO_JOB
        if once and jobs.seen(store, once) is not None:
            return state
        if state.finished is not None:
            return Refused(f"Job {job} was finished by {state.finished.name}; its record is closed.", "finished")
        if state.paused is not None and not paused_too:
            return Refused(f"Job {job} rests since {state.paused.name} paused it; resume it first.", "paused")
        made = find(state)
        if isinstance(made, Refused):
            return made
        for number, one in enumerate(made):
            key = once if number == 0 else None
            jobs.put_event(store, job, who.person, who.name, one.what, now, one.body, one.step, one.other, key)
        if also is not None:
            also(store, state, made)
        return job_state(record, job) or _NO_JOB


_NO_JOB = Refused("There is no job of that number.", "no such job")
