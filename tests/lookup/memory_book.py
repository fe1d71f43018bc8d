"""A book and a record in memory, with the questions that a conversation puts to them; no file is written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from benchbot.book.rows import NameHit, SpecRow, VehicleName
from benchbot.book.vehicles import VehicleWords
from benchbot.records.record import Entry, Kept


@dataclass(slots=True)
class MemoryBook:
    """The same answers as a published book file gives, from lists."""

    rows: list[SpecRow]
    named: list[tuple[str, str]]
    version: int = 1
    replaced: bool = False
    _hits: dict[str, list[NameHit]] = field(default_factory=dict)
    _near: dict[str, set[str]] = field(default_factory=dict)
    _words: VehicleWords = field(default_factory=VehicleWords)

    def __post_init__(self) -> None:
        for name in self.named:
            _ = self._words.known[name]
        for word, *hit in self._words.words():
            self._hits.setdefault(word, []).append(NameHit(*hit))
        for key, word in self._words.near_words():
            self._near.setdefault(key, set()).add(word)

    def procedures(self) -> None:
        """It carries none."""

    def words(self, word: str) -> list[NameHit]:
        return list(self._hits.get(word, ()))

    def near_words(self, keys: Sequence[str]) -> list[str]:
        return sorted({word for key in keys for word in self._near.get(key, ())})

    def vehicle(self, vehicle: int) -> VehicleName:
        return VehicleName(*self.named[vehicle - 1])

    def make(self, make: int) -> str:
        return next(name for name, number in self._words.makes.items() if number == make)

    def make_of(self, vehicle: int) -> int:
        return self._words.makes[self.named[vehicle - 1][0]]

    def vehicles_of_make(self, make: int, most: int) -> list[int]:
        return [n for n in range(1, len(self.named) + 1) if self.make_of(n) == make][:most]

    def find_vehicle(self, make: str, model: str) -> int | None:
        return self._words.known.get((make, model))

    def qualifiers(self) -> list[tuple[str, str]]:
        parts = [part.partition("=") for row in self.rows for part in row.only_if.split("; ") if part]
        return sorted({(key, value) for key, _, value in parts})

    def specs_of(self, vehicles: Sequence[int], today: date) -> list[SpecRow]:
        return [row for row in self.rows if row.vehicle in vehicles]

    def specs(self, vehicles: Sequence[int], components: Sequence[str], today: date) -> list[SpecRow]:
        return [row for row in self.specs_of(vehicles, today) if row.component in components]

    def close(self) -> None:
        """Nothing is open."""


class MemoryRecord:
    """Chat states alone; gaps are counted, and no vehicle that was on a lift is remembered."""

    def __init__(self) -> None:
        self._states: dict[str, str] = {}
        self._answers = 0
        self._gaps = 0

    def chat_state(self, chat: str, now: datetime) -> str | None:
        return self._states.get(chat)

    def put(self, entry: Entry) -> Kept:
        if entry.state is not None:
            self._states[entry.chat] = entry.state
        self._answers += 1
        self._gaps += entry.gap is not None
        return Kept(self._answers, self._gaps if entry.gap is not None else None, True)

    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]:
        return []

    @contextmanager
    def writing(self) -> Iterator[MemoryRecord]:
        yield self

    def run(self, statement: str, values: Mapping[str, Any]) -> None:
        """Whatever else goes on record is let go."""

    def close(self) -> None:
        """Nothing is open."""
