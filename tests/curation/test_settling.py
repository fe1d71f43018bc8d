"""Questioned answers: what a curator sees of them, and how each comes to its end once."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from two_person_shop import ANA, BEN, NOW, REAR, begin, named

from benchbot.curation.approving import Approved, approve, withdraw
from benchbot.curation.settling import DID, NotSettled, Settled, open_notes, settle
from benchbot.curation.submitting import Submitted, submit
from benchbot.places import Home
from benchbot.records import notes
from benchbot.records.record import Entry, Record, open_record


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    begin(home)
    with open_record(home) as opened:
        named(opened, ANA, "Ana Orlik")
        named(opened, BEN, "Ben Tarrow")
        yield opened


def shown(record: Record, *specs: tuple[str, int], person: str = BEN) -> int:
    """The number of an answer that showed these revisions."""
    entry = Entry("telegram 7", person, None, "16 quilsund front bracket bolt", NOW, "answer", "{}", "[]", specs)
    return record.put(entry).answer


def questioned_by(record: Record, person: str, *specs: tuple[str, int]) -> int:
    number, _ = notes.put(record, shown(record, *specs, person=person), person, 3, NOW)
    return number


def mend(record: Record, did: notes.Did) -> None:
    """Row A1 is corrected, withdrawn, or stays."""
    if did == "withdrawn":
        withdraw(record, "A1", BEN, "the sheet was recalled", NOW)
    elif did == "corrected":
        cells = {**REAR, "id": "A1", "position": "front", "value": "90 N·m"}
        assert isinstance(submit(record, cells, ANA, "misread", NOW, {}), Submitted)
        assert isinstance(approve(record, "A1", 2, BEN, "Ben Tarrow", NOW), Approved)


def test_what_is_shown_of_it(record: Record) -> None:
    note = questioned_by(record, BEN, ("A1", 1))
    notes.say(record, note, "the wheel plate says 90")
    (one,) = open_notes(record)
    assert (one.note, one.spec, one.revision, one.newest) == (note, "A1", 1, 1)
    assert (one.said, one.name, one.location) == ("the wheel plate says 90", "Ben Tarrow", 3)
    assert one.asked == "16 quilsund front bracket bolt"
    assert one.vehicle == "2012-2016 Drabent Quilsund 3"
    assert one.value == "front caliper bracket bolt torque: 105 N·m"


def test_an_answer_of_several_rows_is_there_for_each(record: Record) -> None:
    rear = submit(record, REAR, ANA, "", NOW, {})
    assert isinstance(rear, Submitted)
    assert isinstance(approve(record, rear.spec, 1, BEN, "Ben Tarrow", NOW), Approved)
    note = questioned_by(record, ANA, ("A1", 1), (rear.spec, 2))
    assert [(one.note, one.spec) for one in open_notes(record)] == [(note, "A1"), (note, rear.spec)]
    settle(record, note, "right", "looked", BEN, NOW)
    assert open_notes(record) == []


def test_a_row_that_is_not_on_record_is_still_questioned(record: Record) -> None:
    note = questioned_by(record, BEN, ("Z1", 4))
    (one,) = open_notes(record)
    assert (one.note, one.spec, one.newest, one.cells["value"]) == (note, "Z1", 0, "")


@pytest.mark.parametrize("did", DID)
def test_it_ends_once_with_what_was_found(record: Record, did: notes.Did) -> None:
    note = questioned_by(record, BEN, ("A1", 1))
    assert isinstance(settle(record, note, did, "  ", ANA, NOW), NotSettled)
    assert len(open_notes(record)) == 1
    mend(record, did)
    assert settle(record, note, did, "page 12 says 105", ANA, NOW) == Settled(note, did)
    again = settle(record, note, did, "page 12 says 105", ANA, NOW)
    assert isinstance(again, NotSettled) and again.about == "not open"
    assert record.rows("SELECT note, did, said, person FROM note_end", {}) == [(note, did, "page 12 says 105", ANA)]


@pytest.mark.parametrize(("said", "done"), [("corrected", "withdrawn"), ("withdrawn", "corrected")])
def test_what_still_says_so_is_not_settled_as_mended(record: Record, said: notes.Did, done: notes.Did) -> None:
    note = questioned_by(record, BEN, ("A1", 1))
    refused = settle(record, note, said, "looked", ANA, NOW)
    assert isinstance(refused, NotSettled) and (refused.about, refused.spec) == ("not mended", "A1")
    assert "Row A1 still says what was questioned (revision 1)" in refused.reason
    cells = {**REAR, "id": "A1", "position": "front", "value": "90 N·m"}
    assert isinstance(submit(record, cells, ANA, "misread", NOW, {}), Submitted)
    # a draft mends nothing, and one thing is not the other
    assert isinstance(settle(record, note, said, "looked", ANA, NOW), NotSettled)
    withdraw(record, "A1", BEN, "no", NOW) if done == "withdrawn" else approve(record, "A1", 2, BEN, "Ben", NOW)
    assert isinstance(settle(record, note, said, "looked", ANA, NOW), NotSettled)
    assert len(open_notes(record)) == 1
    assert isinstance(settle(record, note, done, "looked", ANA, NOW), Settled)


def test_the_mark_stays_until_the_book_holds_what_mended_it(record: Record) -> None:
    note = questioned_by(record, BEN, ("A1", 1))
    mend(record, "corrected")
    assert settle(record, note, "corrected", "page 12 says 90", ANA, NOW) == Settled(note, "corrected")
    for revision, marked in ((1, True), (2, True), (3, False), (4, False)):
        assert bool(notes.questioned(record, [("A1", revision)])) == marked, revision
    again = questioned_by(record, ANA, ("A1", 3))
    withdraw(record, "A1", BEN, "the sheet was recalled", NOW)
    assert settle(record, again, "withdrawn", "recalled", ANA, NOW) == Settled(again, "withdrawn")
    assert set(notes.questioned(record, [("A1", 3)])) == {"A1"}


def test_the_other_rows_of_the_answer_lose_the_mark_at_once(record: Record) -> None:
    note = questioned_by(record, BEN, ("A1", 1), ("Z1", 4))
    mend(record, "corrected")
    assert isinstance(settle(record, note, "corrected", "page 12 says 90", ANA, NOW), Settled)
    assert set(notes.questioned(record, [("A1", 1), ("Z1", 4)])) == {"A1"}


def test_of_two_who_settle_at_once_one_does(home: Home, record: Record) -> None:
    marked = [questioned_by(record, f"telegram {n}", ("A1", 1)) for n in range(6)]
    gate, done = threading.Barrier(2), []

    def go(person: str) -> None:
        with open_record(home) as own:
            for note in marked:
                gate.wait(30)
                done.append(settle(own, note, "right", "looked", person, NOW))

    both = [threading.Thread(target=go, args=(person,)) for person in (ANA, BEN)]
    for one in both:
        one.start()
    for one in both:
        one.join(60)
    assert sorted(type(one).__name__ for one in done) == ["NotSettled"] * 6 + ["Settled"] * 6


def test_whoever_approves_a_correction_hears_of_the_open_notes(record: Record) -> None:
    note = questioned_by(record, BEN, ("A1", 1))
    cells = {**REAR, "id": "A1", "position": "front", "value": "90 N·m"}
    assert isinstance(submit(record, cells, ANA, "misread", NOW, {}), Submitted)
    done = approve(record, "A1", 2, BEN, "Ben Tarrow", NOW)
    assert isinstance(done, Approved) and done.notes == (note,)
    assert open_notes(record)[0].newest == 3
