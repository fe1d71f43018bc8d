"""Work that a message asked for and that takes longer than an answer, on record until it was done."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store

PUT = """
INSERT INTO errand (what, body, once, state, not_before, why, at, ended_at)
VALUES (:what, :body, :once, 'waiting', :not_before, '', :at, '')
ON CONFLICT (once) DO NOTHING RETURNING errand
"""

DUE = """
SELECT errand, what, body, once, at FROM errand
WHERE state = 'waiting' AND not_before <= :now ORDER BY not_before, errand LIMIT 1
"""

ENDED = """
UPDATE errand SET state = :state, why = :why, ended_at = :at WHERE errand = :errand AND state = 'waiting'
RETURNING errand
"""

PUT_AT = "SELECT at FROM errand WHERE once = :once"

ENDED_ONCE = """
UPDATE errand SET state = 'done', ended_at = :at WHERE once = :once AND state = 'waiting' RETURNING errand
"""

LATER = "UPDATE errand SET not_before = :not_before, why = :why WHERE errand = :errand AND state = 'waiting'"

# Each location has one errand of a kind waiting whose `once` begins with the kind and the location.
UNPLANNED = """
SELECT location.location, coalesce(location_hours.zone, 'UTC'), coalesce(location_hours.quiet_from, ''),
coalesce(location_hours.quiet_to, '')
FROM location LEFT JOIN location_hours ON location_hours.location = location.location
WHERE NOT EXISTS (
  SELECT 1 FROM errand WHERE errand.state = 'waiting' AND errand.what = :what
  AND errand.once LIKE CAST(:what AS TEXT) || ' ' || location.location || ' %'
)
ORDER BY location.location
"""

FAILED = "SELECT errand, what, body, once, at, why FROM errand WHERE state = 'failed' ORDER BY errand DESC LIMIT 50"

# What was done but once stays: forgotten, it could be put a second time.
FORGET = "DELETE FROM errand WHERE state <> 'waiting' AND once IS NULL AND ended_at < :before"

ALL = (PUT, PUT_AT, DUE, ENDED, ENDED_ONCE, LATER, UNPLANNED, FAILED, FORGET)

_WHY_AT_MOST = 1000


@dataclass(frozen=True, slots=True)
class Errand:
    """what: the kind of work; body: what it is about; once: what must not be done twice, or empty."""

    number: int
    what: str
    body: dict[str, Any]
    once: str
    at: datetime


def put(
    store: Store,
    what: str,
    body: dict[str, Any],
    now: datetime,
    once: str | None = None,
    not_before: datetime | None = None,
) -> int | None:
    """The number of the new errand; None when one of that `once` was put before, whatever became of it."""
    values = {"what": what, "body": json.dumps(body, ensure_ascii=False), "once": once, "at": moment(now)}
    row = store.row(PUT, values | {"not_before": moment(not_before or now)})
    return None if row is None else int(row[0])


def claim(record: Record, now: datetime) -> Errand | None:
    """The errand that is due first; it stays waiting until it has ended, so that a killed process loses none."""
    row = record.row(DUE, {"now": moment(now)})
    if row is None:
        return None
    return Errand(int(row[0]), row[1], json.loads(row[2]), row[3] or "", datetime.fromisoformat(row[4]))


def ended(record: Record, errand: int, state: Literal["done", "failed"], why: str, now: datetime) -> None:
    """Nothing more is to be done about it. why: what became of it, for whoever looks."""
    values = {"errand": errand, "state": state, "why": why[:_WHY_AT_MOST], "at": moment(now)}
    with record.writing() as store:
        store.row(ENDED, values)


def put_at(record: Record, once: str) -> datetime | None:
    """When the errand of that `once` was put on record, whether it waits or has ended."""
    row = record.row(PUT_AT, {"once": once})
    return None if row is None else datetime.fromisoformat(row[0])


def ended_once(store: Store, once: str, now: datetime) -> None:
    """The same of the errand of that `once`, if it waits: somebody else did its work."""
    store.row(ENDED_ONCE, {"once": once, "at": moment(now)})


def done(store: Store, errand: int, why: str, now: datetime) -> bool:
    """It ends in the caller's transaction, with what it was to do; False when it had ended already."""
    values = {"errand": errand, "state": "done", "why": why[:_WHY_AT_MOST], "at": moment(now)}
    return store.row(ENDED, values) is not None


def unplanned_locations(record: Record, what: str) -> list[tuple[int, str, str, str]]:
    """(location, zone, quiet_from, quiet_to) of each that has no errand of that kind waiting."""
    found = record.rows(UNPLANNED, {"what": what})
    return [(int(number), zone, quiet_from, quiet_to) for number, zone, quiet_from, quiet_to in found]


def later(record: Record, errand: int, not_before: datetime, why: str) -> None:
    """It could not be done and is tried again from that time on."""
    values = {"errand": errand, "not_before": moment(not_before), "why": why[:_WHY_AT_MOST]}
    with record.writing() as store:
        store.run(LATER, values)


def failed(record: Record) -> list[tuple[Errand, str]]:
    """The last ones that could not be done, each with the reason."""
    return [
        (Errand(int(row[0]), row[1], json.loads(row[2]), row[3] or "", datetime.fromisoformat(row[4])), str(row[5]))
        for row in record.rows(FAILED, {})
    ]


def forget(record: Record, before: datetime) -> None:
    """Removes what ended before that time and may be done again."""
    with record.writing() as store:
        store.run(FORGET, {"before": moment(before)})
