"""Weeks as ISO 8601 numbers them, and where they begin by the clock of a place."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from benchbot.curation.weeks import Week, monday_at


# ISO 8601-1:2019, 3.1.1.23: week 01 is the one with the year's first Thursday. 2020 and 2026 have 53 weeks, as they
# begin on a Wednesday of a leap year and on a Thursday.
@pytest.mark.parametrize(
    ("day", "week"),
    [
        (date(2026, 11, 16), "2026-W47"), (date(2026, 11, 22), "2026-W47"), (date(2026, 11, 23), "2026-W48"),
        (date(2025, 12, 29), "2026-W01"), (date(2027, 1, 3), "2026-W53"), (date(2021, 1, 1), "2020-W53"),
    ],
)  # fmt: skip
def test_a_day_lies_in_a_week(day: date, week: str) -> None:
    assert str(Week.of(day)) == week
    assert Week.read(week) == Week.of(day)


def test_weeks_follow_each_other_over_the_turn_of_a_year() -> None:
    assert Week(2026, 1).before() == Week(2025, 52)
    assert Week(2026, 53).after() == Week(2027, 1) and Week(2027, 1).before(2) == Week(2026, 52)


@pytest.mark.parametrize("text", ["", "47", "2026-47", "2026-W00", "2026-W54", "2025-W53", "0000-W01", "9999-W52", "W"])
def test_what_is_no_week(text: str) -> None:
    with pytest.raises(ValueError, match="week"):
        Week.read(text)


# Values from memory: Chicago is at UTC-6, from 2026-03-08 at UTC-5; Madrid at UTC+1, from 2026-03-29 at UTC+2.
@pytest.mark.parametrize(
    ("week", "zone", "begins", "hours"),
    [
        ("2026-W47", "UTC", "2026-11-16T00:00", 168), ("2026-W47", "America/Chicago", "2026-11-16T06:00", 168),
        ("2026-W10", "America/Chicago", "2026-03-02T06:00", 167),
        ("2026-W43", "Europe/Madrid", "2026-10-18T22:00", 169),
    ],
)  # fmt: skip
def test_a_week_begins_at_midnight_there(week: str, zone: str, begins: str, hours: int) -> None:
    since, until = Week.read(week).bounds(zone)
    assert since == datetime.fromisoformat(begins).replace(tzinfo=UTC)
    assert (until - since).total_seconds() == hours * 3600


@pytest.mark.parametrize(
    ("now", "zone", "next_one"),
    [
        ("2026-11-18T12:00", "UTC", "2026-11-23T08:00"), ("2026-11-23T07:59", "UTC", "2026-11-23T08:00"),
        ("2026-11-23T08:00", "UTC", "2026-11-30T08:00"), ("2026-11-23T13:00", "America/Chicago", "2026-11-23T14:00"),
        ("2026-03-07T12:00", "America/Chicago", "2026-03-09T13:00"),
        ("2026-11-15T23:30", "Europe/Madrid", "2026-11-16T07:00"),
    ],
)  # fmt: skip
def test_the_next_monday_at_eight(now: str, zone: str, next_one: str) -> None:
    at = datetime.fromisoformat(now).replace(tzinfo=UTC)
    assert monday_at(8, at, zone) == datetime.fromisoformat(next_one).replace(tzinfo=UTC)
