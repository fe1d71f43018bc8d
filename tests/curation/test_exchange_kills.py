"""A process killed while it takes a foreign book in, or writes one out, leaves all of it or nothing."""

from __future__ import annotations

import importlib
import multiprocessing
import os
import signal
import sqlite3
from collections.abc import Callable
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from benchbot.curation.book_folder import open_folder
from benchbot.curation.decisions import Decisions
from benchbot.curation.differences import KINDS
from benchbot.curation.exchange import compared, take
from benchbot.curation.exporting import export_file, export_folder
from benchbot.curation.importing import import_table
from benchbot.errors import TableError
from benchbot.places import Home

OLD, NEW = 120, 6_000
ALL = Decisions(kinds=dict.fromkeys(KINDS, "take"))
Point = tuple[str, str, int, str]


def killed(point: Point, work: Callable[[], object]) -> None:
    """Does the work in a process that kills itself before or after that call of the function at `point`."""

    def run() -> None:
        room, name, number, when = point
        place: Any = importlib.import_module(room)
        whole, calls = getattr(place, name), count(1)

        def counted(*given: Any, **named: Any) -> Any:
            mine = next(calls) == number
            if mine and when == "before":
                os.kill(os.getpid(), signal.SIGKILL)
            came = whole(*given, **named)
            if mine:
                os.kill(os.getpid(), signal.SIGKILL)
            return came

        setattr(place, name, counted)
        work()

    child = multiprocessing.get_context("fork").Process(target=run)
    child.start()
    child.join()
    assert child.exitcode == -signal.SIGKILL


@pytest.fixture
def two(home: Home, fleet: Callable[[Path, int], Path], tmp_path: Path, now: datetime) -> tuple[Home, Home]:
    """A shop with few rows, and one with the same in other values and many more."""
    import_table(home, fleet(tmp_path / "old.csv", OLD), False, "curator", now)
    other = Home(tmp_path / "other")
    other.folder.mkdir()
    grown = fleet(tmp_path / "grown.csv", NEW)
    grown.write_text(grown.read_text(encoding="utf-8").replace(" N·m,", ".5 N·m,"), encoding="utf-8")
    import_table(other, grown, False, "curator", now)
    words = tmp_path / "words.csv"
    words.write_text("term,said\nwheel nut,roundie\n", encoding="utf-8")
    import_table(other, words, False, "curator", now)
    return home, other


def counts(home: Home) -> tuple[int, int, int]:
    connection = sqlite3.connect(home.record)
    try:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        asked = ("spec_revision", "shop_word", "change")
        specs, words, changes = (connection.execute(f"SELECT count(*) FROM {name}").fetchone()[0] for name in asked)
    finally:
        connection.close()
    return specs, words, changes


@pytest.mark.parametrize(
    "point",
    [
        ("benchbot.curation.exchange", "writing", 1, "before"),
        ("benchbot.records.curator", "put_change", 1, "after"),
        ("benchbot.records.curator", "put_rows", 1, "after"),
        ("benchbot.records.curator", "put_rows", 2, "before"),
        ("benchbot.records.curator", "put_rows", 3, "after"),
        ("benchbot.curation.exchange", "_put", 1, "after"),
        ("benchbot.curation.exchange", "take", 1, "after"),
    ],
    ids=lambda p: f"{p[3]} {p[1]} {p[2]}",
)
def test_killed_while_a_book_is_taken_in(point: Point, two: tuple[Home, Home], tmp_path: Path, now: datetime) -> None:
    home, other = two
    book = tmp_path / "book.db"
    export_file(other, book, "", now)
    before = counts(home)
    assert before == (OLD, 0, 1)

    def bring() -> None:
        from benchbot.curation import exchange

        with compared(home, book) as comparison:
            exchange.take(home, comparison, ALL, "curator", now)

    killed(point, bring)
    after = counts(home)
    whole = point[1] == "take"
    assert (after == before) is not whole
    assert not whole or (after[1:] == (1, 2) and after[0] > NEW)
    with compared(home, book) as comparison:
        take(home, comparison, ALL, "curator", now)
    with compared(home, book) as comparison:
        assert sum(comparison.counts().values()) == 0
    assert counts(home)[1:] == (1, 2)


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5])
def test_killed_while_a_folder_is_written(number: int, two: tuple[Home, Home], tmp_path: Path, now: datetime) -> None:
    home, other = two
    folder = tmp_path / "book"
    first = export_folder(home, folder, "", now)
    killed(("benchbot.curation.book_folder", "to_disk", number, "after"), lambda: export_folder(other, folder, "", now))
    if number < 5:
        # Nothing had come into place yet.
        with open_folder(folder) as book:
            assert book.label == first
    second = export_folder(other, folder, "", now)
    with open_folder(folder) as book:
        assert book.label == second
    assert sorted(path.name for path in folder.iterdir()) == [
        "digests.txt", "specs.csv", "vehicle_names.csv", "words.csv",
    ]  # fmt: skip


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_killed_while_the_files_of_a_folder_come_into_place(
    number: int, two: tuple[Home, Home], tmp_path: Path, now: datetime
) -> None:
    home, other = two
    folder = tmp_path / "book"
    export_folder(home, folder, "", now)

    def write() -> None:
        whole, calls = Path.replace, count(1)

        def replace(path: Path, target: Path) -> Path:
            if next(calls) == number:
                os.kill(os.getpid(), signal.SIGKILL)
            return whole(path, target)

        Path.replace = replace  # type: ignore[method-assign, assignment]
        export_folder(other, folder, "", now)

    child = multiprocessing.get_context("fork").Process(target=write)
    child.start()
    child.join()
    assert child.exitcode == -signal.SIGKILL
    said = r"digests.txt: there is no such file, so this is no book or not a whole one"
    with pytest.raises(TableError, match=said), open_folder(folder):
        raise AssertionError
    export_folder(other, folder, "", now)
    with open_folder(folder) as book:
        assert book.label.tables[0].rows == NEW


def test_killed_while_a_file_is_written(two: tuple[Home, Home], tmp_path: Path, now: datetime) -> None:
    home, other = two
    book = tmp_path / "book.db"
    export_file(home, book, "", now)
    before = book.read_bytes()
    killed(("benchbot.curation.book_file", "to_disk", 1, "before"), lambda: export_file(other, book, "", now))
    assert book.read_bytes() == before
    export_file(other, book, "", now)
    assert [path.name for path in tmp_path.glob(".*")] == []
