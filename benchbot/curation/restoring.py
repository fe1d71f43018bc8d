"""Brings a backup back: looks it through first, then puts its record and its book in place, both or neither."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote

from benchbot.curation.book_check import check_book
from benchbot.curation.manifest import BOOK, RECORD, Manifest
from benchbot.curation.obstacles import record_file, refuse_foreign_account, refuse_running_bot
from benchbot.curation.turns import my_turn
from benchbot.curation.unpacking import Backup
from benchbot.errors import BookError, RecordError, SettingError
from benchbot.places import Home
from benchbot.records.copying import Holdings, holdings, unsound
from benchbot.records.newest import NEWEST
from benchbot.records.shape import difference, record_shape, shape
from benchbot.records.sqlite import connect
from benchbot.records.swapping import aside, decided, refuse_in_use, settle_in_turn, staged, swap, sweep

TURN_SECONDS = 10.0
# Beside the unpacked files: the migration of an older record, and a disk that is not filled to the last block.
_ROOM = 64 << 20


@dataclass(frozen=True, slots=True)
class Restored:
    """What is in place now. kept: the files put aside; waiting: messages that the bot still has to send."""

    manifest: Manifest
    record: Holdings
    kept: tuple[Path, ...]
    waiting: int


def look_through(file: Path) -> Manifest:
    """Checks a backup from end to end and changes nothing. RecordError, SettingError: it would not be restored."""
    with Backup.open(file) as backup, tempfile.TemporaryDirectory(prefix="benchbot-check-") as folder:
        _unpack(backup, Path(folder) / RECORD, Path(folder) / BOOK)
        return backup.manifest


def restore(home: Home, file: Path, replace: bool, now: datetime) -> Restored:
    """Puts the backup's record and book in the place of the home's, or changes nothing.

    RecordError: the backup is refused, a bot is running, or the record is in use or on a server. SettingError: the
    home has a record or a book already (and `replace` is false), or there is no room.
    """
    record = record_file(home, restoring=True)
    refuse_foreign_account(home)
    record.parent.mkdir(parents=True, exist_ok=True)
    with my_turn(home, TURN_SECONDS):
        settled = settle_in_turn(home)
        refuse_running_bot(home)
        refuse_in_use(record)
        if not replace:
            _refuse_to_replace(home, record, settled)
        with _staging(home, record), Backup.open(file) as backup:
            _unpack(backup, staged(record), staged(home.book))
            _prepare(staged(record), record)
            _keep_mode(staged(home.book), home.book)
            stamp = _stamp(record, home.book, now)
            held, waiting = _held(staged(record))
            # The unpacking may have taken minutes.
            refuse_running_bot(home)
            swap(home, record, stamp, with_book=backup.manifest.book is not None)
            kept = tuple(path for path in (aside(record, stamp), aside(home.book, stamp)) if path.exists())
            return Restored(backup.manifest, held, kept, waiting)


def _refuse_to_replace(home: Home, record: Path, settled: bool) -> None:
    for path in (record, home.book):
        if path.exists():
            before = "a restore that was cut off has now been finished. To restore once more, " if settled else ""
            raise SettingError(
                f"{path}: {before}this home is in use; --replace puts the backup in its place and keeps it aside"
            )


@contextmanager
def _staging(home: Home, record: Path) -> Iterator[None]:
    try:
        yield
    except BaseException:
        # Once the swap is decided, settling it is what is left to do; nothing of it may be removed.
        if not decided(home):
            sweep(home, record)
        raise


def _unpack(backup: Backup, record: Path, book: Path) -> None:
    """Unpacks both parts, each checked before the next is begun."""
    free = shutil.disk_usage(record.parent).free
    if backup.size + _ROOM > free:
        raise SettingError(
            f"{record.parent}: the backup needs {backup.size:,} bytes and {free:,} are free; make room and try again"
        )
    backup.unpack(RECORD, record)
    wrong = _wrong_record(record, backup.manifest.record)
    if wrong:
        raise RecordError(f"{backup.path}: its record is refused: {wrong}. Nothing was changed")
    if backup.manifest.book is None:
        return
    backup.unpack(BOOK, book)
    try:
        held = check_book(book)
    except BookError as error:
        raise RecordError(f"{backup.path}: its book is refused. Nothing was changed ({error})") from error
    if held != backup.manifest.book:
        raise RecordError(f"{backup.path}: its book is not the one that its manifest tells of. Nothing was changed")


def _wrong_record(path: Path, told: Holdings) -> str:
    """What is wrong with an unpacked record; empty when nothing is."""
    from benchbot.records.migrate import known_migrations

    connection = sqlite3.connect(f"file:{quote(str(path))}?mode=ro&immutable=1", uri=True, isolation_level=None)
    try:
        # Nothing that a file brings along may run while it is looked at.
        connection.execute("PRAGMA trusted_schema = OFF")
        connection.execute("PRAGMA cell_size_check = ON")
        found = shape(connection)
        held = holdings(connection)
        if held.migration not in known_migrations():
            return f"it is at migration {held.migration[:40]}, this benchbot knows {NEWEST}; install the newer benchbot"
        wrong = difference(found, record_shape(held.migration)) or unsound(connection)
    except RecordError as error:
        return str(error)
    except (sqlite3.Error, ValueError) as error:
        return str(error)
    finally:
        connection.close()
    if not wrong and held != told:
        wrong = "it does not hold the numbers of rows that the manifest says"
    return wrong


def _prepare(new: Path, old: Path) -> None:
    """Brings the unpacked record to the newest migration and to the journal that a bot needs, all of it on the disk."""
    from benchbot.records.migrate import migrate_sqlite

    migrate_sqlite(new)
    new.with_suffix(".lock").unlink(missing_ok=True)
    connection = connect(new)
    try:
        # The last one to close writes the WAL back into the file and removes it.
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    except sqlite3.Error as error:
        raise RecordError(f"{new}: it cannot be made ready ({error}); check the disk and try again") from error
    finally:
        connection.close()
    _keep_mode(new, old)


def _keep_mode(new: Path, old: Path) -> None:
    if new.exists() and old.exists():
        new.chmod(old.stat().st_mode & 0o777)


def _held(path: Path) -> tuple[Holdings, int]:
    connection = connect(path)
    try:
        waiting = connection.execute("SELECT count(*) FROM sending WHERE state IN ('waiting', 'sending')").fetchone()
        return holdings(connection), int(waiting[0])
    finally:
        connection.close()


def _stamp(record: Path, book: Path, now: datetime) -> str:
    """The time as it stands in the names of the files put aside; a number follows when those names are taken."""
    base = now.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    stamp, number = base, 1
    while aside(record, stamp).exists() or aside(book, stamp).exists():
        number += 1
        stamp = f"{base}-{number}"
    return stamp
