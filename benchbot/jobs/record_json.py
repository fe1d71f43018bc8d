"""The record of a job as JSON: stable keys, everything as it was entered, the same bytes whenever it is written."""

from __future__ import annotations

import json
from hashlib import sha256
from typing import Any

from benchbot.jobs.open_points import open_points
from benchbot.jobs.state import ORDER, JobState, differs
from benchbot.records.jobs import JobEvent

FORMAT, LAYOUT = "benchbot job record", 1

_COURSE = {"begun", "joined", "paused", "resumed", "handed over", "finished", ORDER}
_MEASURED = ("component", "property", "wheel", "when", "value", "unit", "judged", "verdict", "limits")
_TIGHTENED = ("component", "wheel", "which", "target", "set_to", "tool")


def record_bytes(state: JobState) -> bytes:
    """The record as a UTF-8 file. Of a finished job it never changes again."""
    return (json.dumps(plain_record(state), ensure_ascii=False, indent=1) + "\n").encode()


def record_digest(written: bytes) -> str:
    """SHA-256 of such a file, as the PDF prints it: 64 hexadecimal digits."""
    return sha256(written).hexdigest()


def plain_record(state: JobState) -> dict[str, Any]:
    """The record as JSON-able values; docs/job-record.md says what each key holds."""
    begun, finished = state.begun, state.finished
    return {
        "format": FORMAT,
        "layout": LAYOUT,
        "job": state.number,
        "vehicle": state.vehicle.to_plain(),
        "repair_order": state.repair_order,
        "location": {"number": state.row.location, "name": begun.body["location_name"], "zone": begun.body["zone"]},
        "procedure": {
            "id": state.sheet.id,
            "title": state.sheet.title,
            "digest": state.row.procedure,
            "book_version": state.row.book_version,
            "wheels": list(state.sheet.wheels),
            "fitted": list(state.sheet.fitted),
        },
        "second_person_on_wheels": state.second_person,
        "begun": _by(begun),
        "finished": None if finished is None else _by(finished),
        "re_torque": None if finished is None else finished.body["re_torque"],
        "measurements": [_line(state, line, _MEASURED) for line in state.events if line.what == "measured"],
        "tightened": [_fastener(state, line) for line in state.events if line.what == "tightened"],
        "steps": [_step(state, number) for number in range(len(state.sheet.steps))],
        "explained": [
            {"point": one.body["point"], "text": one.body["text"], "reason": one.body["reason"]}
            | {"decided_by": one.body.get("decided_by", "")}
            | _by(one)
            for one in state.events
            if one.what == "explained"
        ],
        "open_points": [{"point": point.key, "text": point.text} for point in open_points(state)],
        "course": [
            {"what": one.what, "to": one.body.get("to", "")} | _by(one) for one in state.events if one.what in _COURSE
        ],
    }


def _by(event: JobEvent) -> dict[str, Any]:
    return {"at": event.at.isoformat(), "person": event.person, "name": event.name}


def _line(state: JobState, line: JobEvent, keys: tuple[str, ...]) -> dict[str, Any]:
    struck = state.struck.get(line.entry)
    told = {"entry": line.entry, "step": line.step} | {key: line.body[key] for key in keys} | _by(line)
    return told | {"struck": None if struck is None else {"reason": struck.body["reason"]} | _by(struck)}


def _fastener(state: JobState, line: JobEvent) -> dict[str, Any]:
    confirmed = state.confirmed.get(line.entry)
    return _line(state, line, _TIGHTENED) | {
        "differs": differs(line),
        "confirmed": None if confirmed is None else _by(confirmed),
    }


def _step(state: JobState, index: int) -> dict[str, Any]:
    step = state.sheet.steps[index]
    settled = state.settled.get(step.key)
    told: dict[str, Any] = {"number": index + 1, "step": step.key, "title": step.title, "shop_says": step.shop_says}
    if settled is None:
        return told | {"state": "open", "reason": "", "at": None, "person": "", "name": ""}
    return told | {"state": settled.what, "reason": settled.body.get("reason", "")} | _by(settled)
