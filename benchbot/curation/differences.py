"""What a foreign book says otherwise than the record: new, changed, conflicting; each difference can be told."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow

Kind = Literal["new", "changed", "conflicting"]
KINDS: tuple[Kind, ...] = ("new", "changed", "conflicting")

_AT = {name: number for number, name in enumerate(CHECKED_COLUMNS)}
_READ = {"scope_read", "component_read", "position_read"}
# Two readings of one cell are told once, and the id stands before all.
_SHOWN = [name for name in CHECKED_COLUMNS if name not in _READ and name != "spec"]
_SUBJECT = ("component_read", "position_read", "property")


@dataclass(frozen=True, slots=True)
class Difference:
    """One row that a person decides on. `mark` changes with everything that the decision rests on.

    takeable: false when the record has no way to hold it beside what it holds; it can only be left.
    """

    table: str
    kind: Kind
    name: str
    told: str
    mark: str
    takeable: bool = True


@dataclass(frozen=True, slots=True)
class SpecDifference:
    """A spec of the book beside the record.

    spec: the id that it would have here; revision: the number of its next revision; row: as it would go on record;
    held: the row here that it changes, replaces, or shares its id with; withdrawn: the rows here, of other ids, that
    it contradicts and that go when it is taken; needs: the ids whose change must be taken with it; one_person: the
    book says that one person alone has checked it; older: the revision of our row that said just this before, or 0.
    """

    kind: Kind
    said: str
    spec: str
    revision: int
    row: CheckedRow
    held: CheckedRow | None
    withdrawn: tuple[CheckedRow, ...]
    needs: tuple[str, ...]
    one_person: bool = False
    older: int = 0

    @property
    def takeable(self) -> bool:
        return True

    @property
    def mark(self) -> str:
        alone = ("checked by one person",) if self.one_person else ()
        return mark_of("specs", self.kind, self.spec, self.row, self.held, self.withdrawn, *alone)

    @property
    def difference(self) -> Difference:
        return Difference("specs", self.kind, self.said, self._told(), self.mark)

    def _told(self) -> str:
        told = []
        if self.held is None or self.spec != self.said:
            told.append(summary(self.row))
        if self.held is not None and self.spec != self.said and self.held[0] == self.said:
            told.append(f"{self.said} is another row here ({summary(self.held)}); taken, it comes in as {self.spec}")
        elif self.held is not None:
            if _subject(self.held) != _subject(self.row):
                told.append(f"here it is another row ({summary(self.held)}), which it would replace")
            told.append(f"{vehicle(self.row)}: {cells_changed(self.held, self.row)}")
        if self.older:
            told.append(f"our own row said this before (revision {self.older}) and was changed since")
        if self.one_person:
            told.append("checked by one person")
        told += [f"taken, it withdraws {row[0]} ({summary(row)})" for row in self.withdrawn]
        told += [f"it goes with the change of {spec}" for spec in self.needs]
        return "; ".join(told)


def mark_of(*told: Any) -> str:
    """Sixteen letters that stand for what a decision rests on."""
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()[:16]


def same(one: CheckedRow, other: CheckedRow) -> bool:
    """Whether two rows say the same, however their component is named; the ids are not looked at."""
    at = _AT["component"]
    return one[1:at] == other[1:at] and one[at + 1 :] == other[at + 1 :]


def same_vehicle(one: CheckedRow, other: CheckedRow) -> bool:
    return one[1:3] == other[1:3]


def same_subject(one: CheckedRow, other: CheckedRow) -> bool:
    return same_vehicle(one, other) and _subject(one) == _subject(other)


def withdrawn(row: CheckedRow) -> CheckedRow:
    """The row as it goes on record when it is withdrawn."""
    at = _AT["status"]
    return (*row[:at], "withdrawn", *row[at + 1 :])


def vehicle(row: CheckedRow) -> str:
    cells = _cells(row)
    narrowed = f", {cells['only_if']}" if cells["only_if"] else ""
    return f"{cells['year_from']}-{cells['year_to']} {cells['make']} {cells['model']}{narrowed}"


def summary(row: CheckedRow) -> str:
    """A row in one line: vehicle, part, value, and who vouches for it."""
    cells = _cells(row)
    part = " ".join(filter(None, (cells["position_read"], cells["component_read"])))
    checked = f"checked by {cells['checked_by']} {cells['checked_on']}" if cells["checked_by"] else ""
    source = " ".join(filter(None, (cells["source"], cells["source_ref"])))
    vouched = ", ".join(filter(None, (cells["status"], source, checked)))
    return f"{vehicle(row)}, {part}, {cells['property']}: {cells['value']} ({vouched})"


def cells_changed(held: CheckedRow, row: CheckedRow) -> str:
    """The cells that differ, each as held → new."""
    before, after = _cells(held), _cells(row)
    names = [name for name in _SHOWN if before[name] != after[name]]
    return ", ".join(f"{name} {before[name] or 'blank'} → {after[name] or 'blank'}" for name in names)


def _subject(row: Sequence[Any]) -> tuple[Any, ...]:
    return tuple(row[_AT[name]] for name in _SUBJECT)


def _cells(row: CheckedRow) -> dict[str, str]:
    return {name: str(cell) for name, cell in zip(CHECKED_COLUMNS, row, strict=True)}
