"""Checks every row of a spec table, and gives those that pass as the record keeps them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from benchbot.specs.cell import cell_fault, id_fault, unshielded
from benchbot.specs.overlap import Overlap, Overlaps
from benchbot.specs.parts import Parts
from benchbot.specs.properties import PROPERTIES
from benchbot.specs.table import Faults, Lines
from benchbot.specs.terms import Terms

# The order of a checked row. `*_read` is the canonical reading of the column before it.
CHECKED_COLUMNS = (
    "spec", "make", "model", "year_from", "year_to", "only_if", "scope_read", "component", "component_read",
    "position", "position_read", "property", "value", "second_value", "thread", "class", "condition", "reuse",
    "tightening_order", "cautions", "source", "checked_by", "checked_on", "review_by", "status", "source_ref",
)  # fmt: skip
CheckedRow = tuple[Any, ...]

MOST_NOTES = 200
# What the column one_person says of a row that one person alone has checked.
ALONE = "yes"
_NOTE = list(PROPERTIES).index("note")
# The two cells that differ in almost every row get a quick look; what it does not pass is looked at closely.
_QUICK_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._:/#-]{0,63}")
_QUICK_REF = re.compile(r"(?:[A-Za-z0-9(](?:[ -~]{0,300}[!-~])?)?")


class SpecCheck:
    """One pass over one spec table."""

    def __init__(self, terms: Terms, faults: Faults) -> None:
        self.parts = Parts(terms)
        self.overlaps = Overlaps(self.parts.scopes)
        self.ids: dict[str, int] = {}
        # Those that will only wait beside what answers already.
        self.drafts: set[str] = set()
        # Those that say of themselves that one person alone has checked them.
        self.alone: set[str] = set()
        self.notes: list[str] = []
        self._faults = faults

    def rows(self, table: Lines) -> Iterator[CheckedRow]:
        """The rows without a fault; the others are put on the faults."""
        parts, ids = self.parts, self.ids
        vehicles, years, scopes, components = parts.vehicles, parts.years, parts.scope, parts.component
        positions, figures, handlings, checks = parts.position, parts.figures, parts.handling, parts.checked
        quick_id, quick_ref = _QUICK_ID.fullmatch, _QUICK_REF.fullmatch
        for line, cells in table.rows():
            parts.line = line
            (
                spec, make, model, year_from, year_to, only_if, component, position, name, value, second, thread,
                strength, condition, reuse, order, cautions, source, ref, checked_by, checked_on, review_by, status,
                one_person,
            ) = cells  # fmt: skip
            row_parts = (
                vehicle := vehicles[make, model],
                span := years[year_from, year_to],
                scope := scopes[only_if],
                part := components[component],
                place := positions[position],
                figure := figures[name, value, second],
                handling := handlings[thread, strength, condition, reuse, order, cautions],
                checked := checks[source, ref.strip() != "", checked_by, checked_on, review_by, status],
            )
            good = True
            if not quick_id(spec):
                spec = spec.strip()
                good = self._told(line, "id", id_fault(spec))
            if not quick_ref(ref):
                good = self._told(line, "source_ref", cell_fault(ref)) and good
                ref = unshielded(ref).strip()
            if spec in ids:
                good = self._twice(line, spec)
            else:
                ids[spec] = line
            for one in row_parts:
                if one.faults or one.doubt:
                    good = self._part_told(line, spec, one.faults, one.doubt) and good
            if one_person:
                good = self._marked(line, spec, one_person) and good
            if not good:
                continue
            if checked.number and figure.second != _NOTE:
                subject = parts.subject(vehicle, part, place, figure)
                self.state(spec, line, subject, *span.cells, scope.number, figure.number)
            elif checked.cells[-1] == "draft":
                self.drafts.add(spec)
            yield (
                spec, *vehicle.cells, *span.cells, *scope.cells, *part.cells, *place.cells, *figure.cells,
                *handling.cells, *checked.cells, ref,
            )  # fmt: skip

    def meet(self, spec: str, subject: int, *told: int) -> None:
        """Compares a verified row that is on record with those of the table; `told` as in `Overlaps.add`."""
        if subject in self.overlaps:
            self.state(spec, 0, subject, *told)

    def state(self, spec: str, line: int, subject: int, *told: int) -> None:
        """Compares a verified row with those before it, and keeps it for those after."""
        try:
            for overlap in self.overlaps.add(spec, line, subject, *told):
                self.overlap(overlap)
        except ValueError as error:
            self._faults.add(line, "only_if", str(error), "look at the make, model and component of these rows")

    def overlap(self, overlap: Overlap) -> None:
        """Two rows that fall together: a fault when they differ, a note when they agree."""
        if overlap.line == overlap.other_line or overlap.spec == overlap.other:
            return
        line, there = overlap.line or overlap.other_line, f"line {overlap.other_line}"
        spec, other = overlap.spec, overlap.other
        if not overlap.line:
            spec, other, there = other, spec, "on record"
        if overlap.differ:
            wrong = f"{spec} and {other} ({there}) state different values for one vehicle, part and years"
            self._faults.add(line, "value", wrong, "correct the value, part their years or only_if, or withdraw one")
        else:
            self._note(f"{spec} and {other} ({there}) state the same value for overlapping years")

    def _note(self, text: str) -> None:
        if len(self.notes) < MOST_NOTES:
            self.notes.append(text)
        elif len(self.notes) == MOST_NOTES:
            self.notes.append("more notes of this kind are left out")

    def _told(self, line: int, column: str, fault: tuple[str, str] | None) -> bool:
        if fault:
            self._faults.add(line, column, *fault)
        return fault is None

    def _marked(self, line: int, spec: str, cell: str) -> bool:
        mark = cell.strip().casefold()
        if mark == ALONE:
            self.alone.add(spec)
        elif mark:
            mend = f"write {ALONE} where one person alone has checked the row, or nothing"
            self._faults.add(line, "one_person", f"{cell[:40]!r} is no mark", mend)
        return mark in ("", ALONE)

    def _twice(self, line: int, spec: str) -> bool:
        first = self.ids[spec]
        self._faults.add(line, "id", f"{spec!r} is also the id of line {first}", "give every row an id of its own")
        return False

    def _part_told(self, line: int, spec: str, faults: tuple[tuple[str, str, str], ...], doubt: str) -> bool:
        for column, what, mend in faults:
            self._faults.add(line, column, what, mend)
        if doubt and not faults:
            self._note(f"{spec} (line {line}): {doubt}")
        return not faults
