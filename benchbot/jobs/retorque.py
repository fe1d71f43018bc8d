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

    lines: (wheel, fastener, value of the book, "" where it holds none).
    """

    job: int
    vehicle: str
    repair_order: str
    shop: str
    finished: date
    distance: str
    on: date | None
    lines: tuple[tuple[str, str, str], ...]


def plan(state: JobState, rules: JobRules, now: datetime) -> dict[str, Any] | None:
    """What a job that finishes now says of it, for its record; None when it tightened no wheel."""
    if not any(line.body["component"] in HOLD_WHEELS for line in state.tightened):
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
    lines = {
        (line.body["wheel"], line.body["component"]): line.body["target"]["text"] if line.body["target"] else ""
        for line in state.tightened
        if line.body["component"] in HOLD_WHEELS
    }
    return Slip(
        state.number,
        state.vehicle.said,
        state.row.repair_order,
        state.begun.body["location_name"],
        _today(state, state.finished.at),
        planned["distance"],
        date.fromisoformat(planned["on"]) if planned["on"] else None,
        tuple((wheel, component, target) for (wheel, component), target in sorted(lines.items())),
    )


def _today(state: JobState, now: datetime) -> date:
    return now.astimezone(ZoneInfo(state.begun.body["zone"])).date()
