"""Rows whose review comes up: on the list 30 days before, marked once they have stopped, gone when looked at again."""

from __future__ import annotations

import csv
import json
from datetime import date, timedelta
from types import SimpleNamespace

import pytest
from two_person_shop import ANA, BEN, CHECKED, HEADER, NOW, ROW, named

from benchbot.book.reader import Book
from benchbot.commands import due as command
from benchbot.curation.ageing import due
from benchbot.curation.approving import Approved, approve
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.curation.submitting import Submitted, submit
from benchbot.places import Home
from benchbot.records.record import open_record

TODAY = NOW.date()


def row(number: int, review_by: date | None, **cells: str) -> dict[str, str]:
    """A checked row of a model of its own."""
    until = "" if review_by is None else review_by.isoformat()
    return ROW | CHECKED | {"id": f"A{number}", "model": f"Quilsund {number}", "review_by": until} | cells


def bring_all(home: Home, *rows: dict[str, str]) -> None:
    """Imports them with the column that these tests are about."""
    path = home.folder / "ageing.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, (*HEADER, "review_by"), restval="")
        writer.writeheader()
        writer.writerows(rows)
    import_table(home, path, False, "office", NOW)


def test_from_thirty_days_before_the_review_to_long_after_it(home: Home) -> None:
    days = {1: None, 2: 31, 3: 30, 4: 1, 5: 0, 6: -1, 7: -60}
    bring_all(home, *(row(n, None if d is None else TODAY + timedelta(d)) for n, d in days.items()))
    with open_record(home) as record:
        found = due(record, TODAY)
        assert [(one.spec, one.past) for one in found] == [
            ("A7", True), ("A6", True), ("A5", False), ("A4", False), ("A3", False),
        ]  # fmt: skip
        assert [one.spec for one in due(record, TODAY, 31)] == ["A7", "A6", "A5", "A4", "A3", "A2"]
        assert [one.spec for one in due(record, TODAY, 0)] == ["A7", "A6", "A5"]
    first = found[0]
    assert (first.subject.make, first.subject.model, first.subject.component) == (
        "Drabent", "Quilsund 7", "caliper bracket bolt",
    )  # fmt: skip
    assert (first.subject.position, first.subject.property, first.value) == ("front", "torque", "105 N·m")
    assert (first.year_from, first.year_to, first.review_by) == (2012, 2016, TODAY - timedelta(60))


def test_what_is_past_is_just_what_the_book_does_not_say(home: Home) -> None:
    bring_all(home, row(1, TODAY), row(2, TODAY - timedelta(1)))
    publish(home, NOW)
    with Book.open(home.book) as book, open_record(home) as record:
        answers = {one.spec: book.spec(one.spec, TODAY) is not None for one in due(record, TODAY)}
        assert answers == {one.spec: not one.past for one in due(record, TODAY)} == {"A1": True, "A2": False}


def test_a_draft_on_top_says_that_somebody_is_at_it_and_the_approval_takes_it_off(home: Home) -> None:
    bring_all(home, row(1, TODAY + timedelta(3)), row(2, TODAY, status="withdrawn"), row(3, TODAY, status="draft"))
    with open_record(home) as record:
        named(record, ANA, "Ana"), named(record, BEN, "Ben")
        assert [(one.spec, one.in_hand) for one in due(record, TODAY)] == [("A1", False)]
        cells = row(1, TODAY + timedelta(400), source_ref="p. 12, looked at again")
        made = submit(record, cells, ANA, "the review is due", NOW, {})
        assert isinstance(made, Submitted), made
        assert [(one.spec, one.revision, one.in_hand) for one in due(record, TODAY)] == [("A1", 1, True)]
        assert isinstance(approve(record, "A1", made.revision, BEN, "Ben", NOW), Approved)
        assert due(record, TODAY) == []


def test_the_command_tells_both_kinds(home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    args = SimpleNamespace(days=30, json=False)
    assert command.run(home, args, NOW) == 0
    assert capsys.readouterr().out == "no row has to be looked at again within 30 days\n"
    bring_all(home, row(1, TODAY + timedelta(3)), row(2, TODAY - timedelta(2)))
    command.run(home, args, NOW)
    bolt = "FRONT caliper bracket bolt, torque: 105 N·m"
    assert capsys.readouterr().out.splitlines() == [
        f"A2  DOES NOT ANSWER after 2026-05-02: 2012-2016 Drabent Quilsund 2, {bolt}",
        f"A1  answers until 2026-05-07: 2012-2016 Drabent Quilsund 1, {bolt}",
    ]
    command.run(home, SimpleNamespace(days=0, json=True), NOW)
    [told] = json.loads(capsys.readouterr().out)
    assert (told["id"], told["past"], told["review_by"], told["only_if"]) == ("A2", True, "2026-05-02", {})
