"""The revision of each spec that speaks for it: the newest that is no draft, or a draft that never had one before it.

A draft that waits for approval leaves the revision before it speaking.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, Select, bindparam, select

from benchbot.records import curator
from benchbot.records.schema import spec_revision
from benchbot.specs.check import CheckedRow

_OTHER = spec_revision.alias("other")


def speaking(columns: Sequence[ColumnElement[Any]]) -> Select[Any]:
    """Selects the speaking revision of every spec."""
    others = select(_OTHER.c.entry).where(_OTHER.c.spec == spec_revision.c.spec)
    later = others.where(_OTHER.c.revision > spec_revision.c.revision)
    settled = others.where(_OTHER.c.status != "draft")
    lone = ~later.exists() & ~settled.exists()
    return select(*columns).where(((spec_revision.c.status != "draft") & ~_settled_later().exists()) | lone)


def answering(columns: Sequence[ColumnElement[Any]], last_entry: int) -> Select[Any]:
    """Selects what a book of the entries up to the last answers from: the speaking revisions that are verified."""
    later = _settled_later().where(_OTHER.c.entry <= last_entry)
    return select(*columns).where(
        spec_revision.c.entry <= last_entry, spec_revision.c.status == "verified", ~later.exists()
    )


def _settled_later() -> Select[Any]:
    """The revisions of the same spec that took the place of one."""
    return select(_OTHER.c.entry).where(
        _OTHER.c.spec == spec_revision.c.spec,
        _OTHER.c.revision > spec_revision.c.revision,
        _OTHER.c.status != "draft",
    )


def speaking_of(connection: Connection, specs: Sequence[str]) -> dict[str, CheckedRow]:
    """The speaking row of each of these ids that is on record."""
    found: dict[str, CheckedRow] = {}
    for at in range(0, len(specs), curator.IDS_AT_A_TIME):
        for row in connection.execute(_OF, {"specs": specs[at : at + curator.IDS_AT_A_TIME]}).all():
            found[row[0]] = tuple(row)
    return found


def speaking_of_vehicle(connection: Connection, make: str, model: str) -> Sequence[Row[Any]]:
    """The speaking rows of one vehicle, as checked rows."""
    return connection.execute(_OF_VEHICLE, {"make": make, "model": model}).all()


_OF = speaking(curator.checked_columns()).where(spec_revision.c.spec.in_(bindparam("specs", expanding=True)))
_OF_VEHICLE = speaking(curator.checked_columns()).where(
    spec_revision.c.make == bindparam("make"), spec_revision.c.model == bindparam("model")
)
