"""The record's shape: made from nothing, made once, the same by migration and by schema, valid for both databases."""

from __future__ import annotations

import multiprocessing
import os
import re
import sqlite3
import stat
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import text
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.schema import CreateIndex, CreateTable

from benchbot.errors import RecordError
from benchbot.records import (
    arrivals,
    cards,
    curator,
    errands,
    evidence,
    expected,
    fillings,
    hours,
    jobs,
    kept_questions,
    lifts,
    notes,
    outbox,
    own_words,
    recalls,
    reviews,
    revisions,
    settings,
    statements,
    step_overrides,
    tallies,
    waiting,
    withdrawals,
    word_states,
)
from benchbot.records.engine import sqlite_engine
from benchbot.records.migrate import known_migrations, migrate_sqlite, upgrade
from benchbot.records.newest import NEWEST
from benchbot.records.record import open_record
from benchbot.records.schema import metadata
from benchbot.records.server import applied_on_server
from benchbot.records.sqlite import applied

TABLES = {
    "answer", "answer_spec", "arrival", "book_version", "card", "change", "chat_state", "expected", "gap", "invite",
    "lift", "location", "membership", "membership_change", "note", "person", "seen_message", "sending", "shop_word",
    "spec_revision", "vehicle_alias", "vocabulary", "meaning", "gap_part", "meaning_change", "filling", "review",
    "passed_warning", "sole_check", "shop_setting", "location_hours", "evidence", "kept_question", "followed", "recall",
    "recall_notice", "errand", "note_end", "job", "job_event", "job_procedure",
    "step_override", "word_state",
}  # fmt: skip

_MODULES = (
    errands, hours, jobs, kept_questions, recalls, waiting, step_overrides,
    statements, lifts, arrivals, outbox, cards, expected, notes,
    reviews, revisions, settings, fillings, evidence, own_words, tallies, word_states, withdrawals,
)  # fmt: skip
STATEMENTS = [statement for module in _MODULES for statement in module.ALL]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "record.sqlite"


def schema(path: Path) -> list[tuple[str, str]]:
    connection = sqlite3.connect(path)
    try:
        found = connection.execute("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name").fetchall()
        return [(name, re.sub(r"\s+", " ", sql)) for name, sql in found]
    finally:
        connection.close()


def shape(path: Path) -> dict[str, list[str]]:
    return {name: sorted(re.split(r"[ ,]+", sql)) for name, sql in schema(path) if "alembic" not in name}


def test_the_newest_migration_is_the_one_we_name() -> None:
    assert known_migrations()[0] == NEWEST


def test_made_from_nothing(path: Path) -> None:
    assert applied(path) is None
    migrate_sqlite(path)
    assert applied(path) == NEWEST
    names = {name for name, sql in schema(path) if sql.startswith("CREATE TABLE")}
    assert names == TABLES | {"alembic_version"}


def test_made_from_an_empty_file(path: Path) -> None:
    path.touch()
    migrate_sqlite(path)
    assert applied(path) == NEWEST


def test_once_more_changes_nothing(path: Path) -> None:
    migrate_sqlite(path)
    before = schema(path)
    migrate_sqlite(path)
    with open_record(f"sqlite:///{path}"):
        pass
    assert schema(path) == before


def test_the_migrations_make_what_the_schema_says(path: Path, tmp_path: Path) -> None:
    migrate_sqlite(path)
    engine = sqlite_engine(path)
    with engine.begin() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []
    other = tmp_path / "made.sqlite"
    made = sqlite_engine(other)
    with made.begin() as connection:
        metadata.create_all(connection)
    # The order of the constraints inside a table is nobody's business.
    assert shape(path) == shape(other)


def test_a_new_record_is_private_and_so_is_what_lies_beside_it(path: Path) -> None:
    before = os.umask(0)
    try:
        with open_record(f"sqlite:///{path}") as record:
            with record.writing() as store:
                store.run("DELETE FROM note", {})
            modes = {file.name: stat.S_IMODE(file.stat().st_mode) for file in path.parent.glob("record.sqlite*")}
    finally:
        os.umask(before)
    assert modes == dict.fromkeys(("record.sqlite", "record.sqlite-wal", "record.sqlite-shm"), 0o600)


def test_the_mode_that_a_record_was_given_stays(path: Path) -> None:
    path.touch()
    path.chmod(0o640)
    migrate_sqlite(path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_record_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite"
    path.symlink_to(tmp_path / "a disk that is not there" / "record.sqlite")
    with pytest.raises(RecordError, match=r"the record cannot be made .* check the path"):
        open_record(f"sqlite:///{path}")


def test_the_members_of_a_location_are_found_by_an_index(path: Path) -> None:
    migrate_sqlite(path)
    connection = sqlite3.connect(path)
    plan = connection.execute("EXPLAIN QUERY PLAN SELECT person FROM membership WHERE location = 1").fetchall()
    connection.close()
    assert "ix_membership_location" in plan[0][3]


# A URL that SQLAlchemy takes and that is not ours for a file: the road of a database server, without one.
def on_server(path: Path) -> str:
    return f"sqlite+pysqlite:///{path}"


def test_looking_at_a_server_changes_nothing(path: Path) -> None:
    assert applied_on_server(on_server(path)) is None
    assert path.read_bytes() == b""
    engine = sqlite_engine(path)
    with engine.begin() as connection:
        upgrade(connection, "0001")
    engine.dispose()
    before = path.read_bytes()
    assert applied_on_server(on_server(path)) == "0001"
    assert path.read_bytes() == before
    with open_record(on_server(path)) as record:
        assert record.seen("c", "m") is None
    assert applied_on_server(on_server(path)) == NEWEST


def test_a_server_that_is_at_the_newest_is_not_migrated(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    migrate_sqlite(path)
    monkeypatch.setattr("benchbot.records.migrate.migrate_server", None)
    with open_record(on_server(path)) as record:
        assert record.seen("c", "m") is None


def test_a_newer_record_on_a_server_is_refused(path: Path) -> None:
    migrate_sqlite(path)
    connection = sqlite3.connect(path)
    connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.commit()
    connection.close()
    with pytest.raises(RecordError, match="migration 9999, this benchbot knows"):
        open_record(on_server(path))


def _open(path: Path) -> None:
    with open_record(f"sqlite:///{path}") as record:
        assert record.seen("c", "m") is None


def test_two_that_start_at_once(path: Path) -> None:
    context = multiprocessing.get_context("fork")
    for _ in range(3):
        starts = [context.Process(target=_open, args=(path,)) for _ in range(4)]
        for start in starts:
            start.start()
        for start in starts:
            start.join()
        assert [start.exitcode for start in starts] == [0] * 4
        assert applied(path) == NEWEST
        for file in path.parent.iterdir():
            file.unlink()


def test_a_record_of_a_newer_benchbot_is_refused(path: Path) -> None:
    migrate_sqlite(path)
    connection = sqlite3.connect(path)
    connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.commit()
    connection.close()
    with pytest.raises(RecordError, match="migration 9999, this benchbot knows"):
        open_record(f"sqlite:///{path}")


def test_every_table_is_valid_for_postgresql() -> None:
    assert {table.name for table in metadata.sorted_tables} == TABLES
    for table in metadata.sorted_tables:
        made = str(CreateTable(table).compile(dialect=postgresql.dialect()))  # type: ignore[no-untyped-call]
        assert "STRICT" not in made
        assert "BIGINT" in made or "BIGSERIAL" in made or "INTEGER" not in made
        assert "STRICT" in str(CreateTable(table).compile(dialect=sqlite.dialect()))  # type: ignore[no-untyped-call]
        for index in table.indexes:
            assert str(CreateIndex(index).compile(dialect=postgresql.dialect())).startswith("CREATE INDEX")  # type: ignore[no-untyped-call]


@pytest.mark.parametrize("statement", STATEMENTS)
def test_every_statement_is_plain_sql(statement: str) -> None:
    compiled = text(statement).compile(dialect=postgresql.dialect())  # type: ignore[no-untyped-call]
    named = set(re.findall(r":(\w+)", statement))
    assert set(compiled.params) == named
    only_sqlite = r"\b(PRAGMA|ROWID|IFNULL|INSERT OR|REPLACE INTO|AUTOINCREMENT|GLOB|last_insert_rowid|julianday)\b"
    assert not re.search(only_sqlite, statement, re.IGNORECASE)


def test_the_curators_statements_compile_for_postgresql() -> None:
    statement = curator.newest(curator.checked_columns(), 12)
    compiled = str(statement.compile(dialect=postgresql.dialect(), compile_kwargs={"literal_binds": True}))  # type: ignore[no-untyped-call]
    assert "NOT (EXISTS" in compiled
    assert "entry <= 12" in compiled


def test_every_statement_runs_on_the_schema(path: Path) -> None:
    migrate_sqlite(path)
    connection = sqlite3.connect(path)
    for statement in STATEMENTS:
        values = dict.fromkeys(re.findall(r":(\w+)", statement))
        connection.execute(f"EXPLAIN {statement}", values)
    connection.close()
