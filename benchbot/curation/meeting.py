"""The rows of a foreign book beside the speaking rows of their vehicles here: which of them contradict each other."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import Connection, select

from benchbot.curation.held import put_beside
from benchbot.curation.speaking import speaking, speaking_of_vehicle
from benchbot.errors import Fault, TableError
from benchbot.records.schema import spec_revision
from benchbot.specs.cell import shielded, unshielded
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow, SpecCheck
from benchbot.specs.overlap import Overlap
from benchbot.specs.table import Faults, Lines, Row
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words

_MAKE, _STATUS = 1, CHECKED_COLUMNS.index("status")


class Meeting(SpecCheck):
    """Checks a foreign book; a row that contradicts one on record is no fault, but something to be decided.

    against: by the id of a row of the book, the rows on record, of other ids, that state another value.
    """

    def __init__(self, terms: Terms, faults: Faults) -> None:
        super().__init__(terms, faults)
        self.against: dict[str, list[CheckedRow]] = {}
        self._beside: CheckedRow = ()
        self._file = faults.file

    def overlap(self, found: Overlap) -> None:
        if found.line and found.other_line:
            super().overlap(found)
        elif found.line != found.other_line and found.differ and found.other != found.spec:
            # The rows on record are put beside the book's, so that the latest of the two is the one on record.
            self.against.setdefault(found.other, []).append(self._beside)

    def beside(self, row: CheckedRow) -> None:
        """Compares a verified row on record with those of the book, all of which were read before."""
        self._beside = row
        put_beside(self, dict(zip(CHECKED_COLUMNS, row, strict=True)))

    def faulty(self, spec: str, wrong: str) -> None:
        raise TableError(self._file, [Fault(f"row {self.ids[spec]}", "id", wrong, "give the row another id there")])


def held_rows(record: Connection, checking: Meeting) -> None:
    """Puts the speaking rows of the book's vehicles beside the book's own."""
    named = {part.cells for part in checking.parts.vehicles.values() if not part.faults}
    held = select(spec_revision.c.make, spec_revision.c.model).distinct()
    for make, model in record.execute(held).all():
        if (make, model) not in named:
            continue
        for row in speaking_of_vehicle(record, make, model):
            if row[_STATUS] == "verified":
                checking.beside(tuple(row))


class Spellings:
    """Makes and models as the record writes them: another shop may write the same words otherwise."""

    def __init__(self, record: Connection | None) -> None:
        self.notes: list[str] = []
        self._makes: dict[tuple[str, ...], str] = {}
        self._models: dict[tuple[tuple[str, ...], tuple[str, ...]], str] = {}
        self._known: dict[tuple[str, str], tuple[str, str]] = {}
        if record is not None:
            live = speaking([spec_revision.c.make, spec_revision.c.model])
            for make, model in record.execute(live.where(spec_revision.c.status != "withdrawn").distinct()).all():
                self._makes.setdefault(name_words(make), make)
                self._models.setdefault((name_words(make), name_words(model)), model)

    def lines(self, lines: Lines) -> Lines:
        """The same rows of a spec table, spelt as here."""
        return _Respelt(lines, self, _MAKE)

    def names(self, lines: Lines) -> Lines:
        """The same rows of vehicle names, spelt as here."""
        return _Respelt(lines, self, 0)

    def of(self, make: str, model: str) -> tuple[str, str]:
        known = self._known.get((make, model))
        if known is None:
            written = unshielded(make).strip(), unshielded(model).strip()
            make_key, model_key = name_words(written[0]), name_words(written[1])
            here = self._makes.get(make_key, written[0]), self._models.get((make_key, model_key), written[1])
            known = (make, model) if here == written else (shielded(here[0]), shielded(here[1]))
            if here != written:
                self.notes.append(f"{' '.join(written)} is written {' '.join(here)} here, and was compared so")
            self._known[make, model] = known
        return known


class _Respelt:
    def __init__(self, lines: Lines, spellings: Spellings, at: int) -> None:
        self._lines, self._spellings, self._at = lines, spellings, at

    def rows(self) -> Iterator[tuple[int, Row]]:
        at, of = self._at, self._spellings.of
        for line, cells in self._lines.rows():
            yield line, (*cells[:at], *of(cells[at], cells[at + 1]), *cells[at + 2 :])
