"""When the wheels of a job are tightened again: what the slip says, and the errand that reminds the shop."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from benchbot.jobs.rules import JobRules
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import HOLD_WHEELS, Refused
from benchbot.records import errands
from benchbot.records.record import Store

REMINDER = "re-torque reminder"
_AT = time(8, 0)


@dataclass(frozen=True, slots=True)
class Slip:
    """What whoever collects the vehicle is given. on: the day, None where the shop has set no days.

    lines: of every wheel that was off (wheel, fastener, value of the book, what was set); the value is "" where it
    holds none, what was set is "" where nobody has entered it.
    """

    job: int
    vehicle: str
    repair_order: str
    shop: str
    finished: date
    distance: str
    on: date | None
    lines: tuple[tuple[str, str, str, str], ...]


def plan(state: JobState, rules: JobRules, now: datetime) -> dict[str, Any] | None:
    """What a job that finishes now says of it, for its record; None when no wheel was off."""
    if not _lines(state):
        return None
    on = _today(state, now) + timedelta(days=rules.days) if rules.days else None
    return {
        "distance": rules.distance,
        "distance_set_by": rules.distance_by,
        "days": rules.days,
        "days_set_by": rules.days_by,
        "on": on.isoformat() if on else "",
    }


def remind(store: Store, state: JobState, planned: dict[str, Any] | None) -> None:
    """In the transaction that finishes the job: the shop is reminded in the morning of the day."""
    if planned is None or not planned["on"]:
        return
    morning = datetime.combine(date.fromisoformat(planned["on"]), _AT, ZoneInfo(state.begun.body["zone"]))
    due = morning.astimezone(UTC)
    # as of when it is due: what an errand's age is counted from
    errands.put(store, REMINDER, {"job": state.number}, due, f"{REMINDER} {state.number}", due)


def slip(state: JobState) -> Slip | Refused:
    """Of a finished job that tightened a wheel, where the shop has set when it is done again."""
    if state.finished is None:
        return Refused(f"Job {state.number} is not finished; the slip comes with the finished job.", "open points")
    planned = state.finished.body["re_torque"]
    if planned is None:
        return Refused(f"Job {state.number} tightened no wheel, so there is nothing to tighten again.", "line")
    if not planned["distance"] and not planned["on"]:
        return Refused("The shop has not set when wheels are tightened again; its owner sets it.", "setting")
    return Slip(
        state.number,
        state.vehicle.said,
        state.repair_order,
        state.begun.body["location_name"],
        _today(state, state.finished.at),
        planned["distance"],
        date.fromisoformat(planned["on"]) if planned["on"] else None,
        _lines(state),
    )


def _lines(state: JobState) -> tuple[tuple[str, str, str, str], ...]:
    """Each wheel that a line was entered of, or should have been: one that nobody entered was off all the same."""
    found = {
        (want.wheel, want.component): ("", "")
        for want in state.sheet.fasteners
        if want.component in HOLD_WHEELS and not state.skipped(want.step)
    }
    for line in state.tightened:
        body = line.body
        if body["component"] in HOLD_WHEELS:
            target = body["target"]["text"] if body["target"] else ""
            found[body["wheel"], body["component"]] = (target, str(body["set_to"]))
    return tuple((*key, *told) for key, told in sorted(found.items()))


def _today(state: JobState, now: datetime) -> date:
    return now.astimezone(ZoneInfo(state.begun.body["zone"])).date()
