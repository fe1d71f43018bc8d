"""What the record holds, for a curator who looks at it."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import func, select

from benchbot.curation.speaking import speaking
from benchbot.curation.turns import reading
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.schema import change, spec_revision
from benchbot.specs.check import CHECKED_COLUMNS


@dataclass(frozen=True, slots=True)
class VehicleCount:
    """How many specs of one vehicle the record holds, each by the revision that speaks for it."""

    make: str
    model: str
    year_from: int
    year_to: int
    verified: int
    draft: int
    withdrawn: int


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision of a spec: its cells by name, and who brought it when and why."""

    revision: int
    cells: dict[str, str]
    author: str
    at: str
    why: str


def vehicle_counts(home: Home) -> list[VehicleCount]:
    """Every vehicle on record, by make and model."""
    with reading(home) as record:
        if record is None:
            return []
        columns = [spec_revision.c[name] for name in ("make", "model", "year_from", "year_to", "status")]
        # What waits for approval beside a row that answers is no row of its own.
        newest = speaking(columns).subquery()
        counts = [func.count().filter(newest.c.status == status) for status in ("verified", "draft", "withdrawn")]
        chosen = select(
            newest.c.make, newest.c.model, func.min(newest.c.year_from), func.max(newest.c.year_to), *counts
        ).group_by(newest.c.make, newest.c.model)
        return [VehicleCount(*row) for row in record.execute(chosen.order_by(newest.c.make, newest.c.model))]


def revisions(home: Home, spec: str) -> list[Revision]:
    """Every revision of a spec, oldest first; empty when the record has no such id."""
    with reading(home) as record:
        if record is None:
            return []
        chosen = (
            select(spec_revision.c.revision, change.c.author, change.c.at, change.c.why, *curator.checked_columns())
            .join(change, change.c.change == spec_revision.c.change)
            .where(spec_revision.c.spec == spec)
            .order_by(spec_revision.c.revision)
        )
        found = []
        for revision, author, at, why, *cells in record.execute(chosen):
            named = dict(zip(CHECKED_COLUMNS, map(str, cells), strict=True))
            found.append(Revision(revision, named, author, at, why))
        return found
