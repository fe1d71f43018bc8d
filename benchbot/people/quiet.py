"""When it is quiet at a location: hours in which nobody there is written to without having asked."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo, available_timezones

from benchbot.people.terms import Hours

_TIME = re.compile(r"([01][0-9]|2[0-3]):([0-5][0-9])")


def quiet_until(hours: Hours, now: datetime) -> datetime | None:
    """When the quiet that `now` lies in ends, UTC; None when it is not quiet.

    Where clocks are put forward or back during the quiet, it begins at the earlier of two times of that name and ends
    at the later one.
    """
    if not hours.quiet_from:
        return None
    zone = ZoneInfo(hours.zone)
    begins, ends = read_time(hours.quiet_from), read_time(hours.quiet_to)
    today = now.astimezone(zone).date()
    for day in (today - timedelta(days=1), today):
        until = _last(day if begins < ends else day + timedelta(days=1), ends, zone)
        if _first(day, begins, zone) <= now < until:
            return until
    return None


def local_date(hours: Hours, now: datetime) -> date:
    """The day that it is at the location."""
    return now.astimezone(ZoneInfo(hours.zone)).date()


def read_time(text: str) -> time:
    """ValueError when the text is no time from 00:00 to 23:59."""
    found = _TIME.fullmatch(text)
    if found is None:
        raise ValueError(f"{text!r} is no time of day; write it as 07:00")
    return time(int(found[1]), int(found[2]))


@lru_cache(maxsize=1)
def zones() -> frozenset[str]:
    """The names of the zones that this machine knows."""
    return frozenset(available_timezones())


def _first(day: date, at: time, zone: ZoneInfo) -> datetime:
    return min(_both(day, at, zone))


def _last(day: date, at: time, zone: ZoneInfo) -> datetime:
    return max(_both(day, at, zone))


def _both(day: date, at: time, zone: ZoneInfo) -> list[datetime]:
    local = datetime.combine(day, at, zone)
    return [local.replace(fold=fold).astimezone(UTC) for fold in (0, 1)]
