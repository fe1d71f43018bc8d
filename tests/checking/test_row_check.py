"""The whole check: its order, the table's cells, the demo book, and how light it is."""

from __future__ import annotations

import csv
import subprocess
import sys
from collections import Counter, defaultdict
from dataclasses import replace
from datetime import date

import pytest

from benchbot.checking import CONCERNS, Found, HeldRow, RowToCheck, check_row
from benchbot.errors import QuantityError
from benchbot.places import demo_folder
from benchbot.quantities import Single, convert, parse_value
from benchbot.specs.columns import SPECS
from benchbot.vocabulary.terms import Vocabulary

TODAY = date(2026, 6, 1)


def test_cells_are_taken_by_the_names_of_the_table() -> None:
    cells = {column: column for column in SPECS.columns} | {"year_from": "2014", "year_to": "2019"}
    row = RowToCheck.of(cells)
    assert (row.spec, row.strength_class, row.second_value, row.thread) == ("id", "class", "second_value", "thread")
    assert row.years == (2014, 2019)
    assert (row.asked_years, row.asked_only_if) == (None, "")
    assert HeldRow.of(cells, spec="K7").spec == "K7"
    with pytest.raises(KeyError):
        HeldRow.of({"make": "Tolvane"})


def test_findings_come_by_concern(vocabulary: Vocabulary) -> None:
    row = RowToCheck(
        "", "Tolvane", "Perrin", "1980", "2016", "caliper bracket bolt", "torque", "105 N·m", position="front",
        second_value="105 lb-ft", thread="M6", strength_class="8.8",
    )  # fmt: skip
    plain = HeldRow("", "Brackwell", "", "2014", "2019", row.component, "torque", "9 N·m", position="front")
    held = [replace(plain, spec=f"K{n}", model=f"Model {n}") for n in range(9)]
    own = replace(plain, spec="K20", make="Tolvane", model="Perrin")
    found = check_row(row, [*held, own], vocabulary, TODAY)
    assert [(one.concern, one.level) for one in found] == [
        ("two units", "refused"),
        ("bolt load", "refused"),
        ("outlier", "warning"),
        ("contradiction", "refused"),
        ("scope", "warning"),  # 37 model years
        ("scope", "warning"),  # before the model's first
    ]
    assert all(one.concern in CONCERNS for one in found)


def test_a_cell_that_cannot_be_read_is_no_verdict(vocabulary: Vocabulary) -> None:
    row = RowToCheck("", "Tolvane", "Perrin", "2014", "2016", "wheel nut", "torque", "a lot")
    with pytest.raises(QuantityError):
        check_row(row, [], vocabulary, TODAY)


def demo_rows() -> list[dict[str, str]]:
    with (demo_folder() / "specs.csv").open(encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["status"] == "verified"]


def neighbours(rows: list[HeldRow]) -> dict[str, list[HeldRow]]:
    """The rows of the same component and of the same vehicle, by id."""
    groups: dict[object, list[HeldRow]] = defaultdict(list)
    for row in rows:
        groups[row.component].append(row)
        groups[row.vehicle].append(row)
    return {
        row.spec: list({o.spec: o for o in (*groups[row.component], *groups[row.vehicle])}.values()) for row in rows
    }


def test_the_demo_book_passes(vocabulary: Vocabulary) -> None:
    rows = demo_rows()
    held = neighbours([HeldRow.of(row) for row in rows])
    count: Counter[tuple[str, str]] = Counter()
    for cells in rows:
        count.update(
            (f.concern, f.level) for f in check_row(RowToCheck.of(cells), held[cells["id"]], vocabulary, TODAY)
        )
    assert not [one for one in count if one[1] == "refused"], count
    for concern in ("two units", "bolt load", "outlier", "scope"):
        assert count[concern, "warning"] <= 0.03 * count[concern, "passed"], count
        assert count[concern, "passed"] > 300


@pytest.mark.parametrize(("slip", "least"), [(10.0, 0.97), (0.1, 0.97), (12.0, 0.97), (1 / 12, 0.97), (9.80665, 0.97)])
def test_slips_planted_in_the_demo_book_are_found(vocabulary: Vocabulary, slip: float, least: float) -> None:
    """A single figure with thread and class, its second value left out, so that only the load and the book speak."""
    rows = [row for row in demo_rows() if row["property"] == "torque" and row["thread"] and row["class"]]
    rows = [row for row in rows if isinstance(parse_value("torque", row["value"]), Single)]
    held = neighbours([HeldRow.of(row) for row in demo_rows()])
    found = 0
    for cells in rows:
        value = parse_value("torque", cells["value"])
        assert isinstance(value, Single)
        slipped = float(convert(value.amount.number, value.amount.unit, "N·m")) * slip
        row = RowToCheck.of(cells | {"value": f"{slipped:.3f} N·m", "second_value": ""})
        verdicts: tuple[Found, ...] = check_row(row, held[row.spec], vocabulary, TODAY)
        found += any(one.level != "passed" for one in verdicts if one.concern in ("bolt load", "outlier"))
    assert len(rows) > 300
    assert found / len(rows) >= least


def test_the_room_is_light() -> None:
    heavy = {"pint", "pydantic", "sqlalchemy", "alembic", "sqlite_utils", "yaml", "telegram", "rich", "PIL"}
    code = f"import sys, benchbot.checking; print(sorted(set(sys.modules) & {heavy!r}))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
