"""Writes the demo's three tables: specs.csv, vehicle_names.csv and words.csv, the same bytes on every run.

    python make_demo.py [--into FOLDER]

Every make, model, sheet and figure is invented. Each figure is drawn from a seed made of its own row's words, so a
change to one vehicle leaves the figures of all others as they are; ids count the rows in order of the fleet.
"""

from __future__ import annotations

import argparse
import csv
import re
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random

from fleet import ALIASES, FLEET, SHOP_WORDS, Generation
from rows import rows_of
from sheet import SEED, Row

COLUMNS = (
    "id", "make", "model", "year_from", "year_to", "only_if", "component", "position", "property", "value",
    "second_value", "thread", "class", "condition", "reuse", "order", "cautions", "source", "source_ref",
    "checked_by", "checked_on", "review_by", "status",
)  # fmt: skip
CHECKERS = ("demo lead", "demo lead", "demo second lead")
FIRST_CHECK = date(2025, 1, 6)


def finished(generation: Generation, row: Row) -> Row:
    """The row with its source, its check and its status: about 3 % drafts and 1 % withdrawn."""
    words = [row[column] for column in ("make", "model", "year_from", "only_if", "component", "position", "property")]
    chance = Random("|".join([SEED, "status", *words]))
    share = chance.random()
    row["status"] = "draft" if share < 0.03 else "withdrawn" if share < 0.04 else "verified"
    row["source"] = f"Invented {generation.make} sheet {generation.first % 100:02d}-{chance.randint(1, 9)}"
    row["source_ref"] = f"p. {chance.randint(2, 240)}"
    if row["status"] != "draft":
        row["checked_by"] = chance.choice(CHECKERS)
        row["checked_on"] = (FIRST_CHECK + timedelta(days=chance.randint(0, 500))).isoformat()
        if chance.random() < 0.02:
            row["review_by"] = "2099-12-31"
    return row


def superseded(row: Row) -> Iterator[Row]:
    """Now and then the withdrawn figure that a checked torque replaced, as a book keeps it."""
    found = re.fullmatch(r"(\d+) (\S+)", row["value"])
    chance = Random("|".join([SEED, "superseded", *row.values()]))
    if found and row["property"] == "torque" and row["status"] == "verified" and chance.random() < 0.02:
        older = f"{int(found[1]) - 2} {found[2]}"
        yield {**row, "value": older, "second_value": "", "status": "withdrawn", "checked_on": "2024-03-04"}


def spec_rows() -> list[Row]:
    """Every row of the spec table in order, with ids D0001 upward."""
    current = [finished(generation, row) for generation in FLEET for row in rows_of(generation)]
    rows = [one for row in current for one in (*superseded(row), row)]
    for number, row in enumerate(rows, 1):
        row["id"] = f"D{number:04d}"
    return rows


def write_table(path: Path, columns: Iterable[str], rows: Iterable[dict[str, str]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, tuple(columns), restval="", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def main() -> None:
    reader = argparse.ArgumentParser(description="Write the invented demo tables.")
    reader.add_argument("--into", type=Path, default=Path(__file__).resolve().parent, metavar="FOLDER")
    folder: Path = reader.parse_args().into
    write_table(folder / "specs.csv", COLUMNS, spec_rows())
    names = [{"make": make, "model": model, "alias": alias} for make, model, alias in ALIASES]
    write_table(folder / "vehicle_names.csv", ("make", "model", "alias"), names)
    write_table(folder / "words.csv", ("term", "said"), [{"term": term, "said": said} for term, said in SHOP_WORDS])


if __name__ == "__main__":
    main()
