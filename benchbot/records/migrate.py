"""Brings the record to the newest migration, whoever else starts at the same moment."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, text

from benchbot.errors import RecordError
from benchbot.records.engine import sqlite_engine
from benchbot.records.lock import held
from benchbot.records.newest import NEWEST
from benchbot.records.server import applied_behind
from benchbot.records.sqlite import BUSY_SECONDS, applied, connect

_FOLDER = Path(__file__).parent / "migrations"
# Any fixed number; it keeps two workers on one server from migrating at once.
_SERVER_LOCK = 706_220_113


def migrate_sqlite(path: Path) -> None:
    """RecordError: another process is at it for too long, or a newer benchbot made the record."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise RecordError(f"{path}: its folder cannot be made ({error}); check the path") from error
    with held(path.with_suffix(".lock"), 6 * BUSY_SECONDS, "another process is preparing the record, try again"):
        at = applied(path)
        if at == NEWEST:
            return
        _refuse_newer(str(path), at)
        _make_private(path)
        connection = connect(path)
        try:
            # Only outside a transaction can the journal be changed; the file remembers it.
            connection.execute("PRAGMA journal_mode = WAL")
        except sqlite3.DatabaseError as error:
            raise RecordError(f"{path}: cannot be used as a record ({error}); name another file") from error
        finally:
            connection.close()
        engine = sqlite_engine(path)
        try:
            with engine.begin() as opened:
                upgrade(opened)
        finally:
            engine.dispose()


def _make_private(path: Path) -> None:
    """Makes a new file that its account alone can read, for it will hold names; SQLite makes those beside it alike."""
    if path.exists():
        return
    try:
        os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
    except OSError as error:
        raise RecordError(f"{path}: the record cannot be made ({error}); check the path and permissions") from error


def migrate_server(engine: Engine) -> None:
    """The same on a database server."""
    with engine.begin() as opened:
        if engine.dialect.name == "postgresql":
            opened.execute(text("SELECT pg_advisory_xact_lock(:number)"), {"number": _SERVER_LOCK})
        at = applied_behind(opened)
        _refuse_newer("the database server", at)
        if at != NEWEST:
            upgrade(opened)


def upgrade(opened: Connection, to: str = "head") -> None:
    """Applies the migrations that are missing, inside the transaction that `opened` is in."""
    config = Config()
    config.set_main_option("script_location", str(_FOLDER))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = opened
    command.upgrade(config, to)


def known_migrations() -> list[str]:
    """Every migration that this benchbot knows, newest first."""
    return [script.revision for script in ScriptDirectory(str(_FOLDER)).walk_revisions()]


def _refuse_newer(where: str, at: str | None) -> None:
    if at is not None and at not in known_migrations():
        raise RecordError(
            f"{where}: the record is at migration {at}, this benchbot knows {NEWEST}; install the newer one"
        )
