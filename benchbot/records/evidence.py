"""Pictures of source pages, on record from the moment that somebody sends one until it lies in the home's folder."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

_COLUMNS = "evidence, filling, spec, revision, handle, digest, kind, size, state, person, at"

PUT = """
INSERT INTO evidence (filling, spec, revision, handle, digest, kind, size, state, person, at)
VALUES (:filling, '', 0, :handle, '', '', 0, 'awaited', :person, :at) RETURNING evidence
"""

KEPT = """
UPDATE evidence SET state = 'kept', digest = :digest, kind = :kind, size = :size WHERE evidence = :evidence
"""

REFUSED = "UPDATE evidence SET state = 'refused' WHERE evidence = :evidence AND state = 'awaited'"

# A row that was sent back and handed in again keeps what was gathered before with the revision that it came with.
ATTACH = "UPDATE evidence SET spec = :spec, revision = :revision WHERE filling = :filling AND revision = 0"

ONE = f"SELECT {_COLUMNS} FROM evidence WHERE evidence = :evidence"

OF_FILLING = f"SELECT {_COLUMNS} FROM evidence WHERE filling = :filling ORDER BY evidence"

OF_REVISION = f"SELECT {_COLUMNS} FROM evidence WHERE spec = :spec AND revision = :revision ORDER BY evidence"

OF_SPEC = f"SELECT {_COLUMNS} FROM evidence WHERE spec = :spec ORDER BY evidence"

SAME_HANDLE = "SELECT evidence FROM evidence WHERE filling = :filling AND handle = :handle"

ALL = (PUT, KEPT, REFUSED, ATTACH, ONE, OF_FILLING, OF_REVISION, OF_SPEC, SAME_HANDLE)


@dataclass(frozen=True, slots=True)
class Evidence:
    """handle: what the messenger calls the file. digest: SHA-256 of its bytes, "" until it was fetched.

    kind: jpg, png, webp or pdf. state: awaited, kept, refused.
    """

    number: int
    filling: int | None
    spec: str
    revision: int
    handle: str
    digest: str
    kind: str
    size: int
    state: Literal["awaited", "kept", "refused"]
    person: str
    at: str

    @property
    def file(self) -> str:
        """Its name in the folder of evidence."""
        return f"{self.digest}.{self.kind}"


def put(record: Record, filling: int, handle: str, person: str, now: datetime) -> tuple[int, bool]:
    """Its number, and whether it is new: one picture is kept once with a row."""
    with record.writing() as store:
        before = store.row(SAME_HANDLE, {"filling": filling, "handle": handle})
        if before is not None:
            return int(before[0]), False
        values = {"filling": filling, "handle": handle, "person": person, "at": moment(now)}
        return number_of(store.row(PUT, values)), True


def kept(record: Record, number: int, digest: str, kind: str, size: int) -> None:
    """It lies in the folder."""
    with record.writing() as store:
        store.run(KEPT, {"evidence": number, "digest": digest, "kind": kind, "size": size})


def refused(record: Record, number: int) -> None:
    """It is no picture of a page, or it cannot be fetched."""
    with record.writing() as store:
        store.run(REFUSED, {"evidence": number})


def attach(store: Store, filling: int, spec: str, revision: int) -> None:
    """What was gathered while a row was filled in belongs to its revision now."""
    store.run(ATTACH, {"filling": filling, "spec": spec, "revision": revision})


def one(record: Record, number: int) -> Evidence | None:
    row = record.row(ONE, {"evidence": number})
    return None if row is None else _evidence(row)


def of_filling(record: Record, filling: int) -> list[Evidence]:
    return [_evidence(row) for row in record.rows(OF_FILLING, {"filling": filling})]


def of_revision(record: Record, spec: str, revision: int) -> list[Evidence]:
    return [_evidence(row) for row in record.rows(OF_REVISION, {"spec": spec, "revision": revision})]


def of_spec(record: Record, spec: str) -> list[Evidence]:
    return [_evidence(row) for row in record.rows(OF_SPEC, {"spec": spec})]


def _evidence(row: tuple[Any, ...]) -> Evidence:
    number, filling, spec, revision, handle, digest, kind, size, state, person, at = row
    held = None if filling is None else int(filling)
    return Evidence(int(number), held, spec, int(revision), handle, digest, kind, int(size), state, person, at)
