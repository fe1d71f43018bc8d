"""The book as a worker reads it: names by word and by slip, rows by vehicle and component, and files that are none."""

from __future__ import annotations

import json
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from benchbot.book.builder import make_book
from benchbot.book.contents import ROW_COLUMNS, Contents
from benchbot.book.layout import BEFORE_ONE_PERSON, LAYOUT
from benchbot.book.place import leftovers, next_file, put_in_place
from benchbot.book.reader import Book, NameHit, VehicleName
from benchbot.curation.book_check import check_book
from benchbot.errors import BookError
from benchbot.vocabulary.letters import deletions
from benchbot.vocabulary.terms import Vocabulary

TODAY = date(2026, 5, 4)
PLAIN = Vocabulary("knowledge-1", {}, (), (), {}, {}, {}, {}, {})
ROW: dict[str, Any] = {
    "spec": "A1", "revision": 1, "make": "Drabent", "model": "Quilsund 1500 4x4", "year_from": 2012, "year_to": 2016,
    "scope_read": "", "component_read": "caliper bracket bolt", "position_read": "front", "property": "torque",
    "value": "105 N·m", "second_value": "77 lb-ft", "thread": "M12x1.5", "class": "10.9", "condition": "oiled",
    "reuse": "replace", "tightening_order": "", "cautions": "brake dust; hot parts",
    "source": "Invented workshop sheet", "checked_by": "curator", "checked_on": "2026-02-03", "review_by": "",
    "source_ref": "p. 12", "one_person": 0,
}  # fmt: skip
ALIASES = [("Drabent", "Quilsund 1500 4x4", "the Big One"), ("Drabent", "Not Held", "nothing")]


def contents(*changes: dict[str, Any], version: int = 4) -> Contents:
    rows = [ROW | {"spec": f"A{number}"} | change for number, change in enumerate(changes, 1)]
    body = json.dumps(PLAIN.to_plain())
    ready = [tuple(row[name] for name in ROW_COLUMNS) for row in rows]
    return Contents(version, "2026-05-04", ready, ALIASES, body, PLAIN.digest)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "book 1?.sqlite"


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    make_book(
        path,
        contents(
            {},
            {"component_read": "axle nut", "position_read": ""},
            {"model": "Quilsundo", "value": "88 N·m", "second_value": ""},
            {"make": "Zorn Tave", "model": "6", "year_from": 2018, "year_to": 2019},
            {"review_by": "2026-05-03", "position_read": "rear"},
            {"review_by": "2026-05-04", "position_read": "rear", "component_read": "bleeder screw"},
        ),
    )
    with Book.open(path) as opened:
        yield opened


def test_what_it_says_of_itself(book: Book) -> None:
    assert (book.version, book.rows, book.made_on, book.vocabulary_digest) == (4, 6, "2026-05-04", "knowledge-1")
    assert len(book.digest) == 64
    assert book.vocabulary() == PLAIN


def test_vehicles_and_makes(book: Book) -> None:
    assert book.vehicle(1) == VehicleName("Drabent", "Quilsund 1500 4x4")
    assert [book.make_of(vehicle) for vehicle in (1, 2, 3)] == [1, 1, 2]
    assert book.make(2) == "Zorn Tave"
    assert book.vehicles_of_make(1, 9) == [1, 2]
    assert book.vehicles_of_make(1, 1) == [1]
    for ask in (book.vehicle, book.make_of, book.make):
        with pytest.raises(KeyError):
            ask(99)


def test_names_are_found_by_each_word(book: Book) -> None:
    assert book.words("drabent") == [NameHit("make", 1, 0, 1)]
    assert book.words("tave") == [NameHit("make", 2, 0, 2)]
    assert book.words("4x4") == book.words("1500") == [NameHit("vehicle", 1, 0, 3)]
    assert book.words("6") == [NameHit("vehicle", 3, 0, 1)]
    assert book.words("big") == [NameHit("vehicle", 1, 1, 3)]
    assert book.words("nothing") == book.words("Drabent") == book.words("") == []


def test_names_are_found_through_slips_but_never_numbers(book: Book) -> None:
    near = {word for key in deletions("quilsudn", 2) for word in book.near(key)}
    assert near == {"quilsund", "quilsundo"}
    assert {word for key in deletions("1550", 2) for word in book.near(key)} == set()
    assert book.near("big") == []


def test_rows_by_vehicle_and_component(book: Book) -> None:
    (row,) = book.specs([1], ["caliper bracket bolt"], TODAY)
    assert (row.spec, row.revision, row.vehicle, row.year_from, row.year_to) == ("A1", 1, 1, 2012, 2016)
    assert (row.only_if, row.component, row.position, row.property) == ("", "caliper bracket bolt", "front", "torque")
    assert (row.value, row.second_value, row.thread, row.strength_class) == ("105 N·m", "77 lb-ft", "M12x1.5", "10.9")
    assert (row.condition, row.reuse, row.order) == ("oiled", "replace", "")
    assert row.cautions == ("brake dust", "hot parts")
    assert (row.source, row.source_ref, row.checked_by) == ("Invented workshop sheet", "p. 12", "curator")
    assert (row.checked_on, row.review_by) == ("2026-02-03", "")
    assert json.loads(row.shown)["source"] == "105 N·m"
    found = book.specs([1, 2, 3], ["caliper bracket bolt", "axle nut", "no such part"], TODAY)
    assert [one.spec for one in found] == ["A1", "A2", "A3", "A4"]
    assert (
        book.specs([], ["axle nut"], TODAY) == book.specs([1], [], TODAY) == book.specs([9], ["axle nut"], TODAY) == []
    )


def test_a_caller_cannot_spoil_what_is_kept(book: Book) -> None:
    book.specs([1], ["axle nut"], TODAY).clear()
    book.words("drabent").clear()
    assert [row.spec for row in book.specs([1], ["axle nut"], TODAY)] == ["A2"]
    assert book.words("drabent") == [NameHit("make", 1, 0, 1)]


def test_a_row_is_silent_once_its_review_date_has_passed(book: Book) -> None:
    both = ["caliper bracket bolt", "bleeder screw"]
    assert [row.spec for row in book.specs([1], both, date(2026, 5, 3))] == ["A1", "A5", "A6"]
    assert [row.spec for row in book.specs([1], both, TODAY)] == ["A1", "A6"]
    assert [row.spec for row in book.specs([1], both, date(2026, 5, 5))] == ["A1"]
    held = [("axle nut", 2012, 2016), ("bleeder screw", 2012, 2016), ("caliper bracket bolt", 2012, 2016)]
    assert book.components_held(1, TODAY) == held
    assert book.components_held(1, date(2026, 5, 5)) == [held[0], held[2]]
    assert book.spec("A5", TODAY) is None
    assert book.spec("nope", TODAY) is None
    one = book.spec("A6", TODAY)
    assert one is not None
    assert one.review_by == "2026-05-04"


def test_an_open_book_stays_as_it_is_when_it_is_replaced(book: Book, path: Path) -> None:
    assert not book.replaced
    made = next_file(path, 5)
    make_book(made, contents({"value": "99 N·m"}, version=5))
    put_in_place(made, path)
    assert book.replaced
    assert [row.value for row in book.specs([1], ["caliper bracket bolt"], TODAY)] == ["105 N·m"]
    with Book.open(path) as newer:
        assert newer.version == 5
        assert [row.value for row in newer.specs([1], ["caliper bracket bolt"], TODAY)] == ["99 N·m"]
    assert leftovers(path) == []
    path.unlink()
    assert book.replaced


def test_nothing_is_written_beside_an_open_book(book: Book, path: Path) -> None:
    book.specs([1], ["axle nut"], TODAY)
    assert [file.name for file in path.parent.iterdir()] == [path.name]


def test_files_that_are_no_book(path: Path, tmp_path: Path) -> None:
    with pytest.raises(BookError, match="there is no book yet"):
        Book.open(path)
    path.write_bytes(b"")
    with pytest.raises(BookError, match="is no book"):
        Book.open(path)
    path.write_bytes(b"words, not a database" * 99)
    with pytest.raises(BookError, match="damaged"):
        Book.open(path)
    other = sqlite3.connect(tmp_path / "other.sqlite")
    other.execute("CREATE TABLE spec (a)")
    other.commit()
    other.close()
    with pytest.raises(BookError, match="this file is no book"):
        Book.open(tmp_path / "other.sqlite")
    with pytest.raises(BookError, match="there is no book yet"):
        Book.open(tmp_path)


def test_books_that_are_torn_or_of_another_layout(path: Path, tmp_path: Path) -> None:
    make_book(path, contents({}))
    torn = tmp_path / "torn.sqlite"
    torn.write_bytes(path.read_bytes()[: 4096 * 3])
    with pytest.raises(BookError, match="the book is damaged"):
        Book.open(torn)
    older = tmp_path / "older.sqlite"
    shutil.copyfile(path, older)
    connection = sqlite3.connect(older)
    connection.execute(f"PRAGMA user_version = {LAYOUT + 1}")
    connection.close()
    with pytest.raises(BookError, match=f"layout {LAYOUT + 1}"):
        Book.open(older)
    spoilt = tmp_path / "spoilt.sqlite"
    whole = path.read_bytes()
    spoilt.write_bytes(whole[:4096] + b"\xff" * (len(whole) - 4096))
    with pytest.raises(BookError, match=r"damaged|cannot be read"):
        Book.open(spoilt).specs([1], ["axle nut"], TODAY)


def test_what_one_person_alone_has_checked_is_told_apart(path: Path, tmp_path: Path) -> None:
    both = make_book(tmp_path / "both.sqlite", contents({}, {"position_read": "rear"}))
    alone = make_book(path, contents({}, {"position_read": "rear", "one_person": 1}))
    assert alone.digest != both.digest
    with Book.open(path) as book:
        rows = book.specs([1], ["caliper bracket bolt"], TODAY)
        assert [(row.spec, row.one_person) for row in rows] == [("A1", False), ("A2", True)]
        one = book.spec("A2", TODAY)
        assert one is not None and one.one_person


def test_a_book_of_the_layout_before_goes_on_answering(path: Path) -> None:
    made = make_book(path, contents({}, {"component_read": "axle nut"}))
    connection = sqlite3.connect(path)
    connection.execute("ALTER TABLE checked DROP COLUMN one_person")
    connection.execute(f"PRAGMA user_version = {BEFORE_ONE_PERSON}")
    connection.close()
    with Book.open(path) as book:
        assert (book.digest, book.layout) == (made.digest, BEFORE_ONE_PERSON)
        assert [row.one_person for row in book.specs_of([1], TODAY)] == [False, False]
    assert check_book(path).rows == 2


def test_rows_of_a_component_on_any_vehicle(book: Book) -> None:
    found = book.specs_of_component("caliper bracket bolt", "torque", TODAY, 9)
    assert [row.spec for row in found] == ["A1", "A3", "A4"]
    assert [row.spec for row in book.specs_of_component("caliper bracket bolt", "torque", TODAY, 2)] == ["A1", "A3"]
    assert book.specs_of_component("caliper bracket bolt", "socket", TODAY, 9) == []
    assert book.specs_of_component("flux bolt", "torque", TODAY, 9) == []


def test_a_book_without_rows_is_a_book(path: Path) -> None:
    made = make_book(path, contents())
    with Book.open(path) as book:
        assert (book.rows, book.digest) == (0, made.digest)
        assert book.words("drabent") == []


def test_a_full_disk_is_told(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tables = "PRAGMA max_page_count = 2; CREATE TABLE a (b); CREATE TABLE c (d)"
    monkeypatch.setattr("benchbot.book.builder.tables", lambda: tables)
    with pytest.raises(BookError, match="could not be written"):
        make_book(path, contents({}))


def test_a_row_that_can_no_longer_be_read_stops_the_making(path: Path) -> None:
    with pytest.raises(BookError, match="can no longer be read"):
        make_book(path, contents({"value": "tight"}))


def test_a_repeated_id_stops_the_making(path: Path) -> None:
    with pytest.raises(BookError, match="UNIQUE"):
        make_book(path, contents({}, {"spec": "A1"}))


def test_every_table_is_strict(path: Path) -> None:
    make_book(path, contents({}))
    connection = sqlite3.connect(path)
    tables = "SELECT name FROM pragma_table_list WHERE type = 'table' AND NOT strict AND name NOT LIKE 'sqlite%'"
    assert connection.execute(tables).fetchall() == []
    connection.close()


def test_reading_stays_light(path: Path) -> None:
    make_book(path, contents({}))
    code = f"""
import sys
from datetime import date
from pathlib import Path
from benchbot.book.reader import Book
with Book.open(Path({str(path)!r})) as book:
    book.vocabulary()
    assert book.specs([1], ["caliper bracket bolt"], date(2026, 5, 4))
heavy = {{"sqlalchemy", "alembic", "pydantic", "pint", "sqlite_utils", "yaml", "benchbot.quantities.convert"}}
print(sorted(heavy & set(sys.modules)))
"""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
