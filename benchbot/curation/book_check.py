"""Looks a book file through from end to end, wherever it came from."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from urllib.parse import quote

from benchbot.book.layout import INDEXES, tables
from benchbot.book.reader import Book
from benchbot.curation.manifest import BookHeld
from benchbot.errors import BookError
from benchbot.records.copying import unsound
from benchbot.records.shape import difference, shape


def check_book(path: Path) -> BookHeld:
    """What the book holds. BookError: it is damaged, or built otherwise than a book."""
    with Book.open(path) as book:
        held, layout = BookHeld(book.version, book.digest, book.rows), book.layout
        try:
            book.vocabulary()
        except (ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError) as error:
            raise BookError(f"{path}: its vocabulary cannot be read ({error!r}); publish the book again") from error
    connection = sqlite3.connect(f"file:{quote(str(path))}?mode=ro&immutable=1", uri=True, isolation_level=None)
    try:
        wrong = difference(shape(connection), _book_shape(layout)) or unsound(connection)
        rows = connection.execute("SELECT count(*) FROM spec").fetchone()[0]
    except (sqlite3.Error, ValueError) as error:
        wrong, rows = str(error), held.rows
    finally:
        connection.close()
    if not wrong and rows != held.rows:
        wrong = f"it says that it holds {held.rows:,} specs and holds {rows:,}"
    if wrong:
        raise BookError(f"{path}: the book is damaged ({wrong}); publish it again with: benchbot specs publish")
    return held


def _book_shape(layout: int) -> dict[str, object]:
    connection = sqlite3.connect(":memory:")
    try:
        connection.executescript(tables(layout) + INDEXES)
        return shape(connection)
    finally:
        connection.close()
