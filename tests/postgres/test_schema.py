"""The record on a real server: made from nothing, the same by migration and by schema, every statement understood."""

from __future__ import annotations

import importlib
import pkgutil
import re
from concurrent.futures import ThreadPoolExecutor
from types import ModuleType

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, text
from sqlalchemy.exc import SQLAlchemyError
from throwaway import Server, name_of

from benchbot import people, records
from benchbot.channels.telegram import health
from benchbot.errors import RecordError
from benchbot.records.migrate import upgrade
from benchbot.records.newest import NEWEST
from benchbot.records.record import open_record
from benchbot.records.schema import metadata
from benchbot.records.server import applied_on_server, server_engine

TABLES = """
SELECT table_name, column_name, data_type, is_nullable, (column_default IS NOT NULL)::text, ''
FROM information_schema.columns WHERE table_schema = 'public' AND table_name <> 'alembic_version'
UNION ALL
SELECT conrelid::regclass::text, conname, pg_get_constraintdef(oid), '', '', 'constraint' FROM pg_constraint
WHERE connamespace = 'public'::regnamespace AND conrelid::regclass::text <> 'alembic_version'
UNION ALL
SELECT tablename, indexname, indexdef, '', '', 'index' FROM pg_indexes
WHERE schemaname = 'public' AND tablename <> 'alembic_version'
"""


def modules() -> list[ModuleType]:
    """Every module of the record and of the people that lists its statements."""
    found = [
        importlib.import_module(f"{room.__name__}.{one.name}")
        for room in (records, people)
        for one in pkgutil.iter_modules(room.__path__)
        if one.name != "migrations"
    ]
    return [module for module in found if hasattr(module, "ALL")]


def shape(server: Server, url: str) -> list[tuple[str, ...]]:
    return sorted(server.run(TABLES, name_of(url)))


def test_made_from_nothing_and_once_more_changes_nothing(server: Server) -> None:
    url = server.database()
    assert applied_on_server(url) is None
    assert shape(server, url) == []
    open_record(url).close()
    assert applied_on_server(url) == NEWEST
    before = shape(server, url)
    assert {row[0] for row in before} == {table.name for table in metadata.sorted_tables}
    open_record(url).close()
    assert shape(server, url) == before


def test_the_migrations_make_what_the_schema_says(server: Server, begun: str) -> None:
    migrated, made = server.database(begun), server.database()
    engine = server_engine(migrated)
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True, "compare_server_default": True})
        assert compare_metadata(context, metadata) == []
    engine.dispose()
    other = server_engine(made)
    with other.begin() as connection:
        metadata.create_all(connection)
    other.dispose()
    assert shape(server, migrated) == shape(server, made)


def test_every_earlier_migration_is_brought_up(server: Server, begun: str) -> None:
    url = server.database()
    engine = server_engine(url)
    with engine.begin() as connection:
        upgrade(connection, "0001")
    engine.dispose()
    assert applied_on_server(url) == "0001"
    open_record(url).close()
    assert shape(server, url) == shape(server, server.database(begun))


def test_a_newer_record_is_refused(server: Server, begun: str) -> None:
    url = server.database(begun)
    server.run("UPDATE alembic_version SET version_num = '9999'", name_of(url))
    with pytest.raises(RecordError, match="migration 9999, this benchbot knows"):
        open_record(url)


def test_several_that_start_at_once(server: Server) -> None:
    url = server.database()
    with ThreadPoolExecutor(4) as at_once:
        for opened in at_once.map(open_record, [url] * 4):
            opened.close()
    assert applied_on_server(url) == NEWEST


def test_a_url_without_a_driver_means_the_one_that_is_installed(server: Server, begun: str) -> None:
    url = server.database(begun)
    for scheme in ("postgresql", "postgres"):
        with open_record(url.replace("postgresql+psycopg", scheme)) as record:
            assert record.seen("c", "m") is None


def test_the_statements_are_found() -> None:
    assert len(modules()) > 20
    assert all(isinstance(statement, str) for module in modules() for statement in module.ALL)


def test_the_server_takes_every_statement(server: Server, begun: str) -> None:
    """Prepared without any types, as they come where a value is missing: what the server cannot tell it refuses."""
    told = []
    engine = server_engine(server.database(begun))
    with engine.connect() as connection:
        for module in modules():
            for statement in module.ALL:
                told += refused(connection, module.__name__, statement)
        told += refused(connection, "health", health.WAITING) + refused(connection, "health", health.UNSURE)
    engine.dispose()
    assert told == []


def refused(connection: Connection, room: str, statement: str) -> list[str]:
    names = list(text(statement).compile().params)
    numbered = re.sub(r"(?<![:\w]):(\w+)", lambda found: f"${names.index(found[1]) + 1}", statement.replace("%", "%%"))
    try:
        connection.exec_driver_sql(f"PREPARE tried AS {numbered}")
        connection.exec_driver_sql("DEALLOCATE tried")
    except SQLAlchemyError as error:
        connection.rollback()
        return [f"{room}: {error}"]
    return []
