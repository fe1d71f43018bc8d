"""A shop with a few invented rows on record, two curators, and the cells that one of them submits."""

from __future__ import annotations

import csv
from datetime import UTC, datetime
from pathlib import Path

from benchbot.curation.importing import import_table
from benchbot.people import statements
from benchbot.places import Home
from benchbot.records.entry import moment
from benchbot.records.record import Record

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
ANA, BEN = "telegram 11", "telegram 22"
HEADER = (
    "id", "make", "model", "year_from", "year_to", "only_if", "component", "position", "property", "value",
    "second_value", "source", "source_ref", "checked_by", "checked_on", "status",
)  # fmt: skip
ROW = {
    "make": "Drabent", "model": "Quilsund 3", "year_from": "2012", "year_to": "2016",
    "component": "caliper bracket bolt", "position": "front", "property": "torque", "value": "105 N·m",
    "source": "Invented workshop sheet", "source_ref": "p. 12",
}  # fmt: skip
CHECKED = {"checked_by": "lead", "checked_on": "2026-02-03", "status": "verified"}
# What neither row on record states.
REAR = ROW | {"position": "rear", "value": "98 N·m", "source_ref": "p. 13"}


def bring(
    home: Home, *rows: dict[str, str], by: str = "", name: str = "table.csv", as_account: str = "office"
) -> tuple[str, ...]:
    """Imports rows as a table; by: who gives their name with it, beside the account. The notes of the import."""
    path = home.folder / name
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, HEADER, restval="")
        writer.writeheader()
        writer.writerows(rows)
    return import_table(home, path, False, by or as_account, NOW, importer=by).notes


def begin(home: Home) -> None:
    """Row A1 is on record, checked."""
    bring(home, ROW | CHECKED | {"id": "A1"})


def named(record: Record, person: str, name: str) -> None:
    """The person goes by that name from now on."""
    with record.writing() as store:
        store.run(statements.PUT_PERSON, {"person": person, "name": name, "at": moment(NOW)})


def folder_of(home: Path) -> Home:
    home.mkdir()
    return Home(home)
