"""The weeks that the shop is looked at by: Monday to Sunday by the clock of a place, numbered as ISO 8601 has it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

_TEXT = re.compile(r"([0-9]{4})-W([0-9]{2})")
_WEEK = timedelta(weeks=1)


@dataclass(frozen=True, slots=True, order=True)
class Week:
    """Its year is that of its Thursday, so that 2025-12-29 lies in 2026-W01."""

    year: int
    number: int

    def __str__(self) -> str:
        return f"{self.year:04}-W{self.number:02}"

    @classmethod
    def of(cls, day: date) -> Week:
        year, number, _ = day.isocalendar()
        return cls(year, number)

    @classmethod
    def at(cls, moment: datetime, zone: str) -> Week:
        """The week that it is in a zone (an IANA name)."""
        return cls.of(moment.astimezone(ZoneInfo(zone)).date())

    @classmethod
    def read(cls, text: str) -> Week:
        """ValueError when it is no week, such as the 53rd of a year that has 52."""
        found = _TEXT.fullmatch(text.strip())
        if found is None:
            raise ValueError(f"{text!r} is no week; write it as 2026-W47")
        week = cls(int(found[1]), int(found[2]))
        try:
            week.before()
            week.after()
        except (ValueError, OverflowError) as error:
            raise ValueError(f"there is no week {text.strip()}; write one as 2026-W47") from error
        return week

    @property
    def monday(self) -> date:
        return date.fromisocalendar(self.year, self.number, 1)

    def before(self, weeks: int = 1) -> Week:
        return Week.of(self.monday - weeks * _WEEK)

    def after(self) -> Week:
        return Week.of(self.monday + _WEEK)

    def bounds(self, zone: str) -> tuple[datetime, datetime]:
        """From its first moment, up to and not including the first of the next one; UTC."""
        return _midnight(self.monday, zone), _midnight(self.monday + _WEEK, zone)


def monday_at(hour: int, now: datetime, zone: str) -> datetime:
    """The next Monday at that hour by the clock of the zone, later than now; UTC."""
    monday = Week.at(now, zone).monday
    at = datetime.combine(monday, time(hour), ZoneInfo(zone)).astimezone(UTC)
    return at if at > now else datetime.combine(monday + _WEEK, time(hour), ZoneInfo(zone)).astimezone(UTC)


def _midnight(day: date, zone: str) -> datetime:
    return datetime.combine(day, time(), ZoneInfo(zone)).astimezone(UTC)
