"""Rows that were withdrawn since they went into a book."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from benchbot.records.record import Record

# Few answers show more.
_SPECS_AT_A_TIME = 8
_SPECS = ", ".join(f":spec{number}" for number in range(_SPECS_AT_A_TIME))

WITHDRAWN = f"""
SELECT spec_revision.spec, spec_revision.revision, change.at
FROM spec_revision JOIN change ON change.change = spec_revision.change
WHERE spec_revision.spec IN ({_SPECS}) AND spec_revision.status = 'withdrawn'
"""

ALL = (WITHDRAWN,)


def withdrawn_since(record: Record, specs: Sequence[tuple[str, int]]) -> dict[str, date]:
    """When rows were withdrawn last, by id; specs: (id, revision) as a book shows them.

    One that was withdrawn before that revision is none of these, and one that speaks again in a later revision is.
    """
    shown = dict(specs)
    found: dict[str, tuple[int, date]] = {}
    ids = list(shown)
    for at in range(0, len(ids), _SPECS_AT_A_TIME):
        some = ids[at : at + _SPECS_AT_A_TIME]
        values = {f"spec{number}": some[number] if number < len(some) else "" for number in range(_SPECS_AT_A_TIME)}
        for spec, revision, when in record.rows(WITHDRAWN, values):
            if revision > max(shown[spec], found.get(spec, (0, None))[0]):
                found[spec] = int(revision), datetime.fromisoformat(when).date()
    return {spec: day for spec, (_, day) in found.items()}
