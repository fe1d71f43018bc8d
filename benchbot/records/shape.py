"""What a database file is built of, so that a file from elsewhere can be told from one that we made."""

from __future__ import annotations

import re
import sqlite3
from functools import cache
from typing import Any

Shape = dict[str, Any]

_OBJECTS = r"""
SELECT type, name, coalesce(sql, '') FROM sqlite_schema
WHERE name NOT IN ('sqlite_sequence', 'sqlite_stat1', 'sqlite_stat4') ORDER BY type, name
"""
# Our own statements have none of these, nor any comment or literal that could hide one.
_OWN_RULES = re.compile(r"\b(?:check|generated|collate|default|virtual)\b|--|/\*|'", re.IGNORECASE)


def shape(connection: sqlite3.Connection) -> Shape:
    """The tables, each with columns, keys and indexes, whatever spelling or order made them.

    ValueError names what no file of ours has: triggers, views, virtual tables, rules inside a table.
    """
    tables: Shape = {}
    for kind, name, sql in connection.execute(_OBJECTS).fetchall():
        if kind not in ("table", "index"):
            raise ValueError(f"it has a {kind} ({str(name)[:60]!r})")
        rule = _OWN_RULES.search(re.sub(r'"[^"]*"', "", sql))
        if rule:
            raise ValueError(f"its {kind} {str(name)[:60]!r} has a rule of its own ({rule[0]})")
        if kind == "table":
            tables[name] = _table(connection, name)
    return tables


def difference(found: Shape, wanted: Shape) -> str:
    """The first way in which a shape is not the wanted one; empty when it is."""
    for name in sorted(wanted.keys() - found.keys()):
        return f"the table {name} is missing"
    for name in sorted(found.keys() - wanted.keys()):
        return f"it has a table of its own ({name[:60]!r})"
    for name, table in wanted.items():
        if found[name] != table:
            return f"the table {name} is built otherwise"
    return ""


@cache
def record_shape(migration: str) -> Shape:
    """The shape of a record at a migration that this benchbot knows."""
    from sqlalchemy import create_engine
    from sqlalchemy.pool import StaticPool

    from benchbot.records.migrate import upgrade

    engine = create_engine("sqlite://", poolclass=StaticPool)
    try:
        with engine.begin() as opened:
            upgrade(opened, migration)
            connection: Any = opened.connection.driver_connection
            return shape(connection)
    finally:
        engine.dispose()


def _table(connection: sqlite3.Connection, name: str) -> tuple[Any, ...]:
    def asked(statement: str, of: str = name) -> list[tuple[Any, ...]]:
        return connection.execute(statement, (of,)).fetchall()

    columns = asked('SELECT name, type, "notnull", dflt_value, pk, hidden FROM pragma_table_xinfo(?) ORDER BY name')
    keys = asked('SELECT "table", "from", "to", on_update, on_delete FROM pragma_foreign_key_list(?) ORDER BY 1, 2, 3')
    strict = asked("SELECT type, strict, wr FROM pragma_table_list(?) WHERE schema = 'main'")
    indexes = [
        (
            unique,
            partial,
            tuple(asked("SELECT name, desc, coll FROM pragma_index_xinfo(?) WHERE key ORDER BY seqno", i)),
        )
        for i, unique, partial in asked('SELECT name, "unique", partial FROM pragma_index_list(?)')
    ]
    return columns, keys, strict, sorted(indexes, key=repr)
