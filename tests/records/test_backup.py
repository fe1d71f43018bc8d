"""A copy of a record: everything of one moment, whoever writes meanwhile; and what tells our files from others."""

from __future__ import annotations

import dataclasses
import multiprocessing
import os
import re
import shutil
import sqlite3
import stat
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from benchbot.errors import RecordError
from benchbot.records import copying
from benchbot.records.copying import Holdings, copy_record, holdings
from benchbot.records.migrate import known_migrations
from benchbot.records.newest import NEWEST
from benchbot.records.record import Entry, GapEntry, Record, open_record
from benchbot.records.shape import difference, record_shape, shape

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
ENTRY = Entry(
    chat="c1",
    person="p1",
    message=None,
    text="front bracket bolts?",
    at=NOW,
    outcome="answer",
    reading="{}",
    reply="{}",
    specs=(("A1", 2), ("A2", 1)),
    state="{}",
    expires_at=NOW + timedelta(hours=4),
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "record.sqlite"


@pytest.fixture
def record(path: Path) -> Iterator[Record]:
    """An open record, as a running bot has it: its newest rows are in the WAL only."""
    with open_record(f"sqlite:///{path}") as opened:
        opened.row("PRAGMA wal_autocheckpoint = 0", {})
        for number in range(20):
            opened.put(dataclasses.replace(ENTRY, message=f"m{number}", gap=GapEntry("year not covered", "")))
        yield opened


def contents(path: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table."""
    connection = sqlite3.connect(path)
    try:
        names = connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'").fetchall()
        return {name: sorted(connection.execute(f'SELECT * FROM "{name}"').fetchall(), key=repr) for (name,) in names}
    finally:
        connection.close()


def test_a_copy_holds_the_same(record: Record, path: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    held = copy_record(path, copy)
    assert held.migration == NEWEST
    assert {name: count for name, count in held.rows.items() if count} == {
        "answer": 20, "answer_spec": 40, "chat_state": 1, "gap": 20, "seen_message": 20,
    }  # fmt: skip
    assert held.all_rows == 101
    assert contents(copy) == contents(path)
    with closing(sqlite3.connect(copy)) as connection:
        assert difference(shape(connection), record_shape(NEWEST)) == ""


def test_a_copy_stands_alone_and_is_private(record: Record, path: Path, tmp_path: Path) -> None:
    folder = tmp_path / "there"
    folder.mkdir()
    before = os.umask(0)
    try:
        copy_record(path, folder / "copy.sqlite")
    finally:
        os.umask(before)
    assert [file.name for file in folder.iterdir()] == ["copy.sqlite"]
    assert stat.S_IMODE((folder / "copy.sqlite").stat().st_mode) == 0o600
    with pytest.raises(FileExistsError):
        copy_record(path, folder / "copy.sqlite")


def test_what_is_in_the_wal_only_is_copied_too(record: Record, path: Path, tmp_path: Path) -> None:
    # The trap: the file alone is a sound database without the rows.
    shutil.copyfile(path, tmp_path / "file.sqlite")
    plain = sqlite3.connect(tmp_path / "file.sqlite")
    assert plain.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    tables = {name for (name,) in plain.execute("SELECT name FROM sqlite_schema WHERE name = 'answer'")}
    assert not tables or plain.execute("SELECT count(*) FROM answer").fetchone() == (0,)
    plain.close()
    assert copy_record(path, tmp_path / "copy.sqlite").rows["answer"] == 20


def test_counts_and_copy_are_of_one_moment(
    record: Record, path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def counted(connection: sqlite3.Connection) -> Holdings:
        found = holdings(connection)
        # Somebody writes after every count, so before the copy is made too.
        record.put(ENTRY)
        return found

    monkeypatch.setattr(copying, "holdings", counted)
    held = copy_record(path, tmp_path / "copy.sqlite")
    assert held.rows["answer"] == len(contents(tmp_path / "copy.sqlite")["answer"]) == 20
    assert len(contents(path)["answer"]) == 22


def _write_on(path: Path, begun: Any, enough: Any) -> None:
    with open_record(f"sqlite:///{path}") as mine:
        number = 0
        while not enough.is_set():
            mine.put(dataclasses.replace(ENTRY, message=f"w{number}", gap=GapEntry("year not covered", "")))
            number += 1
            if number == 5:
                begun.set()


def test_copies_while_another_process_writes(record: Record, path: Path, tmp_path: Path) -> None:
    context = multiprocessing.get_context("fork")
    begun, enough = context.Event(), context.Event()
    writer = context.Process(target=_write_on, args=(path, begun, enough))
    writer.start()
    try:
        assert begun.wait(30)
        counts = []
        for number in range(12):
            copy = tmp_path / f"copy{number}.sqlite"
            rows = copy_record(path, copy).rows
            # Every entry brings one answer, two specs, one gap and one message seen, all or nothing.
            assert rows["answer_spec"] == 2 * rows["answer"]
            assert rows["gap"] == rows["seen_message"] == rows["answer"]
            assert {name: len(held) for name, held in contents(copy).items() if name != "alembic_version"} == rows
            counts.append(rows["answer"])
    finally:
        enough.set()
        writer.join()
    assert writer.exitcode == 0
    assert counts == sorted(counts)
    assert counts[-1] > counts[0] >= 25


class _Forgetful(sqlite3.Connection):
    """Copies, and loses a row on the way."""

    def backup(self, target: sqlite3.Connection, **_: Any) -> None:
        super().backup(target)
        target.execute("DELETE FROM gap WHERE gap = 7")


class _Lazy(sqlite3.Connection):
    """Copies nothing, and says nothing."""

    def backup(self, target: sqlite3.Connection, **_: Any) -> None:
        return


@pytest.mark.parametrize(("kind", "said"), [(_Forgetful, "does not hold the same rows"), (_Lazy, "no shop record")])
def test_a_copy_that_lacks_rows_is_refused(
    kind: type[sqlite3.Connection],
    said: str,
    record: Record,
    path: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(copying, "connect", lambda file: sqlite3.connect(file, isolation_level=None, factory=kind))
    with pytest.raises(RecordError, match=said):
        copy_record(path, tmp_path / "copy.sqlite")
    assert not (tmp_path / "copy.sqlite").exists()


def test_what_was_wiped_does_not_travel(record: Record, path: Path, tmp_path: Path) -> None:
    secret = "K7QPM-2XWDH-9RTVA"
    # Some builds of SQLite overwrite what is deleted, most do not.
    record.row("PRAGMA secure_delete = OFF", {})
    with record.writing() as store:
        store.run(
            "INSERT INTO sending (bot, chat, body, state, tries, not_before, message, why, at, ended_at) "
            "VALUES ('1', 'c', :body, 'waiting', 0, '', '', '', '', '')",
            {"body": secret * 400},
        )
    record.row("PRAGMA wal_checkpoint", {})
    with record.writing() as store:
        store.run("UPDATE sending SET body = ''", {})
    record.row("PRAGMA wal_checkpoint", {})
    assert secret.encode() in path.read_bytes()
    copy_record(path, tmp_path / "copy.sqlite")
    assert secret.encode() not in (tmp_path / "copy.sqlite").read_bytes()


def test_a_damaged_record_is_not_copied(record: Record, path: Path, tmp_path: Path) -> None:
    record.row("PRAGMA wal_checkpoint(TRUNCATE)", {})
    record.close()
    body = bytearray(path.read_bytes())
    with closing(sqlite3.connect(path)) as connection:
        found = connection.execute("SELECT rootpage FROM sqlite_schema WHERE name = 'answer_spec'").fetchone()
    root = found[0]
    at = (root - 1) * 4096
    body[at + 200 : at + 4096] = b"\x5a" * (4096 - 200)
    path.write_bytes(body)
    with pytest.raises(RecordError, match=r"damaged|cannot be copied"):
        copy_record(path, tmp_path / "copy.sqlite")
    assert not (tmp_path / "copy.sqlite").exists()


def test_no_record_and_no_record_of_ours(tmp_path: Path) -> None:
    path, copy = tmp_path / "record.sqlite", tmp_path / "copy.sqlite"
    with pytest.raises(RecordError, match="no record yet"):
        copy_record(path, copy)
    path.touch()
    with pytest.raises(RecordError, match="no record yet"):
        copy_record(path, copy)
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE tyre (size TEXT)")
    other.commit()
    other.close()
    with pytest.raises(RecordError, match=f"{re.escape(str(path))}: this is no shop record"):
        copy_record(path, copy)
    path.write_bytes(b"no database at all" * 100)
    with pytest.raises(RecordError, match=r"record\.sqlite"):
        copy_record(path, copy)
    assert not copy.exists()


def test_every_migration_has_a_shape_of_its_own() -> None:
    shapes = [record_shape(name) for name in known_migrations()]
    assert all(difference(one, other) for one in shapes for other in shapes if one is not other)


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("CREATE TRIGGER t AFTER INSERT ON gap BEGIN DELETE FROM answer; END", "has a trigger"),
        ("CREATE VIEW v AS SELECT * FROM answer", "has a view"),
        ("CREATE TABLE more (x TEXT) STRICT", "a table of its own"),
        ("CREATE TABLE more (x TEXT CHECK (x <> ''))", "rule of its own"),
        ("CREATE TABLE more (x TEXT /* */ )", "rule of its own"),
        ("CREATE TABLE more (x TEXT DEFAULT 'y')", "rule of its own"),
        ("CREATE TABLE more (x TEXT, y TEXT AS (x) STORED)", "a table of its own"),
        ("DROP TABLE note", "note is missing"),
        ("DROP INDEX ix_gap_state_at", "gap is built otherwise"),
        ("CREATE INDEX extra ON gap (chat)", "gap is built otherwise"),
        ("CREATE UNIQUE INDEX extra ON gap (chat) WHERE waits > 1", "gap is built otherwise"),
        ("ALTER TABLE gap RENAME COLUMN waits TO wait", "gap is built otherwise"),
        ("ALTER TABLE gap ADD COLUMN extra TEXT", "gap is built otherwise"),
        ("ALTER TABLE gap DROP COLUMN detail", "gap is built otherwise"),
    ],
)
def test_a_file_that_is_built_otherwise_is_told_from_ours(statement: str, said: str, path: Path) -> None:
    with open_record(f"sqlite:///{path}"):
        pass
    connection = sqlite3.connect(path)
    assert difference(shape(connection), record_shape(NEWEST)) == ""
    connection.execute(statement)
    try:
        found = difference(shape(connection), record_shape(NEWEST))
    except ValueError as error:
        found = str(error)
    connection.close()
    assert said in found


def test_the_statistics_of_sqlite_are_no_difference(path: Path) -> None:
    with open_record(f"sqlite:///{path}"):
        pass
    connection = sqlite3.connect(path)
    connection.execute("ANALYZE")
    assert difference(shape(connection), record_shape(NEWEST)) == ""
    connection.close()
