"""One row by itself, with no file around it: its cells checked as an import checks them, and laid beside the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from benchbot.book.reader import Book
from benchbot.checking import Found, HeldRow, RowToCheck, check_row
from benchbot.errors import Fault, TableError
from benchbot.records import revisions
from benchbot.records.record import Record
from benchbot.records.revisions import cells_of
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow, SpecCheck
from benchbot.specs.columns import SPECS
from benchbot.specs.table import Faults, Row
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

WHERE = "the row"
# Stands for the id while a row has none.
UNNAMED = "new"
# So many rows tell what is usual for a part.
MOST_BESIDE = 2_000
_COMPONENT, _PROPERTY = CHECKED_COLUMNS.index("component_read"), CHECKED_COLUMNS.index("property")


def check_cells(cells: Mapping[str, str], vocabulary: Vocabulary, record: Record | None) -> CheckedRow:
    """The row as the record keeps it; cells by column of the spec table, those left out are empty.

    Without a status it is a draft, without an id its id is UNNAMED. record: where the vehicle may be spelt otherwise.
    TableError: every fault of the cells, each at WHERE.
    """
    strange = [name for name in cells if name not in SPECS.columns]
    if strange:
        mend = f"the columns are: {', '.join(SPECS.columns)}"
        raise TableError(WHERE, [Fault(WHERE, name, "there is no such column", mend) for name in strange])
    whole = dict.fromkeys(SPECS.columns, "") | {"id": UNNAMED, "status": "draft"}
    whole |= {name: cell for name, cell in cells.items() if cell or name not in ("id", "status")}
    faults = Faults(WHERE)
    rows = list(SpecCheck(Terms(vocabulary), faults).rows(_OneLine(tuple(whole.get(name, "") for name in SPECS.whole))))
    found = [replace(fault, where=WHERE) for fault in faults.found]
    if rows and record is not None:
        found += _spelt_otherwise(record, rows[0])
    if found:
        raise TableError(WHERE, found)
    return rows[0]


def findings(
    record: Record,
    row: CheckedRow,
    vocabulary: Vocabulary,
    today: date,
    book: Book | None = None,
    asked_years: tuple[int, int] | None = None,
    asked_only_if: str = "",
) -> tuple[Found, ...]:
    """What speaks for and against a checked row, beside the rows that answer now.

    book: where what is usual for the part is looked up, faster than in the record, which knows the same.
    asked_years, asked_only_if: what the question was about, where the row answers one.
    """
    spec = "" if row[0] == UNNAMED else str(row[0])
    to_check = replace(RowToCheck.of(cells_of(row)), spec=spec, asked_years=asked_years, asked_only_if=asked_only_if)
    beside = {held.spec: held for held in _of_component(record, row, book, today)}
    # Later, because what the record says of this vehicle is newer than what the book says.
    beside |= {held[0]: HeldRow.of(cells_of(held)) for held in revisions.verified_of_vehicle(record, row[1], row[2])}
    return check_row(to_check, tuple(beside.values()), vocabulary, today)


@dataclass(frozen=True, slots=True)
class _OneLine:
    cells: Row

    def rows(self) -> Iterator[tuple[int, Row]]:
        yield 1, self.cells


def _of_component(record: Record, row: CheckedRow, book: Book | None, today: date) -> Iterator[HeldRow]:
    component, name = row[_COMPONENT], row[_PROPERTY]
    if book is None:
        for held in revisions.verified_of_component(record, component, name, MOST_BESIDE):
            yield HeldRow.of(cells_of(held))
        return
    for one in book.specs_of_component(component, name, today, MOST_BESIDE):
        vehicle = book.vehicle(one.vehicle)
        yield HeldRow(
            one.spec, vehicle.make, vehicle.model, str(one.year_from), str(one.year_to), one.component, one.property,
            one.value, one.only_if, one.position, one.second_value, one.thread, one.strength_class, one.condition,
        )  # fmt: skip


def _spelt_otherwise(record: Record, row: CheckedRow) -> list[Fault]:
    """As an import: a vehicle is written one way, as the record has it."""
    spec, make, model = row[:3]
    if revisions.vehicle_known(record, make, model, spec):
        return []
    make_key, model_key = name_words(make), name_words(model)
    for there_make, there_model in revisions.vehicles(record):
        if name_words(there_make) != make_key:
            continue
        if there_make != make:
            column, here, there = "make", make, there_make
        elif name_words(there_model) == model_key and there_model != model:
            column, here, there = "model", model, there_model
        else:
            continue
        kept = revisions.kept_of_vehicle(record, there_make, there_model, spec)
        if kept is not None:
            return [Fault(WHERE, column, f"{here!r} is written {there!r} on record ({kept})", f"write {there!r}")]
    return []
