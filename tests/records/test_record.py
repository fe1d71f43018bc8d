"""The record as answering uses it: all of an entry or nothing, once for each message, beside other writers."""

from __future__ import annotations

import dataclasses
import multiprocessing
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records.entry import moment
from benchbot.records.record import Entry, GapEntry, Record, open_record

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
ENTRY = Entry(
    chat="c1",
    person="p1",
    message="m1",
    text="front bracket bolts?",
    at=NOW,
    outcome="answer",
    reading='{"component": "caliper bracket bolt"}',
    reply='{"text": "105 N·m"}',
    specs=(("A1", 2), ("A2", 1)),
    book_version=3,
    state='{"vehicle": 7}',
    expires_at=NOW + timedelta(hours=4),
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "record.sqlite"


@pytest.fixture
def record(path: Path) -> Iterator[Record]:
    with open_record(f"sqlite:///{path}") as opened:
        yield opened


def rows(path: Path, statement: str) -> list[tuple[object, ...]]:
    connection = sqlite3.connect(path)
    try:
        return connection.execute(statement).fetchall()
    finally:
        connection.close()


def test_an_answer_is_on_record(record: Record, path: Path) -> None:
    assert record.put(ENTRY).gap is None
    found = rows(path, "SELECT chat, person, asked, outcome, reading, reply, at, book_version FROM answer")
    assert found == [
        ("c1", "p1", ENTRY.text, "answer", ENTRY.reading, ENTRY.reply, "2026-05-04T07:30:00.000000+00:00", 3)
    ]
    assert rows(path, "SELECT spec, revision FROM answer_spec ORDER BY spec") == [("A1", 2), ("A2", 1)]
    assert rows(path, "SELECT count(*) FROM gap") == [(0,)]


def test_a_gap_gets_a_number(record: Record, path: Path) -> None:
    gap = GapEntry("year not covered", "2019 is outside 2012-2016")
    first = record.put(dataclasses.replace(ENTRY, gap=gap, outcome="gap", specs=())).gap
    second = record.put(dataclasses.replace(ENTRY, gap=gap, outcome="gap", specs=(), message=None)).gap
    assert (first, second) == (1, 2)
    found = rows(path, "SELECT gap, question, reason, detail, chat, person, state, waits FROM gap WHERE gap = 1")
    assert found == [(1, ENTRY.text, gap.reason, gap.detail, "c1", "p1", "open", 1)]


def test_a_message_that_comes_twice_is_put_once(record: Record, path: Path) -> None:
    entry = dataclasses.replace(ENTRY, gap=GapEntry("component not held", ""))
    assert record.seen("c1", "m1") is None
    assert record.put(entry).gap == 1
    assert record.put(dataclasses.replace(entry, reply="{}", state="{}")).gap == 1
    assert record.seen("c1", "m1") == ENTRY.reply
    assert record.seen("c2", "m1") is None
    assert record.chat_state("c1", NOW) == ENTRY.state
    assert rows(path, "SELECT count(*) FROM answer") == [(1,)]
    assert record.put(dataclasses.replace(entry, chat="c2", gap=None)).gap is None
    assert record.put(dataclasses.replace(entry, chat="c2")).gap is None


def test_a_state_ends_with_its_time(record: Record) -> None:
    record.put(ENTRY)
    assert record.chat_state("c1", NOW + timedelta(hours=3, minutes=59)) == ENTRY.state
    assert record.chat_state("c1", NOW + timedelta(hours=4)) is None
    assert record.chat_state("c2", NOW) is None


def test_a_state_is_replaced_or_left(record: Record) -> None:
    record.put(ENTRY)
    record.put(dataclasses.replace(ENTRY, message="m2", state=None))
    assert record.chat_state("c1", NOW) == ENTRY.state
    record.put(dataclasses.replace(ENTRY, message="m3", state='{"vehicle": 8}'))
    assert record.chat_state("c1", NOW) == '{"vehicle": 8}'


def test_times_of_other_zones_compare(record: Record) -> None:
    east = timezone(timedelta(hours=9))
    record.put(dataclasses.replace(ENTRY, expires_at=datetime(2026, 5, 4, 17, 0, tzinfo=east)))
    assert record.chat_state("c1", datetime(2026, 5, 4, 7, 59, tzinfo=UTC)) == ENTRY.state
    assert record.chat_state("c1", datetime(2026, 5, 4, 8, 0, tzinfo=UTC)) is None
    assert len(moment(NOW)) == len(moment(NOW + timedelta(microseconds=1)))
    with pytest.raises(ValueError, match="no time zone"):
        moment(NOW.replace(tzinfo=None))


def test_a_failed_put_leaves_nothing(record: Record, path: Path) -> None:
    with pytest.raises(RecordError, match="UNIQUE"):
        record.put(dataclasses.replace(ENTRY, specs=(("A1", 1), ("A1", 1))))
    for table in ("answer", "answer_spec", "seen_message", "chat_state"):
        assert rows(path, f"SELECT count(*) FROM {table}") == [(0,)]
    assert record.put(ENTRY).gap is None


def _puts(path: Path, person: str, count: int) -> None:
    with open_record(f"sqlite:///{path}") as mine:
        for number in range(count):
            gap = GapEntry("year not covered", "") if number % 2 else None
            mine.put(dataclasses.replace(ENTRY, person=person, message=f"{person}{number}", gap=gap))
            mine.put(dataclasses.replace(ENTRY, person=person, message=f"shared{number}", gap=gap))


def test_two_writers_lose_nothing(path: Path) -> None:
    count = 150
    context = multiprocessing.get_context("fork")
    writers = [context.Process(target=_puts, args=(path, person, count)) for person in ("p1", "p2", "p3")]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert [writer.exitcode for writer in writers] == [0, 0, 0]
    assert rows(path, "SELECT count(*), count(DISTINCT message) FROM seen_message") == [(4 * count, 4 * count)]
    assert rows(path, "SELECT count(*) FROM answer") == [(4 * count,)]
    assert rows(path, "SELECT count(*) FROM gap") == [(2 * count,)]
    assert rows(path, "PRAGMA integrity_check") == [("ok",)]


def test_a_busy_record_says_so(record: Record, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("benchbot.records.sqlite.BUSY_SECONDS", 0.05)
    with open_record(f"sqlite:///{path}") as other:
        blocker = sqlite3.connect(path, isolation_level=None)
        blocker.execute("BEGIN IMMEDIATE")
        with pytest.raises(RecordError, match="busy for too long"):
            other.put(ENTRY)
        blocker.close()
        other.put(ENTRY)


def test_the_file_is_set_up(record: Record, path: Path) -> None:
    assert rows(path, "PRAGMA journal_mode") == [("wal",)]
    strict = rows(path, "SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table'")
    loose = {name for name, is_strict in strict if not is_strict}
    assert loose == {"alembic_version", "sqlite_schema"}


def test_foreign_keys_hold(path: Path, record: Record) -> None:
    from benchbot.records.sqlite import connect

    connection = connect(path)
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        connection.execute("INSERT INTO seen_message VALUES ('c', 'm', 99)")
    with pytest.raises(sqlite3.IntegrityError, match="cannot store TEXT value in INTEGER"):
        connection.execute("INSERT INTO answer_spec VALUES ('x', 'A1', 1)")
    connection.close()


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"no database" * 100, "no shop record"), (b"SQLite format 3\0" + bytes(200), "no shop record")],
)
def test_a_file_that_is_no_record_is_refused(path: Path, content: bytes, said: str) -> None:
    path.write_bytes(content)
    with pytest.raises(RecordError, match=said):
        open_record(f"sqlite:///{path}")
    assert path.read_bytes() == content


def test_a_folder_and_a_nameless_file_are_refused(tmp_path: Path) -> None:
    with pytest.raises(RecordError, match="cannot be opened"):
        open_record(f"sqlite:///{tmp_path}")
    with pytest.raises(RecordError, match="needs a file"):
        open_record("sqlite://")


def test_a_server_without_a_driver_is_an_error_with_a_mend() -> None:
    with pytest.raises(RecordError, match="check BENCHBOT_DATABASE_URL"):
        open_record("postgresql+nodriver://shop@nowhere.invalid/record")


def test_opening_and_putting_stays_light(record: Record, path: Path, tmp_path: Path) -> None:
    code = f"""
import sys, dataclasses, datetime
from benchbot.places import Home
from benchbot.records.record import Entry, open_record
now = datetime.datetime(2026, 5, 4, tzinfo=datetime.UTC)
with open_record("sqlite:///{path}") as record:
    record.put(Entry("c", "p", "m", "t", now, "other", "{{}}", "{{}}", state="{{}}", expires_at=now))
    record.chat_state("c", now)
print(sorted({{"sqlalchemy", "alembic", "pydantic", "pint", "sqlite_utils"}} & set(sys.modules)))
"""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"


def test_the_record_of_a_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    with open_record(Home(tmp_path)) as record:
        record.put(ENTRY)
    assert rows(tmp_path / "record.sqlite", "SELECT count(*) FROM answer") == [(1,)]
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", f"sqlite:///{tmp_path / 'other.sqlite'}")
    with open_record(Home(tmp_path)) as record:
        assert record.seen("c1", "m1") is None
