"""The statements of the record on a connection of SQLAlchemy whose transaction somebody else begins and ends."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, text

from benchbot.errors import RecordError
from benchbot.records.server import storable


class AlongsideStore:
    """What is written through it is kept or dropped together with all else on that connection."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def row(self, statement: str, values: Mapping[str, Any]) -> tuple[Any, ...] | None:
        found = self._connection.execute(text(statement), storable(values)).fetchone()
        return None if found is None else tuple(found)

    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]:
        return [tuple(row) for row in self._connection.execute(text(statement), storable(values))]

    def run(self, statement: str, values: Mapping[str, Any]) -> None:
        self._connection.execute(text(statement), storable(values))

    def begin(self) -> None:
        raise RecordError("this transaction is not ours to begin; leave it to whoever opened the connection")

    def commit(self) -> None:
        raise RecordError("this transaction is not ours to end; leave it to whoever opened the connection")

    def rollback(self) -> None:
        raise RecordError("this transaction is not ours to end; leave it to whoever opened the connection")

    def close(self) -> None:
        """The connection is closed by whoever opened it."""
