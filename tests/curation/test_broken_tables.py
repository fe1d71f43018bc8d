"""A table with a fault is refused whole: the fault names row and column, and record and book stay as they were."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.errors import TableError
from benchbot.places import Home

HEADER = (
    "id,make,model,year_from,year_to,only_if,component,position,property,value,second_value,thread,class,condition,"
    "reuse,order,cautions,source,source_ref,checked_by,checked_on,review_by,status"
)
ROW = (
    "A1,Drabent,Quilsund 3,2012,2016,,caliper bracket bolt,front,torque,105 N·m,,,,,,,,"
    "Invented workshop sheet,p. 12,curator,2026-02-03,,verified"
)
ALL_CELLS = HEADER.count(",")

# name: (what the second row has otherwise, line, column, part of what is said)
CELLS: dict[str, tuple[dict[str, str], int, str, str]] = {
    "no id": ({"id": ""}, 3, "id", "is empty"),
    "id with a space": ({"id": "A 2"}, 3, "id", "is no id"),
    "id of over 64 letters": ({"id": "A" * 65}, 3, "id", "is no id"),
    "id of another row": ({"id": "A1"}, 3, "id", "also the id of line 2"),
    "no make": ({"make": ""}, 3, "make", "is empty"),
    "no model": ({"model": " "}, 3, "model", "is empty"),
    "model without a letter or digit": ({"model": "--"}, 3, "model", "starts with '-'"),
    "model of marks": ({"model": "(.)"}, 3, "model", "no letter or digit"),
    "make in other letters": ({"make": "DRABENT", "model": "Olix"}, 3, "make", "is written 'Drabent' in line 2"),
    "model in other letters": ({"model": "quilsund-3"}, 3, "model", "is written 'Quilsund 3' in line 2"),
    "no first year": ({"year_from": ""}, 3, "year_from", "is empty"),
    "no last year": ({"year_to": ""}, 3, "year_to", "is empty"),
    "two-digit year": ({"year_from": "12"}, 3, "year_from", "is no model year"),
    "open end": ({"year_to": "9999"}, 3, "year_to", "is no model year"),
    "year with a decimal": ({"year_to": "2016.0"}, 3, "year_to", "is no model year"),
    "years in words": ({"year_from": "from 2012"}, 3, "year_from", "is no model year"),
    "years turned round": ({"year_from": "2017", "year_to": "2012"}, 3, "year_to", "lies before year_from 2017"),
    "unknown key": ({"only_if": "motor=1.6"}, 3, "only_if", "'motor' is no key"),
    "misspelt key": ({"only_if": "engin=1.6"}, 3, "only_if", "write engine"),
    "key without a value": ({"only_if": "engine="}, 3, "only_if", "engine has no readable value"),
    "scope without an equals sign": ({"only_if": "4WD"}, 3, "only_if", "has no '='"),
    "key given twice": ({"only_if": "engine=1.6; engine=2.2"}, 3, "only_if", "given twice"),
    "empty part of a scope": ({"only_if": "engine=1.6;; drive=4WD"}, 3, "only_if", "empty part"),
    "build month 13": ({"only_if": "build=..2016-13"}, 3, "only_if", "no range of build months"),
    "build without an end": ({"only_if": "build=.."}, 3, "only_if", "no range of build months"),
    "build range turned round": ({"only_if": "build=2017-02..2016-05"}, 3, "only_if", "ends before it starts"),
    "no component": ({"component": ""}, 3, "component", "is empty"),
    "unknown component": ({"component": "flux bolt"}, 3, "component", "is no component"),
    "component that means two things": ({"component": "caliper bolt"}, 3, "component", "more than one part"),
    "unknown position": ({"position": "middle"}, 3, "position", "'middle' is no position"),
    "both axles in one row": ({"position": "front rear"}, 3, "position", "front and rear in one row"),
    "no property": ({"property": ""}, 3, "property", "is empty"),
    "unknown property": ({"property": "tightness"}, 3, "property", "is no property"),
    "misspelt property": ({"property": "torqe"}, 3, "property", "is no property"),
    "no value": ({"value": ""}, 3, "value", "is empty"),
    "torque without a unit": ({"value": "105"}, 3, "value", "is no torque"),
    "torque in bare pounds": ({"value": "80 lbs"}, 3, "value", "is no torque"),
    "torque in millimetres": ({"value": "18 mm"}, 3, "value", "is no torque"),
    "torque of nothing": ({"value": "0 N·m"}, 3, "value", "is no torque"),
    "negative torque": ({"value": "-20 N·m"}, 3, "value", "may run as a formula"),
    "range turned round": ({"value": "105..95 N·m"}, 3, "value", "is no torque"),
    "value that cannot be": ({"value": "90000 N·m"}, 3, "value", "is no torque"),
    "words for a torque": ({"value": "good and tight"}, 3, "value", "is no torque"),
    "thickness in torque": ({"property": "minimum thickness"}, 3, "value", "is no length"),
    "capacity in lengths": ({"property": "capacity", "value": "4.3 mm"}, 3, "value", "is no volume"),
    "second value ten times off": ({"second_value": "774 lb-ft"}, 3, "second_value", "10 times"),
    "second value of another kind": ({"second_value": "18 mm"}, 3, "second_value", "is no torque"),
    "second value for words": (
        {"component": "brake fluid", "property": "fluid", "value": "DOT 4", "second_value": "DOT 3"},
        3, "second_value", "no second unit",
    ),
    "thread that is none": ({"thread": "M12 by a lot"}, 3, "thread", "is no thread"),
    "unknown caution": ({"cautions": "beware of the dog"}, 3, "cautions", "is no caution"),
    "verified without a source": ({"source": ""}, 3, "source", "empty in a verified row"),
    "verified without a page": ({"source_ref": ""}, 3, "source_ref", "empty in a verified row"),
    "verified by nobody": ({"checked_by": ""}, 3, "checked_by", "empty in a verified row"),
    "verified at no time": ({"checked_on": ""}, 3, "checked_on", "empty in a verified row"),
    "day before month": ({"checked_on": "03.02.2026"}, 3, "checked_on", "is no date"),
    "30 February": ({"checked_on": "2026-02-30"}, 3, "checked_on", "is no date"),
    "date without dashes": ({"checked_on": "20260203"}, 3, "checked_on", "is no date"),
    "review date in words": ({"review_by": "next year"}, 3, "review_by", "is no date"),
    "review before the check": ({"review_by": "2025-01-01"}, 3, "review_by", "lies before checked_on"),
    "no status": ({"status": ""}, 3, "status", "is empty"),
    "unknown status": ({"status": "approved"}, 3, "status", "is no status"),
    "formula": ({"condition": "=1+1"}, 3, "condition", "may run as a formula"),
    "formula after a space": ({"source": " =cmd()"}, 3, "source", "may run as a formula"),
    "at sign": ({"reuse": "@SUM(A1)"}, 3, "reuse", "may run as a formula"),
    "plus sign": ({"source_ref": "+12"}, 3, "source_ref", "may run as a formula"),
    "tab first": ({"order": "\tcrisscross"}, 3, "order", "may run as a formula"),
    "cell too long": ({"condition": "dry " * 501}, 3, "condition", "2,004 characters"),
    "line break in a cell": ({"condition": "dry\nclean"}, 3, "condition", "line break"),
    "NUL": ({"source": "sheet\0two"}, 3, "source", "control character U+0000"),
    "escape character": ({"checked_by": "cura\x1btor"}, 3, "checked_by", "control character U+001B"),
    "invisible letter": ({"value": "105\u200b N·m"}, 3, "value", "invisible character U+200B"),
    "text turned round": ({"source_ref": "p. \u202e12"}, 3, "source_ref", "invisible character U+202E"),
    "lost letter": ({"source": "caf\ufffd"}, 3, "source", "already lost"),
    "disagrees with the row above": ({"value": "95 N·m"}, 3, "value", "A2 and A1 (line 2) state different values"),
    "disagrees in one year": ({"value": "95 N·m", "year_from": "2016", "year_to": "2020"}, 3, "value", "A2 and A1"),
    "disagrees for one engine": ({"value": "95 N·m", "only_if": "engine=1.6"}, 3, "value", "A2 and A1"),
}  # fmt: skip

# name: (the file, line, column, part of what is said)
FILES: dict[str, tuple[bytes, int, str, str]] = {
    "empty file": (b"", 1, "", "the file is empty"),
    "only blank lines": (b"\n\n\n", 1, "", "the file is empty"),
    "only a header": (HEADER.encode() + b"\n", 2, "", "no rows under the header"),
    "no header": (ROW.encode() + b"\n", 1, "A1", "there is no header"),
    "unknown column": (f"{HEADER},colour\n{ROW},red\n".encode(), 1, "colour", "no such column"),
    "misspelt column": (HEADER.replace("value,sec", "valeu,sec").encode() + b"\n", 1, "valeu", "no such column"),
    "column twice": (f"{HEADER},model\n{ROW},x\n".encode(), 1, "model", "there twice"),
    "column without a name": (f"{HEADER},\n{ROW},\n".encode(), 1, f"column {ALL_CELLS + 2}", "has no name"),
    "column missing": (HEADER.replace(",value", "").encode() + b"\n", 1, "value", "column is missing"),
    "semicolons": (HEADER.replace(",", ";").encode() + b"\n", 1, "", "parted by semicolons"),
    "tabs": (HEADER.replace(",", "\t").encode() + b"\n", 1, "", "parted by tabs"),
    "row too short": (f"{HEADER}\n{ROW}\nA2,Drabent\n".encode(), 3, "model", "2 cells"),
    "row too long": (f"{HEADER}\n{ROW},more\n".encode(), 2, "status", "24 cells"),
    "comma in a bare cell": (
        f"{HEADER}\n{ROW.replace('p. 12', 'p. 12, left')}\n".encode(), 2, "status", "beyond the last is",
    ),
    "quote never closed": (f'{HEADER}\n"{ROW}\n{ROW}\n'.encode(), 2, "", "never closed"),
    "text after a quote": (f'{HEADER}\n"A1"x{ROW[2:]}\n'.encode(), 2, "", "follows a closing quote"),
    "another encoding": (f"{HEADER}\n{ROW}\n".encode("cp1252"), 2, "value", "which is not UTF-8"),
    "two bytes a letter": (f"{HEADER}\n{ROW}\n".encode("utf-16"), 1, "", "UTF-16"),
    "zip": (b"PK\x03\x04" + bytes(200), 1, "", "zip file or a spreadsheet"),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(200), 1, "", "a picture"),
    "bytes of no text": (bytes(range(256)) * 8 + bytes(64), 1, "", "this is no text"),
    "line without end": (f"{HEADER}\n{ROW}\n".encode() + b"x" * 3_000_000, 3, "", "over 100,000 bytes in one line"),
    "long line in between": (
        f"{HEADER}\n{ROW}\n".encode() + b"x" * 100_001 + f"\n{ROW}\n".encode(), 3, "", "over 100,000 bytes in one line",
    ),
    "lone carriage returns": (f"{HEADER}\r{ROW}\r".encode(), 1, "", "header cannot be read"),
    "carriage return in a row": (f"{HEADER}\n{ROW}\n".encode().replace(b"p. 12", b"p.\r12"), 2, "", "carriage"),
    "alias of two vehicles": (
        b"make,model,alias\nDrabent,Quilsund 3,three\nDrabent,Olix,three\n", 3, "alias", "is also Drabent Quilsund 3",
    ),
    "alias that is the model": (b"make,model,alias\nDrabent,Olix,OLIX\n", 2, "alias", "the model's own name"),
    "alias twice": (b"make,model,alias\nDrabent,Olix,oli\nDrabent,Olix,Oli\n", 3, "alias", "given twice"),
    "no alias": (b"make,model,alias\nDrabent,Olix,\n", 2, "alias", "is empty"),
    "alias of marks": (b"make,model,alias\nDrabent,Olix,...\n", 2, "alias", "holds no word"),
    "word for no term": (b"term,said\nflux bolt,fluxer\n", 2, "term", "is no component"),
    "word for two terms": (b"term,said\nwheel nut,roundie\naxle nut,roundie\n", 3, "said", "also said for wheel nut"),
    "word that is another term": (b"term,said\nwheel nut,axle nut\n", 2, "said", "already means axle nut"),
    "word with two meanings": (b"term,said\nwheel nut,caliper bolt\n", 2, "said", "already means"),
    "word given twice": (b"term,said\nwheel nut,roundie\nwheel nut,Roundie\n", 3, "said", "given twice"),
    "no word": (b"term,said\nwheel nut,\n", 2, "said", "is empty"),
    "term column missing": (b"said,colour\nroundie,red\n", 1, "colour", "no such column"),
}  # fmt: skip

Dump = Callable[[Path], list[str]]


@pytest.fixture
def in_use(home: Home, table: Callable[..., Path], now: datetime) -> Home:
    """A home with a record and a book of another vehicle."""
    path = table({"id": "OLD", "make": "Starott", "model": "Vaiwick", "value": "88 N·m"}, name="before.csv")
    import_table(home, path, False, "curator", now)
    publish(home, now)
    return home


def refused(home: Home, path: Path, now: datetime, dump: Dump) -> TableError:
    """The error of an import, once without and once with `check`; nothing may have changed."""
    book, record = home.book.read_bytes(), dump(home.record)
    with pytest.raises(TableError) as first:
        import_table(home, path, False, "curator", now)
    with pytest.raises(TableError) as second:
        import_table(home, path, True, "curator", now)
    assert str(first.value) == str(second.value)
    assert home.book.read_bytes() == book
    assert dump(home.record) == record
    return first.value


@pytest.mark.parametrize("name", list(CELLS))
def test_a_broken_cell_is_named(name: str, in_use: Home, table: Callable[..., Path], now: datetime, dump: Dump) -> None:
    change, line, column, said = CELLS[name]
    error = refused(in_use, table({}, change), now, dump)
    assert [(fault.where, fault.column) for fault in error.faults] == [(f"line {line}", column)]
    assert said in f"{error.faults[0].wrong} {error.faults[0].mend}"
    assert error.faults[0].mend


@pytest.mark.parametrize("name", list(FILES))
def test_a_broken_file_is_named(name: str, in_use: Home, tmp_path: Path, now: datetime, dump: Dump) -> None:
    content, line, column, said = FILES[name]
    path = tmp_path / "broken.csv"
    path.write_bytes(content)
    error = refused(in_use, path, now, dump)
    assert any(
        (fault.where, fault.column) == (f"line {line}", column) and said in fault.wrong for fault in error.faults
    ), str(error)
    assert all(fault.mend for fault in error.faults)


def test_a_missing_file_and_a_folder_are_refused(in_use: Home, tmp_path: Path, now: datetime, dump: Dump) -> None:
    assert "no such file" in str(refused(in_use, tmp_path / "gone.csv", now, dump))
    assert "this is a folder" in str(refused(in_use, tmp_path, now, dump))


def test_every_fault_is_listed_by_line(in_use: Home, table: Callable[..., Path], now: datetime, dump: Dump) -> None:
    path = table({"value": "105"}, {"component": "flux bolt", "status": "so so"}, {}, {"id": "A1"}, {"year_to": ""})
    error = refused(in_use, path, now, dump)
    assert [(fault.where, fault.column) for fault in error.faults] == [
        ("line 2", "value"),
        ("line 3", "component"),
        ("line 3", "status"),
        ("line 5", "id"),
        ("line 6", "year_to"),
    ]


def test_faults_before_a_line_that_ends_the_reading_are_told_too(
    in_use: Home, tmp_path: Path, now: datetime, dump: Dump
) -> None:
    path = tmp_path / "broken.csv"
    path.write_text(f"{HEADER}\n{ROW.replace('105 N·m', '105')}\n" + "x" * 2_000_000, encoding="utf-8")
    error = refused(in_use, path, now, dump)
    assert [(fault.where, fault.column) for fault in error.faults] == [("line 2", "value"), ("line 3", "")]


def test_a_table_of_faults_only_ends_early(in_use: Home, tmp_path: Path, now: datetime, dump: Dump) -> None:
    path = tmp_path / "broken.csv"
    bad = ROW.replace("105 N·m", "105").removeprefix("A1")
    path.write_text(HEADER + "\n" + "".join(f"A{n}{bad}\n" for n in range(6_000)), encoding="utf-8")
    error = refused(in_use, path, now, dump)
    assert len(error.faults) == 5_001
    assert "the rest of the file was not read" in error.faults[-1].wrong


def test_a_row_that_disagrees_with_the_record_is_refused(
    in_use: Home, table: Callable[..., Path], now: datetime, dump: Dump
) -> None:
    vehicle = {"make": "Starott", "model": "Vaiwick"}
    error = refused(in_use, table(vehicle | {"value": "90 N·m"}), now, dump)
    assert [(fault.where, fault.column) for fault in error.faults] == [("line 2", "value")]
    assert "A1 and OLD (on record) state different values" in str(error)


def test_a_name_spelt_otherwise_on_record_is_refused(
    in_use: Home, table: Callable[..., Path], now: datetime, dump: Dump
) -> None:
    error = refused(in_use, table({"make": "Starott", "model": "Vai-Wick"}, {"make": "STAROTT"}), now, dump)
    told = {(fault.where, fault.column) for fault in error.faults}
    assert told == {("line 3", "make")}
    error = refused(in_use, table({"make": "Starott", "model": "VAIWICK"}), now, dump)
    assert {(fault.where, fault.column) for fault in error.faults} == {("line 2", "model")}


def test_a_first_import_with_a_fault_leaves_no_record(home: Home, table: Callable[..., Path], now: datetime) -> None:
    with pytest.raises(TableError):
        import_table(home, table({"value": "105"}), False, "curator", now)
    assert not home.record.exists()
    import_table(home, table({}), True, "curator", now)
    assert not home.record.exists()
