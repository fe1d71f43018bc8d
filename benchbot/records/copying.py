"""Copies a record while others write to it, and tells what a record file holds."""

from __future__ import annotations

import os
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from benchbot.errors import RecordError
from benchbot.records.sqlite import connect

_TABLES = r"""
SELECT name FROM sqlite_schema
WHERE type = 'table' AND name NOT LIKE 'sqlite\_%' ESCAPE '\' AND name <> 'alembic_version' ORDER BY name
"""


class _NoRecordError(RecordError):
    """A database, but none of ours; whoever opened it knows its name."""


@dataclass(frozen=True, slots=True)
class Holdings:
    """What a record holds: the migration that it is at, and the number of rows of every table."""

    migration: str
    rows: dict[str, int]

    @property
    def all_rows(self) -> int:
        return sum(self.rows.values())


def copy_record(path: Path, copy: Path) -> Holdings:
    """Writes the record, as it is at one moment, into the new file `copy`, which stands alone (no WAL beside it).

    The counts are read in the very snapshot that is copied, and read again from the copy. RecordError: there is no
    record, it is damaged, or the copy does not hold the same; then no copy is left.
    """
    if not path.is_file() or path.stat().st_size == 0:
        raise RecordError(f"{path}: there is no record yet; bring a table in with: benchbot specs import")
    os.close(os.open(copy, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    try:
        return _copy(path, copy)
    except BaseException:
        copy.unlink()
        raise


def _copy(path: Path, copy: Path) -> Holdings:
    source, target = connect(path), sqlite3.connect(copy, isolation_level=None)
    try:
        # A file copied as a file may lack what is still in the WAL, and passes integrity_check all the same. Here the
        # first count opens a snapshot, and the backup reads in it whatever others write meanwhile.
        source.execute("BEGIN")
        there = holdings(source)
        target.execute("PRAGMA synchronous = OFF")
        source.backup(target)
        source.execute("ROLLBACK")
        target.execute("PRAGMA journal_mode = DELETE")
        # What was wiped from the record must not travel in the pages that it left free.
        target.execute("VACUUM")
        wrong = unsound(target)
        if wrong:
            raise RecordError(f"{path}: the record is damaged ({wrong}); stop the bot and restore the last good backup")
        here = holdings(target)
        if here != there:
            raise RecordError(f"{path}: its copy {copy} does not hold the same rows; check the disk and try again")
        return there
    except _NoRecordError as error:
        raise RecordError(f"{path}: {error}") from error
    except sqlite3.Error as error:
        raise RecordError(f"{path}: it cannot be copied ({error}); check the disk and the free space on it") from error
    finally:
        target.close()
        source.close()


def holdings(connection: sqlite3.Connection) -> Holdings:
    """What the record behind a connection holds. RecordError: it is no shop record."""
    try:
        at = connection.execute("SELECT version_num FROM alembic_version").fetchall()
    except sqlite3.OperationalError as error:
        if "no such table" not in str(error):
            raise
        at = []
    if len(at) != 1 or not isinstance(at[0][0], str):
        raise _NoRecordError("this is no shop record: it does not say which migration it is at")
    rows = {}
    for (name,) in connection.execute(_TABLES).fetchall():
        quoted = name.replace('"', '""')
        rows[name] = int(connection.execute(f'SELECT count(*) FROM "{quoted}"').fetchone()[0])
    return Holdings(at[0][0], rows)


def unsound(connection: sqlite3.Connection) -> str:
    """What is wrong with the file behind a connection by SQLite's own checks; empty when nothing is."""
    found = str(connection.execute("PRAGMA integrity_check(1)").fetchone()[0])
    if found != "ok":
        return found
    torn = connection.execute("PRAGMA foreign_key_check").fetchone()
    return "" if torn is None else f"a row of {torn[0]} points to a row of {torn[2]} that is not there"
