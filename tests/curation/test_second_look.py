"""A table that changes what is on record: what nobody has checked so waits, and an older table brings nothing back."""

from __future__ import annotations

import pytest
from two_person_shop import BEN, CHECKED, NOW, REAR, ROW, begin, bring, named

from benchbot.curation.approving import Approved, approve, withdraw
from benchbot.curation.exporting import export
from benchbot.curation.importing import import_table
from benchbot.curation.two_people import allow_one_person
from benchbot.errors import TableError
from benchbot.places import Home
from benchbot.records import revisions
from benchbot.records.record import open_record

A1 = ROW | CHECKED | {"id": "A1"}
LATER = {"checked_on": "2026-04-01"}


def said(home: Home, spec: str = "A1") -> list[tuple[str, str]]:
    with open_record(home) as record:
        return [(one.cells["value"], one.status) for one in revisions.of_spec(record, spec)]


@pytest.mark.parametrize("by", ["", "office", "Ben"])
@pytest.mark.parametrize(
    "change",
    [{"value": "110 N·m"}, {"year_to": "2018"}, {"only_if": "engine=1.6"}, {"position": "front upper"}],
    ids=str,
)
def test_a_change_that_nobody_has_checked_is_a_draft(change: dict[str, str], by: str, home: Home) -> None:
    begin(home)
    (note,) = bring(home, A1 | change, by=by)
    assert note.startswith("A1 (line 2): ") and "the check of 2026-02-03 by lead was before that" in note
    assert "taken as a draft, which answers after: benchbot specs approve A1" in note
    assert [status for _, status in said(home)] == ["verified", "draft"]
    bring(home, A1 | change, by=by)
    assert len(said(home)) == 2


def test_the_note_tells_both_values(home: Home) -> None:
    begin(home)
    assert "A1 (line 2): 105 N·m → 110 N·m, and the check" in bring(home, A1 | {"value": "110 N·m"})[0]


@pytest.mark.parametrize(
    "change",
    [
        {"value": "110 N·m"} | LATER,
        {"value": "110 N·m", "checked_by": "second lead"},
        {"source": "Another sheet", "source_ref": "p. 3"},
        {"status": "withdrawn"},
        {"status": "draft", "value": "110 N·m"},
    ],
    ids=str,
)
def test_a_change_with_its_own_check_or_of_no_matter_is_taken_as_the_table_states(
    change: dict[str, str], home: Home
) -> None:
    begin(home)
    assert bring(home, A1 | change) == ()
    assert said(home)[1:] == [(change.get("value", "105 N·m"), change.get("status", "verified"))]


def test_a_check_from_before_the_one_on_record_is_none_of_the_change(home: Home) -> None:
    begin(home)
    (note,) = bring(home, A1 | {"value": "110 N·m", "checked_by": "second lead", "checked_on": "2025-12-01"})
    assert "the check of 2025-12-01 by second lead was before that" in note
    assert said(home)[-1] == ("110 N·m", "draft")


def test_a_socket_needs_no_second_look(home: Home) -> None:
    begin(home)
    socket = REAR | CHECKED | {"id": "S1", "property": "socket", "value": "18 mm"}
    bring(home, socket)
    assert bring(home, socket | {"value": "19 mm"}) == ()
    assert said(home, "S1") == [("18 mm", "verified"), ("19 mm", "verified")]


def test_a_shop_of_one_person_has_to_look_again_too(home: Home) -> None:
    begin(home)
    with open_record(home) as record:
        allow_one_person(record, True, "terminal root", NOW)
    bring(home, A1 | {"value": "110 N·m"}, by="lead")
    assert said(home)[-1] == ("110 N·m", "draft")


def test_a_row_that_was_withdrawn_does_not_come_back_on_its_old_check(home: Home) -> None:
    begin(home)
    with open_record(home) as record:
        withdraw(record, "A1", BEN, "the sheet is wrong", NOW)
    (note,) = bring(home, A1 | {"source_ref": "p. 13"})
    assert note.startswith("A1 (line 2): it was withdrawn, and the check of 2026-02-03 by lead")
    assert said(home)[-1][1] == "draft"
    assert bring(home, A1 | {"source_ref": "p. 13"} | LATER) == ()
    assert said(home)[-1][1] == "verified"


def test_an_older_table_brings_nothing_back(home: Home) -> None:
    """Rows that were corrected, withdrawn, or approved since stay so; the others are taken as ever."""
    begin(home)
    rear, draft = REAR | CHECKED | {"id": "R1"}, REAR | {"id": "D1", "position": "rear upper", "status": "draft"}
    bring(home, rear, draft, name="more.csv")
    older = home.folder / "older.csv"
    export(home, older)
    bring(home, A1 | {"value": "110 N·m"} | LATER)
    with open_record(home) as record:
        named(record, BEN, "Ben Tarrow")
        withdraw(record, "R1", BEN, "the sheet is wrong", NOW)
        assert isinstance(approve(record, "D1", 1, BEN, "Ben Tarrow", NOW), Approved)
    # what took the place of a row that was withdrawn contradicts it, and that is no fault of the older table
    bring(home, rear | {"id": "R2", "value": "88 N·m"} | LATER, name="instead.csv")
    before = {spec: said(home, spec) for spec in ("A1", "R1", "D1", "R2")}
    report = import_table(home, older, False, "office", NOW)
    assert (report.new, report.changed, report.unchanged, report.left) == (0, 0, 0, 3)
    assert {spec: said(home, spec) for spec in before} == before
    assert [note.partition(":")[0] for note in report.notes] == ["A1 (line 2)", "D1 (line 3)", "R1 (line 4)"]
    assert "it is revision 1 of that row, and the record is at revision 2: left out" in report.notes[0]


def test_it_comes_back_once_it_was_checked_again(home: Home) -> None:
    begin(home)
    bring(home, A1 | {"value": "110 N·m"} | LATER)
    assert "left out" in bring(home, A1)[0]
    assert bring(home, A1 | {"checked_on": "2026-05-01"}) == ()
    assert said(home)[-1] == ("105 N·m", "verified")


def test_what_came_in_as_a_draft_and_was_approved_stays_so(home: Home) -> None:
    begin(home)
    bring(home, A1 | {"value": "110 N·m"})
    with open_record(home) as record:
        assert isinstance(approve(record, "A1", 2, BEN, "Ben", NOW), Approved)
    assert "left out" in bring(home, A1 | {"value": "110 N·m"})[0]
    assert said(home) == [("105 N·m", "verified"), ("110 N·m", "draft"), ("110 N·m", "verified")]


def test_a_row_that_stands_beside_a_waiting_change_is_measured_by_what_answers(home: Home) -> None:
    begin(home)
    narrowed = A1 | {"year_to": "2013"}
    other = A1 | {"id": "A2", "year_from": "2014", "value": "110 N·m"}
    with pytest.raises(TableError, match="the change of A1 in line 2 comes in as a draft") as told:
        bring(home, narrowed, other)
    assert told.value.faults[0].mend.startswith("give A1 the day on which it was checked again")
    assert said(home) == [("105 N·m", "verified")]
    assert bring(home, narrowed | LATER, other) == ()


def test_a_vehicle_is_not_spelt_two_ways_for_a_row_that_waits(home: Home) -> None:
    begin(home)
    bring(home, REAR | CHECKED | {"id": "R1"}, name="rear.csv")
    spelt = {"model": "Quilsund-3"}
    with pytest.raises(TableError, match="is written 'Quilsund 3' on record"):
        bring(home, A1 | spelt | {"value": "110 N·m"}, REAR | CHECKED | {"id": "R1"} | spelt)
    assert bring(home, A1 | spelt, REAR | CHECKED | {"id": "R1"} | spelt) == ()
