"""What an import takes, and what it puts on record: new rows, new revisions, and nothing where nothing changed."""

from __future__ import annotations

import csv
import dataclasses
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import select

from benchbot.curation.exporting import export
from benchbot.curation.importing import ImportReport, import_table
from benchbot.curation.looking import revisions, vehicle_counts
from benchbot.curation.turns import my_turn, reading
from benchbot.errors import RecordError, SettingError, TableError
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.schema import spec_revision

LATER = {"checked_on": "2026-04-01"}
Write = Callable[..., Path]
Dump = Callable[[Path], list[str]]


def counts(report: ImportReport) -> tuple[int, int, int]:
    return report.new, report.changed, report.unchanged


def read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def bring(home: Home, path: Path, now: datetime) -> ImportReport:
    return import_table(home, path, False, "curator", now)


def test_every_cell_is_kept_as_entered_and_as_read(home: Home, table: Write, now: datetime) -> None:
    change = {
        "only_if": " Drive = 4WD;engine=1.6 ", "component": "Calliper Bracket Bolts", "position": "Upper, FRONT left",
        "property": " Torque", "second_value": "77 lb-ft", "thread": "M12x1.5", "class": "10.9", "condition": "oiled",
        "reuse": "replace", "order": "crisscross", "review_by": "2027-01-01", "status": "Verified",
    }  # fmt: skip
    assert counts(bring(home, table(change), now)) == (1, 0, 0)
    (one,) = revisions(home, "A1")
    assert (one.revision, one.author, one.at, one.why) == (
        1, "curator", "2026-05-04T07:30:00.000000+00:00", "import of table.csv",
    )  # fmt: skip
    assert one.cells["only_if"] == "Drive = 4WD;engine=1.6"
    assert one.cells["scope_read"] == "engine=1.6; drive=4WD"
    assert one.cells["component"] == "Calliper Bracket Bolts"
    assert one.cells["component_read"] == "caliper bracket bolt"
    assert one.cells["position"] == "Upper, FRONT left"
    assert one.cells["position_read"] == "front upper left"
    assert (one.cells["property"], one.cells["value"], one.cells["status"]) == ("torque", "105 N·m", "verified")
    assert (one.cells["tightening_order"], one.cells["source_ref"]) == ("crisscross", "p. 12")


def test_an_unchanged_row_writes_nothing(home: Home, table: Write, now: datetime, dump: Dump) -> None:
    path = table({}, {"position": "rear", "value": "88 N·m"})
    bring(home, path, now)
    before = dump(home.record)
    assert counts(bring(home, path, now + timedelta(days=1))) == (0, 0, 2)
    assert dump(home.record) == before


def test_a_changed_row_is_the_next_revision(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}, {"position": "rear"}), now)
    report = bring(
        home, table({"value": "110 N·m"} | LATER, {"position": "rear"}, {"position": "rear", "property": "note"}), now
    )
    assert counts(report) == (1, 1, 1)
    assert [(one.revision, one.cells["value"]) for one in revisions(home, "A1")] == [(1, "105 N·m"), (2, "110 N·m")]
    bring(home, table({"status": "withdrawn"} | LATER), now)
    assert [one.cells["status"] for one in revisions(home, "A1")] == ["verified", "verified", "withdrawn"]


def test_check_only_looks(home: Home, table: Write, now: datetime, dump: Dump) -> None:
    bring(home, table({}), now)
    before = dump(home.record)
    report = import_table(home, table({"value": "99 N·m"}, {"position": "rear"}), True, "curator", now)
    assert counts(report) == (1, 1, 0)
    assert not report.written
    assert dump(home.record) == before


def test_rows_that_agree_are_noted(home: Home, table: Write, now: datetime) -> None:
    same = {"year_from": "2016", "year_to": "2020", "value": "105.0 N·m"}
    report = bring(home, table({}, same), now)
    assert report.notes == ("A2 and A1 (line 2) state the same value for overlapping years",)
    report = bring(home, table({"id": "B1"}), now)
    assert report.notes == (
        "B1 and A1 (on record) state the same value for overlapping years",
        "B1 and A2 (on record) state the same value for overlapping years",
    )


def test_a_second_value_that_is_a_little_off_is_noted(home: Home, table: Write, now: datetime) -> None:
    report = bring(home, table({"second_value": "80 lb-ft"}), now)
    assert len(report.notes) == 1
    assert report.notes[0].startswith("A1 (line 2): ")


@pytest.mark.parametrize(
    "change",
    [
        {"year_from": "2017", "year_to": "2020"},
        {"position": "rear"},
        {"position": ""},
        {"property": "socket", "value": "19 mm"},
        {"component": "caliper slide pin bolt"},
        {"model": "Quilsund 4"},
        {"status": "draft"},
        {"status": "withdrawn"},
    ],
    ids=str,
)
def test_rows_about_other_things_may_differ(home: Home, table: Write, now: datetime, change: dict[str, str]) -> None:
    report = bring(home, table({}, {"value": "95 N·m"} | change), now)
    told = [note for note in report.notes if "sits on both axles, and the row does not say on which" not in note]
    assert (report.rows, told) == (2, [])
    assert len(report.notes) == (change.get("position") == "")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("engine=1.6", "engine=2.2T"),
        ("engine=1.6; drive=4WD", "drive=2WD"),
        ("build=..2016-05", "build=2016-06.."),
        ("build=2014-01..2014-12", "build=2015-01..2016-02"),
    ],
)
def test_scopes_that_no_vehicle_shares_may_differ(
    home: Home, table: Write, now: datetime, one: str, other: str
) -> None:
    assert bring(home, table({"only_if": one}, {"only_if": other, "value": "95 N·m"}), now).notes == ()


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("engine=1.6", "drive=4WD"),
        ("engine=2.2T", "engine=2.2 Turbo"),
        ("drive=4WD", "drive=4wd; engine=1.6"),
        ("build=..2016-05", "build=2016-05.."),
        ("build=2014-01..2014-12", "build=..2014-01"),
    ],
)
def test_scopes_that_a_vehicle_can_share_may_not(home: Home, table: Write, now: datetime, one: str, other: str) -> None:
    with pytest.raises(TableError, match="state different values"):
        bring(home, table({"only_if": one}, {"only_if": other, "value": "95 N·m"}), now)


def test_two_notes_on_one_part_are_no_contradiction(home: Home, table: Write, now: datetime) -> None:
    note = {"property": "note", "value": "seats dry"}
    assert bring(home, table(note, note | {"value": "clean the seat"}), now).new == 2


def test_an_import_may_replace_the_row_it_disagrees_with(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}), now)
    with pytest.raises(TableError):
        bring(home, table({"id": "B1", "value": "95 N·m"}), now)
    assert counts(bring(home, table({"status": "withdrawn"}, {"value": "95 N·m"}), now)) == (1, 1, 0)
    assert counts(bring(home, table({"id": "B1", "value": "95.0 N·m"}), now)) == (1, 0, 0)


def test_a_vehicle_may_be_renamed_with_all_its_rows(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}, {"position": "rear"}), now)
    with pytest.raises(TableError, match="is written 'Quilsund 3' on record"):
        bring(home, table({"model": "Quilsund-3"}), now)
    assert counts(bring(home, table({"model": "Quilsund-3"}, {"position": "rear", "model": "Quilsund-3"}), now)) == (
        0,
        2,
        0,
    )


def test_marks_and_blank_lines_of_sheets_are_taken(home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    text = table({}).read_text(encoding="utf-8")
    path = tmp_path / "sheet.csv"
    path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode() + b"\r\n\r\n")
    assert counts(bring(home, path, now)) == (1, 0, 0)


def test_columns_may_come_in_any_order_and_some_not_at_all(home: Home, tmp_path: Path, now: datetime) -> None:
    path = tmp_path / "few.csv"
    path.write_text(
        "status,value,property,component,year_to,year_from,model,make,id\n"
        'draft,"94 lb-ft",torque,wheel nut,2016,2012,Olix,Drabent,W1\n',
        encoding="utf-8",
    )
    assert counts(bring(home, path, now)) == (1, 0, 0)
    assert revisions(home, "W1")[0].cells["value"] == "94 lb-ft"


def test_a_block_may_end_anywhere_in_a_line(
    home: Home, fleet: Write, tmp_path: Path, now: datetime, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = fleet(tmp_path / "fleet.csv", 300)
    bring(home, path, now)
    monkeypatch.setattr("benchbot.specs.lines.BLOCK", 97)
    assert counts(bring(home, path, now)) == (0, 0, 300)


def test_names_and_words_are_taken_once(home: Home, tmp_path: Path, now: datetime) -> None:
    names, words = tmp_path / "names.csv", tmp_path / "words.csv"
    names.write_text(
        "make,model,alias\nDrabent,Quilsund 3,the three\nDrabent,Quilsund 3,drab three\n", encoding="utf-8"
    )
    words.write_text("term,said\nlug nut,roundie\n", encoding="utf-8")
    assert bring(home, names, now) == ImportReport("vehicle names", 2, 2, 0, 0, (), True)
    assert bring(home, names, now) == ImportReport("vehicle names", 2, 0, 0, 2, (), True)
    assert bring(home, words, now) == ImportReport("words", 1, 1, 0, 0, (), True)
    assert bring(home, words, now) == ImportReport("words", 1, 0, 0, 1, (), True)
    with reading(home) as record:
        assert record is not None
        assert curator.shop_words(record) == [("wheel nut", "roundie")]
        assert curator.vehicle_names(record)[0] == ("Drabent", "Quilsund 3", "the three")


def test_a_word_of_the_shop_names_a_component(home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    words = tmp_path / "words.csv"
    words.write_text("term,said\nwheel nut,roundie\n", encoding="utf-8")
    with pytest.raises(TableError):
        bring(home, table({"component": "roundie"}), now)
    bring(home, words, now)
    bring(home, table({"component": "roundie"}), now)
    assert revisions(home, "A1")[0].cells["component_read"] == "wheel nut"


def test_what_is_exported_comes_in_again_unchanged(
    home: Home, table: Write, fleet: Write, tmp_path: Path, now: datetime
) -> None:
    first = fleet(tmp_path / "fleet.csv", 1_200)
    bring(home, first, now)
    bring(home, table({"condition": 'dry, "clean"', "only_if": "drive=4WD; engine=1.6"}), now)
    out = tmp_path / "out.csv"
    assert export(home, out) == 1_201
    assert counts(bring(home, out, now)) == (0, 0, 1_201)
    exported = {row["id"]: row for row in read(out)}
    assert [exported[row["id"]] for row in read(first)] == read(first)
    assert exported["A1"]["condition"] == 'dry, "clean"'
    again = out.read_bytes()
    export(home, out)
    assert out.read_bytes() == again


def test_an_export_that_fails_leaves_the_file(home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    with pytest.raises(RecordError, match="there is no record yet"):
        export(home, tmp_path / "out.csv")
    bring(home, table({}), now)
    with pytest.raises(SettingError, match="cannot be written"):
        export(home, tmp_path / "gone" / "out.csv")
    (tmp_path / "folder").mkdir()
    with pytest.raises(SettingError, match="cannot be written"):
        export(home, tmp_path / "folder")
    assert [path.name for path in tmp_path.glob(".*")] == []


def test_vehicles_are_counted_by_their_newest_rows(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}, {"status": "draft"}, {"position": "rear", "year_to": "2019"}), now)
    bring(home, table({"status": "withdrawn"}), now)
    (count,) = vehicle_counts(home)
    assert dataclasses.astuple(count) == ("Drabent", "Quilsund 3", 2012, 2019, 1, 1, 1)


def test_one_import_at_a_time(home: Home, table: Write, now: datetime, monkeypatch: pytest.MonkeyPatch) -> None:
    with (
        my_turn(home),
        pytest.raises(RecordError, match="another import or publishing is under way"),
        my_turn(home, 0.05),
    ):
        raise AssertionError
    assert bring(home, table({}), now).new == 1


def test_answering_goes_on_while_an_import_reads(home: Home, table: Write, now: datetime) -> None:
    from benchbot.records.record import Entry, open_record

    bring(home, table({}), now)
    with my_turn(home), reading(home) as record, open_record(home) as bench:
        assert record is not None
        assert record.execute(select(spec_revision.c.spec)).all()
        bench.put(Entry("c", "p", "m", "lugs?", now, "other", "{}", "{}"))
        assert bench.seen("c", "m") == "{}"


@pytest.mark.parametrize("kind", ["specs", "vehicle names", "words"])
def test_what_is_approved_meanwhile_is_not_written_over(
    kind: str, home: Home, table: Write, tmp_path: Path, now: datetime, dump: Dump, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An import looks through the record for a while; whatever changes meanwhile, it has not seen."""
    from benchbot.curation import importing
    from benchbot.curation.approving import Approved, approve
    from benchbot.records.record import open_record

    bring(home, table({"value": "99 N·m", "status": "draft"}), now)
    header, row = {
        "vehicle names": ("make,model,alias", "Drabent,Quilsund 3,the three"),
        "words": ("term,said", "wheel nut,roundie"),
    }.get(kind, ("", ""))
    path = table({"value": "110 N·m"}) if kind == "specs" else tmp_path / "small.csv"
    if kind != "specs":
        path.write_text(f"{header}\n{row}\n", encoding="utf-8")
    writing, before = importing.writing, []

    def approved_first(*of: object, **more: object) -> object:
        with open_record(home) as record:
            assert isinstance(approve(record, "A1", 1, "terminal ben", "ben", now), Approved)
        before[:] = dump(home.record)
        return writing(*of, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(importing, "writing", approved_first)
    with pytest.raises(RecordError, match="was changed since it was looked through; nothing was written, import it"):
        bring(home, path, now)
    assert before and dump(home.record) == before
    monkeypatch.setattr(importing, "writing", writing)
    assert bring(home, path, now).written
    assert [one.cells["value"] for one in revisions(home, "A1")][:2] == ["99 N·m", "99 N·m"]
