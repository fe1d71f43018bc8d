"""A book as one SQLite file: written by sqlite-utils, and read as a stranger's file that must not run anything here."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlite_utils import Database

from benchbot.curation.book_folder import LAYOUTS
from benchbot.curation.book_label import TABLES, Label, Tally
from benchbot.curation.foreign_book import not_whole
from benchbot.records.decision import to_disk
from benchbot.records.shape import difference, shape
from benchbot.specs.cell import shielded
from benchbot.specs.lines import opened, refused
from benchbot.specs.table import Faults, Lines, Row

NAMES = {"specs": "specs", "vehicle names": "vehicle_names", "words": "words"}
_ABOUT = "about"
_KEYS = {"specs": "id", "vehicle names": ("make", "model", "alias"), "words": ("term", "said"), _ABOUT: "name"}
_MAGIC = b"SQLite format 3\x00"
_MOST_ABOUT = 50
_AGAIN = "ask for a file written by: benchbot specs export FILE.db"
_ALLOWED = {
    sqlite3.SQLITE_SELECT, sqlite3.SQLITE_READ, sqlite3.SQLITE_PRAGMA, sqlite3.SQLITE_FUNCTION,
    sqlite3.SQLITE_TRANSACTION,
}  # fmt: skip
_TEXT = {str}
_LIMITS = {
    sqlite3.SQLITE_LIMIT_LENGTH: 1_000_000,
    sqlite3.SQLITE_LIMIT_SQL_LENGTH: 100_000,
    sqlite3.SQLITE_LIMIT_COLUMN: 100,
    sqlite3.SQLITE_LIMIT_ATTACHED: 0,
    sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH: 0,
}


def write_file(path: Path, made_on: str, shop: str, tables: dict[str, Iterable[Sequence[str]]]) -> Label:
    """Writes the book into a new file; OSError or sqlite3.Error when it cannot."""
    connection = sqlite3.connect(path, isolation_level=None)
    try:
        # The file is not the book until it is renamed, so a crash may leave it torn.
        connection.execute("PRAGMA journal_mode = OFF")
        connection.execute("PRAGMA synchronous = OFF")
        database = _laid_out(connection)
        connection.execute("BEGIN")
        tallies = []
        for table in TABLES:
            tally = Tally()
            width = len(LAYOUTS[table].whole)
            # sqlite-utils builds a statement for every few rows, which takes ten times as long at a million of them.
            places = ", ".join("?" * width)
            database.conn.executemany(f"INSERT INTO {NAMES[table]} VALUES ({places})", tally.watch(tables[table]))
            tallies.append(tally.counted)
        label = Label(made_on, shop, (tallies[0], tallies[1], tallies[2]))
        connection.executemany(f"INSERT INTO {_ABOUT} VALUES (?, ?)", label.pairs())
        connection.execute("COMMIT")
    finally:
        connection.close()
    to_disk(path)
    return label


@contextmanager
def open_file(path: Path) -> Iterator[BookFile]:
    """TableError: it is no book, is built otherwise than one, or lost something on the way."""
    with opened(path) as file:
        start = file.read(len(_MAGIC))
    if start != _MAGIC:
        wrong = "the file is empty" if not start else "this is no SQLite database"
        raise refused(path.name, "file", wrong, _AGAIN)
    with closing(_connected(path)) as connection:
        try:
            wrong = difference(shape(connection), _shape())
        except (sqlite3.Error, ValueError) as error:
            wrong = str(error)
        if wrong:
            raise refused(path.name, "tables", f"this is no book: {wrong}", _AGAIN)
        # Only now: what tells the shape of a table counts as a write to the schema.
        connection.set_authorizer(_may)
        yield BookFile(path, connection, _label(path, connection))


class BookFile:
    """A database file whose tables are those of a book, each with the digest that its label tells."""

    def __init__(self, path: Path, connection: sqlite3.Connection, label: Label) -> None:
        self.name = path.name
        self.label = label
        self._connection = connection
        # Each row takes a byte for every cell in it and a few more: a file cannot hold more, whatever its pages say.
        self._most = path.stat().st_size // 4
        for table in TABLES:
            for _ in self.rows(table):
                pass

    def faults(self, table: str) -> Faults:
        return Faults(f"{self.name}, table {NAMES[table]}", "row")

    def lines(self, table: str, faults: Faults) -> Lines:
        return _Numbered(self, table)

    def rows(self, table: str) -> Iterator[Row]:
        """The rows in the order of the file. TableError when they are not those that the label tells of."""
        name, tally = NAMES[table], Tally()
        told = self.label.tables[TABLES.index(table)]
        columns = ", ".join(f'"{column}"' for column in LAYOUTS[table].whole)
        try:
            rows = self._connection.execute(f"SELECT {columns} FROM {name} ORDER BY rowid")
            for row in tally.watch(_texts(rows)):
                if tally.rows > self._most:
                    raise not_whole(self.name, f"table {name}", "it holds more rows than the file has room for")
                yield tuple(row)
        except (sqlite3.Error, TypeError) as error:
            where = f"table {name}, row {tally.rows + 1}"
            raise not_whole(self.name, where, f"the file is damaged ({error})") from error
        if tally.rows != told.rows:
            raise not_whole(self.name, f"table {name}", f"it holds {tally.rows:,} rows, and {told.rows:,} were written")
        if tally.counted != told:
            raise not_whole(self.name, f"table {name}", "a cell was altered: its digest is another")


class _Numbered:
    """The rows with the cells as a table writes them, which is what the checks read."""

    def __init__(self, book: BookFile, table: str) -> None:
        self._book, self._table = book, table

    def rows(self) -> Iterator[tuple[int, Row]]:
        for number, row in enumerate(self._book.rows(self._table), 1):
            yield number, tuple(map(shielded, row))


def _texts(rows: Iterable[Any]) -> Iterator[Sequence[str]]:
    for row in rows:
        if set(map(type, row)) != _TEXT:
            kinds = sorted({type(cell).__name__ for cell in row} - {"str"})
            raise TypeError(f"a cell is no text but {' and '.join(kinds)}")
        yield row


def _connected(path: Path) -> sqlite3.Connection:
    # `immutable`: nothing is written beside the file, and no journal that lies there is played into it.
    connection = sqlite3.connect(f"file:{quote(str(path))}?mode=ro&immutable=1", uri=True, isolation_level=None)
    for limit, most in _LIMITS.items():
        connection.setlimit(limit, most)
    for pragma in ("trusted_schema = OFF", "cell_size_check = ON", "query_only = ON", "mmap_size = 0"):
        connection.execute(f"PRAGMA {pragma}")
    return connection


def _may(action: int, *_: str | None) -> int:
    return sqlite3.SQLITE_OK if action in _ALLOWED else sqlite3.SQLITE_DENY


def _label(path: Path, connection: sqlite3.Connection) -> Label:
    try:
        pairs = connection.execute(f"SELECT name, value FROM {_ABOUT} LIMIT {_MOST_ABOUT}").fetchall()
        return Label.of_pairs([(str(name), str(value)) for name, value in pairs])
    except (sqlite3.Error, ValueError) as error:
        raise not_whole(path.name, f"table {_ABOUT}", str(error)) from error


@cache
def _shape() -> dict[str, Any]:
    with closing(sqlite3.connect(":memory:")) as connection:
        _laid_out(connection)
        return shape(connection)


def _laid_out(connection: sqlite3.Connection) -> Database:
    """The empty tables of a book."""
    database = Database(connection, execute_plugins=False)
    columns = {NAMES[table]: LAYOUTS[table].whole for table in TABLES} | {_ABOUT: ("name", "value")}
    keys = {NAMES.get(table, table): key for table, key in _KEYS.items()}
    for name, cells in columns.items():
        database.table(name).create(dict.fromkeys(cells, str), pk=keys[name], not_null=set(cells), strict=True)
    return database
