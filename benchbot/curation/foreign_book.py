"""A book that came from elsewhere, found whole: its tables as rows that the checks of an import take."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Protocol

from benchbot.curation.book_label import Label
from benchbot.errors import TableError
from benchbot.specs.lines import refused
from benchbot.specs.table import Faults, Lines, Row

DATABASE = ".db"


class ForeignBook(Protocol):
    """name: what the person called the file; label: what it says of itself, verified."""

    name: str
    label: Label

    def faults(self, table: str) -> Faults:
        """An empty list for the faults of one of TABLES; it knows what that table is called here."""
        ...

    def lines(self, table: str, faults: Faults) -> Lines:
        """The rows of one of TABLES."""
        ...


class NoLines:
    """A table without rows."""

    def rows(self) -> Iterator[tuple[int, Row]]:
        return iter(())


def is_book(path: Path) -> bool:
    """Whether a path names a whole book, and not one CSV table."""
    return path.suffix.casefold() == DATABASE or (path.is_dir() and path.suffix.casefold() != ".csv")


def open_book(path: Path) -> AbstractContextManager[ForeignBook]:
    """Opens a folder or a database file and verifies that it is whole. TableError says where it is not."""
    if path.is_dir():
        from benchbot.curation.book_folder import open_folder

        return open_folder(path)
    from benchbot.curation.book_file import open_file

    return open_file(path)


def not_whole(name: str, where: str, wrong: str) -> TableError:
    """The refusal of a book that lost something on the way."""
    return refused(name, where, wrong, "nothing was written; ask for the book again, and copy it whole")
