"""A restore killed at any moment leaves the old home, or the new one, or what the next start makes the new one."""

from __future__ import annotations

import importlib
import multiprocessing
import os
import shutil
import signal
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from benchbot.book.reader import Book
from benchbot.curation.backup import back_up
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.curation.restoring import look_through, restore
from benchbot.errors import RecordError, SettingError
from benchbot.places import Home
from benchbot.records.record import Entry, open_record
from benchbot.records.swapping import decided, settle

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
FLEET = Path(__file__).parent.parent / "commands" / "fleet.csv"
ENTRY = Entry("c1", "p1", None, "front bracket bolts?", NOW, "other", "{}", "{}")
NEW, OLD = 4, 9

Point = tuple[str, str, int, str]


def stops_at(point: Point) -> None:
    """From now on this process kills itself before or after that call of the function at `point`."""
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


def process(work: Callable[..., Any], *given: Any, point: Point | None = None) -> Any:
    """A process of its own that does the work and is killed at the point, if one is given."""

    def run() -> None:
        if point:
            stops_at(point)
        work(*given)

    child = multiprocessing.get_context("fork").Process(target=run)
    child.start()
    return child


def killed(work: Callable[..., Any], *given: Any, point: Point) -> None:
    child = process(work, *given, point=point)
    child.join()
    assert child.exitcode == -signal.SIGKILL


@pytest.fixture(scope="module")
def _made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two homes with different entries and books of different versions, and a backup of the new one."""
    folder = tmp_path_factory.mktemp("made")
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("BENCHBOT_DATABASE_URL", raising=False)
        home = Home(folder / "new")
        home.folder.mkdir()
        import_table(home, FLEET, False, "curator", NOW)
        publish(home, NOW)
        shutil.copytree(home.folder, folder / "old")
        put(home, NEW)
        back_up(home, folder / "shop.backup", False, NOW)
        old = Home(folder / "old")
        changed = folder / "changed.csv"
        changed.write_text(FLEET.read_text("utf-8").replace(",verified", ",draft", 1), encoding="utf-8")
        import_table(old, changed, False, "curator", NOW)
        publish(old, NOW)
        put(old, OLD)
    return folder


@pytest.fixture
def old(_made: Path, home: Home) -> Home:
    reset(_made, home)
    return home


@pytest.fixture
def backup(_made: Path) -> Path:
    return _made / "shop.backup"


def reset(made: Path, home: Home) -> None:
    shutil.rmtree(home.folder)
    shutil.copytree(made / "old", home.folder)


def put(home: Home, entries: int) -> None:
    with open_record(home) as record:
        for _ in range(entries):
            record.put(ENTRY)


def entries_in(path: Path) -> int:
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        return int(connection.execute("SELECT count(*) FROM answer").fetchone()[0])


def state(home: Home) -> str:
    """What stands in the home: "old" or "new", or "old without book" or "new without book" in the midst of the swap."""
    record = {OLD: "old", NEW: "new"}[entries_in(home.record)]
    if not home.book.exists():
        return f"{record} without book"
    with Book.open(home.book) as book:
        assert book.version == {"old": 2, "new": 1}[record], "a book beside a record that it does not belong to"
    return record


def check_whole(home: Home, which: str) -> None:
    """All of one home, nothing left over, ready to work on."""
    assert state(home) == which
    names = {file.name for file in home.folder.iterdir() if not file.name.startswith("curation.lock")}
    assert not [name for name in names if "restoring" in name or name.startswith("restore.json")]
    assert not [name for name in names if name.endswith(("-wal", "-shm", "-journal"))]
    kept = sorted(name for name in names if "before-restore" in name)
    if which == "new":
        assert [name.partition(".")[0] for name in kept] == ["book", "record"]
        assert entries_in(home.folder / kept[1]) == OLD
        with Book.open(home.folder / kept[0]) as book:
            assert book.version == 2
    else:
        assert kept == []
    with closing(sqlite3.connect(home.record)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def go_on(home: Home, backup: Path, made: Path) -> None:
    """What the next start does; then the restore is told once more, and comes to its end."""
    begun = decided(home)
    assert state(home) in ("old", "old without book", "new without book", "new")
    assert settle(home) is begun
    if begun:
        check_whole(home, "new")
        return
    # Nothing was decided: the old home is in use as before, and what lies about is swept up by the next backup.
    put(home, 0)
    back_up(home, made / "after.backup", True, NOW)
    check_whole(home, "old")
    restore(home, backup, True, NOW)
    check_whole(home, "new")


UNPACKING, RESTORING = "benchbot.curation.unpacking", "benchbot.curation.restoring"
SWAPPING, DECISION = "benchbot.records.swapping", "benchbot.records.decision"
BEFORE_IT_IS_DECIDED: list[Point] = [
    (UNPACKING, "Backup.unpack", 1, "before"),
    (UNPACKING, "Backup.unpack", 1, "after"),
    (UNPACKING, "Backup.unpack", 2, "after"),
    (RESTORING, "_prepare", 1, "before"),
    (RESTORING, "_prepare", 1, "after"),
    (RESTORING, "swap", 1, "before"),
    (SWAPPING, "to_disk", 1, "before"),
    (SWAPPING, "to_disk", 2, "after"),
    (SWAPPING, "put_note", 1, "before"),
    (DECISION, "to_disk", 1, "before"),
    (DECISION, "to_disk", 1, "after"),
]
ONCE_IT_IS_DECIDED: list[Point] = [
    (DECISION, "to_disk", 2, "before"),
    (SWAPPING, "put_note", 1, "after"),
    (SWAPPING, "_free", 1, "after"),
    (SWAPPING, "_keep_old", 1, "before"),
    (SWAPPING, "_keep_old", 1, "after"),
    (SWAPPING, "_put", 1, "before"),
    (SWAPPING, "_put", 1, "after"),
    (SWAPPING, "_put", 2, "before"),
    (SWAPPING, "_put", 2, "after"),
    (SWAPPING, "to_disk", 3, "after"),
]


def at(point: Point) -> str:
    return f"{point[3]} {point[1]} {point[2]}"


@pytest.mark.parametrize("point", BEFORE_IT_IS_DECIDED, ids=at)
def test_killed_before_it_is_decided(point: Point, old: Home, backup: Path, _made: Path) -> None:
    killed(restore, old, backup, True, NOW, point=point)
    assert state(old) == "old"
    assert not decided(old)
    go_on(old, backup, _made)


@pytest.mark.parametrize("point", ONCE_IT_IS_DECIDED, ids=at)
def test_killed_once_it_is_decided(point: Point, old: Home, backup: Path, _made: Path) -> None:
    killed(restore, old, backup, True, NOW, point=point)
    assert decided(old)
    go_on(old, backup, _made)


def test_killed_when_all_is_done(old: Home, backup: Path) -> None:
    killed(restore, old, backup, True, NOW, point=(SWAPPING, "to_disk", 4, "before"))
    assert not decided(old)
    check_whole(old, "new")


@pytest.mark.parametrize("first", ["put_note", "_keep_old", "_put"])
@pytest.mark.parametrize("second", ["_put", "to_disk"])
def test_killed_again_while_it_goes_on(first: str, second: str, old: Home, backup: Path) -> None:
    killed(restore, old, backup, True, NOW, point=(SWAPPING, first, 1, "after"))
    killed(settle, old, point=(SWAPPING, second, 1, "before"))
    assert settle(old)
    check_whole(old, "new")
    assert not settle(old)


def test_killed_at_any_moment(old: Home, backup: Path, _made: Path) -> None:
    stopped = 0
    lasts = 0.6
    for part in range(1, 26):
        child = process(restore, old, backup, True, NOW)
        begun = time.monotonic()
        child.join(timeout=lasts * part / 25)
        if child.exitcode is None:
            child.kill()
            child.join()
            stopped += 1
            begun_to_swap = decided(old)
            assert settle(old) is begun_to_swap
        else:
            # It came to its end: the next one is killed earlier.
            lasts = (time.monotonic() - begun) * 0.9
        assert state(old) in ("old", "new")
        assert not decided(old)
        if state(old) == "new":
            reset(_made, old)
    assert stopped > 5
    restore(old, backup, True, NOW)
    assert state(old) == "new"


def test_an_empty_home_and_a_kill(old: Home, backup: Path, tmp_path: Path) -> None:
    for number, point in enumerate(((SWAPPING, "put_note", 1, "after"), (SWAPPING, "_put", 1, "after"))):
        fresh = Home(tmp_path / f"fresh {number}")
        fresh.folder.mkdir()
        killed(restore, fresh, backup, False, NOW, point=point)
        with pytest.raises(SettingError, match="a restore that was cut off has now been finished"):
            restore(fresh, backup, False, NOW)
        assert state(fresh) == "new"
        assert {file.name for file in fresh.folder.iterdir()} == {"record.sqlite", "book.sqlite", "curation.lock"}


def test_work_done_after_the_kill_is_never_lost(old: Home, backup: Path, _made: Path) -> None:
    """Somebody goes on with the old record although a restore was cut off: it is not replaced behind their back."""
    killed(restore, old, backup, True, NOW, point=(SWAPPING, "_keep_old", 1, "before"))
    assert state(old) == "old without book"
    put(old, 1)
    for work in (lambda: settle(old), lambda: back_up(old, _made / "after.backup", True, NOW)):
        with pytest.raises(RecordError, match="has been written to since"):
            work()
    assert entries_in(old.record) == OLD + 1
    (old.folder / "restore.json").unlink()
    publish(old, NOW)
    assert back_up(old, _made / "after.backup", True, NOW).record.rows["answer"] == OLD + 1


def test_a_note_that_cannot_be_read(old: Home) -> None:
    for body in ("", "[]", "{}", '{"stamp": 1}', "\x00"):
        (old.folder / "restore.json").write_text(body, encoding="utf-8")
        with pytest.raises(RecordError, match=r"restore\.json: cannot be read"):
            settle(old)
    assert entries_in(old.record) == OLD


# Backups


@pytest.mark.parametrize(
    "point",
    [
        ("benchbot.curation.backup", "copy_record", 1, "after"),
        ("benchbot.records.copying", "unsound", 1, "before"),
        ("benchbot.curation.backup", "_pack_file", 1, "after"),
        ("benchbot.curation.backup", "_read_back", 1, "before"),
        ("benchbot.curation.backup", "_read_back", 1, "after"),
    ],
    ids=at,
)
def test_a_backup_that_is_killed_leaves_the_one_before(point: Point, old: Home, tmp_path: Path) -> None:
    file = tmp_path / "shop.backup"
    killed(back_up, old, file, False, NOW, point=point)
    assert not file.exists()
    back_up(old, file, False, NOW)
    before = file.read_bytes()
    put(old, 1)
    killed(back_up, old, file, True, NOW, point=point)
    assert file.read_bytes() == before
    back_up(old, file, True, NOW)
    assert look_through(file).record.rows["answer"] == OLD + 1
    assert [path.name for path in tmp_path.glob("shop.backup*")] == ["shop.backup"]
    assert not list(old.folder.glob("record.copying*"))
