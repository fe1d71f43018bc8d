"""The record's shape: made from nothing, made once, the same by migration and by schema, valid for both databases."""

from __future__ import annotations

import multiprocessing
import re
import sqlite3
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import text
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.schema import CreateIndex, CreateTable

from benchbot.errors import RecordError
from benchbot.records import arrivals, cards, curator, expected, lifts, notes, outbox, statements
from benchbot.records.engine import sqlite_engine
from benchbot.records.migrate import known_migrations, migrate_sqlite
from benchbot.records.newest import NEWEST
from benchbot.records.record import open_record
from benchbot.records.schema import metadata
from benchbot.records.sqlite import applied

TABLES = {
    "answer", "answer_spec", "arrival", "book_version", "card", "change", "chat_state", "expected", "gap", "invite",
    "lift", "location", "membership", "membership_change", "note", "person", "seen_message", "sending", "shop_word",
    "spec_revision", "vehicle_alias", "vocabulary",
}  # fmt: skip

STATEMENTS = [
    statement for module in (statements, lifts, arrivals, outbox, cards, expected, notes) for statement in module.ALL
]


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
