"""Makes a book file from its contents, row by row, and checks it before anyone reads it."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from benchbot.book.contents import Contents, Made
from benchbot.book.layout import INDEXES, tables
from benchbot.book.vehicles import VehicleWords
from benchbot.errors import BookError
from benchbot.quantities.presentation import present
from benchbot.specs.figure import read_figure

_BATCH = 20_000
_INSERT = f"INSERT INTO spec VALUES (NULL{', ?' * 12})"
_PARTED = "\x1f"


def make_book(path: Path, contents: Contents) -> Made:
    """Writes a new book file. BookError when the written file does not hold what went in."""
    connection = sqlite3.connect(path, isolation_level=None)
    try:
        # The file is not the book until it is renamed, so a crash may leave it torn.
        connection.execute("PRAGMA journal_mode = OFF")
        connection.execute("PRAGMA synchronous = OFF")
        connection.execute("PRAGMA cache_size = -65536")
        connection.executescript(tables())
        connection.execute("BEGIN")
        making = _Making(connection)
        rows = 0
        for batch in _batches(making.rows(contents.rows)):
            connection.executemany(_INSERT, batch)
            rows += len(batch)
        made = Made(contents.version, making.finish(contents), rows)
        making.write_small_tables(contents, made)
        connection.execute("COMMIT")
        connection.executescript(INDEXES)
        connection.execute("PRAGMA optimize")
        _verify(path, connection, made)
    except sqlite3.Error as error:
        raise BookError(
            f"{path}: the new book could not be written ({error}); check the disk and publish again"
        ) from error
    finally:
        connection.close()
    return made


class _Making:
    """Numbers for everything that rows share, given while the rows go by."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._database = Database(connection)
        self._vehicles = VehicleWords()
        self._components: dict[str, int] = {}
        self._figures: dict[tuple[str, str, str], int] = {}
        self._handlings: dict[tuple[str, ...], int] = {}
        self._checks: dict[tuple[Any, ...], int] = {}
        self._narrowings: set[str] = set()
        self._marks: list[bytes] = []

    def rows(self, rows: Any) -> Iterator[tuple[Any, ...]]:
        vehicles, components, figures = self._vehicles.known, self._components, self._figures
        handlings, checks, marks, sha = self._handlings, self._checks, self._marks, hashlib.sha256
        narrowings = self._narrowings
        for row in rows:
            (
                spec, revision, make, model, year_from, year_to, scope, component, position,
                name, value, second, *handling, source, checked_by, checked_on, review_by, ref, one_person,
            ) = row  # fmt: skip
            handling_key, checked_key = tuple(handling), (source, checked_by, checked_on, review_by, one_person)
            narrowings.add(scope)
            # A row that two persons know is marked as before there were others, so that older books come out the same.
            marked = row if one_person else row[:-1]
            marks.append(sha(_PARTED.join(map(str, marked)).encode()).digest())
            yield (
                spec, revision, vehicles[make, model], year_from, year_to, scope,
                components.setdefault(component, len(components) + 1), position,
                figures.setdefault((name, value, second), len(figures) + 1),
                handlings.setdefault(handling_key, len(handlings) + 1),
                checks.setdefault(checked_key, len(checks) + 1), ref,
            )  # fmt: skip

    def finish(self, contents: Contents) -> str:
        """Takes the aliases in; the digest of everything that was taken in, whatever the order it came in."""
        for alias in contents.aliases:
            if self._vehicles.add_alias(*alias):
                self._marks.append(hashlib.sha256(_PARTED.join(("alias", *alias)).encode()).digest())
        self._marks.sort()
        return hashlib.sha256(b"".join(self._marks)).hexdigest()

    def write_small_tables(self, contents: Contents, made: Made) -> None:
        about = {
            "version": str(made.version),
            "made_on": contents.made_on,
            "digest": made.digest,
            "rows": str(made.rows),
            "vocabulary_digest": contents.vocabulary_digest,
        }
        self._many("about", about.items())
        bodies = {
            "vocabulary": contents.vocabulary,
            "procedures": contents.procedures,
            "likeness": contents.likeness,
        }
        self._many("vocabulary", [(name, body) for name, body in bodies.items() if body])
        self._many("make", ((number, name) for name, number in self._vehicles.makes.items()))
        self._many("vehicle", self._vehicles.rows())
        self._many("vehicle_word", self._vehicles.words())
        self._many("near_word", self._vehicles.near_words())
        self._many("narrowing", ((only_if,) for only_if in sorted(self._narrowings) if only_if))
        self._many("component", ((number, name) for name, number in self._components.items()))
        self._many("figure", ((number, *key, _shown(*key)) for key, number in self._figures.items()))
        self._many("handling", ((number, *key) for key, number in self._handlings.items()))
        self._many("checked", ((number, *key) for key, number in self._checks.items()))

    def _many(self, table: str, rows: Any) -> None:
        width = len(self._database[table].columns)
        places = ", ".join("?" * width)
        self._database.conn.executemany(f"INSERT INTO {table} VALUES ({places})", rows)


def _shown(name: str, value: str, second_value: str) -> str:
    try:
        reading = read_figure(name, value, second_value)
    except ValueError as error:
        raise BookError(
            f"a {name} on record, {value!r}, can no longer be read: {error.args[0]}; correct the row"
        ) from error
    plain = present(reading.value, reading.second).to_plain()
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))


def _batches(rows: Iterator[tuple[Any, ...]]) -> Iterator[list[tuple[Any, ...]]]:
    while batch := list(islice(rows, _BATCH)):
        yield batch


def _verify(path: Path, connection: sqlite3.Connection, made: Made) -> None:
    count = connection.execute("SELECT count(*) FROM spec").fetchone()[0]
    sound = connection.execute("PRAGMA quick_check").fetchone()[0]
    torn = connection.execute("PRAGMA foreign_key_check").fetchone()
    if count != made.rows or sound != "ok" or torn is not None:
        raise BookError(
            f"{path}: {made.rows} rows went in and {count} are there ({sound}); check the disk and publish again"
        )
