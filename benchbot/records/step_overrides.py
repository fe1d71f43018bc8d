"""A shop's own word for a step of a procedure at a location, on record; one that was ended stays there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record

END = """
UPDATE step_override SET ended_at = :at, ended_by = :by
WHERE location = :location AND procedure = :procedure AND step = :step AND ended_at = ''
"""

PUT = """
INSERT INTO step_override (procedure, step, location, text, author, at, ended_at, ended_by)
VALUES (:procedure, :step, :location, :text, :author, :at, '', '')
"""

# location: -1 for every one of them. procedure: empty for every one.
IN_FORCE = """
SELECT entry, procedure, step, location, text, author, at FROM step_override
WHERE ended_at = '' AND (location = :location OR :location = -1) AND (procedure = :procedure OR :procedure = '')
ORDER BY location, procedure, entry
"""

ALL = (END, PUT, IN_FORCE)
EVERYWHERE = -1


@dataclass(frozen=True, slots=True)
class StepOverride:
    """One that counts now. step: the key of the step; author: as everywhere on record."""

    entry: int
    procedure: str
    step: str
    location: int
    text: str
    author: str
    at: datetime


def put(record: Record, location: int, procedure: str, step: str, text: str, author: str, now: datetime) -> None:
    """From now on; whatever counted before is ended."""
    about: dict[str, Any] = {"location": location, "procedure": procedure, "step": step, "at": moment(now)}
    with record.writing() as store:
        store.run(END, about | {"by": author})
        store.run(PUT, about | {"text": text, "author": author})


def end(record: Record, location: int, procedure: str, step: str, by: str, now: datetime) -> bool:
    """False when none counts there."""
    with record.writing() as store:
        if not any(one.step == step for one in in_force(record, location, procedure)):
            return False
        values = {"location": location, "procedure": procedure, "step": step, "at": moment(now), "by": by}
        store.run(END, values)
        return True


def in_force(record: Record, location: int | None = None, procedure: str = "") -> list[StepOverride]:
    """Those that count now, at a location or at all (None), of one procedure or of all ("")."""
    place = EVERYWHERE if location is None else location
    return [_one(row) for row in record.rows(IN_FORCE, {"location": place, "procedure": procedure})]


def shop_says(record: Record, location: int | None, procedure: str) -> dict[str, str]:
    """step -> the shop's own word for it; nothing where nobody knows which shop it is."""
    if location is None:
        return {}
    return {one.step: one.text for one in in_force(record, location, procedure)}


def _one(row: Sequence[Any]) -> StepOverride:
    entry, procedure, step, location, text, author, at = row
    return StepOverride(int(entry), procedure, step, int(location), text, author, datetime.fromisoformat(at))
