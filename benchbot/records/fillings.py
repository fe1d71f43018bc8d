"""Rows on their way into the book, on record field by field, so that nothing typed is ever lost."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from benchbot.checking import CONCERNS, Concern
from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

_COLUMNS = "filling, meaning, spec, author, location, fields, state, at, changed_at"

PUT = """
INSERT INTO filling (meaning, spec, author, location, fields, state, at, changed_at)
VALUES (:meaning, :spec, :author, :location, :fields, 'open', :at, :at) RETURNING filling
"""

# Whoever reads a filling to write it begins with this one: it keeps others from it until the transaction ends.
HOLD = f"""
UPDATE filling SET state = state WHERE filling = :filling AND state = 'open' AND author = :author RETURNING {_COLUMNS}
"""

CHANGE = """
UPDATE filling SET fields = :fields, changed_at = :at
WHERE filling = :filling AND state = 'open' AND author = :author RETURNING filling
"""

SET_STATE = "UPDATE filling SET state = :state, changed_at = :at WHERE filling = :filling"

GIVE = "UPDATE filling SET author = :author, location = :location, changed_at = :at WHERE filling = :filling"

ONE = f"SELECT {_COLUMNS} FROM filling WHERE filling = :filling"

OF_AUTHOR = (
    f"SELECT {_COLUMNS} FROM filling WHERE author = :author AND state = 'open' ORDER BY changed_at DESC, filling"
)

OF_MEANING = f"SELECT {_COLUMNS} FROM filling WHERE meaning = :meaning AND state = 'open' ORDER BY filling"

HANDED_IN = f"""
SELECT {_COLUMNS} FROM filling WHERE meaning = :meaning AND state = 'submitted' ORDER BY filling DESC LIMIT 1
"""

OF_SPEC = f"SELECT {_COLUMNS} FROM filling WHERE spec = :spec AND state = 'open' ORDER BY filling"

LAST_OF_AUTHOR = """
SELECT fields FROM filling WHERE author = :author AND state = 'submitted'
ORDER BY changed_at DESC, filling DESC LIMIT 20
"""

_CELLS = (
    "make", "model", "year_from", "year_to", "only_if", "component_read", "position_read", "property", "value",
    "second_value", "thread", "class", "condition", "reuse", "tightening_order", "cautions", "source", "source_ref",
    "review_by",
)  # fmt: skip

# What was sent back or dropped stands only where nothing else does.
STANDING_ROW = f"""
SELECT {", ".join(_CELLS)} FROM spec_revision WHERE spec = :spec
ORDER BY CASE
WHEN status <> 'draft' THEN 1
WHEN EXISTS (SELECT 1 FROM spec_revision AS later
WHERE later.spec = spec_revision.spec AND later.revision > spec_revision.revision) THEN 2
WHEN EXISTS (SELECT 1 FROM review WHERE review.spec = spec_revision.spec AND review.revision = spec_revision.revision
AND review.did IN ('sent back', 'withdrawn')) THEN 2
ELSE 0 END, revision DESC LIMIT 1
"""

SCOPES = """
SELECT DISTINCT scope_read FROM spec_revision WHERE make = :make AND model = :model AND status = 'verified'
AND scope_read <> '' ORDER BY scope_read
"""

ALL = (
    PUT, HOLD, CHANGE, SET_STATE, GIVE, ONE, OF_AUTHOR, OF_MEANING, HANDED_IN, OF_SPEC, LAST_OF_AUTHOR, STANDING_ROW,
    SCOPES,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fields:
    """What was entered so far.

    cells: by column of the spec table; a field that was asked and left empty is there as "". half: a figure that still
    waits for its unit, by column. reasons: why a warning may pass, by concern. asked_years, asked_only_if: what the
    question was about, which the scope is held against.
    """

    cells: Mapping[str, str] = field(default_factory=dict)
    half: Mapping[str, str] = field(default_factory=dict)
    reasons: Mapping[Concern, str] = field(default_factory=dict)
    asked_years: tuple[int, int] | None = None
    asked_only_if: str = ""

    def to_text(self) -> str:
        plain: dict[str, Any] = {
            "cells": dict(self.cells),
            "half": dict(self.half),
            "reasons": dict(self.reasons),
            "asked_years": list(self.asked_years) if self.asked_years else [],
            "asked_only_if": self.asked_only_if,
        }
        return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> Fields:
        plain = json.loads(text)
        years = plain.get("asked_years") or None
        return cls(
            plain.get("cells", {}),
            plain.get("half", {}),
            {one: plain["reasons"][one] for one in CONCERNS if one in plain.get("reasons", {})},
            (int(years[0]), int(years[1])) if years else None,
            plain.get("asked_only_if", ""),
        )


@dataclass(frozen=True, slots=True)
class Filling:
    """One row on its way. meaning: what it answers, None where nobody asked.

    spec: the row that it changes, "" for a new one. state: open, submitted, dropped.
    """

    number: int
    meaning: int | None
    spec: str
    author: str
    location: int | None
    fields: Fields
    state: str
    at: str
    changed_at: str


def put(
    record: Record,
    meaning: int | None,
    spec: str,
    author: str,
    location: int | None,
    fields: Fields,
    now: datetime,
) -> Filling:
    """A new one, open."""
    values = {"meaning": meaning, "spec": spec, "author": author, "location": location}
    text = fields.to_text()
    with record.writing() as store:
        number = number_of(store.row(PUT, values | {"fields": text, "at": moment(now)}))
    return Filling(number, meaning, spec, author, location, fields, "open", moment(now), moment(now))


def hold(store: Store, number: int, author: str) -> Filling | None:
    """As it stands, kept from others until the transaction ends; None unless it is open and this person has it."""
    row = store.row(HOLD, {"filling": number, "author": author})
    return None if row is None else _filling(row)


def change(record: Record, number: int, author: str, fields: Fields, now: datetime) -> bool:
    """More of it was entered; False, and nothing is, unless it is open and this person has it."""
    with record.writing() as store:
        values = {"filling": number, "author": author, "fields": fields.to_text(), "at": moment(now)}
        return store.row(CHANGE, values) is not None


def set_state(record: Record, number: int, state: str, now: datetime) -> None:
    """open, submitted or dropped."""
    with record.writing() as store:
        store.run(SET_STATE, {"filling": number, "state": state, "at": moment(now)})


def give(record: Record, number: int, author: str, location: int | None, now: datetime) -> None:
    """Another person goes on with it."""
    with record.writing() as store:
        store.run(GIVE, {"filling": number, "author": author, "location": location, "at": moment(now)})


def one(record: Record, number: int) -> Filling | None:
    row = record.row(ONE, {"filling": number})
    return None if row is None else _filling(row)


def open_of(record: Record, author: str) -> list[Filling]:
    """What a person has begun and neither submitted nor dropped, the latest first."""
    return [_filling(row) for row in record.rows(OF_AUTHOR, {"author": author})]


def open_for(record: Record, meanings: Sequence[int], spec: str = "") -> Filling | None:
    """The open one that answers one of the meanings or changes the row, whoever has it."""
    for meaning in meanings:
        for row in record.rows(OF_MEANING, {"meaning": meaning}):
            return _filling(row)
    if spec:
        for row in record.rows(OF_SPEC, {"spec": spec}):
            return _filling(row)
    return None


def handed_in_for(record: Record, meanings: Sequence[int]) -> Filling | None:
    """The one that was submitted last for one of the meanings."""
    rows = [record.row(HANDED_IN, {"meaning": meaning}) for meaning in meanings]
    found = [_filling(row) for row in rows if row is not None]
    return max(found, key=lambda one: one.number, default=None)


def last_sources(record: Record, author: str, make: str, most: int = 2) -> list[str]:
    """The sources that a person named last for vehicles of a make, the latest first."""
    cells = [Fields.from_text(row[0]).cells for row in record.rows(LAST_OF_AUTHOR, {"author": author})]
    return list(dict.fromkeys(one["source"] for one in cells if one.get("make") == make and one.get("source")))[:most]


def standing_cells(record: Record, spec: str) -> dict[str, str] | None:
    """The cells of a row as it stands, by column of the spec table, without who checked it and its status.

    That is the draft that waits for approval, or else what answers, or else the draft that came last.
    """
    row = record.row(STANDING_ROW, {"spec": spec})
    if row is None:
        return None
    names = {"component_read": "component", "position_read": "position", "tightening_order": "order"}
    return {names.get(name, name): str(cell) for name, cell in zip(_CELLS, row, strict=True)}


def scopes_of(record: Record, make: str, model: str) -> list[str]:
    """What the checked rows of a vehicle are limited to, each once."""
    return [str(row[0]) for row in record.rows(SCOPES, {"make": make, "model": model})]


def _filling(row: tuple[Any, ...]) -> Filling:
    number, meaning, spec, author, location, fields, state, at, changed_at = row
    return Filling(
        int(number),
        None if meaning is None else int(meaning),
        spec,
        author,
        None if location is None else int(location),
        Fields.from_text(fields),
        state,
        at,
        changed_at,
    )
