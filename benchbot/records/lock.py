"""A lock between processes that a killed process lets go by itself."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from benchbot.errors import RecordBusyError


@contextmanager
def held(path: Path, seconds: float, busy: str) -> Iterator[None]:
    """Holds the lock file `path`; RecordBusyError with the text `busy` when another process keeps it for so long."""
    # SQLite's own file lock works on every platform, waits by itself, and ends with the process.
    connection = sqlite3.connect(path, timeout=seconds, isolation_level=None)
    try:
        try:
            connection.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError as error:
            raise RecordBusyError(f"{path}: {busy} ({error})") from error
        yield
    finally:
        connection.close()
