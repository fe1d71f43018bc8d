"""What comes in is kept once for each bot, is left until it was handled, and then is nothing but its number."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from benchbot.errors import RecordError
from benchbot.records import arrivals
from benchbot.records.record import Record, open_record

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
BOT = "501"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "record.sqlite"


@pytest.fixture
def record(path: Path) -> Iterator[Record]:
    with open_record(f"sqlite:///{path}") as opened:
        yield opened


def handle(record: Record, *numbers: int, at: datetime = NOW) -> None:
    with record.writing() as store:
        for number in numbers:
            arrivals.handled(store, BOT, number, at)


def test_what_comes_twice_is_kept_once(record: Record) -> None:
    assert arrivals.keep(record, BOT, [(7, "c1", "first"), (8, "c2", "second")], NOW) == {7, 8}
    assert arrivals.keep(record, BOT, [(8, "c2", "another"), (9, "c1", "third")], NOW) == {9}
    assert arrivals.left(record, BOT) == ["first", "second", "third"]


def test_twice_in_one_go_is_kept_once(record: Record) -> None:
    assert arrivals.keep(record, BOT, [(7, "c1", "first"), (7, "c1", "again")], NOW) == {7}
    assert arrivals.left(record, BOT) == ["first"]


def test_nothing_came(record: Record) -> None:
    assert arrivals.keep(record, BOT, [], NOW) == set()
    assert arrivals.left(record, BOT) == []


def test_each_bot_counts_by_itself(record: Record) -> None:
    assert arrivals.keep(record, BOT, [(7, "c1", "mine")], NOW) == {7}
    assert arrivals.keep(record, "502", [(7, "c1", "theirs")], NOW) == {7}
    handle(record, 7)
    assert arrivals.left(record, BOT) == []
    assert arrivals.left(record, "502") == ["theirs"]


def test_what_was_handled_is_not_left_and_comes_no_more(record: Record) -> None:
    arrivals.keep(record, BOT, [(7, "c1", "first"), (8, "c1", "second")], NOW)
    handle(record, 7)
    assert arrivals.left(record, BOT) == ["second"]
    assert arrivals.keep(record, BOT, [(7, "c1", "first")], NOW) == set()
    assert arrivals.left(record, BOT) == ["second"]


def test_the_body_goes_when_it_was_handled(record: Record) -> None:
    arrivals.keep(record, BOT, [(7, "c1", '{"text": "an invite"}')], NOW)
    handle(record, 7)
    assert record.rows("SELECT body FROM arrival", {}) == [("",)]


def test_numbers_that_start_anew_keep_the_order_of_their_times(record: Record) -> None:
    arrivals.keep(record, BOT, [(900, "c1", "before the quiet week")], NOW)
    arrivals.keep(record, BOT, [(12, "c1", "after it"), (11, "c1", "just before that")], NOW + timedelta(days=8))
    assert arrivals.left(record, BOT) == ["before the quiet week", "just before that", "after it"]


def test_a_handling_that_fails_leaves_it(record: Record) -> None:
    arrivals.keep(record, BOT, [(7, "c1", "first")], NOW)
    with pytest.raises(ZeroDivisionError), record.writing() as store:
        arrivals.handled(store, BOT, 7, NOW)
        raise ZeroDivisionError
    assert arrivals.left(record, BOT) == ["first"]


def test_all_that_came_in_one_go_is_kept_or_nothing(record: Record) -> None:
    broken = [(7, "c1", "first"), (8, "c1", None)]
    with pytest.raises(RecordError, match="NOT NULL"):
        arrivals.keep(record, BOT, broken, NOW)  # type: ignore[arg-type]
    assert arrivals.left(record, BOT) == []
    assert arrivals.keep(record, BOT, [(7, "c1", "first")], NOW) == {7}


def test_only_what_was_handled_long_ago_is_forgotten(record: Record) -> None:
    arrivals.keep(record, BOT, [(number, "c1", str(number)) for number in (7, 8, 9)], NOW)
    handle(record, 7, at=NOW)
    handle(record, 8, at=NOW + timedelta(days=2))
    arrivals.forget(record, NOW + timedelta(days=1))
    assert record.rows("SELECT number FROM arrival ORDER BY number", {}) == [(8,), (9,)]
    assert arrivals.left(record, BOT) == ["9"]


def test_what_is_left_is_found_by_an_index(record: Record, path: Path) -> None:
    connection = sqlite3.connect(path)
    for statement in (arrivals.LEFT, arrivals.HANDLED, arrivals.FORGET):
        values = dict.fromkeys(re.findall(r":(\w+)", statement))
        plan = [row[3] for row in connection.execute(f"EXPLAIN QUERY PLAN {statement}", values)]
        assert not [step for step in plan if step.startswith("SCAN")], plan
    connection.close()
