"""A process killed at any moment of an import or a publishing leaves the old state or the new one, never a mixture."""

from __future__ import annotations

import csv
import importlib
import multiprocessing
import os
import signal
import sqlite3
import time
from collections.abc import Callable
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from benchbot.book.place import leftovers
from benchbot.book.reader import Book
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.places import Home

OLD_ROWS, NEW_ROWS = 300, 5_400

Point = tuple[str, str, int, str]


def bring(home: Home, table: Path, now: datetime, point: Point | None) -> None:
    """Imports and publishes; kills its own process before or after that call of the function at `point`."""
    if point:
        room, name, number, when = point
        place: Any = importlib.import_module(room)
        *owner, last = name.split(".")
        for part in owner:
            place = getattr(place, part)
        whole, calls = getattr(place, last), count(1)

        def counted(*given: Any, **named: Any) -> Any:
            mine = next(calls) == number
            if mine and when == "before":
                os.kill(os.getpid(), signal.SIGKILL)
            came = whole(*given, **named)
            if mine:
                os.kill(os.getpid(), signal.SIGKILL)
            return came

        setattr(place, last, counted)
    import_table(home, table, False, "curator", now)
    publish(home, now)


def process(home: Home, table: Path, now: datetime, point: Point | None = None) -> Any:
    """A process of its own that does so: forked, because it then has the vocabulary loaded already."""
    child = multiprocessing.get_context("fork").Process(target=bring, args=(home, table, now, point))
    child.start()
    return child


POINTS: list[Point] = [
    ("benchbot.curation.stage", "Stage.put_batch", 1, "after"),
    ("benchbot.records.curator", "put_change", 1, "before"),
    ("benchbot.records.curator", "put_change", 1, "after"),
    ("benchbot.records.curator", "put_rows", 2, "before"),
    ("benchbot.records.curator", "put_rows", 2, "after"),
    ("benchbot.curation.importing", "writing", 1, "before"),
    ("benchbot.curation.publishing", "_make", 1, "before"),
    ("benchbot.book.builder", "_shown", 40, "after"),
    ("benchbot.book.builder", "_verify", 1, "before"),
    ("benchbot.book.builder", "_verify", 1, "after"),
    ("benchbot.records.curator", "put_book_version", 1, "before"),
    ("benchbot.records.curator", "put_book_version", 1, "after"),
    ("benchbot.curation.publishing", "put_in_place", 1, "before"),
    ("benchbot.book.place", "_to_disk", 1, "after"),
    ("benchbot.book.place", "_to_disk", 2, "before"),
    ("benchbot.curation.publishing", "put_in_place", 1, "after"),
]


@pytest.fixture
def in_use(home: Home, fleet: Callable[[Path, int], Path], tmp_path: Path, now: datetime) -> Home:
    import_table(home, fleet(tmp_path / "old.csv", OLD_ROWS), False, "curator", now)
    publish(home, now)
    return home


@pytest.fixture
def grown(fleet: Callable[[Path, int], Path], tmp_path: Path) -> Path:
    """The table as it is to become: every old row has another value and a check of it, and many are new."""
    path = fleet(tmp_path / "grown.csv", NEW_ROWS)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(" N·m,", ".5 N·m,").replace("2026-02-03", "2026-04-01"), encoding="utf-8")
    return path


def verified(path: Path) -> int:
    with path.open(encoding="utf-8", newline="") as file:
        return sum(row["status"] == "verified" for row in csv.DictReader(file))


def check_state(home: Home, old: int, new: int) -> int:
    """Checks what a killed process left; the version of the book in place."""
    connection = sqlite3.connect(home.record)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    revisions = connection.execute("SELECT count(*) FROM spec_revision").fetchone()[0]
    changed = connection.execute("SELECT count(*) FROM spec_revision WHERE revision = 2").fetchone()[0]
    versions = [row[0] for row in connection.execute("SELECT version FROM book_version ORDER BY version")]
    connection.close()
    assert (revisions == OLD_ROWS and changed == 0) or (revisions > NEW_ROWS and changed > OLD_ROWS / 2)
    with Book.open(home.book) as book:
        assert book.version in versions
        assert (book.version, book.rows) in ((1, old), (2, new))
    connection = sqlite3.connect(home.book)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert connection.execute("SELECT count(*) FROM spec").fetchone()[0] == (old if versions == [1] else book.rows)
    half = connection.execute("SELECT count(*) FROM figure WHERE value LIKE '%.5 N·m'").fetchone()[0]
    whole = connection.execute("SELECT count(*) FROM figure WHERE value LIKE '%0 N·m'").fetchone()[0]
    connection.close()
    assert (half == 0) == (book.version == 1)
    assert (whole == 0) == (book.version == 2)
    return book.version


def finish(home: Home, grown: Path, old: int, new: int, now: datetime) -> None:
    """The next start does all that is left to do, and sweeps up."""
    import_table(home, grown, False, "curator", now)
    report = publish(home, now)
    assert (report.version, report.rows) == (2, new)
    assert check_state(home, old, new) == 2
    assert leftovers(home.book) == []


@pytest.mark.parametrize("point", POINTS, ids=lambda p: f"{p[3]} {p[1]} {p[2]}")
def test_killed_at_a_point(point: Point, in_use: Home, grown: Path, tmp_path: Path, now: datetime) -> None:
    old, new = verified(tmp_path / "old.csv"), verified(grown)
    child = process(in_use, grown, now, point)
    child.join()
    assert child.exitcode == -signal.SIGKILL
    check_state(in_use, old, new)
    finish(in_use, grown, old, new, now)


def test_killed_at_any_moment(in_use: Home, grown: Path, tmp_path: Path, now: datetime) -> None:
    old, new = verified(tmp_path / "old.csv"), verified(grown)
    killed = 0
    lasts = 0.6
    for part in range(1, 21):
        child = process(in_use, grown, now)
        begun = time.monotonic()
        child.join(timeout=lasts * part / 20)
        if child.exitcode is None:
            child.kill()
            child.join()
            killed += 1
        else:
            # It came to its end: the next one is killed earlier.
            lasts = (time.monotonic() - begun) * 0.9
        check_state(in_use, old, new)
    assert killed > 5
    finish(in_use, grown, old, new, now)
