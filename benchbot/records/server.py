"""The record on a database server, through SQLAlchemy."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import create_engine, text
from sqlalchemy.exc import SQLAlchemyError

from benchbot.errors import RecordError
from benchbot.records.migrate import migrate_server


class ServerStore:
    """One connection of its own; each read outside a transaction ends the transaction that the driver opened."""

    def __init__(self, url: str) -> None:
        try:
            self._engine = create_engine(url)
            migrate_server(self._engine)
            self._connection = self._engine.connect()
        except (SQLAlchemyError, ImportError) as error:
            raise RecordError(
                f"the record's server cannot be opened ({error}); check BENCHBOT_DATABASE_URL and the driver"
            ) from error
        self._writing = False

    def row(self, statement: str, values: Mapping[str, Any]) -> tuple[Any, ...] | None:
        result = self._execute(statement, values).fetchone()
        if not self._writing:
            self._connection.rollback()
        return None if result is None else tuple(result)

    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]:
        result = [tuple(row) for row in self._execute(statement, values)]
        if not self._writing:
            self._connection.rollback()
        return result

    def run(self, statement: str, values: Mapping[str, Any]) -> None:
        self._execute(statement, values)

    def begin(self) -> None:
        self._writing = True

    def commit(self) -> None:
        self._connection.commit()
        self._writing = False

    def rollback(self) -> None:
        self._connection.rollback()
        self._writing = False

    def close(self) -> None:
        self._connection.close()
        self._engine.dispose()

    def _execute(self, statement: str, values: Mapping[str, Any]) -> Any:
        try:
            return self._connection.execute(text(statement), dict(values))
        except SQLAlchemyError as error:
            raise RecordError(f"the record's server refused a statement ({error}); look at its log") from error
