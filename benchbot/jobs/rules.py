"""What a location has settled about jobs: a second person on wheels, and when the wheels are tightened again."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime

from benchbot.jobs.terms import Refused
from benchbot.records import settings
from benchbot.records.record import Record

DAYS_AT_MOST, DISTANCE_AT_MOST = 60, 1000

_SECOND = "second person on wheels {location}"
_DISTANCE = "re-torque distance {location}"
_DAYS = "re-torque days {location}"
_WRITTEN = re.compile(r"([1-9][0-9]{0,3})\s*(km|kilometers|kilometres|mi|miles)", re.IGNORECASE)
_NOWHERE = "everywhere"


@dataclass(frozen=True, slots=True)
class JobRules:
    """distance: such as "80 km", "" while the shop has set none; days: 0 while it has set none. No figure is ours."""

    second_person: bool = False
    distance: str = ""
    distance_by: str = ""
    days: int = 0
    days_by: str = ""


def job_rules(record: Record, location: int | None) -> JobRules:
    """What counts at a location now."""
    second = settings.setting(record, _name(_SECOND, location))
    distance = settings.setting(record, _name(_DISTANCE, location))
    days = settings.setting(record, _name(_DAYS, location))
    return JobRules(
        second is not None and second.value == "on",
        distance.value if distance else "",
        distance.author if distance else "",
        int(days.value) if days else 0,
        days.author if days else "",
    )


def set_second_person(record: Record, location: int | None, wanted: bool, author: str, now: datetime) -> None:
    """For every job that begins from now on."""
    settings.put(record, _name(_SECOND, location), "on" if wanted else "off", author, now)


def set_distance(record: Record, location: int | None, distance: str, author: str, now: datetime) -> Refused | None:
    """distance: a whole number of km or miles; "" takes it back."""
    found = _WRITTEN.fullmatch(distance.strip())
    if distance.strip() and (found is None or int(found[1]) > DISTANCE_AT_MOST):
        return Refused(f"Give one figure in km or miles, {DISTANCE_AT_MOST} at most, such as 80 km.", "setting")
    value = "" if found is None else f"{found[1]} {'km' if found[2].lower().startswith('k') else 'miles'}"
    settings.put(record, _name(_DISTANCE, location), value, author, now)
    return None


def set_days(record: Record, location: int | None, days: int, author: str, now: datetime) -> Refused | None:
    """days: after which the shop is reminded; 0 takes it back."""
    if not 0 <= days <= DAYS_AT_MOST:
        return Refused(f"Give 1 to {DAYS_AT_MOST} days, or 0 for none.", "setting")
    settings.put(record, _name(_DAYS, location), str(days), author, now)
    return None


def _name(form: str, location: int | None) -> str:
    return form.format(location=_NOWHERE if location is None else location)
