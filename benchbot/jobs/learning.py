"""What a job learns of its vehicle on the way: which engine, which drive, which of two rows a value is taken from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from benchbot.jobs.state import LEARNED, UNLEARNED, JobState, job_state
from benchbot.jobs.terms import Refused, Who
from benchbot.records import jobs
from benchbot.records.record import Record

_GONE = Refused("There is no job of that number.", "no such job")


def learn(
    record: Record, job: int, who: Who, now: datetime, states: Mapping[str, Any], want: str, once: str | None = None
) -> JobState | Refused:
    """states: what a choice stated. want: the key of the line that it was asked for; engine or drive count for all."""
    return _put(record, job, who, now, LEARNED, {"states": dict(states), "want": want}, once)


def unlearn(record: Record, job: int, who: Who, now: datetime, once: str | None = None) -> JobState | Refused:
    """Something of it was wrong: all that decides is asked anew; lines that were entered stay as they are."""
    return _put(record, job, who, now, UNLEARNED, {}, once)


def learned(state: JobState, want: str) -> list[dict[str, Any]]:
    """What was stated for that line, the latest last; what is part of the vehicle stands in `state.vehicle`."""
    return [
        event.body["states"]
        for event in state.learned
        if event.body["want"] == want and "stated" not in event.body["states"]
    ]


def _put(
    record: Record, job: int, who: Who, now: datetime, what: str, body: dict[str, Any], once: str | None
) -> JobState | Refused:
    with record.writing() as store:
        state = job_state(record, job) if jobs.hold(store, job) else None
        if state is None:
            return _GONE
        if once and jobs.seen(store, once) is not None:
            return state
        if state.finished is not None:
            return Refused(f"Job {job} was finished by {state.finished.name}; its record is closed.", "finished")
        if state.paused is not None:
            return Refused(f"Job {job} rests since {state.paused.name} paused it; resume it first.", "paused")
        jobs.put_event(store, job, who.person, who.name, what, now, body, once=once)
        return job_state(record, job) or _GONE
