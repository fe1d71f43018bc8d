"""Puts a finished book file in the place of the one before, whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

_NEXT = ".next-"


def next_file(book: Path, version: int) -> Path:
    """Where the next book is made: in the folder of the book, because only there can it be renamed whole."""
    return book.with_name(f"{book.name}{_NEXT}{version}")


def leftovers(book: Path) -> list[Path]:
    """What a publishing that was killed left behind."""
    return sorted(book.parent.glob(f"{book.name}{_NEXT}*"))


def put_in_place(made: Path, book: Path) -> None:
    """Renames the made file over the book once all of it is on the disk."""
    _to_disk(made)
    made.replace(book)
    if os.name != "nt":
        _to_disk(book.parent)


def _to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
