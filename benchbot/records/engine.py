"""SQLAlchemy's way to the record, for the work of curators and operators."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import NullPool

from benchbot.records.sqlite import connect

# The execution option of a connection that only looks: it must not keep the bench from writing.
READS = "benchbot_reads"


def sqlite_engine(path: Path) -> Engine:
    """An engine on the file. Its transactions take the write lock when they begin, unless READS is set."""

    def opened() -> sqlite3.Connection:
        connection = connect(path)
        # Room for a large import: its indexes are written at random places.
        connection.execute("PRAGMA cache_size = -65536")
        return connection

    engine = create_engine("sqlite://", creator=opened, poolclass=NullPool)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> Any:
        reads = connection.get_execution_options().get(READS, False)
        connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")

    return engine
