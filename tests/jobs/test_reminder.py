"""On the day, in the morning, the shop is told that wheels are to be tightened again; once, and not in the quiet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from job_bay import DANA, MIRO, START, Bay

from benchbot.following.errands import RUNS, run_due
from benchbot.jobs.retorque import REMINDER
from benchbot.jobs.rules import set_days, set_distance
from benchbot.people import known_bot
from benchbot.people.invites import make, redeem
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records.record import open_record


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    return Home(tmp_path)


@pytest.fixture
def shop(home: Home) -> Iterator[tuple[Bay, Location]]:
    known_bot.save(home, "99", "harrowlane_bench_bot")
    with open_record(home) as record:
        people = People(record)
        location = people.open_first("Harrow Lane", START)
        assert isinstance(location, Location)
        for who, role in ((MIRO, "owner"), (DANA, "technician")):
            _, code = make(record, location.number, role, 1, 1, "test", START)
            redeem(record, code, who.person, who.name, START)
        people.set_hours(location.number, "America/Chicago", "", "")
        yield Bay(record), location


def finished(bay: Bay, location: Location) -> None:
    bay.begin(location=location)
    bay.all_lines()
    bay.all_steps()
    bay.do("finish")


def sent(bay: Bay) -> list[tuple[str, str]]:
    return [(chat, body) for chat, body in bay.record.rows("SELECT chat, body FROM sending ORDER BY sending", {})]


def reminders(bay: Bay, home: Home, at: datetime) -> list[str]:
    return [done.state for done in run_due(home, lambda: at, bay.record) if done.what == REMINDER]


def test_in_the_morning_of_the_day(shop: tuple[Bay, Location], home: Home) -> None:
    bay, location = shop
    set_distance(bay.record, location.number, "80 km", MIRO.person, START)
    set_days(bay.record, location.number, 3, MIRO.person, START)
    finished(bay, location)
    # eight in the morning in Chicago in early March is 14:00 UTC (IANA time zone data)
    due = datetime(2026, 3, 5, 14, 0, tzinfo=UTC)
    assert reminders(bay, home, due - timedelta(minutes=1)) == []
    assert reminders(bay, home, due) == ["done"]
    assert reminders(bay, home, due + timedelta(days=1)) == []
    told = sent(bay)
    assert sorted(chat for chat, _ in told) == ["11", "12"]
    for _, body in told:
        assert "Tighten the wheels of job 1 again" in body
        assert "80 km" in body


def test_in_the_quiet_it_waits(shop: tuple[Bay, Location], home: Home) -> None:
    bay, location = shop
    People(bay.record).set_hours(location.number, "America/Chicago", "18:00", "09:00")
    set_days(bay.record, location.number, 3, MIRO.person, START)
    finished(bay, location)
    due = datetime(2026, 3, 5, 14, 0, tzinfo=UTC)
    assert reminders(bay, home, due) == ["done"]
    assert sent(bay) == []
    assert reminders(bay, home, due + timedelta(hours=1)) == ["done"]
    assert len(sent(bay)) == 2


def test_without_days_nobody_is_reminded(shop: tuple[Bay, Location], home: Home) -> None:
    bay, location = shop
    set_distance(bay.record, location.number, "50 miles", MIRO.person, START)
    finished(bay, location)
    assert reminders(bay, home, START + timedelta(days=60)) == []
    assert REMINDER in RUNS
