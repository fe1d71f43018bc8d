"""What persons did about the revisions of rows: submitted, sent back, approved, withdrawn; warnings they let pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from benchbot.checking import Concern
from benchbot.records.entry import moment
from benchbot.records.record import Record, Store

Did = Literal["submitted", "sent back", "approved", "withdrawn"]

PUT = """
INSERT INTO review (spec, revision, person, did, said, at) VALUES (:spec, :revision, :person, :did, :said, :at)
"""

OF_SPEC = "SELECT revision, person, did, said, at FROM review WHERE spec = :spec ORDER BY entry"

LAST = """
SELECT revision, person, did, said, at FROM review WHERE spec = :spec AND revision = :revision
ORDER BY entry DESC LIMIT 1
"""

SUBMITTED = """
SELECT said FROM review WHERE spec = :spec AND revision = :revision AND did = 'submitted' ORDER BY entry LIMIT 1
"""

PUT_PASSED = """
INSERT INTO passed_warning (spec, revision, concern, told, reason, person, at)
VALUES (:spec, :revision, :concern, :told, :reason, :person, :at)
"""

PASSED = "SELECT revision, concern, told, reason, person, at FROM passed_warning WHERE spec = :spec ORDER BY entry"

PUT_SOLE = "INSERT INTO sole_check (spec, revision, person, at) VALUES (:spec, :revision, :person, :at)"

SOLE = "SELECT revision FROM sole_check WHERE spec = :spec"

SUBMIT_FILLING = """
UPDATE filling SET spec = :spec, state = 'submitted', changed_at = :at WHERE filling = :filling
"""

FILLING = """
SELECT filling FROM filling WHERE spec = :spec AND author = :author AND state = 'submitted'
ORDER BY changed_at DESC, filling DESC LIMIT 1
"""

REOPEN_FILLING = "UPDATE filling SET state = 'open', changed_at = :at WHERE filling = :filling"

ALL = (
    PUT, OF_SPEC, LAST, SUBMITTED, PUT_PASSED, PASSED, PUT_SOLE, SOLE, SUBMIT_FILLING, FILLING, REOPEN_FILLING,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Review:
    """What a person did about one revision. said: their words; of a submission, the name that its author had then."""

    revision: int
    person: str
    did: Did
    said: str
    at: str


@dataclass(frozen=True, slots=True)
class Passed:
    """A warning that a person let pass, and why."""

    revision: int
    concern: Concern
    told: str
    reason: str
    person: str
    at: str


def put(store: Store, spec: str, revision: int, person: str, did: Did, said: str, now: datetime) -> None:
    values = {"spec": spec, "revision": revision, "person": person, "did": did, "said": said, "at": moment(now)}
    store.run(PUT, values)


def of_spec(record: Record, spec: str) -> list[Review]:
    """Everything done about a row, in order."""
    return [_review(row) for row in record.rows(OF_SPEC, {"spec": spec})]


def last(record: Record, spec: str, revision: int) -> Review | None:
    """What was done last about a revision."""
    row = record.row(LAST, {"spec": spec, "revision": revision})
    return None if row is None else _review(row)


def submitted_as(record: Record, spec: str, revision: int) -> str:
    """The name that the author had when the revision was submitted; "" when it came another way."""
    row = record.row(SUBMITTED, {"spec": spec, "revision": revision})
    return "" if row is None else str(row[0])


def put_passed(
    store: Store, spec: str, revision: int, concern: Concern, told: str, reason: str, person: str, now: datetime
) -> None:
    values: dict[str, Any] = {"spec": spec, "revision": revision, "concern": concern, "told": told}
    store.run(PUT_PASSED, values | {"reason": reason, "person": person, "at": moment(now)})


def passed(record: Record, spec: str) -> list[Passed]:
    """The warnings that were let pass on all revisions of a row, in order."""
    return [
        Passed(int(revision), concern, told, reason, person, at)
        for revision, concern, told, reason, person, at in record.rows(PASSED, {"spec": spec})
    ]


def put_sole(store: Store, spec: str, revision: int, person: str, now: datetime) -> None:
    """Nobody but that person has checked the revision."""
    store.run(PUT_SOLE, {"spec": spec, "revision": revision, "person": person, "at": moment(now)})


def sole(record: Record, spec: str) -> frozenset[int]:
    """The revisions of a row that nobody but their author has checked."""
    return frozenset(int(row[0]) for row in record.rows(SOLE, {"spec": spec}))


def submit_filling(store: Store, filling: int, spec: str, now: datetime) -> None:
    """What was filled in is a revision of that row now."""
    store.run(SUBMIT_FILLING, {"filling": filling, "spec": spec, "at": moment(now)})


def reopen_filling(store: Store, spec: str, author: str, now: datetime) -> int | None:
    """The filling that the author submitted for the row last is open again; None when the row came another way."""
    row = store.row(FILLING, {"spec": spec, "author": author})
    if row is None:
        return None
    store.run(REOPEN_FILLING, {"filling": int(row[0]), "at": moment(now)})
    return int(row[0])


def _review(row: Sequence[Any]) -> Review:
    return Review(int(row[0]), str(row[1]), row[2], str(row[3]), str(row[4]))
