"""The revisions of spec rows as the desk and the command line see them one by one: found, and added to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of
from benchbot.records.word_states import in_use
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow
from benchbot.specs.columns import SPECS

# What the table calls otherwise than the record.
_ON_RECORD = {"id": "spec", "order": "tightening_order"}
_CELLS = tuple((name, CHECKED_COLUMNS.index(_ON_RECORD.get(name, name))) for name in SPECS.columns)
_COLUMNS = ", ".join(f"spec_revision.{name}" for name in CHECKED_COLUMNS)
_WHOLE = f"spec_revision.revision, change.author, change.at, change.why, {_COLUMNS}"
_JOINED = "FROM spec_revision JOIN change ON change.change = spec_revision.change"
_NO_NEWER = """
NOT EXISTS (SELECT 1 FROM spec_revision AS later
WHERE later.spec = spec_revision.spec AND later.revision > spec_revision.revision)
"""
_NO_NEWER_ANSWERING = """
NOT EXISTS (SELECT 1 FROM spec_revision AS later
WHERE later.spec = spec_revision.spec AND later.revision > spec_revision.revision AND later.status <> 'draft')
"""

# Whoever adds a revision to a row begins with this one: on a server, a second one then waits for the first to end.
HOLD = "UPDATE spec_revision SET spec = spec WHERE spec = :spec AND revision = 1"

OF_SPEC = f"SELECT {_WHOLE} {_JOINED} WHERE spec_revision.spec = :spec ORDER BY spec_revision.revision"

NEWEST = f"SELECT {_WHOLE} {_JOINED} WHERE spec_revision.spec = :spec ORDER BY spec_revision.revision DESC LIMIT 1"

ANSWERING = f"""
SELECT {_WHOLE} {_JOINED} WHERE spec_revision.spec = :spec AND spec_revision.status <> 'draft'
ORDER BY spec_revision.revision DESC LIMIT 1
"""

DRAFTS = f"""
SELECT {_WHOLE} {_JOINED} WHERE spec_revision.status = 'draft' AND {_NO_NEWER} ORDER BY spec_revision.entry
"""

VERIFIED_OF_VEHICLE = f"""
SELECT {_COLUMNS} FROM spec_revision
WHERE spec_revision.make = :make AND spec_revision.model = :model AND spec_revision.status = 'verified'
AND {_NO_NEWER_ANSWERING} ORDER BY spec_revision.entry
"""

VERIFIED_OF_COMPONENT = f"""
SELECT {_COLUMNS} FROM spec_revision
WHERE spec_revision.component_read = :component AND spec_revision.property = :property
AND spec_revision.status = 'verified' AND {_NO_NEWER_ANSWERING} ORDER BY spec_revision.entry LIMIT :most
"""

VEHICLE = "SELECT 1 FROM spec_revision WHERE make = :make AND model = :model AND spec <> :spec LIMIT 1"

VEHICLES = "SELECT DISTINCT make, model FROM spec_revision"

KEPT_OF_VEHICLE = f"""
SELECT spec_revision.spec FROM spec_revision
WHERE spec_revision.make = :make AND spec_revision.model = :model AND spec_revision.status <> 'withdrawn'
AND spec_revision.spec <> :spec AND {_NO_NEWER} LIMIT 1
"""

LAST_CHANGE = "SELECT coalesce(max(change), 0) FROM change"

KNOWN = "SELECT 1 FROM spec_revision WHERE spec = :spec LIMIT 1"

WORDS = f"SELECT term, said FROM shop_word WHERE {in_use('word')} ORDER BY entry"

PUT_CHANGE = "INSERT INTO change (author, at, why) VALUES (:author, :at, :why) RETURNING change"

PUT = f"""
INSERT INTO spec_revision (revision, change, {", ".join(CHECKED_COLUMNS)})
VALUES (:revision, :change, {", ".join(f":{name}" for name in CHECKED_COLUMNS)})
"""

ALL = (
    HOLD, OF_SPEC, NEWEST, ANSWERING, DRAFTS, VERIFIED_OF_VEHICLE, VERIFIED_OF_COMPONENT, VEHICLE, VEHICLES,
    KEPT_OF_VEHICLE, LAST_CHANGE, KNOWN, WORDS, PUT_CHANGE, PUT,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision of a row. at: as the record writes times."""

    revision: int
    author: str
    at: str
    why: str
    row: CheckedRow

    @property
    def spec(self) -> str:
        return str(self.row[0])

    @property
    def status(self) -> str:
        return self.cells["status"]

    @property
    def cells(self) -> dict[str, str]:
        """The cells as entered, by column of the spec table."""
        return cells_of(self.row)


def cells_of(row: CheckedRow) -> dict[str, str]:
    """The cells of a checked row as entered, by column of the spec table."""
    return {name: str(row[at]) for name, at in _CELLS}


def hold(store: Store, spec: str) -> None:
    """Keeps others from adding to the row until the transaction ends."""
    store.run(HOLD, {"spec": spec})


def of_spec(record: Record, spec: str) -> list[Revision]:
    """Every revision of a row, oldest first; empty when the record has no such id."""
    return [_revision(row) for row in record.rows(OF_SPEC, {"spec": spec})]


def newest(record: Record, spec: str) -> Revision | None:
    """The newest revision, whatever its status."""
    row = record.row(NEWEST, {"spec": spec})
    return None if row is None else _revision(row)


def answering(record: Record, spec: str) -> Revision | None:
    """The newest revision that is no draft: what the row says in the next book, or that it is withdrawn."""
    row = record.row(ANSWERING, {"spec": spec})
    return None if row is None else _revision(row)


def drafts(record: Record) -> list[Revision]:
    """The rows whose newest revision is a draft, in the order that they came."""
    return [_revision(row) for row in record.rows(DRAFTS, {})]


def verified_of_vehicle(record: Record, make: str, model: str) -> list[CheckedRow]:
    """The rows that answer for a vehicle, by its name as entered."""
    return [tuple(row) for row in record.rows(VERIFIED_OF_VEHICLE, {"make": make, "model": model})]


def verified_of_component(record: Record, component: str, name: str, most: int) -> list[CheckedRow]:
    """The rows that answer for a property of a component on any vehicle, at most so many."""
    return [
        tuple(row)
        for row in record.rows(VERIFIED_OF_COMPONENT, {"component": component, "property": name, "most": most})
    ]


def vehicle_known(record: Record, make: str, model: str, spec: str) -> bool:
    """Whether a row of another id names the vehicle just so."""
    return record.row(VEHICLE, {"make": make, "model": model, "spec": spec}) is not None


def vehicles(record: Record) -> list[tuple[str, str]]:
    """Every (make, model) on record."""
    return [(str(make), str(model)) for make, model in record.rows(VEHICLES, {})]


def kept_of_vehicle(record: Record, make: str, model: str, spec: str) -> str | None:
    """The id of a row, of another id, whose newest revision names the vehicle so and is not withdrawn."""
    row = record.row(KEPT_OF_VEHICLE, {"make": make, "model": model, "spec": spec})
    return None if row is None else str(row[0])


def known(record: Record, spec: str) -> bool:
    return record.row(KNOWN, {"spec": spec}) is not None


def shop_words(record: Record) -> list[tuple[str, str]]:
    """(term, said) of the shop's own words that are in use."""
    return [(str(term), str(said)) for term, said in record.rows(WORDS, {})]


def last_change(record: Record) -> int:
    """The number of the newest change; 0 when there is none."""
    return number_of(record.row(LAST_CHANGE, {}))


def put_change(store: Store, author: str, why: str, now: datetime) -> int:
    """The number of a new change; every row that it brings names it."""
    return number_of(store.row(PUT_CHANGE, {"author": author, "at": moment(now), "why": why}))


def put(store: Store, row: CheckedRow, revision: int, change: int) -> None:
    """Adds a revision; those before it stay as they are."""
    named: Mapping[str, Any] = dict(zip(CHECKED_COLUMNS, row, strict=True))
    store.run(PUT, {**named, "revision": revision, "change": change})


def _revision(row: Sequence[Any]) -> Revision:
    return Revision(int(row[0]), str(row[1]), str(row[2]), str(row[3]), tuple(row[4:]))
