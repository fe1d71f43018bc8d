"""Jobs on record: what is worked on, the procedure as it was then, and all that happened, in order."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

PUT_PROCEDURE = "INSERT INTO job_procedure (digest, body) VALUES (:digest, :body) ON CONFLICT (digest) DO NOTHING"

PROCEDURE = "SELECT body FROM job_procedure WHERE digest = :digest"

PUT = """
INSERT INTO job (vehicle, repair_order, procedure, book_version, location, person, at)
VALUES (:vehicle, :repair_order, :procedure, :book_version, :location, :person, :at) RETURNING job
"""

_COLUMNS = "job, vehicle, repair_order, procedure, book_version, location, person, at"

ONE = f"SELECT {_COLUMNS} FROM job WHERE job = :job"

# Whoever writes to a job waits here for the others who do, and then sees all that they wrote.
HOLD = "UPDATE job SET person = person WHERE job = :job RETURNING job"

PUT_EVENT = """
INSERT INTO job_event (job, person, name, what, step, other, body, at, once)
VALUES (:job, :person, :name, :what, :step, :other, :body, :at, :once) RETURNING entry
"""

SEEN = "SELECT job FROM job_event WHERE once = :once"

EVENTS = """
SELECT entry, person, name, what, step, other, body, at FROM job_event WHERE job = :job ORDER BY entry
"""

# location: -1 for every one of them.
NEWEST = f"""
SELECT {_COLUMNS} FROM job WHERE (location = :location OR :location = -1) ORDER BY job DESC LIMIT :most
"""

OPEN = f"""
SELECT {_COLUMNS} FROM job
WHERE (location = :location OR :location = -1)
AND NOT EXISTS (SELECT 1 FROM job_event WHERE job_event.job = job.job AND job_event.what = 'finished')
ORDER BY job DESC LIMIT :most
"""

# The last that a person did about having a job in hand, or that another did to them.
LAST_IN_HAND = """
SELECT job, what, person FROM job_event
WHERE (person = :person OR other = :person)
AND what IN ('begun', 'joined', 'paused', 'resumed', 'handed over', 'finished') ORDER BY entry DESC LIMIT 1
"""

ALL = (PUT_PROCEDURE, PROCEDURE, PUT, ONE, HOLD, PUT_EVENT, SEEN, EVENTS, NEWEST, OPEN, LAST_IN_HAND)
EVERYWHERE = -1


@dataclass(frozen=True, slots=True)
class JobRow:
    """vehicle: as it was put, JSON-able; procedure: the digest of what it began with; person: who began it."""

    number: int
    vehicle: dict[str, Any]
    repair_order: str
    procedure: str
    book_version: int | None
    location: int | None
    person: str
    at: datetime


@dataclass(frozen=True, slots=True)
class JobEvent:
    """Something that happened; entry counts up over all jobs."""

    entry: int
    person: str
    name: str
    what: str
    step: str
    other: str
    body: dict[str, Any]
    at: datetime


def put_procedure(store: Store, digest: str, body: str) -> None:
    """Keeps a procedure once, however many jobs begin with it."""
    store.run(PUT_PROCEDURE, {"digest": digest, "body": body})


def procedure(record: Record, digest: str) -> str:
    """What was put under that digest."""
    row = record.row(PROCEDURE, {"digest": digest})
    return "" if row is None else str(row[0])


def put(
    store: Store,
    vehicle: dict[str, Any],
    repair_order: str,
    procedure: str,
    book_version: int | None,
    location: int | None,
    person: str,
    now: datetime,
) -> int:
    """The number of the new job."""
    values = {"vehicle": _text(vehicle), "repair_order": repair_order, "procedure": procedure, "person": person}
    more = {"book_version": book_version, "location": location, "at": moment(now)}
    return number_of(store.row(PUT, values | more))


def one(record: Record, number: int) -> JobRow | None:
    row = record.row(ONE, {"job": number})
    return None if row is None else _job(row)


def hold(store: Store, number: int) -> bool:
    """Nobody else writes to that job until the transaction ends; False when there is none of that number."""
    return store.row(HOLD, {"job": number}) is not None


def put_event(
    store: Store,
    job: int,
    person: str,
    name: str,
    what: str,
    now: datetime,
    body: dict[str, Any],
    step: str = "",
    other: str = "",
    once: str | None = None,
) -> int:
    """The entry of what happened."""
    values = {"job": job, "person": person, "name": name, "what": what, "step": step, "other": other}
    return number_of(store.row(PUT_EVENT, values | {"body": _text(body), "at": moment(now), "once": once}))


def seen(store: Store | Record, once: str) -> int | None:
    """The job in which that was done before."""
    row = store.row(SEEN, {"once": once})
    return None if row is None else int(row[0])


def events(record: Record, job: int) -> tuple[JobEvent, ...]:
    """All that happened in a job, in order."""
    return tuple(_event(row) for row in record.rows(EVENTS, {"job": job}))


def newest(record: Record, location: int | None = None, most: int = 20, only_open: bool = False) -> list[JobRow]:
    """The jobs of a location, or of all (None), the latest first."""
    values = {"location": EVERYWHERE if location is None else location, "most": most}
    return [_job(row) for row in record.rows(OPEN if only_open else NEWEST, values)]


def last_in_hand(record: Record, person: str) -> tuple[int, str, bool] | None:
    """(job, what, by themselves) of the last that was done about what this person has in hand."""
    row = record.row(LAST_IN_HAND, {"person": person})
    return None if row is None else (int(row[0]), str(row[1]), row[2] == person)


def _job(row: Sequence[Any]) -> JobRow:
    number, vehicle, repair_order, procedure, book_version, location, person, at = row
    return JobRow(
        int(number),
        json.loads(vehicle),
        repair_order,
        procedure,
        None if book_version is None else int(book_version),
        None if location is None else int(location),
        person,
        datetime.fromisoformat(at),
    )


def _event(row: Sequence[Any]) -> JobEvent:
    entry, person, name, what, step, other, body, at = row
    return JobEvent(int(entry), person, name, what, step, other, json.loads(body), datetime.fromisoformat(at))


def _text(body: dict[str, Any]) -> str:
    return json.dumps(body, ensure_ascii=False, sort_keys=True)
