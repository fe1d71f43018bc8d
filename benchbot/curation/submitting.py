"""A row handed in by a person: checked, put on record as a draft, and left to wait for a second person."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from benchbot.book.reader import Book
from benchbot.checking import Concern, Found
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.one_row import UNNAMED, check_cells, findings
from benchbot.curation.two_people import name_of
from benchbot.errors import Fault, TableError
from benchbot.records import evidence, fillings, reviews, revisions
from benchbot.records.record import Record
from benchbot.specs.cell import shielded
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow
from benchbot.vocabulary.terms import Vocabulary

# A draft says nothing of who checked it: that is for whoever approves it.
_UNCHECKED = {"checked_by": "", "checked_on": "", "status": "draft"}
_AT = {name: number for number, name in enumerate(CHECKED_COLUMNS)}


@dataclass(frozen=True, slots=True)
class Looked:
    """A row without a fault, as it would go on record, and what was found of it."""

    row: CheckedRow
    found: tuple[Found, ...]


@dataclass(frozen=True, slots=True)
class Submitted:
    """The revision that waits for approval now, and what was found of it."""

    spec: str
    revision: int
    found: tuple[Found, ...]


@dataclass(frozen=True, slots=True)
class RowRefused:
    """Nothing was written. faults: of the cells, and then nothing more was looked at. found: all that was found.

    open: those of `found` that stand in the way: refused ones, and warnings without a reason.
    """

    faults: tuple[Fault, ...] = ()
    found: tuple[Found, ...] = ()
    open: tuple[Found, ...] = ()

    def __str__(self) -> str:
        told = [str(fault) for fault in self.faults]
        told += [f"{one.concern}, {one.level}: {one.told}. {one.mend}".rstrip(". ") for one in self.open]
        return "\n".join(told)


@dataclass(frozen=True, slots=True)
class NotOpen:
    """Nothing was written: the filling was handed in or dropped, or somebody else has it by now."""


def look_over(
    record: Record,
    cells: Mapping[str, str],
    by: str,
    today: date,
    vocabulary: Vocabulary | None = None,
    book: Book | None = None,
    asked_years: tuple[int, int] | None = None,
    asked_only_if: str = "",
) -> Looked:
    """What a submission of these cells would find; `by` is who checks them, by name. TableError: the faults.

    vocabulary: the shop's own when left out. book, asked_years, asked_only_if: as in `findings`.
    """
    words = vocabulary or vocabulary_of(record)
    # The row must be whole as it will be once it is approved.
    checked = {"checked_by": shielded(by), "checked_on": today.isoformat(), "status": "verified"}
    row = check_cells({**cells, **checked}, words, record)
    return Looked(row, findings(record, row, words, today, book, asked_years, asked_only_if))


def submit(
    record: Record,
    cells: Mapping[str, str],
    author: str,
    why: str,
    now: datetime,
    reasons: Mapping[Concern, str],
    filling: int | None = None,
    vocabulary: Vocabulary | None = None,
    book: Book | None = None,
) -> Submitted | RowRefused | NotOpen:
    """Puts a row on record as a draft; it answers once somebody approves it.

    cells: by column of the spec table; with the id of a row on record they are its next revision, without an id they
    are a new row. reasons: by concern, why a warning may pass. filling: where the cells were gathered; it ends with
    this, and its pictures become the revision's.
    """
    name, words = name_of(record, author) or author, vocabulary or vocabulary_of(record)
    with record.writing() as store:
        held = None if filling is None else fillings.hold(store, filling, author)
        if filling is not None and held is None:
            return NotOpen()
        fields = fillings.Fields() if held is None else held.fields
        if held is not None and held.spec and not cells.get("id"):
            cells = {**cells, "id": held.spec}
        try:
            looked = look_over(record, cells, name, now.date(), words, book, fields.asked_years, fields.asked_only_if)
        except TableError as error:
            return RowRefused(faults=tuple(error.faults))
        standing = in_the_way(looked.found, reasons)
        if standing:
            return RowRefused(found=looked.found, open=standing)
        spec = str(looked.row[0])
        change = revisions.put_change(store, author, " ".join(why.split()), now)
        if spec == UNNAMED:
            spec = new_spec_id(record, change)
        revisions.hold(store, spec)
        before = revisions.newest(record, spec)
        revision = before.revision + 1 if before else 1
        revisions.put(store, changed(looked.row, _UNCHECKED | {"spec": spec}), revision, change)
        reviews.put(store, spec, revision, author, "submitted", name, now)
        for one in looked.found:
            if one.level == "warning":
                reason = _reason(reasons, one)
                reviews.put_passed(store, spec, revision, one.concern, one.told, reason, author, now)
        if filling is not None:
            reviews.submit_filling(store, filling, spec, now)
            evidence.attach(store, filling, spec, revision)
        return Submitted(spec, revision, looked.found)


def new_spec_id(record: Record, change: int = 0) -> str:
    """An id that no row has. change: the number of the change that brings the row, for which no other id is given."""
    number = change or revisions.last_change(record) + 1
    spec, more = f"row-{number}", 1
    while revisions.known(record, spec):
        more += 1
        spec = f"row-{number}-{more}"
    return spec


def in_the_way(found: tuple[Found, ...], reasons: Mapping[Concern, str]) -> tuple[Found, ...]:
    """The findings that keep a row out: refused ones, and warnings that nobody gave a reason for."""
    return tuple(
        one for one in found if one.level == "refused" or (one.level == "warning" and not _reason(reasons, one))
    )


def changed(row: CheckedRow, cells: Mapping[str, str]) -> CheckedRow:
    """The row with some of its cells exchanged, by column of the record."""
    exchanged = list(row)
    for name, cell in cells.items():
        exchanged[_AT[name]] = cell
    return tuple(exchanged)


def vocabulary_of(record: Record) -> Vocabulary:
    """The vocabulary with the shop's own words."""
    return shop_vocabulary(revisions.shop_words(record))


def _reason(reasons: Mapping[Concern, str], found: Found) -> str:
    return " ".join(reasons.get(found.concern, "").split())
