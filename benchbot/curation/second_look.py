"""Which checked rows of a table somebody else has to look at before they answer, and why."""

from __future__ import annotations

from typing import Literal

from benchbot.curation.table_findings import TableFindings
from benchbot.curation.two_people import safety_relevant
from benchbot.people.names import same_name
from benchbot.records.recalls import MATTERS
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow
from benchbot.vocabulary.letters import name_words

# refused: a check finds that it cannot be so; own: whoever brings it in has checked it; stale: it says something else
# than before, and was checked before that.
Why = Literal["refused", "own", "stale"]

_AT = {name: number for number, name in enumerate(CHECKED_COLUMNS)}
_STATUS, _PROPERTY, _BY, _ON = _AT["status"], _AT["property"], _AT["checked_by"], _AT["checked_on"]
_NAMES = ("make", "model")
_SAYS = tuple(_AT[name] for name in MATTERS if name not in _NAMES)


class SecondLook:
    """Judges row after row; `findings` has seen all of them.

    importer: the name of whoever brings them in, "" when nobody is known: then no row is anybody's own. alone_allowed:
    the shop does without a second person. first: nothing is on record yet, and the table stands for its own checks.
    """

    def __init__(self, importer: str, alone_allowed: bool, first: bool, findings: TableFindings) -> None:
        self.importer = importer
        self.own: set[str] = set()
        self._allowed = alone_allowed
        self._first = first
        self._findings = findings
        self._theirs: dict[str, bool] = {}

    def needed(self, row: CheckedRow, before: CheckedRow | None = None) -> Why | None:
        """Why the row goes on record as a draft; None when it may stand as it is. before: what speaks for it now."""
        if row[_STATUS] != "verified":
            return None
        if not self._first and self._findings.refused(row) is not None:
            return "refused"
        if not safety_relevant(row[_PROPERTY]):
            return None
        if self.importer and not self._allowed and self._is_theirs(row[_BY]):
            self.own.add(row[0])
            return "own"
        return "stale" if before is not None and _is_stale(row, before) else None

    def is_alone(self, row: CheckedRow) -> bool:
        """Whether the row will answer though nobody but whoever brings it in has checked it."""
        if not (self._allowed and self.importer) or row[_STATUS] != "verified":
            return False
        return safety_relevant(row[_PROPERTY]) and self._is_theirs(row[_BY])

    def note(self) -> str:
        """What whoever brings rows in is told of those that are their own; "" when there are none."""
        if not self.own:
            return ""
        rows = "1 row was" if len(self.own) == 1 else f"{len(self.own):,} rows were"
        return (
            f"{rows} checked by {self.importer}, who brings the table in: unless it is on record as checked already, "
            "it waits as a draft for a second person (benchbot specs waiting). A shop of one person does without: "
            "benchbot people one-person allow"
        )

    def _is_theirs(self, checked_by: str) -> bool:
        known = self._theirs.get(checked_by)
        if known is None:
            known = self._theirs[checked_by] = same_name(checked_by, self.importer)
        return known


def as_draft(row: CheckedRow) -> CheckedRow:
    """The row as it goes on record when it has to wait."""
    return (*row[:_STATUS], "draft", *row[_STATUS + 1 :])


def _is_stale(row: CheckedRow, before: CheckedRow) -> bool:
    """Whether the check that the row states is of what stood there before."""
    if row[_ON] > before[_ON] or (row[_ON] == before[_ON] and not same_name(row[_BY], before[_BY])):
        return False
    if before[_STATUS] == "withdrawn":
        return True
    if any(row[at] != before[at] for at in _SAYS):
        return True
    # another way to write the vehicle's name is no other vehicle
    return any(name_words(row[_AT[name]]) != name_words(before[_AT[name]]) for name in _NAMES)
