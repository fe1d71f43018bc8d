"""Takes what a person chose from a foreign book into the record: all that was chosen, or nothing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, select

from benchbot.curation.comparing import Comparison
from benchbot.curation.decisions import Choice, Decisions
from benchbot.curation.differences import Difference, SpecDifference, withdrawn
from benchbot.curation.foreign_book import open_book
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.second_look import SecondLook, as_draft
from benchbot.curation.table_findings import TableFindings
from benchbot.curation.taking import Notes, told_of, waits
from benchbot.curation.turns import my_turn, reading, writing
from benchbot.curation.two_people import one_person_allowed
from benchbot.errors import Fault, TableError
from benchbot.places import Home
from benchbot.records import curator, word_states
from benchbot.records.alongside import AlongsideStore
from benchbot.records.entry import moment
from benchbot.records.record import Record
from benchbot.records.schema import change, sole_check, spec_revision
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow

_REVISION_COLUMNS = (CHECKED_COLUMNS[0], "revision", *CHECKED_COLUMNS[1:], "change")
_SOLE_COLUMNS = ("spec", "revision", "person", "at")
_BATCH = 5_000
_STATUS, _BY, _ON = (CHECKED_COLUMNS.index(name) for name in ("status", "checked_by", "checked_on"))
# A change that brings no row: what was left of a book, by its marks, so that it is not asked about again.
_LEFT = "left of a foreign book: "


@dataclass(slots=True)
class Exchanged:
    """What was done: rows taken and left of each kind, and rows here that were withdrawn for them.

    left_before: how many were left at another time. waiting: how many of those taken wait for a second person, because
    whoever brought them in had checked them, or because a check refuses them; refused: what that check finds.
    undecided: how many differences nobody decided about; unless it is 0, nothing was written.
    """

    taken: Counter[str] = field(default_factory=Counter)
    left: Counter[str] = field(default_factory=Counter)
    left_before: int = 0
    withdrawn: int = 0
    waiting: int = 0
    undecided: int = 0
    refused: Notes = field(
        default_factory=lambda: Notes("rows are refused by a check; see them with: benchbot specs waiting")
    )


@contextmanager
def compared(home: Home, path: Path) -> Iterator[Comparison]:
    """A book beside the record. TableError: it is no book, is not whole, or a row of it has a fault. RecordError."""
    with open_book(path) as book, Comparison(book) as comparison:
        with my_turn(home), reading(home) as record:
            comparison.compare(record)
        yield comparison


def left_before(home: Home) -> frozenset[str]:
    """The marks of what was left in an earlier exchange."""
    with reading(home) as record:
        if record is None:
            return frozenset()
        told = record.execute(select(change.c.why).where(change.c.why.startswith(_LEFT))).scalars()
        return frozenset(mark for why in told for mark in why.removeprefix(_LEFT).split())


def take(
    home: Home, comparison: Comparison, decisions: Decisions, author: str, now: datetime, importer: str = ""
) -> Exchanged:
    """Writes what was decided to be taken, when everything is decided.

    importer: as in `import_table`: a safety-relevant row that they checked themselves comes in as a draft, and so does
    one that a check refuses; no row here is withdrawn for it.
    TableError: a decision cannot be carried out. RecordError: the record was changed since the comparison.
    """
    with reading(home) as record:
        first = record is None or curator.last_entry(record, spec_revision) == 0
        alone = record is not None and one_person_allowed(Record(AlongsideStore(record)))
        vocabulary = shop_vocabulary(curator.shop_words(record) if record is not None else [])
    findings = TableFindings(vocabulary, now.date())
    look = SecondLook(importer or ("" if first else author), alone, first, findings)
    chosen = _Chosen(comparison, decisions, look, findings)
    if chosen.done.undecided or not (chosen.done.taken or chosen.done.left):
        return chosen.done
    why = f"import of {comparison.book.name} ({comparison.book.label.origin})"
    with my_turn(home), writing(home, comparison.last_change, comparison.book.name) as connection:
        if chosen.left:
            curator.put_change(connection, author, now, _LEFT + " ".join(chosen.left))
        if chosen.done.taken:
            number = curator.put_change(connection, author, now, why)
            _put(connection, comparison, chosen, number, author, now)
    return chosen.done


class _Chosen:
    """Goes through all decisions once before anything is written."""

    def __init__(self, comparison: Comparison, decisions: Decisions, look: SecondLook, findings: TableFindings) -> None:
        self.look = look
        self._findings = findings
        self._drafts: set[str] = set()
        self.left: list[str] = []
        self.withdrawn: dict[str, CheckedRow] = {}
        self.of = decisions.of
        self.done = Exchanged()
        self._file = comparison.book.name
        self._before = decisions.before
        self._changed: set[str] = set()
        self._waiting: list[SpecDifference] = []
        for one in comparison.specs():
            if self._count(one) == "take":
                self._taken(one)
        for difference in comparison.small():
            if self._count(difference) == "take" and not difference.takeable:
                raise self._refused(difference.name, difference.told, "leave it")
        if not self.done.undecided:
            self._check_needs()
        # A row that a taken one replaces need not be withdrawn for another.
        self.withdrawn = {spec: row for spec, row in self.withdrawn.items() if spec not in self._changed}
        self.done.withdrawn = len(self.withdrawn)

    def _count(self, one: Difference | SpecDifference) -> Choice | None:
        choice = self.of(one)
        if choice == "take":
            self.done.taken[one.kind] += 1
        elif choice is None:
            self.done.undecided += 1
        elif one.mark in self._before:
            self.done.left_before += 1
        else:
            self.done.left[one.kind] += 1
            self.left.append(one.mark)
        return choice

    def row(self, one: SpecDifference) -> CheckedRow:
        """The row as it goes on record."""
        return as_draft(one.row) if one.spec in self._drafts else one.row

    def is_alone(self, one: SpecDifference) -> bool:
        """Whether one person alone has checked the row that goes on record."""
        return one.row[_STATUS] == "verified" and (one.one_person or self.look.is_alone(one.row))

    def revision(self, spec: str, newest: int) -> int:
        """The number of the revision that withdraws a row, which may get a draft as well."""
        return newest + 1 + (spec in self._drafts)

    def _taken(self, one: SpecDifference) -> None:
        # What stood there before needs no look: whoever decided has seen both.
        why = self.look.needed(one.row)
        if why is not None:
            # It waits for a second person; what answers now goes on answering until then.
            self._drafts.add(one.spec)
            self.done.waiting += 1
            if why == "refused" and (found := self._findings.refused(one.row)) is not None:
                self.done.refused.add(f"{one.spec}: {told_of(found)}; {waits(one.spec)}")
            return
        self.withdrawn |= {row[0]: row for row in one.withdrawn}
        if one.revision > 1:
            self._changed.add(one.spec)
        if one.needs:
            self._waiting.append(one)

    def _check_needs(self) -> None:
        for one in self._waiting:
            for other in one.needs:
                if other not in self._changed:
                    wrong = f"it contradicts {other} as it stands here, and the change of {other} is to be left"
                    raise self._refused(one.said, wrong, f"take both, or leave both {one.said} and {other}")

    def _refused(self, name: str, wrong: str, mend: str) -> TableError:
        return TableError(self._file, [Fault(name, "decision", wrong, f"{mend}; nothing was written")])


def _put(
    connection: Connection, comparison: Comparison, chosen: _Chosen, number: int, author: str, now: datetime
) -> None:
    batch: list[SpecDifference] = []
    for one in comparison.specs():
        if chosen.of(one) == "take":
            batch.append(one)
            if len(batch) == _BATCH:
                _put_batch(connection, batch, chosen, number, author, now)
                batch = []
    _put_batch(connection, batch, chosen, number, author, now)
    newest = curator.newest_of(connection, list(chosen.withdrawn))
    gone: list[tuple[Any, ...]] = [
        (spec, chosen.revision(spec, newest[spec][0]), *withdrawn(row)[1:], number)
        for spec, row in chosen.withdrawn.items()
    ]
    curator.put_rows(connection, spec_revision, _REVISION_COLUMNS, gone)
    store = AlongsideStore(connection)
    for named, name in comparison.new_names:
        if chosen.of(named) == "take":
            word_states.put_name(store, *name, number)
    for said, word in comparison.new_words:
        if chosen.of(said) == "take":
            word_states.put_word(store, *word, number)


def _put_batch(
    connection: Connection, batch: list[SpecDifference], chosen: _Chosen, number: int, author: str, now: datetime
) -> None:
    rows = [(one, chosen.row(one)) for one in batch]
    curator.put_rows(
        connection,
        spec_revision,
        _REVISION_COLUMNS,
        [(one.spec, one.revision, *row[1:], number) for one, row in rows],
    )
    before = curator.checked_alone(connection, [one.spec for one in batch if one.revision > 1])
    alone = [
        (one.spec, one.revision, author, moment(now))
        for one, row in rows
        if row[_STATUS] == "verified" and (chosen.is_alone(one) or (one.spec, row[_BY], row[_ON]) in before)
    ]
    curator.put_rows(connection, sole_check, _SOLE_COLUMNS, alone)
