"""What the book holds of all that was asked: vehicles seen by parts asked for, each filled, missing or stale."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import TypeVar

from benchbot.book.reader import Book, SpecRow
from benchbot.curation.gaps import STATES, groups
from benchbot.records import tallies
from benchbot.records.record import Record
from benchbot.records.tallies import Missed
from benchbot.reply.subjects import OR

SEEN_FOR = timedelta(days=90)


@dataclass(frozen=True, slots=True, order=True)
class Vehicle:
    """known: the book has it. Of one that it has not, `model` is what people wrote, and make may be empty."""

    make: str
    model: str
    known: bool = True

    @property
    def name(self) -> str:
        return f"{self.make} {self.model}".strip()


@dataclass(frozen=True, slots=True)
class Cell:
    """One part on one vehicle. asks: questions about it. filled: rows that answer; stale: rows past their review.

    missing: things asked of it that the book does not hold, but for those that a stale row would answer.
    """

    asks: int
    filled: int
    missing: int
    stale: int

    @property
    def whole(self) -> bool:
        """Nothing that was asked is missing or has stopped answering."""
        return self.filled > 0 and not self.missing and not self.stale


@dataclass(frozen=True, slots=True)
class Coverage:
    """vehicles, components: most asked first. cells: only those pairs that somebody asked about.

    unplaced: questions that name a part or a vehicle that nobody knows and so belong to no cell.
    """

    since: datetime
    until: datetime
    vehicles: tuple[Vehicle, ...]
    components: tuple[str, ...]
    cells: dict[tuple[Vehicle, str], Cell]
    unplaced: int

    @property
    def whole(self) -> int:
        """How many cells hold all that was asked."""
        return sum(one.whole for one in self.cells.values())

    @property
    def asks(self) -> int:
        """Questions by cell; one that asks about two parts counts in both."""
        return sum(one.asks for one in self.cells.values())


def coverage(record: Record, book: Book, since: datetime, now: datetime, location: int | None = None) -> Coverage:
    """Of the questions since then, at a location or anywhere (None). What is held is what the book says today.

    A question that was asked back counts once it has come to an answer or a gap.
    """
    today = now.astimezone(UTC).date()
    asked: dict[tuple[Vehicle, str], set[int]] = defaultdict(set)
    for answer, make, model, component in tallies.shown(record, since, location):
        asked[Vehicle(make, model), component].add(answer)
    meant = tallies.meanings(record, since, location)
    vehicles, written = _vehicles(meant, book), _written(record, now)
    missing: dict[tuple[Vehicle, str], set[int]] = defaultdict(set)
    placed, unplaced = set(), set()
    for answer, number, reading in tallies.missed(record, since, location):
        one = meant[number]
        vehicle = vehicles.get(number) or written.get(number)
        components = _components(one, reading)
        if vehicle is None or not components:
            unplaced.add(answer)
            continue
        placed.add(answer)
        for component in components:
            asked[vehicle, component].add(answer)
            if one.state != "filled":
                missing[vehicle, component].add(number)
    cells = {}
    for vehicle, parts in _by_vehicle(asked).items():
        held, past = _rows(book, vehicle, parts, today)
        for component in parts:
            lacks = [meant[number] for number in missing[vehicle, component]]
            stale = past[component]
            cells[vehicle, component] = Cell(
                len(asked[vehicle, component]),
                len(held[component]),
                sum(not any(_would_answer(row, one) for row in stale) for one in lacks),
                len(stale),
            )
    return Coverage(
        since,
        now,
        _most_asked((vehicle, cell.asks) for (vehicle, _), cell in cells.items()),
        _most_asked((component, cell.asks) for (_, component), cell in cells.items()),
        cells,
        len(unplaced - placed),
    )


Key = TypeVar("Key", Vehicle, str)


def _most_asked(counted: Iterable[tuple[Key, int]]) -> tuple[Key, ...]:
    sums: dict[Key, int] = defaultdict(int)
    for key, asks in counted:
        sums[key] += asks
    return tuple(sorted(sums, key=lambda key: (-sums[key], key)))


def _by_vehicle(pairs: Iterable[tuple[Vehicle, str]]) -> dict[Vehicle, list[str]]:
    found: dict[Vehicle, list[str]] = defaultdict(list)
    for vehicle, component in pairs:
        found[vehicle].append(component)
    return found


def _rows(
    book: Book, vehicle: Vehicle, components: Sequence[str], today: date
) -> tuple[dict[str, list[SpecRow]], dict[str, list[SpecRow]]]:
    """The book's rows of a vehicle by component: those that answer, and those past their review."""
    held: dict[str, list[SpecRow]] = defaultdict(list)
    past: dict[str, list[SpecRow]] = defaultdict(list)
    number = book.find_vehicle(vehicle.make, vehicle.model) if vehicle.known else None
    if number is not None:
        # as of the first day of all, no review has passed
        for row in book.specs((number,), sorted(components), date.min):
            stopped = row.review_by and row.review_by < today.isoformat()
            (past if stopped else held)[row.component].append(row)
    return held, past


def _would_answer(row: SpecRow, one: Missed) -> bool:
    """Whether the row is what was asked for, as far as that was said."""
    years = [int(year) for year in one.years.split()]
    return (
        (not one.property or row.property in one.property.split(OR))
        and (not one.position or one.position == row.position)
        and (not years or any(row.year_from <= year <= row.year_to for year in years))
    )


def _components(one: Missed, reading: str) -> tuple[str, ...]:
    """The parts that were asked for; of a vehicle nobody knows, as the question was read."""
    if one.kind == "row":
        return tuple(part for part in one.component.split(OR) if part)
    if one.kind == "vehicle":
        asks = json.loads(reading).get("asks", [])
        return tuple(dict.fromkeys(part for ask in asks if len(ask[0]) == 1 for part in ask[0]))
    return ()


def _vehicles(meant: dict[int, Missed], book: Book) -> dict[int, Vehicle]:
    """The vehicles of the rows that are missing; a name that fits several is one that the book does not have."""
    found = {}
    for number, one in meant.items():
        if one.kind == "row" and (one.model or one.make or one.words):
            known = bool(one.model) and book.find_vehicle(one.make, one.model) is not None
            found[number] = Vehicle(one.make, one.model or one.words, known)
    return found


def _written(record: Record, now: datetime) -> dict[int, Vehicle]:
    """The vehicles that nobody knows, all ways that one was written together."""
    found = {}
    for group in groups(record, now, STATES):
        if group.kind == "vehicle":
            vehicle = Vehicle("", group.words, known=False)
            found.update(dict.fromkeys(group.meanings, vehicle))
    return found
