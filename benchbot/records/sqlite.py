"""The record in one SQLite file, through the standard library alone."""

from __future__ import annotations

import sqlite3
import threading
from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from benchbot.errors import RecordBusyError, RecordError
from benchbot.records.newest import NEWEST
from benchbot.records.statements import MIGRATION

BUSY_SECONDS = 10.0
_PREFIX = "sqlite:///"
# SQLite has one writer and makes the others sleep; threads of one process had better wait for each other.
_WRITERS: defaultdict[Path, threading.Lock] = defaultdict(threading.Lock)


def sqlite_path(url: str) -> Path | None:
    """The file that a database URL names, or None when it is no SQLite URL."""
    if not url.startswith("sqlite:"):
        return None
    if not url.startswith(_PREFIX) or len(url) == len(_PREFIX):
        raise RecordError(f"{url}: the record needs a file; write sqlite:///PATH")
    return Path(url.removeprefix(_PREFIX))


class SqliteStore:
    """One connection; a writing transaction takes the write lock when it begins, so it cannot fail half-way."""

    def __init__(self, path: Path) -> None:
        self._path = path
        if applied(path) != NEWEST:
            # Alembic takes longer to load than an answer takes: only a new or older record pays for it.
            from benchbot.records.migrate import migrate_sqlite

            migrate_sqlite(path)
        self._connection = connect(path)
        self._writer = _WRITERS[path.resolve()]

    def row(self, statement: str, values: Mapping[str, Any]) -> tuple[Any, ...] | None:
        row: tuple[Any, ...] | None = self._execute(statement, values).fetchone()
        return row

    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]:
        return self._execute(statement, values).fetchall()

    def run(self, statement: str, values: Mapping[str, Any]) -> None:
        self._execute(statement, values)

    def begin(self) -> None:
        if not self._writer.acquire(timeout=BUSY_SECONDS):
            raise RecordBusyError(f"{self._path}: another part of this process kept it busy for too long, try again")
        try:
            self._execute("BEGIN IMMEDIATE", {})
        except BaseException:
            self._writer.release()
            raise

    def commit(self) -> None:
        try:
            self._execute("COMMIT", {})
        except BaseException:
            self.rollback()
            raise
        self._writer.release()

    def rollback(self) -> None:
        try:
            if self._connection.in_transaction:
                self._execute("ROLLBACK", {})
        finally:
            self._writer.release()

    def close(self) -> None:
        self._connection.close()

    def _execute(self, statement: str, values: Mapping[str, Any]) -> sqlite3.Cursor:
        try:
            return self._connection.execute(statement, values)
        except sqlite3.Error as error:
            raise _failed(self._path, error) from error


def connect(path: Path) -> sqlite3.Connection:
    """A connection with the settings that every part of benchbot uses on the record."""
    try:
        connection = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)
    except sqlite3.Error as error:
        raise RecordError(f"{path}: the record cannot be opened ({error}); check the path and permissions") from error
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = NORMAL")
    except sqlite3.Error as error:
        connection.close()
        raise RecordError(f"{path}: this is no shop record ({error}); restore it from a backup") from error
    return connection


def applied(path: Path) -> str | None:
    """The migration that the file is at; None when there is no record in it yet."""
    if not path.exists() or (path.is_file() and path.stat().st_size == 0):
        return None
    connection = connect(path)
    try:
        row = connection.execute(MIGRATION).fetchone()
    except sqlite3.Error as error:
        if "no such table" in str(error):
            return None
        raise _failed(path, error) from error
    finally:
        connection.close()
    return None if row is None else str(row[0])


def _failed(path: Path, error: sqlite3.Error) -> RecordError:
    if "locked" in str(error):
        return RecordBusyError(f"{path}: {error}; another process kept it busy for too long, try again")
    return RecordError(f"{path}: {error}; check the disk, or restore the record from a backup")
