"""A table beside what the record holds already: rows that disagree, names spelt otherwise."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, select

from benchbot.curation.speaking import speaking_of_vehicle
from benchbot.records.schema import spec_revision
from benchbot.specs.check import CHECKED_COLUMNS, MOST_NOTES, SpecCheck
from benchbot.specs.overlap import Overlap
from benchbot.specs.table import MOST_FAULTS, Faults
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words

_STATUS = CHECKED_COLUMNS.index("status")


class TableCheck(SpecCheck):
    """Checks a table whose rows may be left out, or wait, for what the record holds: the overlaps are told in the end.

    left: the ids of the rows that are left out.
    """

    def __init__(self, terms: Terms, faults: Faults) -> None:
        super().__init__(terms, faults)
        self.left: set[str] = set()
        self._overlaps: list[Overlap] = []
        self._alike = 0
        self._found = faults

    def overlap(self, overlap: Overlap) -> None:
        if not overlap.differ:
            self._alike += 1
            if self._alike > MOST_NOTES + 1:
                return
        self._overlaps.append(overlap)
        if len(self._overlaps) > MOST_FAULTS + MOST_NOTES:
            # So many are no older table any more.
            self.tell_overlaps()

    def replaces(self, spec: str) -> bool:
        """Whether the table's row takes the place of what speaks for it on record."""
        return spec in self.ids and spec not in self.drafts and spec not in self.left

    def tell_overlaps(self) -> None:
        """Puts what overlaps on the faults and notes, but for rows that are left out."""
        told, self._overlaps = self._overlaps, []
        for one in told:
            if any(line and spec in self.left for spec, line in ((one.spec, one.line), (one.other, one.other_line))):
                continue
            held = {spec for spec, line in ((one.spec, one.line), (one.other, one.other_line)) if not line}
            if one.differ and one.spec != one.other and held & self.drafts:
                self._still_speaking(one, held.pop())
            else:
                super().overlap(one)

    def _still_speaking(self, one: Overlap, held: str) -> None:
        spec, line = (one.other, one.other_line) if one.spec == held else (one.spec, one.line)
        wrong = (
            f"{spec} and {held} (on record) state different values for one vehicle, part and years, and the change of "
            f"{held} in line {self.ids[held]} comes in as a draft"
        )
        self._found.add(line, "value", wrong, f"give {held} the day on which it was checked again, or wait for it")


def meet_held(record: Connection, checking: TableCheck, faults: Faults) -> None:
    """Puts the record's rows of the table's vehicles beside the table's own, but for those that it replaces."""
    named = {part.cells for part in checking.parts.vehicles.values() if not part.faults}
    held = select(spec_revision.c.make, spec_revision.c.model).distinct()
    for make, model in record.execute(held).all():
        if (make, model) in named:
            _meet_vehicle(record, checking, make, model)
        else:
            _meet_spelling(record, checking, faults, make, model)


def put_beside(checking: SpecCheck, held: Mapping[str, Any]) -> None:
    """Compares a verified row on record, its cells by name, with the rows that were checked."""
    parts = checking.parts
    component, position = parts.component[held["component_read"]], parts.position[held["position_read"]]
    figure = parts.figures[held["property"], held["value"], held["second_value"]]
    scope = parts.scope[held["scope_read"]]
    if any(part.faults for part in (component, position, figure, scope)):
        # The words or rules have changed since the row went on record; publishing names such rows.
        return
    subject = parts.subject(parts.vehicles[held["make"], held["model"]], component, position, figure)
    checking.meet(held["spec"], subject, held["year_from"], held["year_to"], scope.number, figure.number)


def _meet_vehicle(record: Connection, checking: TableCheck, make: str, model: str) -> None:
    for row in speaking_of_vehicle(record, make, model):
        held = dict(zip(CHECKED_COLUMNS, row, strict=True))
        if held["status"] == "verified" and not checking.replaces(held["spec"]):
            put_beside(checking, held)


def _meet_spelling(record: Connection, checking: TableCheck, faults: Faults, make: str, model: str) -> None:
    make_key, model_key = name_words(make), name_words(model)
    here, line = checking.parts.makes.get(make_key, (make, 0))
    column, there = "make", make
    if here == make:
        here, line = checking.parts.models.get((make_key, model_key), (model, 0))
        column, there = "model", model
    if here == there:
        return
    kept = [
        held[0]
        for held in speaking_of_vehicle(record, make, model)
        if held[_STATUS] != "withdrawn" and not _renamed(held, checking)
    ]
    if kept:
        wrong = f"{here!r} is written {there!r} on record ({kept[0]})"
        faults.add(line, column, wrong, f"write {there!r}, or bring every row of the vehicle in with the new spelling")


def _renamed(held: Sequence[Any], checking: TableCheck) -> bool:
    """Whether the table brings the row that speaks in with another spelling."""
    return checking.replaces(held[0]) or (held[0] in checking.ids and held[_STATUS] == "draft")
