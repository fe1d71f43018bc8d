"""Takes a table into the record: all of it or nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection

from benchbot.curation.held import TableCheck, meet_held
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.second_look import SecondLook
from benchbot.curation.stage import Stage
from benchbot.curation.table_findings import TableFindings
from benchbot.curation.taking import Taken, Taking
from benchbot.curation.turns import my_turn, reading, writing
from benchbot.curation.two_people import one_person_allowed
from benchbot.errors import Fault, KnowledgeError, TableError
from benchbot.places import Home
from benchbot.records import curator, word_states
from benchbot.records.alongside import AlongsideStore
from benchbot.records.entry import moment
from benchbot.records.record import Record
from benchbot.records.schema import shop_word, sole_check, spec_revision, vehicle_alias
from benchbot.specs.check import CHECKED_COLUMNS
from benchbot.specs.columns import Kind
from benchbot.specs.names import check_vehicle_names, check_words
from benchbot.specs.table import Faults, Table
from benchbot.specs.terms import Terms

_REVISION_COLUMNS = (CHECKED_COLUMNS[0], "revision", *CHECKED_COLUMNS[1:], "change")
_SOLE_COLUMNS = ("spec", "revision", "person", "at")


@dataclass(frozen=True, slots=True)
class ImportReport:
    """What an import found and did; with `written` false it only looked.

    left: rows that are as the record had them before, and are left out for that.
    """

    kind: Kind
    rows: int
    new: int
    changed: int
    unchanged: int
    notes: tuple[str, ...]
    written: bool
    left: int = 0


def import_table(home: Home, path: Path, check: bool, author: str, now: datetime, importer: str = "") -> ImportReport:
    """Imports a spec table, vehicle names or shop words; with `check` it writes nothing.

    importer: the name of the person who brings it in, where they gave it; without it, it is `author`, but for the first
    table of all. Safety-relevant rows that they checked themselves are taken as drafts, unless the shop allowed one
    person to do without a second; so are rows that a check refuses or that nobody has checked since they were changed,
    once there is anything on record.

    TableError lists every fault, and then nothing was written either. RecordError, KnowledgeError.
    """
    with my_turn(home), reading(home) as record:
        faults = Faults(path.name)
        table = Table(path, faults)
        if table.layout.kind == "specs":
            return _import_specs(home, table, faults, record, check, author, now, importer)
        if table.layout.kind == "vehicle names":
            return _import_names(home, table, faults, record, check, author, now)
        return _import_words(home, table, faults, record, check, author, now)


def _import_specs(
    home: Home,
    table: Table,
    faults: Faults,
    record: Connection | None,
    check: bool,
    author: str,
    now: datetime,
    importer: str,
) -> ImportReport:
    seen = curator.last_change(record)
    words = curator.shop_words(record) if record is not None else []
    first = record is None or curator.last_entry(record, spec_revision) == 0
    vocabulary = shop_vocabulary(words)
    checking, findings = TableCheck(Terms(vocabulary), faults), TableFindings(vocabulary, now.date())
    alone = record is not None and one_person_allowed(Record(AlongsideStore(record)))
    look = SecondLook(importer or ("" if first else author), alone, first, findings)
    taking = Taking(checking, look, findings)
    with Stage() as stage, Stage() as fresh:
        stage.put(findings.watched(checking.rows(table)))
        if first or record is None:
            taking.first(stage)
        elif checking.ids:
            taking.beside(record, stage, fresh)
            meet_held(record, checking, faults)
        checking.tell_overlaps()
        faults.settle()
        if (taking.new or taking.changed) and not check:
            with writing(home, seen, table.path.name) as connection:
                change = curator.put_change(connection, author, now, f"import of {table.path.name}")
                for batch in taking.all_new(stage) if first else fresh.batches():
                    _put(connection, batch, change, author, now)
        notes = (*checking.notes, *taking.notes())
        counts = taking.new, taking.changed, taking.unchanged
        return ImportReport("specs", stage.rows, *counts, notes, not check, taking.left)


def _put(connection: Connection, batch: Iterable[Taken], change: int, author: str, now: datetime) -> None:
    taken = list(batch)
    rows = [(row[0], revision, *row[1:], change) for revision, row, _ in taken]
    curator.put_rows(connection, spec_revision, _REVISION_COLUMNS, rows)
    alone = [(row[0], revision, author, moment(now)) for revision, row, marked in taken if marked]
    curator.put_rows(connection, sole_check, _SOLE_COLUMNS, alone)


def _import_names(
    home: Home, table: Table, faults: Faults, record: Connection | None, check: bool, author: str, now: datetime
) -> ImportReport:
    seen = curator.last_change(record)
    held = curator.vehicle_names(record) if record is not None else []
    rows = check_vehicle_names(table, faults, held)
    faults.settle()
    back = word_states.taken_back_names(AlongsideStore(record)) if record is not None else set()
    left = [row for row in rows if row in back]
    known = {*held, *back}
    new = [row for row in rows if row not in known]
    if new and not check:
        with writing(home, seen, table.path.name) as connection:
            change = curator.put_change(connection, author, now, f"import of {table.path.name}")
            columns = ("make", "model", "alias", "change")
            curator.put_rows(connection, vehicle_alias, columns, [(*row, change) for row in new])
    notes = _left_out((alias, f"{make} {model}") for make, model, alias in left)
    return ImportReport("vehicle names", len(rows), len(new), 0, len(rows) - len(new), notes, not check)


def _import_words(
    home: Home, table: Table, faults: Faults, record: Connection | None, check: bool, author: str, now: datetime
) -> ImportReport:
    seen = curator.last_change(record)
    held = curator.shop_words(record) if record is not None else []
    rows = check_words(table, Terms(shop_vocabulary(held)), faults)
    faults.settle()
    back = word_states.taken_back_words(AlongsideStore(record)) if record is not None else set()
    left = [row for row in rows if row in back]
    known = {*held, *back}
    new = [row for row in rows if row not in known]
    try:
        shop_vocabulary([*held, *new])
    except KnowledgeError as error:
        # The loader looks at what no row shows alone: a phrase that another term or a whole word list claims.
        told = [Fault(fault.where, fault.column or "said", fault.wrong, fault.mend) for fault in error.faults]
        raise TableError(table.path.name, told) from error
    if new and not check:
        with writing(home, seen, table.path.name) as connection:
            change = curator.put_change(connection, author, now, f"import of {table.path.name}")
            curator.put_rows(connection, shop_word, ("term", "said", "change"), [(*row, change) for row in new])
    notes = _left_out((said, term) for term, said in left)
    return ImportReport("words", len(rows), len(new), 0, len(rows) - len(new), notes, not check)


def _left_out(taken_back: Iterable[tuple[str, str]]) -> tuple[str, ...]:
    """An older table must not bring back what somebody found to be wrong."""
    return tuple(f"{said!r} for {means} was taken back here and is left out" for said, means in taken_back)
