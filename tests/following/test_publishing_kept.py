"""A new book is asked the kept questions before it is put in place, and stops where one comes to something else."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from curators_shop import ASK_REAR, FRONT, REAR, Shop
from desk import NOW

from benchbot.__main__ import main
from benchbot.book.place import leftovers
from benchbot.book.reader import Book
from benchbot.following.publishing import PublishReport, PublishStopped
from benchbot.records import kept_questions

SPLIT = REAR | {"id": "A9", "only_if": "engine=1.6", "value": "70 N·m"}


@pytest.fixture
def kept(shop: Shop) -> Shop:
    """One question is kept: the rear bolt, answered by A2."""
    shop.bay.phone("Ana", technician=shop.main).say(ASK_REAR)
    shop.publish_and_follow(REAR)
    return shop


def version(shop: Shop) -> int:
    with Book.open(shop.home.book) as book:
        return book.version


def test_an_outcome_that_changes_stops_it(kept: Shop) -> None:
    # narrowed to one engine, the row asks back where it used to answer
    kept.enter(REAR | {"only_if": "engine=1.6"})
    before = kept.home.book.stat()
    done = kept.publish()
    assert isinstance(done, PublishStopped)
    (one,) = done.differences
    assert (one.said, one.expected) == (ASK_REAR, "an answer with A2")
    assert one.found.startswith("a question back")
    assert kept.home.book.stat() == before and leftovers(kept.home.book) == []
    assert kept.one("SELECT max(version) FROM book_version") == (2,)
    assert kept.one("SELECT count(*) FROM errand WHERE once = 'follow 3'") == (0,)


def test_accepted_with_a_reason_it_is_expected_from_then_on(kept: Shop) -> None:
    kept.enter(REAR | {"only_if": "engine=1.6"})
    assert isinstance(kept.publish("  "), PublishStopped)
    done = kept.publish("the sheet holds for the small engine only")
    assert isinstance(done, PublishReport) and done.version == 3
    (question,) = kept_questions.kept(kept.bay.record)
    assert (question.expected.outcome, question.expected.specs) == ("choose", ())
    assert question.expected.why == "the sheet holds for the small engine only"
    assert kept.one("SELECT author FROM kept_question WHERE ended_at = ''") == ("terminal curator",)
    assert kept.one("SELECT count(*) FROM kept_question") == (2,)
    kept.enter(FRONT | {"value": "111 N·m"})
    assert isinstance(kept.publish(), PublishReport)


def test_another_row_in_place_of_the_expected_one_stops_it(kept: Shop) -> None:
    kept.enter(REAR | {"status": "withdrawn"}, REAR | {"id": "A8"})
    done = kept.publish()
    assert isinstance(done, PublishStopped)
    assert done.differences[0].found == "an answer with A8"


@pytest.mark.parametrize("change", [{"value": "66 N·m"}, {"source_ref": "p. 15"}, {"status": "withdrawn"}])
def test_what_is_to_be_expected_goes_through(kept: Shop, change: dict[str, str]) -> None:
    kept.enter(REAR | change)
    assert isinstance(kept.publish(), PublishReport)
    # what was expected stays so, for when the row speaks again
    (question,) = kept_questions.kept(kept.bay.record)
    assert question.expected.specs == ("A2",)
    kept.enter(REAR)
    assert isinstance(kept.publish(), PublishReport)


def test_one_of_two_rows_may_be_withdrawn_at_once(shop: Shop) -> None:
    both = "2014 drabent quilsund 3 front and rear caliper bracket bolt torque"
    shop.bay.phone("Ana", technician=shop.main).say(both)
    shop.publish_and_follow(REAR, FRONT)
    (question,) = kept_questions.kept(shop.bay.record)
    assert question.expected.specs == ("A1", "A2")
    shop.enter(FRONT | {"status": "withdrawn"})
    assert isinstance(shop.publish(), PublishReport)
    # the one that is left must still be there
    shop.enter(REAR | {"only_if": "engine=1.6"})
    assert isinstance(shop.publish(), PublishStopped)


def test_a_row_that_must_be_checked_again_is_silent_as_expected(kept: Shop) -> None:
    kept.enter(REAR | {"review_by": "2026-12-01"})
    assert isinstance(kept.publish(), PublishReport)
    kept.bay.clock.moment = NOW + timedelta(days=10)
    kept.enter(FRONT | {"value": "111 N·m"})
    assert isinstance(kept.publish(), PublishReport)


def test_a_lost_book_is_made_again_whatever_is_kept(kept: Shop) -> None:
    kept.home.book.unlink()
    done = kept.publish()
    assert isinstance(done, PublishReport) and (done.version, done.made) == (2, True)


def test_at_the_command_line(
    kept: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BENCHBOT_HOME", str(kept.home.folder))
    kept.bay.phone("Cora", curator=kept.main)
    kept.enter(REAR | {"only_if": "engine=1.6"})
    assert main(["specs", "publish"]) == 1
    told = capsys.readouterr()
    assert told.out == "" and f"“{ASK_REAR}”: expected an answer with A2; now a question back" in told.err
    assert "--accept REASON" in told.err
    assert version(kept) == 2
    assert main(["specs", "publish", "--accept", "split by engine", "--by", "Cora"]) == 0
    assert capsys.readouterr().out.startswith("book 3 published: 2 verified specs, digest ")
    assert version(kept) == 3
    assert kept.one("SELECT author FROM kept_question WHERE ended_at = ''") == ("terminal cora",)


def test_a_draft_leaves_the_row_before_it_speaking(kept: Shop) -> None:
    kept.enter(REAR | {"status": "draft", "value": "99 N·m"}, FRONT | {"value": "111 N·m"})
    assert isinstance(kept.publish(), PublishReport)
    with Book.open(kept.home.book) as book:
        row = book.spec("A2", NOW.date())
        assert row is not None and (row.revision, row.value) == (1, "61 N·m")
