"""The note that a restore was decided: once it lies in the home, the new files come into place whatever happens."""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from benchbot.errors import RecordError
from benchbot.places import Home


@dataclass(frozen=True, slots=True)
class Decided:
    """stamp: what the files put aside are called by; book: whether a new book comes, or the home is to have none.

    was, new: the record's file before and after, as `identity` tells them; was is None when there was none.
    """

    stamp: str
    book: bool
    was: list[int] | None
    new: list[int]


def note_file(home: Home) -> Path:
    return home.folder / "restore.json"


def fresh_note(home: Home) -> Path:
    """The note while it is written; it decides nothing yet."""
    return home.folder / "restore.json.new"


def put_note(home: Home, note: Decided) -> None:
    fresh = fresh_note(home)
    fresh.write_text(json.dumps(asdict(note)), encoding="utf-8")
    to_disk(fresh)
    fresh.replace(note_file(home))
    to_disk(home.folder)


def read_note(home: Home) -> Decided:
    """RecordError when the note cannot be read."""
    file = note_file(home)
    try:
        plain: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
        return Decided(**plain)
    except (ValueError, TypeError) as error:
        raise RecordError(
            f"{file}: cannot be read ({error}); delete it to keep the record and the book that are in place"
        ) from error


def identity(path: Path) -> list[int]:
    """Number, size and time of a file; they stay the same when it is renamed, and change when it is written to."""
    found = path.stat()
    return [found.st_ino, found.st_size, found.st_mtime_ns]


def to_disk(path: Path) -> None:
    """Returns once a file, or the names in a folder, are on the disk."""
    if os.name == "nt" and path.is_dir():
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
