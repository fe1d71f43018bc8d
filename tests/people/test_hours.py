"""Quiet hours of a location: set by an owner, over midnight, and where clocks are put forward or back."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from benchbot.people.quiet import quiet_until, read_time
from benchbot.people.register import People
from benchbot.people.terms import Hours, Location, Refused

CHICAGO, MADRID = "America/Chicago", "Europe/Madrid"


def at(zone: str, year: int, month: int, day: int, hour: int, minute: int = 0, fold: int = 0) -> datetime:
    return datetime(year, month, day, hour, minute, tzinfo=ZoneInfo(zone), fold=fold).astimezone(UTC)


def hours(zone: str, begins: str, ends: str) -> Hours:
    return Hours(1, zone, begins, ends)


def test_it_is_never_quiet_until_somebody_says_so(people: People, shop: Location, now: datetime) -> None:
    assert people.hours(shop.number) == Hours(shop.number, "UTC", "", "")
    assert quiet_until(people.hours(shop.number), now) is None


def test_hours_are_set_and_set_again(people: People, shop: Location) -> None:
    assert people.set_hours(shop.number, CHICAGO, "19:00", "07:00") == Hours(shop.number, CHICAGO, "19:00", "07:00")
    assert people.hours(shop.number) == Hours(shop.number, CHICAGO, "19:00", "07:00")
    assert people.set_hours(shop.number, MADRID, "", "") == Hours(shop.number, MADRID, "", "")
    assert people.hours(shop.number).quiet_from == ""


@pytest.mark.parametrize(
    ("zone", "begins", "ends"),
    [
        ("America/Springfield", "19:00", "07:00"), ("", "19:00", "07:00"), ("../etc/passwd", "19:00", "07:00"),
        ("UTC+1", "19:00", "07:00"), (CHICAGO, "19:00", ""), (CHICAGO, "", "07:00"), (CHICAGO, "07:00", "07:00"),
        (CHICAGO, "7:00", "19:00"), (CHICAGO, "24:00", "07:00"), (CHICAGO, "19:60", "07:00"),
        (CHICAGO, "１９:00", "07:00"),
    ],
)  # fmt: skip
def test_what_is_no_zone_or_no_time_is_refused(
    people: People, shop: Location, zone: str, begins: str, ends: str
) -> None:
    refused = people.set_hours(shop.number, zone, begins, ends)
    assert isinstance(refused, Refused) and refused.about == "setting unfit"
    assert people.hours(shop.number).quiet_from == ""


def test_there_must_be_such_a_location(people: People) -> None:
    refused = people.set_hours(99, "UTC", "", "")
    assert isinstance(refused, Refused) and refused.about == "unknown location"


def test_a_time_of_day_is_two_figures_each() -> None:
    assert read_time("07:05").minute == 5
    with pytest.raises(ValueError, match="no time of day"):
        read_time("7:05")


@pytest.mark.parametrize(
    ("hour", "minute", "until"),
    [
        (18, 59, None), (19, 0, (6, 7)), (23, 59, (6, 7)), (0, 0, (5, 7)), (6, 59, (5, 7)), (7, 0, None), (12, 0, None),
    ],
)  # fmt: skip
def test_over_midnight(hour: int, minute: int, until: tuple[int, int] | None) -> None:
    quiet = quiet_until(hours(CHICAGO, "19:00", "07:00"), at(CHICAGO, 2026, 5, 5, hour, minute))
    assert quiet == (None if until is None else at(CHICAGO, 2026, 5, until[0], until[1]))


def test_within_one_day() -> None:
    siesta = hours(MADRID, "14:00", "16:30")
    assert quiet_until(siesta, at(MADRID, 2026, 7, 1, 13, 59)) is None
    assert quiet_until(siesta, at(MADRID, 2026, 7, 1, 14)) == at(MADRID, 2026, 7, 1, 16, 30)
    assert quiet_until(siesta, at(MADRID, 2026, 7, 1, 16, 30)) is None


def test_the_night_in_which_clocks_go_forward_is_an_hour_shorter() -> None:
    # Chicago, 8 March 2026, 02:00 becomes 03:00; UTC-6 before, UTC-5 after (value from memory)
    now = datetime(2026, 3, 8, 2, 0, tzinfo=UTC)  # 20:00 of the 7th
    assert quiet_until(hours(CHICAGO, "19:00", "07:00"), now) == datetime(2026, 3, 8, 12, 0, tzinfo=UTC)


def test_the_night_in_which_clocks_go_back_is_an_hour_longer() -> None:
    # Madrid, 25 October 2026, 03:00 becomes 02:00; UTC+2 before, UTC+1 after (value from memory)
    now = datetime(2026, 10, 24, 20, 0, tzinfo=UTC)  # 22:00 of the 24th
    assert quiet_until(hours(MADRID, "21:00", "07:00"), now) == datetime(2026, 10, 25, 6, 0, tzinfo=UTC)


def test_an_end_that_comes_twice_is_the_later_one() -> None:
    # 02:30 comes at 00:30 UTC and again at 01:30 UTC (value from memory)
    quiet = hours(MADRID, "21:00", "02:30")
    for minute in (0, 29, 31, 59):
        assert quiet_until(quiet, datetime(2026, 10, 25, 0, minute, tzinfo=UTC)) == datetime(
            2026, 10, 25, 1, 30, tzinfo=UTC
        )
    assert quiet_until(quiet, datetime(2026, 10, 25, 1, 30, tzinfo=UTC)) is None


def test_an_end_that_never_comes_ends_all_the_same() -> None:
    # Chicago has no 02:30 on 8 March 2026: the clock goes from 01:59 (07:59 UTC) to 03:00 (value from memory)
    quiet = hours(CHICAGO, "19:00", "02:30")
    assert quiet_until(quiet, datetime(2026, 3, 8, 7, 59, tzinfo=UTC)) == datetime(2026, 3, 8, 8, 30, tzinfo=UTC)
    assert quiet_until(quiet, datetime(2026, 3, 8, 8, 30, tzinfo=UTC)) is None
