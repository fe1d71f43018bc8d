"""“Checked by one person” stays with a check wherever its row goes, until somebody else has checked it."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from benchbot.book.reader import Book
from benchbot.curation.approving import Approved, approve
from benchbot.curation.comparing import Comparison
from benchbot.curation.decisions import Decisions
from benchbot.curation.differences import KINDS
from benchbot.curation.exchange import compared, take
from benchbot.curation.exporting import export, export_file, export_folder
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.curation.two_people import allow_one_person
from benchbot.errors import TableError
from benchbot.places import Home
from benchbot.records import reviews
from benchbot.records.record import open_record
from benchbot.specs.columns import SPECS

Write = Callable[..., Path]
ALL = Decisions(kinds=dict.fromkeys(KINDS, "take"))
LEAD, LATER = {"checked_by": "lead"}, {"checked_on": "2026-04-01"}


@pytest.fixture
def alone(tmp_path: Path, table: Write, now: datetime) -> Home:
    """A shop of one person: A1 is their own, A2 is not."""
    (tmp_path / "alone").mkdir()
    shop = Home(tmp_path / "alone")
    with open_record(shop) as record:
        allow_one_person(record, True, "terminal lead", now)
    import_table(shop, table(LEAD, {"position": "rear"}, name="own.csv"), False, "lead", now, importer="lead")
    return shop


def marked(home: Home, spec: str) -> frozenset[int]:
    with open_record(home) as record:
        return reviews.sole(record, spec)


def shown(home: Home, now: datetime) -> dict[str, bool]:
    publish(home, now)
    with Book.open(home.book) as book:
        rows = [book.spec(spec, now.date()) for spec in ("A1", "A2")]
        return {row.spec: row.one_person for row in rows if row is not None}


def exchanged(home: Home, path: Path, now: datetime) -> Comparison:
    with compared(home, path) as comparison:
        take(home, comparison, ALL, "office", now)
        return comparison


@pytest.mark.parametrize("into", ["empty", "other"])
@pytest.mark.parametrize("kind", ["book.db", "book"])
def test_a_whole_book_carries_it(
    kind: str, into: str, alone: Home, home: Home, table: Write, tmp_path: Path, now: datetime
) -> None:
    if into == "other":
        import_table(home, table({"id": "W1", "component": "wheel nut", "position": ""}), False, "office", now)
    (export_file if kind == "book.db" else export_folder)(alone, tmp_path / kind, "Bay 1", now)
    with compared(home, tmp_path / kind) as comparison:
        told = {one.name: one.told for one in comparison.each()}
    assert ["checked by one person" in told[name] for name in ("A1", "A2")] == [True, False]
    exchanged(home, tmp_path / kind, now)
    assert (marked(home, "A1"), marked(home, "A2")) == ({1}, frozenset())
    assert shown(home, now) == {"A1": True, "A2": False}


@pytest.mark.parametrize("into", ["empty", "other"])
def test_a_table_carries_it(into: str, alone: Home, home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    if into == "other":
        import_table(home, table({"id": "W1", "component": "wheel nut", "position": ""}), False, "office", now)
    export(alone, tmp_path / "out.csv")
    with (tmp_path / "out.csv").open(encoding="utf-8", newline="") as file:
        assert [row["one_person"] for row in csv.DictReader(file)] == ["yes", ""]
    import_table(home, tmp_path / "out.csv", False, "office", now)
    assert shown(home, now) == {"A1": True, "A2": False}
    assert import_table(home, tmp_path / "out.csv", False, "office", now).unchanged == 2


def test_a_table_that_needs_no_mark_has_no_column_for_it(
    home: Home, table: Write, tmp_path: Path, now: datetime
) -> None:
    import_table(home, table({}), False, "office", now)
    export(home, tmp_path / "out.csv")
    with (tmp_path / "out.csv").open(encoding="utf-8", newline="") as file:
        assert tuple(next(csv.reader(file))) == SPECS.columns


@pytest.mark.parametrize(("cell", "told"), [("yes", True), (" YES ", True), ("", False)])
def test_how_the_mark_is_written(
    cell: str, told: bool, home: Home, table: Write, tmp_path: Path, now: datetime
) -> None:
    text = table({}).read_text(encoding="utf-8").splitlines()
    path = tmp_path / "marked.csv"
    path.write_text(f"{text[0]},one_person\n{text[1]},{cell}\n", encoding="utf-8")
    import_table(home, path, False, "office", now)
    assert (marked(home, "A1") == {1}) is told


def test_anything_else_is_no_mark(home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    text = table({}).read_text(encoding="utf-8").splitlines()
    path = tmp_path / "marked.csv"
    path.write_text(f"{text[0]},one_person\n{text[1]},no\n", encoding="utf-8")
    with pytest.raises(TableError, match="line 2, one_person: 'no' is no mark"):
        import_table(home, path, False, "office", now)


def test_a_revision_of_the_same_check_has_it_too(alone: Home, table: Write, now: datetime) -> None:
    import_table(alone, table(LEAD | {"source_ref": "p. 99"}), False, "office", now)
    assert marked(alone, "A1") == {1, 2}
    import_table(alone, table(LEAD | {"source_ref": "p. 99"} | LATER), False, "office", now)
    assert marked(alone, "A1") == {1, 2}
    import_table(alone, table({"checked_by": "second lead", "source_ref": "p. 98"} | LATER), False, "office", now)
    assert marked(alone, "A1") == {1, 2}


def test_so_has_one_that_another_shop_brings(
    alone: Home, home: Home, table: Write, tmp_path: Path, now: datetime
) -> None:
    import_table(home, table(LEAD | {"source_ref": "p. 99"}), False, "office", now)
    export_file(home, tmp_path / "book.db", "Bay 2", now)
    exchanged(alone, tmp_path / "book.db", now)
    assert marked(alone, "A1") == {1, 2}


def test_a_second_person_ends_it(alone: Home, table: Write, now: datetime) -> None:
    import_table(alone, table(LEAD | {"value": "99 N·m", "status": "draft"}), False, "office", now)
    with open_record(alone) as record:
        assert isinstance(approve(record, "A1", 2, "terminal ben", "Ben", now), Approved)
    assert marked(alone, "A1") == {1}
    assert shown(alone, now)["A1"] is False
