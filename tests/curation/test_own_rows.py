"""A table that its own checker brings in: what waits for a second person, what stays as it was, what is told."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from two_person_shop import BEN, CHECKED, NOW, REAR, ROW, begin, bring, named

from benchbot.book.reader import Book
from benchbot.curation.approving import Approved, approve, waiting
from benchbot.curation.publishing import publish, rebuild
from benchbot.curation.two_people import allow_one_person
from benchbot.errors import TableError
from benchbot.places import Home
from benchbot.records import reviews, revisions
from benchbot.records.record import open_record

SOCKET = REAR | CHECKED | {"id": "S1", "property": "socket", "value": "18 mm"}
TORQUE = REAR | CHECKED | {"id": "T1"}


def statuses(home: Home, spec: str) -> list[str]:
    with open_record(home) as record:
        return [one.status for one in revisions.of_spec(record, spec)]


@pytest.fixture(params=[False, True], ids=["first import", "later import"])
def shop(request: pytest.FixtureRequest, home: Home) -> Iterator[Home]:
    if request.param:
        begin(home)
    yield home


@pytest.mark.parametrize("by", ["", "office", "Leader"])
def test_another_person_brings_it_in(shop: Home, by: str) -> None:
    assert bring(shop, TORQUE, SOCKET, by=by, name="rear.csv") == ()
    assert (statuses(shop, "T1"), statuses(shop, "S1")) == (["verified"], ["verified"])


def test_the_account_is_the_importer_of_all_but_the_first_table(home: Home) -> None:
    assert bring(home, ROW | CHECKED | {"id": "A1"}, as_account="Lead") == ()
    assert statuses(home, "A1") == ["verified"]
    (note,) = bring(home, TORQUE, SOCKET, as_account="Lead", name="rear.csv")
    assert note.startswith("1 row was checked by Lead, who brings the table in")
    assert (statuses(home, "T1"), statuses(home, "S1")) == (["draft"], ["verified"])
    assert bring(home, TORQUE | {"id": "T2", "position": "front lower"}, by="office", as_account="Lead") == ()
    assert statuses(home, "T2") == ["verified"]


@pytest.mark.parametrize("by", ["lead", "LEAD", " Lead "])
def test_whoever_checked_it_brings_it_in(shop: Home, by: str) -> None:
    (note,) = bring(shop, TORQUE, SOCKET, by=by, name="rear.csv")
    assert note.startswith("1 row was checked by") and "waits as a draft for a second person" in note
    assert (statuses(shop, "T1"), statuses(shop, "S1")) == (["draft"], ["verified"])
    with open_record(shop) as record:
        named(record, BEN, "Ben Tarrow")
        named(record, "telegram 11", "Lead")
        assert [one.spec for one in waiting(record)] == ["T1"]
        assert not isinstance(approve(record, "T1", 1, "telegram 11", "Lead", NOW), Approved)
        assert isinstance(approve(record, "T1", 1, BEN, "Ben Tarrow", NOW), Approved)
    assert publish(shop, NOW).rows == len(statuses(shop, "A1")) + 2


def test_once_more_nothing_new_comes_of_it(home: Home) -> None:
    begin(home)
    for _ in range(2):
        bring(home, TORQUE, SOCKET, by="lead", name="rear.csv")
        assert statuses(home, "T1") == ["draft"]


def test_what_was_checked_before_stays_so(home: Home) -> None:
    begin(home)
    bring(home, ROW | CHECKED | {"id": "A1"}, by="lead")
    assert statuses(home, "A1") == ["verified"]
    bring(home, ROW | CHECKED | {"id": "A1", "value": "110 N·m"}, by="lead")
    assert statuses(home, "A1") == ["verified", "draft"]
    publish(home, NOW)
    with Book.open(home.book) as book:
        row = book.spec("A1", NOW.date())
        assert row is not None and row.value == "105 N·m"


def test_a_shop_of_one_person_says_so_in_every_answer(home: Home) -> None:
    begin(home)
    with open_record(home) as record:
        allow_one_person(record, True, "command line, root", NOW)
    assert bring(home, TORQUE, SOCKET, by="lead", name="rear.csv") == ()
    assert (statuses(home, "T1"), statuses(home, "S1")) == (["verified"], ["verified"])
    with open_record(home) as record:
        assert reviews.sole(record, "T1") == {1}
        assert not reviews.sole(record, "S1")
    report = publish(home, NOW)
    with Book.open(home.book) as book:
        rows = {spec: book.spec(spec, NOW.date()) for spec in ("A1", "S1", "T1")}
        assert {spec: row.one_person for spec, row in rows.items() if row} == {"A1": False, "S1": False, "T1": True}
    again = home.folder / "again.sqlite"
    assert rebuild(home, report.version, again).digest == report.digest


def test_a_draft_does_not_hide_the_row_before_it_from_a_contradiction(home: Home) -> None:
    begin(home)
    draft = ROW | CHECKED | {"id": "A1", "value": "110 N·m", "status": "draft"}
    bring(home, draft)
    assert statuses(home, "A1") == ["verified", "draft"]
    other = ROW | CHECKED | {"id": "B1", "value": "120 N·m"}
    with pytest.raises(TableError, match=r"B1 and A1 \(on record\) state different values"):
        bring(home, other, name="other.csv")
    with pytest.raises(TableError, match=r"B1 and A1 \(on record\) state different values"):
        bring(home, draft | {"source_ref": "p. 14"}, other, name="both.csv")


def test_the_same_draft_once_more_changes_nothing(home: Home) -> None:
    begin(home)
    draft = ROW | CHECKED | {"id": "A1", "value": "110 N·m", "status": "draft"}
    bring(home, draft)
    bring(home, draft)
    bring(home, ROW | CHECKED | {"id": "A1"})
    assert statuses(home, "A1") == ["verified", "draft"]
