"""Writes the record, the book and the pages of a home into one file, while the bot runs."""

from __future__ import annotations

import hashlib
import os
import sqlite3
import zipfile
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from typing import BinaryIO

from benchbot.curation.book_check import check_book
from benchbot.curation.home_files import MOST, content_of, spoken_of
from benchbot.curation.manifest import BOOK, MANIFEST, RECORD, Manifest, Part
from benchbot.curation.obstacles import record_file, refuse_foreign_account
from benchbot.curation.turns import my_turn
from benchbot.curation.unpacking import CHUNK, Backup
from benchbot.errors import RecordError, SettingError
from benchbot.places import Home
from benchbot.records.copying import Holdings, copy_record
from benchbot.records.decision import to_disk
from benchbot.records.swapping import settle_in_turn

# The record is mostly text: more effort takes much longer and saves little.
_EFFORT = 3


def back_up(home: Home, file: Path, replace: bool, now: datetime) -> Manifest:
    """Writes the backup `file`, readable by this account only; it is there whole or not at all.

    SettingError: the file is there already (and `replace` is false) or cannot be written. RecordError, BookError:
    there is nothing to back up, it is damaged, or a database server keeps it.
    """
    record = record_file(home, restoring=False)
    refuse_foreign_account(home)
    _check_place(home, record, file, replace)
    with my_turn(home):
        settle_in_turn(home)
        # In the home, which is private, and under one name, so that what a killed backup leaves is found again.
        copy = home.folder / "record.copying.sqlite"
        _clear(copy)
        try:
            return _write(file, copy, copy_record(record, copy), home, now)
        except OSError as error:
            raise SettingError(f"{file}: the backup cannot be written ({error}); name another place") from error
        finally:
            _clear(copy)


def _check_place(home: Home, record: Path, file: Path, replace: bool) -> None:
    if not file.parent.is_dir():
        raise SettingError(f"{file.parent}: there is no such folder; make it, or name another")
    if file.is_dir():
        raise SettingError(f"{file}: this is a folder; name a file in it, for example {file / 'benchbot.backup'}")
    own = {record, home.book, *(record.with_name(record.name + side) for side in ("-wal", "-shm", "-journal"))}
    if file.resolve() in {path.resolve() for path in own}:
        raise SettingError(f"{file}: this is a file of the home itself; name another")
    if file.exists() and not replace:
        raise SettingError(f"{file}: there is such a file already; name another, or say --replace")


def _write(file: Path, copy: Path, held: Holdings, home: Home, now: datetime) -> Manifest:
    beside = file.with_name(f"{file.name}.tmp")
    beside.unlink(missing_ok=True)
    handle = os.open(beside, os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_BINARY", 0), 0o600)
    try:
        with os.fdopen(handle, "w+b") as out:
            manifest = _pack(out, copy, held, home, now)
            out.flush()
            os.fsync(out.fileno())
        _read_back(beside, manifest)
        beside.replace(file)
        to_disk(file.parent)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    return manifest


def _pack(out: BinaryIO, copy: Path, held: Holdings, home: Home, now: datetime) -> Manifest:
    book = home.book
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=_EFFORT) as archive:
        parts = [_pack_file(archive, RECORD, copy)]
        printed = check_book(book) if book.exists() else None
        if printed:
            parts.append(_pack_file(archive, BOOK, book))
        further, lost = _pack_further(archive, copy, home)
        made_at = now.astimezone(UTC).isoformat(timespec="seconds")
        manifest = Manifest(made_at, version("benchbot"), (*parts, *further), held, printed, lost)
        archive.writestr(MANIFEST, manifest.to_text())
    return manifest


def _pack_further(archive: zipfile.ZipFile, copy: Path, home: Home) -> tuple[list[Part], tuple[str, ...]]:
    """The pages and pictures that the copied record speaks of, and the names of those that are gone.

    A page lies in the home before the record speaks of it, so that whatever comes meanwhile is in neither.
    """
    try:
        names = spoken_of(copy)
    except (sqlite3.Error, ValueError, KeyError, TypeError) as error:
        raise RecordError(f"{copy}: the record cannot be backed up: {error}") from error
    if len(names) > MOST:
        raise RecordError(
            f"{home.folder}: its record speaks of {len(names):,} pages, a backup holds {MOST:,}; copy the folder "
            "with the system's own tools while no bot runs"
        )
    parts, lost = [], []
    for name in names:
        content = content_of(home, name)
        if content is None:
            # One page less is no reason to be without a backup from then on.
            lost.append(name)
            continue
        # Pictures are packed already.
        archive.writestr(name, content, zipfile.ZIP_STORED)
        parts.append(Part(name, len(content), hashlib.sha256(content).hexdigest()))
    return parts, tuple(lost)


def _pack_file(archive: zipfile.ZipFile, name: str, path: Path) -> Part:
    sha, size = hashlib.sha256(), 0
    with path.open("rb") as source, archive.open(name, "w", force_zip64=True) as packed:
        while chunk := source.read(CHUNK):
            sha.update(chunk)
            size += len(chunk)
            packed.write(chunk)
    return Part(name, size, sha.hexdigest())


def _read_back(path: Path, manifest: Manifest) -> None:
    """What was written must be what a restore will accept."""
    try:
        with Backup.open(path) as made:
            made.verify()
            same = made.manifest == manifest
    except RecordError as error:
        raise RecordError(f"what was written cannot be read back; check the disk and try again ({error})") from error
    if not same:
        raise RecordError(f"{path}: its manifest reads back otherwise than it was written; check the disk")


def _clear(copy: Path) -> None:
    for side in ("", "-journal", "-wal", "-shm"):
        copy.with_name(copy.name + side).unlink(missing_ok=True)
