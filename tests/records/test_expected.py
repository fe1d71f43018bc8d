"""What is awaited of a person in a chat: the last thing, for a while, and then nothing of it stays."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from benchbot.records import expected
from benchbot.records.expected import Expected
from benchbot.records.record import Record, open_record

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
SOON = NOW + timedelta(minutes=10)
NAME = Expected("name", {"location": 3})


@pytest.fixture
def record(tmp_path: Path) -> Iterator[Record]:
    with open_record(f"sqlite:///{tmp_path / 'record.sqlite'}") as opened:
        yield opened


def rows(record: Record) -> list[str]:
    return [str(row[0]) for row in record.rows("SELECT person FROM expected ORDER BY person", {})]


def test_it_is_awaited_until_its_time_is_over(record: Record) -> None:
    expected.put(record, "c", "p", NAME, SOON)
    assert expected.one(record, "c", "p", NOW) == NAME
    assert expected.one(record, "c", "p", SOON) is None
    assert expected.one(record, "c", "another", NOW) is None


def test_a_new_one_takes_the_place_of_the_old(record: Record) -> None:
    expected.put(record, "c", "p", NAME, SOON)
    expected.put(record, "c", "p", Expected("words", {}), SOON)
    assert expected.one(record, "c", "p", NOW) == Expected("words", {})
    expected.taken(record, "c", "p")
    assert expected.one(record, "c", "p", NOW) is None


def test_what_never_came_is_cleared_away(record: Record) -> None:
    expected.put(record, "c", "late", NAME, NOW)
    expected.put(record, "c", "soon", NAME, SOON)
    expected.forget(record, NOW)
    assert rows(record) == ["late", "soon"], "until then it was awaited"
    expected.forget(record, NOW + timedelta(seconds=1))
    assert rows(record) == ["soon"]
