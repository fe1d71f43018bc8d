"""The record on a database server, through SQLAlchemy."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from sqlalchemy import Connection, Engine, create_engine, event, inspect, make_url, text
from sqlalchemy.exc import DBAPIError, OperationalError, SQLAlchemyError

from benchbot.errors import RecordBusyError, RecordError
from benchbot.records.engine import READS
from benchbot.records.newest import NEWEST
from benchbot.records.sqlite import BUSY_SECONDS
from benchbot.records.statements import MIGRATION

Told = TypeVar("Told")

# Any fixed number.
_WRITERS = 706_220_114
_TURN = "SELECT set_config('lock_timeout', :wait, true), pg_advisory_xact_lock(:number)"


def applied_on_server(url: str) -> str | None:
    """The migration that the record there is at, None when there is none; changes nothing. RecordError: no way in."""
    try:
        engine = server_engine(url)
        try:
            with engine.connect() as connection:
                return applied_behind(connection)
        finally:
            engine.dispose()
    except (SQLAlchemyError, ImportError) as error:
        raise _no_way_in(error) from error


class ServerStore:
    """One connection of its own; each read outside a transaction ends the transaction that the driver opened."""

    def __init__(self, url: str) -> None:
        self._engine = migrated_engine(url)
        try:
            self._connection = self._engine.connect()
        except SQLAlchemyError as error:
            raise _no_way_in(error) from error
        self._writing = False

    def row(self, statement: str, values: Mapping[str, Any]) -> tuple[Any, ...] | None:
        found = self.rows(statement, values)
        return found[0] if found else None

    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]:
        def read() -> list[tuple[Any, ...]]:
            return [tuple(row) for row in self._execute(statement, values)]

        return read() if self._writing else self._first(lambda: self._alone(read))

    def run(self, statement: str, values: Mapping[str, Any]) -> None:
        self._execute(statement, values)

    def begin(self) -> None:
        self._writing = True
        try:
            self._first(self._take_turn)
        except BaseException:
            self._writing = False
            raise

    def commit(self) -> None:
        try:
            self._connection.commit()
        except SQLAlchemyError as error:
            self.rollback()
            raise refused(error) from error
        self._writing = False

    def rollback(self) -> None:
        self._writing = False
        try:
            self._connection.rollback()
        except SQLAlchemyError as error:
            raise refused(error) from error

    def close(self) -> None:
        self._connection.close()
        self._engine.dispose()

    def _first(self, work: Callable[[], Told]) -> Told:
        """What begins a transaction is done again where it finds that the server dropped the connection meanwhile."""
        try:
            return work()
        except RecordBusyError:
            if not self._connection.invalidated:
                raise
            return work()

    def _alone(self, read: Callable[[], Told]) -> Told:
        """Whatever becomes of a read, no transaction is left open, which would shut out every later read."""
        try:
            return read()
        finally:
            self.rollback()

    def _take_turn(self) -> None:
        try:
            take_turn(self._connection)
        except SQLAlchemyError as error:
            self._connection.rollback()
            raise refused(error) from error

    def _execute(self, statement: str, values: Mapping[str, Any]) -> Any:
        try:
            return self._connection.execute(text(statement), storable(values))
        except SQLAlchemyError as error:
            raise refused(error) from error


def take_turn(connection: Connection) -> None:
    """One writer at a time, as with SQLite: whatever it looked at first holds until it has written.

    SQLAlchemyError when another one keeps the record for longer than BUSY_SECONDS.
    """
    if connection.dialect.name == "postgresql":
        connection.execute(text(_TURN), {"wait": f"{BUSY_SECONDS * 1000:.0f}ms", "number": _WRITERS})


def storable(values: Mapping[str, Any]) -> dict[str, Any]:
    """PostgreSQL takes no NUL in a text; a message with one must not stop the bot."""
    return {
        name: value.replace("\0", "\N{REPLACEMENT CHARACTER}") if isinstance(value, str) else value
        for name, value in values.items()
    }


def migrated_engine(url: str) -> Engine:
    """An engine on the record there, made or migrated when needed; its transactions are the caller's business.

    RecordError: no way in, or a newer benchbot made the record.
    """
    try:
        engine = server_engine(url)
        try:
            with engine.connect() as connection:
                at = applied_behind(connection)
            if at != NEWEST:
                # Alembic takes longer to load than an answer takes: only a new or older record pays for it.
                from benchbot.records.migrate import migrate_server

                migrate_server(engine)
        except BaseException:
            engine.dispose()
            raise
    except (SQLAlchemyError, ImportError) as error:
        raise _no_way_in(error) from error
    return engine


def curators_engine(url: str) -> Engine:
    """The same for the work of curators: a transaction takes the writers' turn, unless READS is set; then it sees
    the record as it was when it began."""
    engine = migrated_engine(url)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        if not connection.get_execution_options().get(READS, False):
            take_turn(connection)
        elif connection.dialect.name == "postgresql":
            connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")

    return engine


def applied_behind(connection: Connection) -> str | None:
    """The same behind a connection that is open."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    row = connection.execute(text(MIGRATION)).fetchone()
    return None if row is None else str(row[0])


def server_engine(url: str) -> Engine:
    """A connection that the server dropped is opened anew, and no error tells what people wrote."""
    named = make_url(url)
    if named.drivername in ("postgres", "postgresql"):
        # The driver that benchbot[server] brings; SQLAlchemy itself would look for the one before it.
        named = named.set(drivername="postgresql+psycopg")
    more = {}
    if named.get_backend_name() == "postgresql":
        # With any other level, a writer that waited for its turn would see the record as it was before it waited.
        more["isolation_level"] = "READ COMMITTED"
    return create_engine(named, pool_pre_ping=True, hide_parameters=True, **more)


def refused(error: SQLAlchemyError) -> RecordError:
    """What an error of the database means to an operator."""
    why = _why(error)
    if isinstance(error, OperationalError) or (isinstance(error, DBAPIError) and error.connection_invalidated):
        return RecordBusyError(f"the record's database is out of reach or busy ({why}); try again")
    statement = " ".join(str(getattr(error, "statement", "")).split())
    return RecordError(f"the record's database refused a statement ({why}: {statement}); look at its log")


def _no_way_in(error: Exception) -> RecordError:
    why = _why(error)
    if isinstance(error, OperationalError):
        return RecordBusyError(f"the record's server is out of reach ({why}); check that it runs, and the URL")
    return RecordError(f"the record's server cannot be opened ({why}); check BENCHBOT_DATABASE_URL and the driver")


def _why(error: Exception) -> str:
    """In one line, and without the details, in which PostgreSQL repeats what stands in a row."""
    told = getattr(error, "orig", None) or error
    first = getattr(getattr(told, "diag", None), "message_primary", None)
    return first or " ".join(str(told).split())
