"""How the rows of a table go on record: as they stand, as drafts, or not at all; and what is told of that."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from sqlalchemy import Connection

from benchbot.checking import Found
from benchbot.curation.held import TableCheck
from benchbot.curation.second_look import SecondLook, Why, as_draft
from benchbot.curation.speaking import speaking_of
from benchbot.curation.stage import Stage
from benchbot.curation.table_findings import TableFindings
from benchbot.records import curator
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow

MOST_TOLD = 50
_AT = {name: number for number, name in enumerate(CHECKED_COLUMNS)}
_STATUS, _BY, _ON, _VALUE = _AT["status"], _AT["checked_by"], _AT["checked_on"], _AT["value"]
# The number of a row's next revision, the row, and whether one person alone has checked it.
Taken = tuple[int, CheckedRow, bool]


class Notes:
    """Notes of one kind, as they are called after "more": the first are kept, the others counted."""

    def __init__(self, kind: str) -> None:
        self.kind = kind
        self.told: list[str] = []
        self.count = 0

    def add(self, text: str) -> None:
        self.count += 1
        if len(self.told) < MOST_TOLD:
            self.told.append(text)

    def lines(self) -> list[str]:
        more = self.count - len(self.told)
        return [*self.told, f"{more:,} more {self.kind}"] if more else self.told


class Taking:
    """Goes through the rows of one table that was checked; `look` says which of them have to wait.

    new, changed, unchanged: how many rows; left: how many are as the record had them before, and are left out for that.
    """

    def __init__(self, check: TableCheck, look: SecondLook, findings: TableFindings) -> None:
        self.new = self.changed = self.unchanged = self.left = 0
        self._check, self._look, self._findings = check, look, findings
        self._drafts = Notes("rows are taken as drafts; see them with: benchbot specs waiting")
        self._olds, self._found = Notes("rows are older and left out"), Notes("findings are not told here")

    def first(self, stage: Stage) -> None:
        """Looks through a table that meets an empty record: all of it is new."""
        self.new = stage.rows
        for batch in stage.batches():
            for row in batch:
                self._told(row, self._look.needed(row))

    def all_new(self, stage: Stage) -> Iterator[list[Taken]]:
        """The rows of that table as they go on record."""
        marked, look = self._check.alone, self._look
        for batch in stage.batches():
            yield [
                (1, as_draft(row), False)
                if look.needed(row)
                else (1, row, row[_STATUS] == "verified" and (row[0] in marked or look.is_alone(row)))
                for row in batch
            ]

    def beside(self, record: Connection, stage: Stage, fresh: Stage) -> None:
        """Puts what is new or changed on `fresh`, each as `Taken`.

        A row is unchanged when it is the newest revision of its spec, or what speaks for it while a draft waits.
        """
        for batch in stage.batches():
            newest = curator.newest_of(record, [row[0] for row in batch])
            rows = [row for row in batch if row[0] not in newest or row != newest[row[0]][1]]
            self.unchanged += len(batch) - len(rows)
            known = [row[0] for row in rows if row[0] in newest]
            speaking = {spec: newest[spec][1] for spec in known}
            speaking |= speaking_of(record, [spec for spec in known if speaking[spec][_STATUS] == "draft"])
            revised = [spec for spec in known if newest[spec][0] > 1]
            before = curator.revisions_of(record, revised)
            alone = curator.checked_alone(record, known)
            taken = (
                self._one(row, newest.get(row[0]), speaking.get(row[0]), before.get(row[0], {}), alone) for row in rows
            )
            fresh.put_batch([one for one in taken if one is not None])

    def notes(self) -> list[str]:
        """What whoever brings the table in is told, beside the notes of its check."""
        own = self._look.note()
        return [*self._drafts.lines(), *self._olds.lines(), *self._found.lines(), *([own] if own else [])]

    def _one(
        self,
        row: CheckedRow,
        newest: tuple[int, CheckedRow] | None,
        speaks: CheckedRow | None,
        revisions: Mapping[CheckedRow, int],
        alone: Collection[tuple[str, str, str]],
    ) -> Taken | None:
        spec = row[0]
        if newest is None or speaks is None:
            number, why = 0, self._look.needed(row)
            self.new += 1
        else:
            number = newest[0]
            if row == speaks:
                self.unchanged += 1
                return None
            older = revisions.get(row)
            if older is None and row[_STATUS] == "verified":
                older = revisions.get(as_draft(row))
            if older is not None and older != number:
                self._leave(spec, older, number)
                return None
            why = self._look.needed(row, speaks)
            if why is not None and as_draft(row) == newest[1]:
                self._check.drafts.add(spec)
                self.unchanged += 1
                return None
            self.changed += 1
        self._told(row, why, speaks)
        if why is not None:
            self._check.drafts.add(spec)
            return number + 1, as_draft(row), False
        marked = spec in self._check.alone or (spec, row[_BY], row[_ON]) in alone or self._look.is_alone(row)
        return number + 1, row, marked and row[_STATUS] == "verified"

    def _leave(self, spec: str, older: int, newest: int) -> None:
        self.left += 1
        self._check.left.add(spec)
        self._olds.add(
            f"{self._at(spec)}: it is revision {older} of that row, and the record is at revision {newest}: left out; "
            "to bring it back, give it the day on which it was checked again"
        )

    def _told(self, row: CheckedRow, why: Why | None, before: CheckedRow | None = None) -> None:
        for one in self._findings.of(row):
            told = f"{self._at(row[0])}: {told_of(one)}"
            if why == "refused" and one.level == "refused":
                self._drafts.add(f"{told}; {waits(row[0])}")
            else:
                self._found.add(told)
        if why == "stale" and before is not None:
            changed = f"{before[_VALUE]} → {row[_VALUE]}" if before[_VALUE] != row[_VALUE] else "it says something else"
            if before[_STATUS] == "withdrawn":
                changed = "it was withdrawn"
            self._drafts.add(
                f"{self._at(row[0])}: {changed}, and the check of {row[_ON]} by {row[_BY]} was before that; "
                f"{waits(row[0])}"
            )

    def _at(self, spec: str) -> str:
        line = self._check.ids.get(spec)
        return spec if line is None else f"{spec} (line {line})"


def told_of(found: Found) -> str:
    """A finding in one line."""
    return f"{found.concern}: {found.told}; {found.mend}"


def waits(spec: str) -> str:
    """What becomes of a row that has to wait."""
    return f"taken as a draft, which answers after: benchbot specs approve {spec}"
