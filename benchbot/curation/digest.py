"""The figures of one week: what was asked and answered where, what is missing most, how long filling took."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from statistics import median

from benchbot.curation.ageing import due
from benchbot.curation.gaps import Group, groups
from benchbot.curation.weeks import Week
from benchbot.people.register import People
from benchbot.people.terms import Hours, Location
from benchbot.records import tallies
from benchbot.records.record import Record

TOP, TREND = 5, 8
_NOWHERE = Hours(0)

Counts = dict[tuple[int | None, str], int]


@dataclass(frozen=True, slots=True)
class Tally:
    """The replies of one place, or of one week. name: the place, "" for nobody knows where.

    answered: with values of the book; in_part: those of them that left something out. asked_back: with a question.
    not_answered: the book held nothing of it. A question that was asked back and then answered counts in both.
    """

    name: str
    answered: int
    in_part: int
    asked_back: int
    not_answered: int

    @property
    def whole(self) -> int:
        return self.answered + self.asked_back + self.not_answered


@dataclass(frozen=True, slots=True)
class TopGap:
    """A gap that is open, and how often it was asked in the week, at the place that the digest is for."""

    group: Group
    asks: int


@dataclass(frozen=True, slots=True)
class Digest:
    """location: None for the whole shop. so_far: the week has not ended.

    tallies: of each place, the one with the most replies first; of the one location only, if it is for one. trend: the
    same of the last weeks, oldest first, with a name such as "2026-W47"; for one location only. open_gaps: as of now.
    fresh: those of them that were first asked in the week. filled: how many were filled in it; to_fill: the median of
    the time since they were first asked, None when there were none. due: rows to be looked at again within 30 days;
    past: those of them that have stopped answering.
    """

    week: Week
    location: Location | None
    so_far: bool
    tallies: tuple[Tally, ...]
    trend: tuple[Tally, ...]
    top: tuple[TopGap, ...]
    open_gaps: int
    fresh: int
    filled: int
    to_fill: timedelta | None
    due: int
    past: int

    @property
    def sum(self) -> Tally:
        """All places together."""
        return _sum("", self.tallies)


def digest(record: Record, week: Week, now: datetime, location: Location | None = None) -> Digest:
    """The week by the clock of the location; for the whole shop each place's replies by its own, the rest by UTC."""
    people = People(record)
    hours = people.hours(location.number) if location is not None else _NOWHERE
    since, until = week.bounds(hours.zone)
    place = None if location is None else location.number
    open_groups = [
        one
        for one in groups(record, min(now, until))
        if place is None or any(number == place for number, _ in one.locations)
    ]
    asked = tallies.gaps_asked(record, since, until, place)
    times = [(end - start).total_seconds() for start, end in tallies.filled(record, since, until, place)]
    ageing = due(record, now.astimezone(UTC).date())
    return Digest(
        week=week,
        location=location,
        so_far=now < until,
        tallies=_of_places(record, people, week, location),
        trend=() if location is None else _trend(record, week, location, hours),
        top=tuple(TopGap(one, len(asked.intersection(one.gaps))) for one in open_groups[:TOP]),
        open_gaps=len(open_groups),
        fresh=sum(since <= one.first_at < until for one in open_groups),
        filled=len(times),
        to_fill=timedelta(seconds=median(times)) if times else None,
        due=len(ageing),
        past=sum(one.past for one in ageing),
    )


def _of_places(record: Record, people: People, week: Week, only: Location | None) -> tuple[Tally, ...]:
    found = [] if only is not None else [_tally("", None, *_counted(record, week, _NOWHERE.zone))]
    by_zone: dict[str, list[Location]] = {}
    for place in people.locations() if only is None else (only,):
        by_zone.setdefault(people.hours(place.number).zone, []).append(place)
    for zone, places in by_zone.items():
        replies, gaps = _counted(record, week, zone)
        found += [_tally(place.name, place.number, replies, gaps) for place in places]
    shown = [one for one in found if one.whole or one.name]
    return tuple(sorted(shown, key=lambda one: (not one.name, -one.whole, one.name.casefold())))


def _trend(record: Record, week: Week, location: Location, hours: Hours) -> tuple[Tally, ...]:
    weeks = [week.before(back) for back in range(TREND - 1, -1, -1)]
    return tuple(_tally(str(one), location.number, *_counted(record, one, hours.zone)) for one in weeks)


def _counted(record: Record, week: Week, zone: str) -> tuple[Counts, Counts]:
    bounds = week.bounds(zone)
    return tallies.replies(record, *bounds), tallies.gaps(record, *bounds)


def _tally(name: str, place: int | None, replies: Counts, gaps: Counts) -> Tally:
    return Tally(
        name,
        answered=replies.get((place, "answer"), 0),
        in_part=gaps.get((place, "answer"), 0),
        asked_back=replies.get((place, "choose"), 0),
        not_answered=gaps.get((place, "gap"), 0),
    )


def _sum(name: str, parts: tuple[Tally, ...]) -> Tally:
    return Tally(
        name,
        sum(one.answered for one in parts),
        sum(one.in_part for one in parts),
        sum(one.asked_back for one in parts),
        sum(one.not_answered for one in parts),
    )
