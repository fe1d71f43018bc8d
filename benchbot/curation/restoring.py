"""Brings a backup back: looks it through first, then puts its record and its book in place, both or neither.

Pages are put beside those of the home before: a file that is named by its bytes takes no other one's place.
"""

from __future__ import annotations

import hashlib
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
from benchbot.curation.home_files import content_of, spoken_of
from benchbot.curation.manifest import BOOK, RECORD, Manifest, Part
from benchbot.curation.obstacles import record_file, refuse_foreign_account, refuse_running_bot
from benchbot.curation.turns import my_turn
from benchbot.curation.unpacking import Backup
from benchbot.errors import BookError, RecordError, SettingError
from benchbot.places import Home
from benchbot.records import arrivals, cards, outbox
from benchbot.records.copying import Holdings, holdings, unsound
from benchbot.records.newest import NEWEST
from benchbot.records.record import open_record
from benchbot.records.shape import difference, record_shape, shape
from benchbot.records.sqlite import connect
from benchbot.records.swapping import aside, decided, refuse_in_use, settle_in_turn, staged, swap, sweep

TURN_SECONDS = 10.0
# Beside the unpacked files: the migration of an older record, and a disk that is not filled to the last block.
_ROOM = 64 << 20
_SET_ASIDE = "set aside by a restore: it may have been sent after the backup was made"


@dataclass(frozen=True, slots=True)
class Restored:
    """What is in place now. kept: the files put aside.

    to_send, to_answer: messages that waited for it when the backup was made; gone_on: the bot goes on with them, else
    they are set aside.
    """

    manifest: Manifest
    record: Holdings
    kept: tuple[Path, ...]
    to_send: int
    to_answer: int
    gone_on: bool


def look_through(file: Path) -> Manifest:
    """Checks a backup from end to end and changes nothing. RecordError, SettingError: it would not be restored."""
    with Backup.open(file) as backup, tempfile.TemporaryDirectory(prefix="benchbot-check-") as folder:
        _unpack(backup, Path(folder) / RECORD, Path(folder) / BOOK)
        for part in (*backup.manifest.pages, *backup.manifest.pictures):
            backup.look_at(part)
        return backup.manifest


def restore(home: Home, file: Path, replace: bool, now: datetime, go_on: bool = False) -> Restored:
    """Puts the backup's record and book in the place of the home's, or changes nothing.

    go_on: no bot ran after the backup was made, so what waited in it is still to be sent and to be answered. Otherwise
    it may have been, and is set aside.

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
            for part in backup.manifest.pictures:
                backup.look_at(part)
            for part in backup.manifest.pages:
                _put_file(backup, part, home)
            held, to_send, to_answer = _prepare(staged(record), record, now, go_on)
            _keep_mode(staged(home.book), home.book)
            stamp = _stamp(record, home.book, now)
            # The unpacking may have taken minutes.
            refuse_running_bot(home)
            swap(home, record, stamp, with_book=backup.manifest.book is not None)
            for part in backup.manifest.pictures:
                # These are named by what they show: until the record is in place, those of before are of the old one.
                _put_file(backup, part, home)
            kept = tuple(path for path in (aside(record, stamp), aside(home.book, stamp)) if path.exists())
            return Restored(backup.manifest, held, kept, to_send, to_answer, go_on)


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
    backup.unpack(backup.manifest.part(RECORD), record)
    wrong = _wrong_record(record, backup.manifest.record) or _wrong_files(record, backup.manifest)
    if wrong:
        raise RecordError(f"{backup.path}: its record is refused: {wrong}. Nothing was changed")
    if backup.manifest.book is None:
        return
    backup.unpack(backup.manifest.part(BOOK), book)
    try:
        held = check_book(book)
    except BookError as error:
        raise RecordError(f"{backup.path}: its book is refused. Nothing was changed ({error})") from error
    if held != backup.manifest.book:
        raise RecordError(f"{backup.path}: its book is not the one that its manifest tells of. Nothing was changed")


def _put_file(backup: Backup, part: Part, home: Home) -> None:
    """Into its folder of the home, whole or not at all; what is there already stays."""
    file = home.folder / part.file
    there = content_of(home, part.file)
    if there is not None and hashlib.sha256(there).hexdigest() == part.sha256:
        return
    file.parent.mkdir(mode=0o700, exist_ok=True)
    new = file.with_name(f"{file.name}.restoring")
    new.unlink(missing_ok=True)
    try:
        backup.unpack(part, new)
        new.replace(file)
    except BaseException:
        new.unlink(missing_ok=True)
        raise


def _wrong_files(record: Path, manifest: Manifest) -> str:
    """What is wrong with the pages and pictures beside an unpacked record; empty when nothing is."""
    try:
        wanted = spoken_of(record)
    except (sqlite3.Error, ValueError, KeyError, TypeError) as error:
        return str(error)
    files = [part.file for part in (*manifest.pages, *manifest.pictures)]
    missing, further = {*wanted} - {*files, *manifest.lost}, {*files, *manifest.lost} - {*wanted}
    if missing:
        return f"it speaks of {min(missing)}, which is not in the backup"
    return f"it does not speak of {min(further)}, which is in the backup" if further else ""


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


def _prepare(new: Path, old: Path, now: datetime, go_on: bool) -> tuple[Holdings, int, int]:
    """Brings the unpacked record to the newest migration and to the journal that a bot needs, all of it on the disk.

    What it holds, how many messages wait to be sent, and how many to be answered; unless it goes on with them, they are
    set aside.
    """
    from benchbot.records.migrate import migrate_sqlite

    migrate_sqlite(new)
    held = _held(new)
    with open_record(f"sqlite:///{new}") as record, record.writing() as store:
        if go_on:
            counts = outbox.waiting(record), arrivals.waiting(record)
        else:
            cards.leap(store, now)
            counts = outbox.set_aside(store, _SET_ASIDE, now), arrivals.set_aside(store, now)
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
    return held, *counts


def _keep_mode(new: Path, old: Path) -> None:
    if new.exists() and old.exists():
        new.chmod(old.stat().st_mode & 0o777)


def _held(path: Path) -> Holdings:
    connection = connect(path)
    try:
        return holdings(connection)
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
