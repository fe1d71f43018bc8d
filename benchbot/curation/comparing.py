"""Lays a foreign book beside the record: every row of it is checked, and is new, changed, conflicting or unchanged."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection

from benchbot.curation.differences import Difference, Kind, SpecDifference, mark_of, same, same_subject, same_vehicle
from benchbot.curation.foreign_book import ForeignBook
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.meeting import Meeting, Spellings, held_rows
from benchbot.curation.second_look import as_draft
from benchbot.curation.speaking import speaking_of
from benchbot.curation.stage import Stage
from benchbot.errors import KnowledgeError
from benchbot.records import curator, word_states
from benchbot.records.alongside import AlongsideStore
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow
from benchbot.specs.names import VehicleName, Word, check_vehicle_names, check_words
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words

_MOST_IDS = 1_000
_STATUS = CHECKED_COLUMNS.index("status")
_TAKEN_BACK = "; it was taken back here, so look at it well"
# kind, id in the book, id here, its next revision here, the row, the row that it meets here
Staged = tuple[Kind, str, str, int, CheckedRow, CheckedRow | None]


class Comparison:
    """A book beside the record as it was at one moment; `last_change` tells that moment.

    Its stages are temporary files: leave it as a context.
    """

    def __init__(self, book: ForeignBook) -> None:
        self.book = book
        self.last_change = 0
        self.unchanged: Counter[str] = Counter()
        self.notes: list[str] = []
        self.new_names: list[tuple[Difference, VehicleName]] = []
        self.new_words: list[tuple[Difference, Word]] = []
        self._record: Connection | None = None
        self._words: list[Word] = []
        self._stage = Stage()
        self._contradicted: dict[str, tuple[CheckedRow, ...]] = {}
        self._wanted: set[str] = set()
        self._changing: set[str] = set()
        self._alone: set[str] = set()
        self._older: dict[str, int] = {}

    def __enter__(self) -> Comparison:
        self._stage.__enter__()
        return self

    def __exit__(self, *error: Any) -> None:
        self._stage.__exit__(*error)

    def compare(self, record: Connection | None) -> None:
        """TableError: a row of the book has a fault, or two of its rows disagree with each other."""
        self._record = record
        self.last_change = curator.last_change(record)
        self._words = curator.shop_words(record) if record is not None else []
        self._specs()
        self._names()
        self._shop_words()
        self._record = None

    def specs(self) -> Iterator[SpecDifference]:
        """The specs that differ, in the order of the book."""
        for batch in self._stage.batches():
            for kind, said, spec, revision, row, held in batch:
                against = self._contradicted.get(said, ())
                gone = tuple(one for one in against if one[0] not in self._changing)
                needs = tuple(one[0] for one in against if one[0] in self._changing)
                told: Kind = "conflicting" if gone else kind
                alone, older = said in self._alone, self._older.get(spec, 0)
                yield SpecDifference(told, said, spec, revision, row, held, gone, needs, alone, older)

    def each(self) -> Iterator[Difference]:
        """Every difference."""
        for one in self.specs():
            yield one.difference
        yield from self.small()

    def small(self) -> Iterator[Difference]:
        """The differences of vehicle names and words."""
        yield from (difference for difference, _ in self.new_names)
        yield from (difference for difference, _ in self.new_words)

    def counts(self) -> Counter[tuple[str, str]]:
        """How many differences, by table and kind."""
        found: Counter[tuple[str, str]] = Counter()
        for one in self.specs():
            found["specs", one.kind] += 1
        for difference in self.small():
            found[difference.table, difference.kind] += 1
        return found

    def _specs(self) -> None:
        faults = self.book.faults("specs")
        checking = Meeting(Terms(shop_vocabulary(self._words)), faults)
        spellings = Spellings(self._record)
        with Stage() as checked:
            checked.put(checking.rows(spellings.lines(self.book.lines("specs", faults))))
            if self._record is not None and checking.ids:
                held_rows(self._record, checking)
            faults.settle()
            self.notes = [*spellings.notes, *checking.notes]
            self._alone = checking.alone
            self._wanted = {row[0] for rows in checking.against.values() for row in rows}
            for batch in checked.batches():
                self._stage.put_batch(list(self._met(batch, checking)))

    def _met(self, batch: list[CheckedRow], checking: Meeting) -> Iterator[Staged]:
        record = self._record
        ids = [row[0] for row in batch]
        newest = curator.newest_of(record, ids) if record is not None else {}
        speaking = speaking_of(record, [i for i in ids if i in newest]) if record is not None and newest else {}
        revised = [spec for spec, (revision, _) in newest.items() if revision > 1]
        before = curator.revisions_of(record, revised) if record is not None else {}
        for row in batch:
            said = row[0]
            if said not in newest:
                self._meets(said, checking)
                yield "new", said, said, 1, row, None
                continue
            revision, last = newest[said]
            held = speaking[said]
            if same(row, held) or _is_there(row, last):
                self.unchanged["specs"] += 1
            elif same_vehicle(row, held):
                self._meets(said, checking)
                self._changes(said)
                if row in before.get(said, ()):
                    self._older[said] = before[said][row]
                kind: Kind = "changed" if same_subject(row, held) else "conflicting"
                yield kind, said, said, revision + 1, row, held
            else:
                yield from self._renamed(row, held, checking)

    def _renamed(self, row: CheckedRow, held: CheckedRow, checking: Meeting) -> Iterator[Staged]:
        """A row whose id another vehicle's row has here: it goes by an id of its own."""
        assert self._record is not None
        said = row[0]
        for number in range(2, _MOST_IDS):
            spec = f"{said[:58]}-{number}"
            if spec in checking.ids:
                continue
            newest = curator.newest_of(self._record, [spec]).get(spec)
            if newest is None:
                self._meets(said, checking)
                yield "conflicting", said, spec, 1, (spec, *row[1:]), held
                return
            revision, last = newest
            before = speaking_of(self._record, [spec])[spec]
            if same(row, before) or _is_there(row, last):
                self.unchanged["specs"] += 1
                return
            if same_subject(row, before):
                self._meets(said, checking, spec)
                self._changes(spec)
                yield "changed", said, spec, revision + 1, (spec, *row[1:]), before
                return
        checking.faulty(said, f"the record holds {_MOST_IDS:,} rows of this id for other vehicles")

    def _changes(self, spec: str) -> None:
        if spec in self._wanted:
            self._changing.add(spec)

    def _meets(self, said: str, checking: Meeting, own: str = "") -> None:
        rows = tuple(row for row in checking.against.get(said, ()) if row[0] != own)
        if rows:
            self._contradicted[said] = rows

    def _names(self) -> None:
        faults = self.book.faults("vehicle names")
        spellings = Spellings(self._record)
        rows = check_vehicle_names(spellings.names(self.book.lines("vehicle names", faults)), faults)
        faults.settle()
        held = curator.vehicle_names(self._record) if self._record is not None else []
        owner = {name_words(alias): (make, model) for make, model, alias in held}
        back = set() if self._record is None else word_states.taken_back_names(AlongsideStore(self._record))
        for make, model, alias in rows:
            there = owner.get(name_words(alias))
            told = f"{alias!r} for {make} {model}"
            if there == (make, model):
                self.unchanged["vehicle names"] += 1
            elif there is None:
                told += _TAKEN_BACK if (make, model, alias) in back else ""
                one = Difference("vehicle names", "new", alias, told, mark_of("name", make, model, alias))
                self.new_names.append((one, (make, model, alias)))
            else:
                told = f"{told}; here it is {' '.join(there)}, so it can only be left"
                mark = mark_of("name", make, model, alias, there)
                self.new_names.append(
                    (Difference("vehicle names", "conflicting", alias, told, mark, False), (make, model, alias))
                )

    def _shop_words(self) -> None:
        faults = self.book.faults("words")
        clashes: list[tuple[Word, str]] = []
        terms = Terms(shop_vocabulary(self._words))
        rows = check_words(self.book.lines("words", faults), terms, faults, clashes)
        faults.settle()
        held = {(term, name_words(said)) for term, said in self._words}
        new = [row for row in rows if (row[0], name_words(row[1])) not in held]
        self.unchanged["words"] += len(rows) - len(new)
        unfit = self._unfit(new)
        back = set() if self._record is None else word_states.taken_back_words(AlongsideStore(self._record))
        for term, said in new:
            if (term, said) in unfit:
                clashes.append(((term, said), unfit[term, said]))
                continue
            told = f"{said!r} for {term}" + (_TAKEN_BACK if (term, said) in back else "")
            one = Difference("words", "new", said, told, mark_of("word", term, said))
            self.new_words.append((one, (term, said)))
        for (term, said), means in clashes:
            told = f"{said!r} for {term}; here it means {means}, so it can only be left"
            one = Difference("words", "conflicting", said, told, mark_of("word", term, said, means), False)
            self.new_words.append((one, (term, said)))

    def _unfit(self, new: list[Word]) -> dict[Word, str]:
        """The new words that the vocabulary has no place for, with the reason; the others load with those held."""
        unfit: dict[Word, str] = {}
        while left := [row for row in new if row not in unfit]:
            try:
                shop_vocabulary([*self._words, *left])
                break
            except KnowledgeError as error:
                places = [int(fault.where.split()[1]) - 1 - len(self._words) for fault in error.faults]
                told = {left[at]: fault.wrong for at, fault in zip(places, error.faults, strict=True) if at >= 0}
                if not told:
                    raise
                unfit |= told
        return unfit


def _is_there(row: CheckedRow, last: CheckedRow) -> bool:
    """Whether the newest revision says the same, or was taken in as a draft of it and waits."""
    return same(row, last) or (row[_STATUS] == "verified" and same(as_draft(row), last))
