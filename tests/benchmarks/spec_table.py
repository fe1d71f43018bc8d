"""Writes the invented fleet as the CSV table that an import takes."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from datetime import date, timedelta
from pathlib import Path

from fleet import Row

from benchbot.specs.columns import SPECS

_CHECKED = [(date(2025, 1, 6) + timedelta(days=day)).isoformat() for day in range(360)]
_CHECKERS = ("lead", "second lead", "third lead")


def write_table(path: Path, rows: Iterable[Row]) -> int:
    """Writes one verified line a row; how many there are."""
    count = 0
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(SPECS.columns)
        for count, row in enumerate(rows, 1):
            model, part = row.model, row.part
            cells = {
                "id": row.spec, "make": model.make, "model": model.name, "year_from": row.year_from,
                "year_to": row.year_to, "only_if": row.only_if, "component": part.component, "position": part.position,
                "property": part.figure, "value": row.value,
                "source": f"Invented {model.make} sheet {row.year_from % 100:02d}-{count // 7 % 9 + 1}",
                "source_ref": f"p. {count % 240 + 1}", "checked_by": _CHECKERS[count // 50 % 3],
                "checked_on": _CHECKED[count // 50 % 360], "status": "verified",
            }  # fmt: skip
            writer.writerow([cells.get(column, "") for column in SPECS.columns])
    return count


def row_text(row: Row) -> str:
    """The row as one text for a full-text search, with every year that it holds for."""
    model, part = row.model, row.part
    years = " ".join(str(year) for year in range(row.year_from, row.year_to + 1))
    engine = row.only_if.partition("=")[2]
    words = (model.make, model.name, engine, part.component, part.position, part.figure, years)
    return " ".join(filter(None, words)).lower()
