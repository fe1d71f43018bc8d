"""The table of what is missing: everything known entered, the rest empty, and taken back by an import once filled."""

from __future__ import annotations

import csv
import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchbot.curation import gaps
from benchbot.curation.gap_table import TableWritten, write_gap_table
from benchbot.curation.importing import import_table
from benchbot.errors import SettingError, TableError
from benchbot.places import Home
from benchbot.records.record import Entry, GapEntry, GapPart, Record, open_record
from benchbot.specs.columns import SPECS

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
WHEEL_NUT = {"make": "Brackwell", "model": "Ondrel", "years": "2012", "component": "wheel nut", "property": "torque"}


def missing(record: Record, kind: str = "row", **cells: str) -> None:
    identity = json.dumps([kind, "", *sorted(map(str, cells.values()))])
    part = GapPart(kind, identity, "component not held", **cells)
    detail = '[{"reason": "unknown", "subject": {"make": "", "model": "", "years": []}}]'
    gap = GapEntry("component not held", detail, (part,))
    record.put(Entry("c", "terminal ana", None, "?", NOW, "gap", '{"asks": []}', "[]", gap=gap))


def written(home: Home, path: Path) -> tuple[TableWritten, list[dict[str, str]]]:
    with open_record(home) as record:
        done = write_gap_table(record, gaps.groups(record, NOW), path)
    with path.open(encoding="utf-8", newline="") as file:
        return done, list(csv.DictReader(file))


def filled(path: Path, rows: list[dict[str, str]], **cells: str) -> Path:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, SPECS.columns)
        writer.writeheader()
        writer.writerows(row | cells for row in rows)
    return path


def test_all_that_is_known_is_entered_and_nothing_else(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT, only_if="engine=2.0T; build=2016-05", position="rear")
    done, (row,) = written(home, tmp_path / "gaps.csv")
    assert (done.rows, done.groups, done.left_out) == (1, (1,), ())
    assert {name: cell for name, cell in row.items() if cell} == {
        "id": "G0001",
        "make": "Brackwell",
        "model": "Ondrel",
        "year_from": "2012",
        "year_to": "2012",
        "only_if": "engine=2.0T; build=2016-05..2016-05",
        "component": "wheel nut",
        "position": "rear",
        "property": "torque",
        "status": "draft",
    }
    assert tuple(row) == SPECS.columns


def test_a_filled_table_comes_back_as_drafts(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT)
    path = tmp_path / "gaps.csv"
    _, rows = written(home, path)
    filled(path, rows, value="110 N·m", source="Invented sheet", source_ref="p. 3")
    report = import_table(home, path, False, "terminal ana", NOW)
    assert (report.new, report.rows) == (1, 1)
    with open_record(home) as record:
        held = record.rows("SELECT spec, value, status, year_from, year_to FROM spec_revision", {})
    assert held == [("G0001", "110 N·m", "draft", 2012, 2012)]


def test_rows_that_are_still_empty_are_refused_with_what_to_do(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT)
        missing(record, **WHEEL_NUT | {"years": "2014"})
    path = tmp_path / "gaps.csv"
    _, rows = written(home, path)
    filled(path, rows)
    with pytest.raises(TableError) as caught:
        import_table(home, path, False, "terminal ana", NOW)
    assert [(fault.where, fault.column, fault.wrong) for fault in caught.value.faults] == [
        ("line 2", "value", "is empty"),
        ("line 3", "value", "is empty"),
    ]
    assert all(fault.mend.startswith("fill it in") for fault in caught.value.faults)
    with open_record(home) as record:
        assert record.rows("SELECT spec FROM spec_revision", {}) == []


@pytest.mark.parametrize(
    ("years", "spans"),
    [
        ("2012", [("G0001", "2012", "2012")]),
        ("2012 2013 2014", [("G0001", "2012", "2014")]),
        ("2012 2015", [("G0001", "2012", "2012"), ("G0001-2", "2015", "2015")]),
        ("", [("G0001", "", "")]),
    ],
)
def test_no_row_says_more_years_than_were_asked(
    years: str, spans: list[tuple[str, str, str]], home: Home, tmp_path: Path
) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT | {"years": years})
    _, rows = written(home, tmp_path / "gaps.csv")
    assert [(row["id"], row["year_from"], row["year_to"]) for row in rows] == spans


def test_what_can_be_one_of_several_is_left_to_the_curator(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT | {"component": "wheel bolt or wheel nut", "property": "socket or torque"})
    _, (row,) = written(home, tmp_path / "gaps.csv")
    assert (row["component"], row["property"]) == ("", "")


def test_what_no_row_can_fill_is_told(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, "word", words="zorvan bolt")
        missing(record, "vehicle", words="zorvan 5")
        missing(record, **WHEEL_NUT | {"property": "reuse or thread treatment"})
    done, rows = written(home, tmp_path / "gaps.csv")
    assert rows == []
    assert {number for number, _ in done.left_out} == {1, 2, 3}
    assert dict(done.left_out)[1].startswith("nobody knows what “zorvan bolt” is")


def test_the_id_of_a_gap_that_came_back_is_a_new_one(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT)
    path = tmp_path / "gaps.csv"
    _, rows = written(home, path)
    import_table(home, filled(path, rows, value="110 N·m"), False, "terminal ana", NOW)
    _, (row,) = written(home, path)
    assert row["id"] == "G0001.2"


def test_a_cell_that_a_sheet_would_run_is_shielded(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record:
        missing(record, **WHEEL_NUT | {"only_if": "trim==1+1"})
        missing(record, **WHEEL_NUT | {"make": "=Brackwell"})
    _, rows = written(home, tmp_path / "gaps.csv")
    assert sorted(row["make"] for row in rows) == ["'=Brackwell", "Brackwell"]


def test_a_file_that_cannot_be_written_is_told(home: Home, tmp_path: Path) -> None:
    with open_record(home) as record, pytest.raises(SettingError, match="name another file"):
        write_gap_table(record, [], tmp_path / "nowhere" / "gaps.csv")
