"""Takes a table into the record: all of it or nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

from benchbot.curation.held import compare, meet_held
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.stage import Stage
from benchbot.curation.turns import my_turn, reading, writing
from benchbot.errors import Fault, KnowledgeError, TableError
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.schema import shop_word, spec_revision, vehicle_alias
from benchbot.specs.check import CHECKED_COLUMNS, SpecCheck
from benchbot.specs.columns import Kind
from benchbot.specs.names import check_vehicle_names, check_words
from benchbot.specs.table import Faults, Table
from benchbot.specs.terms import Terms

_REVISION_COLUMNS = (CHECKED_COLUMNS[0], "revision", *CHECKED_COLUMNS[1:], "change")


@dataclass(frozen=True, slots=True)
class ImportReport:
    """What an import found and did; with `written` false it only looked."""

    kind: Kind
    rows: int
    new: int
    changed: int
    unchanged: int
    notes: tuple[str, ...]
    written: bool


def import_table(home: Home, path: Path, check: bool, author: str, now: datetime) -> ImportReport:
    """Imports a spec table, vehicle names or shop words; with `check` it writes nothing.

    TableError lists every fault, and then nothing was written either. RecordError, KnowledgeError.
    """
    with my_turn(home), reading(home) as record:
        faults = Faults(path.name)
        table = Table(path, faults)
        if table.layout.kind == "specs":
            return _import_specs(home, table, faults, record, check, author, now)
        if table.layout.kind == "vehicle names":
            return _import_names(home, table, faults, record, check, author, now)
        return _import_words(home, table, faults, record, check, author, now)


def _import_specs(
    home: Home, table: Table, faults: Faults, record: Connection | None, check: bool, author: str, now: datetime
) -> ImportReport:
    words = curator.shop_words(record) if record is not None else []
    checking = SpecCheck(Terms(shop_vocabulary(words)), faults)
    with Stage() as stage, Stage() as fresh:
        stage.put(checking.rows(table))
        if record is not None and checking.ids:
            meet_held(record, checking, faults)
        faults.settle()
        first = record is None or curator.last_entry(record, spec_revision) == 0
        counts = (stage.rows, 0, 0) if first or record is None else compare(record, stage, fresh)
        if counts[:2] != (0, 0) and not check:
            with writing(home) as connection:
                change = curator.put_change(connection, author, now, f"import of {table.path.name}")
                for batch in _first(stage) if first else fresh.batches():
                    rows = [(row[0], revision, *row[1:], change) for revision, row in batch]
                    curator.put_rows(connection, spec_revision, _REVISION_COLUMNS, rows)
        return ImportReport("specs", stage.rows, *counts, tuple(checking.notes), not check)


def _first(stage: Stage) -> Iterator[list[tuple[Any, ...]]]:
    for batch in stage.batches():
        yield [(1, row) for row in batch]


def _import_names(
    home: Home, table: Table, faults: Faults, record: Connection | None, check: bool, author: str, now: datetime
) -> ImportReport:
    held = curator.vehicle_names(record) if record is not None else []
    rows = check_vehicle_names(table, faults, held)
    faults.settle()
    known = set(held)
    new = [row for row in rows if row not in known]
    if new and not check:
        with writing(home) as connection:
            change = curator.put_change(connection, author, now, f"import of {table.path.name}")
            columns = ("make", "model", "alias", "change")
            curator.put_rows(connection, vehicle_alias, columns, [(*row, change) for row in new])
    return ImportReport("vehicle names", len(rows), len(new), 0, len(rows) - len(new), (), not check)


def _import_words(
    home: Home, table: Table, faults: Faults, record: Connection | None, check: bool, author: str, now: datetime
) -> ImportReport:
    held = curator.shop_words(record) if record is not None else []
    rows = check_words(table, Terms(shop_vocabulary(held)), faults)
    faults.settle()
    known = set(held)
    new = [row for row in rows if row not in known]
    try:
        shop_vocabulary([*held, *new])
    except KnowledgeError as error:
        # The loader looks at what no row shows alone: a phrase that another term or a whole word list claims.
        told = [Fault(fault.where, fault.column or "said", fault.wrong, fault.mend) for fault in error.faults]
        raise TableError(table.path.name, told) from error
    if new and not check:
        with writing(home) as connection:
            change = curator.put_change(connection, author, now, f"import of {table.path.name}")
            curator.put_rows(connection, shop_word, ("term", "said", "change"), [(*row, change) for row in new])
    return ImportReport("words", len(rows), len(new), 0, len(rows) - len(new), (), not check)
