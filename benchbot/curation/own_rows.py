"""Rows of a table that were checked by the very person who brings them in: a second person has to look at them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from benchbot.curation.two_people import safety_relevant
from benchbot.people.names import same_name
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow

_STATUS, _CHECKED_BY = CHECKED_COLUMNS.index("status"), CHECKED_COLUMNS.index("checked_by")
_PROPERTY = CHECKED_COLUMNS.index("property")


class OwnRows:
    """Looks through the rows of one table as they go by.

    importer: the name that somebody gave as theirs, "" when nobody did: then no row is anybody's own. allowed: the shop
    does without a second person. ids: of the rows that were the importer's own.
    """

    def __init__(self, importer: str, allowed: bool) -> None:
        self.importer = importer
        self.allowed = allowed
        self.ids: set[str] = set()
        self._same: dict[str, bool] = {}

    def taken(self, rows: Iterable[CheckedRow]) -> Iterator[CheckedRow]:
        """The rows as they go on record: what one person alone has checked is a draft, unless that is allowed."""
        if not self.importer:
            yield from rows
            return
        for row in rows:
            if row[_STATUS] == "verified" and self._is_theirs(row[_CHECKED_BY]) and safety_relevant(row[_PROPERTY]):
                self.ids.add(row[0])
                yield row if self.allowed else (*row[:_STATUS], "draft", *row[_STATUS + 1 :])
            else:
                yield row

    @property
    def drafts(self) -> frozenset[str]:
        """The ids of the rows that became drafts."""
        return frozenset() if self.allowed else frozenset(self.ids)

    @property
    def sole(self) -> frozenset[str]:
        """The ids of the rows that will answer though nobody else has checked them."""
        return frozenset(self.ids) if self.allowed else frozenset()

    def note(self) -> str:
        """What whoever imports is told of the drafts."""
        rows = "1 row was" if len(self.ids) == 1 else f"{len(self.ids):,} rows were"
        return (
            f"{rows} checked by {self.importer}, who brings the table in: unless it is on record as checked already, "
            "it waits as a draft for a second person (benchbot specs waiting). A shop of one person does without: "
            "benchbot people one-person allow"
        )

    def _is_theirs(self, checked_by: str) -> bool:
        known = self._same.get(checked_by)
        if known is None:
            known = self._same[checked_by] = same_name(checked_by, self.importer)
        return known


def as_verified(row: CheckedRow) -> CheckedRow:
    """The row as it stood in the table."""
    return (*row[:_STATUS], "verified", *row[_STATUS + 1 :])
