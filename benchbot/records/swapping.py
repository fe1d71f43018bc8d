"""Puts a restored record and book in the place of those of a home: both or neither, whenever the process is killed."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records.decision import Decided, fresh_note, identity, note_file, put_note, read_note, to_disk
from benchbot.records.lock import held
from benchbot.records.sqlite import BUSY_SECONDS, sqlite_path

# How long another process that is just finishing is waited for.
WAIT_SECONDS = 3.0
_SIDES = ("-wal", "-shm", "-journal")
# The turn of imports and publishings (curation takes it by the same name): a swap is one more of them.
_TURN = "curation.lock"


def staged(path: Path) -> Path:
    """Where the new file is made ready: in the folder of the old one, because only there can it be renamed whole."""
    return path.with_name(f"{path.stem}.restoring{path.suffix}")


def aside(path: Path, stamp: str) -> Path:
    """Where the file is kept that was there before."""
    return path.with_name(f"{path.stem}.before-restore-{stamp}{path.suffix}")


def refuse_in_use(record: Path) -> None:
    """RecordError when any other process has the record open, even one that does nothing with it at the moment."""
    if not record.is_file() or record.stat().st_size == 0:
        return
    connection = sqlite3.connect(record, timeout=WAIT_SECONDS, isolation_level=None)
    try:
        # With a WAL every process keeps a shared lock for as long as it has the file open.
        connection.execute("PRAGMA locking_mode = EXCLUSIVE")
        connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
    except sqlite3.Error as error:
        _refuse(record, error)
    finally:
        connection.close()


def swap(home: Home, record: Path, stamp: str, with_book: bool) -> None:
    """Puts the staged files in place and keeps the old ones aside. The caller has the home's turn.

    RecordError: the record is in use (nothing was changed), or a file could not be renamed (the next start goes on).
    """
    with _shut(record):
        was = identity(record) if record.exists() else None
        for new in (staged(record), staged(home.book)):
            if new.exists():
                to_disk(new)
        put_note(home, Decided(stamp, with_book, was, identity(staged(record))))
        _finish(home, record)


def decided(home: Home) -> bool:
    """Whether a swap was decided and is not finished yet."""
    return note_file(home).exists()


def settle(home: Home) -> bool:
    """Goes on with a swap that was cut off after it was decided; whether there was one. For every start on a home."""
    if not decided(home):
        return False
    busy = "another process is restoring, importing or publishing, try again"
    with held(home.folder / _TURN, 3 * BUSY_SECONDS, busy):
        return settle_in_turn(home)


def settle_in_turn(home: Home) -> bool:
    """The same for a caller that has the home's turn; also removes what a restore left that was killed earlier."""
    record = sqlite_path(home.record_url)
    if record is None:
        return False
    if not decided(home):
        sweep(home, record)
        return False
    note = read_note(home)
    now = identity(record) if record.exists() else None
    if now == note.was:
        with _shut(record):
            _finish(home, record)
    elif now is not None and now[0] == note.new[0]:
        _finish(home, record)
    else:
        raise RecordError(
            f"{note_file(home)}: a restore was cut off here and the record has been written to since. To keep the "
            f"record as it is, delete this file; the book of before is {aside(home.book, note.stamp).name}"
        )
    return True


def _finish(home: Home, record: Path) -> None:
    """Every step can be done again. The old book goes first and the new one comes last: what starts in between finds
    no book and answers nothing, rather than from a book that is not the record's."""
    note, book = read_note(home), home.book
    try:
        if book.exists() and (staged(book).exists() or not note.book):
            book.rename(_free(aside(book, note.stamp)))
        if staged(record).exists():
            _keep_old(record, aside(record, note.stamp))
            _put(staged(record), record)
        if staged(book).exists():
            _put(staged(book), book)
        to_disk(record.parent)
        note_file(home).unlink()
        to_disk(home.folder)
    except OSError as error:
        raise RecordError(
            f"{home.folder}: the restore was begun and could not be finished ({error}); mend that and run it again"
        ) from error


def _keep_old(record: Path, kept: Path) -> None:
    for side in _SIDES:
        # None is left beside a sound record that was shut. Beside the new one it would be taken for its own.
        left = record.with_name(record.name + side)
        if left.exists():
            left.rename(_free(kept.with_name(kept.name + side)))
    if record.exists() and not kept.exists():
        try:
            # A second name, so that no process that starts now finds no record and makes an empty one.
            os.link(record, kept)
        except OSError:
            record.rename(kept)


def _put(new: Path, place: Path) -> None:
    new.replace(place)


@contextmanager
def _shut(record: Path) -> Iterator[None]:
    """The old record checkpointed, without WAL, locked against everyone; a damaged one is left as it lies."""
    if not record.is_file() or record.stat().st_size == 0:
        yield
        return
    before = record.stat().st_ino
    connection = sqlite3.connect(record, timeout=WAIT_SECONDS, isolation_level=None)
    try:
        try:
            # Only without a WAL does SQLite itself keep a process that opened the file by now from writing to it once
            # it has been moved; with one, its writes would land in the WAL of the new record.
            connection.execute("PRAGMA journal_mode = DELETE")
            connection.execute("BEGIN EXCLUSIVE")
        except sqlite3.Error as error:
            _refuse(record, error)
        if os.name == "nt":
            # There an open file cannot be replaced.
            connection.close()
        yield
    finally:
        connection.close()
        if record.exists() and record.stat().st_ino == before:
            _with_wal(record)


def _with_wal(record: Path) -> None:
    connection = sqlite3.connect(record, timeout=WAIT_SECONDS, isolation_level=None)
    try:
        connection.execute("PRAGMA journal_mode = WAL")
    except sqlite3.Error as error:
        _refuse(record, error)
    finally:
        connection.close()


def _refuse(record: Path, error: sqlite3.Error) -> None:
    """RecordError, unless the file is too damaged for SQLite to say anything of it: then nobody can work on it."""
    if not isinstance(error, sqlite3.OperationalError):
        return
    if "locked" in str(error):
        raise RecordError(
            f"{record}: another process has the record open; stop the bot and close every chat, then try again"
        ) from error
    raise RecordError(f"{record}: {error}; check the disk and the permissions, then try again") from error


def sweep(home: Home, record: Path) -> None:
    """Removes what a restore made ready that did not come to its decision."""
    files = [fresh_note(home)]
    for new in (staged(record), staged(home.book)):
        files += [new, new.with_suffix(".lock"), *(new.with_name(new.name + side) for side in _SIDES)]
    left = [file for file in files if file.exists()]
    for file in left:
        file.unlink()
    if left and record.is_file() and record.stat().st_size:
        # The restore may have been killed just after it had shut the old record.
        _with_wal(record)


def _free(path: Path) -> Path:
    number, free = 1, path
    while free.exists():
        number += 1
        free = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return free
