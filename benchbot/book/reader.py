"""Reads the published book: every worker opens the file read-only and asks it by number."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from pathlib import Path
from types import TracebackType
from typing import Any, Self
from urllib.parse import quote

from benchbot.book.layout import APPLICATION, BEFORE_ONE_PERSON, LAYOUT, READABLE
from benchbot.book.rows import NameHit, SpecRow, VehicleName
from benchbot.errors import BookError
from benchbot.procedures.likeness import Weights
from benchbot.procedures.steps import Procedures
from benchbot.vocabulary.terms import Vocabulary

__all__ = ["Book", "NameHit", "SpecRow", "VehicleName"]

_AGAIN = "publish the book again with: benchbot specs publish"

_SPECS = """
SELECT spec.spec, spec.revision, spec.vehicle, spec.year_from, spec.year_to, spec.only_if, component.name,
    spec.position, figure.property, figure.value, figure.second_value, figure.shown, handling.thread, handling.class,
    handling.condition, handling.reuse, handling.tightening_order, handling.cautions, checked.source, spec.source_ref,
    checked.checked_by, checked.checked_on, checked.review_by, {one_person}
FROM spec
JOIN component ON component.component = spec.component
JOIN figure ON figure.figure = spec.figure
JOIN handling ON handling.handling = spec.handling
JOIN checked ON checked.checked = spec.checked
WHERE {of} AND (checked.review_by = '' OR checked.review_by >= ?)
ORDER BY spec.row LIMIT ?
"""
_CAUTIONS, _ONE_PERSON = 17, 23
_HELD = """
SELECT DISTINCT component.name, spec.year_from, spec.year_to FROM spec
JOIN component ON component.component = spec.component
JOIN checked ON checked.checked = spec.checked
WHERE spec.vehicle = ? AND (checked.review_by = '' OR checked.review_by >= ?)
ORDER BY component.name, spec.year_from, spec.year_to
"""


class Book:
    """One open book. It stays the same while it is open, even when a newer one takes its place: see `replaced`."""

    def __init__(self, path: Path, connection: sqlite3.Connection, about: dict[str, str], layout: int) -> None:
        self.path = path
        self.layout = layout
        self.version = int(about["version"])
        self.digest = about["digest"]
        self.made_on = about["made_on"]
        self.rows = int(about["rows"])
        self.vocabulary_digest = about["vocabulary_digest"]
        self._connection = connection
        self._file = path.stat()
        self._components = {name: number for number, name in self._ask("SELECT component, name FROM component")}
        # Around the connection's own questions, so that a worker asks the file once for what a chat comes back to.
        self._words = lru_cache(maxsize=4096)(self._read_words)
        self._near = lru_cache(maxsize=8192)(self._read_near)
        self._vehicle = lru_cache(maxsize=4096)(self._read_vehicle)
        self._specs = lru_cache(maxsize=512)(self._read_specs)

    @classmethod
    def open(cls, path: Path) -> Self:
        """BookError when there is no book, or the file is another kind of file, torn, or of another layout."""
        if not path.is_file():
            raise BookError(f"{path}: there is no book yet; import specs and {_AGAIN}")
        try:
            # A book is never written in place, so SQLite may leave locks and journals alone.
            uri = f"file:{quote(str(path))}?mode=ro&immutable=1"
            connection = sqlite3.connect(uri, uri=True, isolation_level=None, check_same_thread=False)
            layout = _checked_layout(path, connection)
            about = dict(connection.execute("SELECT key, value FROM about").fetchall())
            return cls(path, connection, about, layout)
        except (sqlite3.Error, KeyError, ValueError) as error:
            raise BookError(f"{path}: the book is damaged ({error}); {_AGAIN}") from error

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        self._connection.close()

    @property
    def replaced(self) -> bool:
        """Whether another file now lies at the book's path: then open it anew."""
        try:
            now = self.path.stat()
        except FileNotFoundError:
            return True
        return (now.st_ino, now.st_mtime_ns, now.st_size) != (
            self._file.st_ino, self._file.st_mtime_ns, self._file.st_size,
        )  # fmt: skip

    def vocabulary(self) -> Vocabulary:
        """The vocabulary that the book was made with."""
        row = self._ask("SELECT body FROM vocabulary WHERE name = 'vocabulary'")
        return Vocabulary.from_plain(json.loads(row[0][0]))

    def procedures(self) -> Procedures | None:
        """The procedures that the book was made with; None in a book that was made before it carried any."""
        rows = self._ask("SELECT body FROM vocabulary WHERE name = 'procedures'")
        return Procedures.from_plain(json.loads(rows[0][0])) if rows else None

    def likeness(self) -> Weights | None:
        """What was learned of how people ask for the steps; None in a book that was made before it carried any."""
        rows = self._ask("SELECT body FROM vocabulary WHERE name = 'likeness'")
        return Weights.from_text(rows[0][0]) if rows else None

    def words(self, word: str) -> list[NameHit]:
        """The makes and vehicles whose name, or one of whose other names, has this word (folded)."""
        return list(self._words(word))

    def near(self, key: str) -> list[str]:
        """The name words that give this key when some letters are left out."""
        return list(self._near(key))

    def vehicle(self, vehicle: int) -> VehicleName:
        """KeyError when the book has no vehicle of that number."""
        return self._vehicle(vehicle)[1]

    def make_of(self, vehicle: int) -> int:
        """The number of the make. KeyError when the book has no vehicle of that number."""
        return self._vehicle(vehicle)[0]

    def make(self, make: int) -> str:
        """The make's name. KeyError when the book has no make of that number."""
        rows = self._ask("SELECT name FROM make WHERE make = ?", make)
        if not rows:
            raise KeyError(make)
        return str(rows[0][0])

    def vehicles_of_make(self, make: int, most: int) -> list[int]:
        """The vehicles of a make, in the order of the book, at most so many."""
        found = self._ask("SELECT vehicle FROM vehicle WHERE make = ? ORDER BY vehicle LIMIT ?", make, most)
        return [row[0] for row in found]

    def find_vehicle(self, make: str, model: str) -> int | None:
        """The number of the vehicle with just this make and model, None when the book has none."""
        rows = self._ask("SELECT vehicle FROM vehicle JOIN make USING (make) WHERE name = ? AND model = ?", make, model)
        return int(rows[0][0]) if rows else None

    def near_words(self, keys: Sequence[str]) -> list[str]:
        """The name words that give any of these keys when some letters are left out."""
        found = self._ask(f"SELECT DISTINCT word FROM near_word WHERE key IN ({_places(keys)})", *keys)
        return [row[0] for row in found]

    def qualifiers(self) -> list[tuple[str, str]]:
        """Every (key, value) that narrows a row: ("engine", "1.8T"), ("drive", "4WD") ..., each once."""
        texts = [row[0] for row in self._ask("SELECT only_if FROM narrowing ORDER BY only_if")]
        pairs = (part.partition("=") for text in texts for part in text.split(";"))
        return list(dict.fromkeys((key.strip(), value.strip()) for key, _, value in pairs))

    def specs_of(self, vehicles: Sequence[int], today: date) -> list[SpecRow]:
        """Every row of these vehicles whose review date has not passed, in the book's order."""
        if not vehicles:
            return []
        of = f"spec.vehicle IN ({_places(vehicles)})"
        return self._rows(of, *vehicles, today.isoformat())

    def specs(self, vehicles: Sequence[int], components: Sequence[str], today: date) -> list[SpecRow]:
        """Every row of these vehicles about these components whose review date has not passed, in the book's order."""
        return list(self._specs(tuple(vehicles), tuple(components), today.isoformat()))

    def specs_of_component(self, component: str, name: str, today: date, most: int) -> list[SpecRow]:
        """Rows that state a property of a component of any vehicle, at most so many, in the book's order."""
        number = self._components.get(component)
        if number is None:
            return []
        # The + keeps SQLite from beginning with the figures: going through the rows once is faster.
        of = "spec.component = ? AND +figure.property = ?"
        return self._rows(of, number, name, today.isoformat(), most=most)

    def spec(self, spec: str, today: date) -> SpecRow | None:
        """The row of that id, or None when it is not in the book or must be checked again."""
        rows = self._rows("spec.spec = ?", spec, today.isoformat())
        return rows[0] if rows else None

    def some_spec(self, chance: float, today: date) -> SpecRow | None:
        """One of the rows, picked by a number from 0 up to 1; None when that one must be checked again."""
        found = self._ask(
            "SELECT spec FROM spec WHERE row >= ? * (SELECT max(row) FROM spec) ORDER BY row LIMIT 1", chance
        )
        return self.spec(found[0][0], today) if found else None

    def components_held(self, vehicle: int, today: date) -> list[tuple[str, int, int]]:
        """(component, year_from, year_to) of everything that the book can say of a vehicle."""
        return self._ask(_HELD, vehicle, today.isoformat())

    def _read_words(self, word: str) -> tuple[NameHit, ...]:
        found = self._ask('SELECT "of", id, form, words FROM vehicle_word WHERE word = ?', word)
        return tuple(NameHit(*row) for row in found)

    def _read_near(self, key: str) -> tuple[str, ...]:
        return tuple(row[0] for row in self._ask("SELECT word FROM near_word WHERE key = ?", key))

    def _read_vehicle(self, vehicle: int) -> tuple[int, VehicleName]:
        rows = self._ask("SELECT make, name, model FROM vehicle JOIN make USING (make) WHERE vehicle = ?", vehicle)
        if not rows:
            raise KeyError(vehicle)
        make, name, model = rows[0]
        return make, VehicleName(name, model)

    def _read_specs(self, vehicles: tuple[int, ...], components: tuple[str, ...], today: str) -> tuple[SpecRow, ...]:
        numbers = [self._components[name] for name in components if name in self._components]
        if not vehicles or not numbers:
            return ()
        of = f"spec.vehicle IN ({_places(vehicles)}) AND spec.component IN ({_places(numbers)})"
        return tuple(self._rows(of, *vehicles, *numbers, today))

    def _rows(self, of: str, *values: Any, most: int = -1) -> list[SpecRow]:
        one_person = "0" if self.layout == BEFORE_ONE_PERSON else "checked.one_person"
        return [_spec_row(row) for row in self._ask(_SPECS.format(of=of, one_person=one_person), *values, most)]

    def _ask(self, statement: str, *values: Any) -> list[Any]:
        try:
            return self._connection.execute(statement, values).fetchall()
        except sqlite3.Error as error:
            raise BookError(f"{self.path}: the book cannot be read ({error}); {_AGAIN}") from error


def _checked_layout(path: Path, connection: sqlite3.Connection) -> int:
    if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION:
        raise BookError(f"{path}: this file is no book; move it away and {_AGAIN}")
    layout = connection.execute("PRAGMA user_version").fetchone()[0]
    if layout not in READABLE:
        raise BookError(f"{path}: the book has layout {layout}, this benchbot reads {LAYOUT}; {_AGAIN}")
    return int(layout)


def _places(values: Sequence[object]) -> str:
    return ", ".join("?" * len(values))


def _spec_row(row: tuple[Any, ...]) -> SpecRow:
    cells: list[Any] = list(row)
    cells[_CAUTIONS] = tuple(caution for caution in row[_CAUTIONS].split("; ") if caution)
    cells[_ONE_PERSON] = bool(row[_ONE_PERSON])
    return SpecRow(*cells)
