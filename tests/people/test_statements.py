"""The statements run on SQLite and compile for PostgreSQL; looking somebody up loads nothing heavy and is quick."""

from __future__ import annotations

import re
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.dialects import postgresql

from benchbot.people import statements
from benchbot.records.record import Record

ONLY_SQLITE = r"\b(PRAGMA|ROWID|IFNULL|INSERT OR|REPLACE INTO|AUTOINCREMENT|GLOB|last_insert_rowid|julianday)\b"
NAMES = {value: name for name, value in vars(statements).items() if isinstance(value, str) and name.isupper()}


def test_all_names_every_statement() -> None:
    assert set(statements.ALL) == set(NAMES)
    assert len(statements.ALL) == len(set(statements.ALL))


@pytest.mark.parametrize("statement", statements.ALL, ids=NAMES.__getitem__)
def test_a_statement_is_plain_sql(statement: str, record: Record, path: Path) -> None:
    named = set(re.findall(r":(\w+)", statement))
    compiled = text(statement).compile(dialect=postgresql.dialect())  # type: ignore[no-untyped-call]
    assert set(compiled.params) == named
    assert not re.search(ONLY_SQLITE, statement, re.IGNORECASE)
    connection = sqlite3.connect(path)
    assert connection.execute(f"EXPLAIN {statement}", dict.fromkeys(named)).fetchall()
    connection.close()


@pytest.mark.parametrize("statement", [statements.MEMBERSHIPS, statements.ROLE, statements.INVITE_PLACE])
def test_what_every_message_asks_walks_an_index(statement: str, record: Record, path: Path) -> None:
    connection = sqlite3.connect(path)
    named = dict.fromkeys(re.findall(r":(\w+)", statement))
    plan = [row[3] for row in connection.execute(f"EXPLAIN QUERY PLAN {statement}", named)]
    connection.close()
    assert plan
    assert all(step.startswith("SEARCH") for step in plan), plan


def test_the_room_stays_light() -> None:
    code = """
import sys
import benchbot.people.register, benchbot.people.invites, benchbot.people.rights, benchbot.people.wall_picture
import benchbot.pictures.lettering, benchbot.people.known_bot
print(sorted({"sqlalchemy", "alembic", "pydantic", "pint", "PIL", "segno", "telegram"} & set(sys.modules)))
"""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
