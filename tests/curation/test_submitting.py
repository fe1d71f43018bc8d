"""A row handed in: on record as a draft with all that goes with it, or refused with all that stands in the way."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from two_person_shop import ANA, BEN, CHECKED, NOW, REAR, ROW, begin, bring, named

from benchbot.curation.history import history
from benchbot.curation.publishing import publish
from benchbot.curation.submitting import RowRefused, Submitted, new_spec_id, submit
from benchbot.places import Home
from benchbot.records import evidence, fillings, revisions
from benchbot.records.fillings import Fields
from benchbot.records.record import Record, open_record


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    begin(home)
    with open_record(home) as opened:
        named(opened, ANA, "Ana Orlik")
        yield opened


def test_a_new_row_waits_as_a_draft(home: Home, record: Record) -> None:
    done = submit(record, REAR, ANA, "asked twice", NOW, {})
    assert isinstance(done, Submitted)
    assert done.spec.startswith("row-") and done.revision == 1
    held = revisions.newest(record, done.spec)
    assert held is not None
    assert (held.author, held.why, held.status) == (ANA, "asked twice", "draft")
    assert (held.cells["value"], held.cells["checked_by"], held.cells["checked_on"]) == ("98 N·m", "", "")
    assert publish(home, NOW).rows == 1


def test_a_changed_row_is_its_next_revision_and_leaves_the_one_before_answering(home: Home, record: Record) -> None:
    done = submit(record, {**ROW, "id": "A1", "value": "110 N·m"}, ANA, "misread", NOW, {})
    assert isinstance(done, Submitted) and (done.spec, done.revision) == ("A1", 2)
    answering = revisions.answering(record, "A1")
    assert answering is not None and (answering.revision, answering.cells["value"]) == (1, "105 N·m")
    assert publish(home, NOW).rows == 1


def test_faults_of_cells_refuse_it(home: Home, record: Record, dump: Callable[[Path], list[str]]) -> None:
    before = dump(home.record)
    done = submit(record, {**REAR, "source_ref": "", "value": "98"}, ANA, "", NOW, {})
    assert isinstance(done, RowRefused)
    assert {fault.column for fault in done.faults} == {"source_ref", "value"}
    assert "the row, source_ref: is empty in a verified row" in str(done)
    assert dump(home.record) == before


def test_a_contradiction_cannot_be_reasoned_away(home: Home, record: Record, dump: Callable[[Path], list[str]]) -> None:
    before = dump(home.record)
    done = submit(record, {**ROW, "value": "150 N·m"}, ANA, "", NOW, {"contradiction": "I am sure"})
    assert isinstance(done, RowRefused)
    assert [(one.concern, one.level) for one in done.open] == [("contradiction", "refused")]
    assert "A1" in str(done)
    assert dump(home.record) == before


def test_a_warning_needs_a_typed_reason_which_is_kept(record: Record) -> None:
    cells = {**REAR, "second_value": "75 lb-ft"}
    refused = submit(record, cells, ANA, "", NOW, {"two units": "  ", "scope": "for another concern"})
    assert isinstance(refused, RowRefused)
    assert [(one.concern, one.level) for one in refused.open] == [("two units", "warning")]
    done = submit(record, cells, ANA, "", NOW, {"two units": "printed so on p. 13"})
    assert isinstance(done, Submitted)
    (step,) = history(record, done.spec)
    assert [(one.concern, one.reason, one.person) for one in step.passed] == [("two units", "printed so on p. 13", ANA)]
    assert step.passed[0].told == refused.open[0].told


def test_what_was_filled_in_ends_with_it_and_its_pictures_go_along(record: Record) -> None:
    filling = fillings.put(record, None, "", ANA, None, Fields(REAR), NOW)
    picture, _ = evidence.put(record, filling.number, "handle-1", ANA, NOW)
    done = submit(record, REAR, ANA, "", NOW, {}, filling.number)
    assert isinstance(done, Submitted)
    held, kept = fillings.one(record, filling.number), evidence.one(record, picture)
    assert held is not None and kept is not None
    assert (held.state, held.spec) == ("submitted", done.spec)
    assert (kept.spec, kept.revision) == (done.spec, 1)


def test_the_scope_is_held_against_what_was_asked(record: Record) -> None:
    fields = Fields(REAR, asked_years=(2013, 2013))
    filling = fillings.put(record, None, "", ANA, None, fields, NOW)
    done = submit(record, REAR, ANA, "", NOW, {}, filling.number)
    assert isinstance(done, RowRefused)
    assert [one.concern for one in done.open] == ["scope"]
    held = fillings.one(record, filling.number)
    assert held is not None and held.state == "open"


def test_a_filling_that_changes_a_row_needs_no_id_in_its_cells(record: Record) -> None:
    filling = fillings.put(record, None, "A1", ANA, None, Fields(ROW), NOW)
    done = submit(record, {**ROW, "value": "110 N·m"}, ANA, "", NOW, {}, filling.number)
    assert isinstance(done, Submitted) and (done.spec, done.revision) == ("A1", 2)


def test_no_id_is_given_twice(home: Home, record: Record) -> None:
    following = new_spec_id(record)
    bring(home, REAR | CHECKED | {"id": following, "position": "rear"}, name="taken.csv")
    taken = [submit(record, {**REAR, "model": f"Ondrel {n}"}, BEN, "", NOW, {}) for n in range(5)]
    ids = [done.spec for done in taken if isinstance(done, Submitted)]
    assert len(set(ids)) == 5 and following not in ids
    assert new_spec_id(record, int(following.removeprefix("row-"))) == f"{following}-2"


def test_all_of_it_or_nothing(home: Home, record: Record, dump: Callable[[Path], list[str]]) -> None:
    before = dump(home.record)
    with pytest.raises(ZeroDivisionError), record.writing():
        assert isinstance(submit(record, REAR, ANA, "", NOW, {}), Submitted)
        raise ZeroDivisionError
    assert dump(home.record) == before
    connection = sqlite3.connect(home.record)
    assert connection.execute("SELECT count(*) FROM review").fetchone() == (0,)
    connection.close()
