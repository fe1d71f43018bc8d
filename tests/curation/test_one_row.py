"""One row without a file: its faults, how its vehicle is spelt on record, and the rows it is laid beside."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest
from two_person_shop import CHECKED, NOW, REAR, ROW, begin, bring

from benchbot.book.reader import Book
from benchbot.curation.one_row import UNNAMED, check_cells, findings
from benchbot.curation.publishing import publish
from benchbot.curation.submitting import vocabulary_of
from benchbot.errors import TableError
from benchbot.places import Home
from benchbot.records.record import Record, open_record

TODAY = date(2026, 5, 4)


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    begin(home)
    with open_record(home) as opened:
        yield opened


def test_a_row_as_the_record_keeps_it(record: Record) -> None:
    row = check_cells({**ROW, "component": "bracket bolt"}, vocabulary_of(record), record)
    assert row[:5] == (UNNAMED, "Drabent", "Quilsund 3", 2012, 2016)
    assert row[7:9] == ("bracket bolt", "caliper bracket bolt")
    assert row[24] == "draft"


def test_every_fault_is_told_at_the_row(record: Record) -> None:
    cells = {**ROW, "value": "105", "year_to": "2010", "id": "no id"}
    with pytest.raises(TableError) as told:
        check_cells(cells, vocabulary_of(record), record)
    assert {(fault.where, fault.column) for fault in told.value.faults} == {
        ("the row", "id"),
        ("the row", "value"),
        ("the row", "year_to"),
    }


def test_a_column_that_there_is_not(record: Record) -> None:
    with pytest.raises(TableError, match="the row, torque: there is no such column"):
        check_cells({**ROW, "torque": "105 N·m"}, vocabulary_of(record), None)


@pytest.mark.parametrize(
    ("cells", "told"),
    [
        ({"make": "DRABENT"}, "make: 'DRABENT' is written 'Drabent' on record (A1)"),
        ({"model": "quilsund-3"}, "model: 'quilsund-3' is written 'Quilsund 3' on record (A1)"),
    ],
)
def test_a_vehicle_is_written_one_way(record: Record, cells: dict[str, str], told: str) -> None:
    with pytest.raises(TableError) as raised:
        check_cells({**ROW, **cells}, vocabulary_of(record), record)
    assert told in str(raised.value)


def test_a_vehicle_of_one_row_is_respelt_by_that_row(record: Record) -> None:
    assert check_cells({**ROW, "id": "A1", "make": "DRABENT"}, vocabulary_of(record), record)[1] == "DRABENT"
    # another vehicle of other words is none of the record's business
    assert check_cells({**ROW, "model": "Quilsund 4"}, vocabulary_of(record), record)[2] == "Quilsund 4"


def test_a_row_is_laid_beside_what_answers(home: Home, record: Record) -> None:
    vocabulary = vocabulary_of(record)
    row = check_cells({**ROW, "value": "150 N·m"}, vocabulary, record)
    assert [one.level for one in findings(record, row, vocabulary, TODAY) if one.concern == "contradiction"] == [
        "refused"
    ]
    rear = check_cells(REAR, vocabulary, record)
    assert [one for one in findings(record, rear, vocabulary, TODAY) if one.level != "passed"] == []


def test_the_book_and_the_record_tell_the_same_of_a_part(home: Home, record: Record) -> None:
    others = [
        ROW | CHECKED | {"id": f"B{number}", "model": f"Ondrel {number}", "value": f"{100 + number} N·m"}
        for number in range(1, 12)
    ]
    bring(home, *others, name="others.csv")
    publish(home, NOW)
    vocabulary = vocabulary_of(record)
    row = check_cells({**ROW, "model": "Zorn 5", "value": "1050 N·m"}, vocabulary, record)
    by_record = findings(record, row, vocabulary, TODAY)
    with Book.open(home.book) as book:
        by_book = findings(record, row, vocabulary, TODAY, book)
    assert by_book == by_record
    assert [one.level for one in by_record if one.concern == "outlier"] == ["warning"]
