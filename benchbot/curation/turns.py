"""Turns at a home's record: one import or publishing at a time, each with its connections."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager

from sqlalchemy import Connection
from sqlalchemy.exc import SQLAlchemyError

from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.engine import READS
from benchbot.records.lock import held
from benchbot.records.server import refused

WAIT_SECONDS = 300.0


def my_turn(home: Home, seconds: float = WAIT_SECONDS) -> AbstractContextManager[None]:
    """RecordError when another import or publishing of this home takes longer than that."""
    return held(home.folder / "curation.lock", seconds, "another import or publishing is under way, try again")


@contextmanager
def reading(home: Home) -> Iterator[Connection | None]:
    """A connection to look at the record with; None when there is none yet, and then none is made."""
    if not curator.is_begun(home):
        yield None
        return
    engine = curator.open_engine(home)
    try:
        with engine.connect().execution_options(**{READS: True}) as connection:
            yield connection
    except SQLAlchemyError as error:
        raise refused(error) from error
    finally:
        engine.dispose()


@contextmanager
def writing(home: Home, seen: int | None = None, what: str = "") -> Iterator[Connection]:
    """A connection in a writing transaction: all of it is kept, or nothing.

    seen: the number of the newest change when the record was looked at; RecordError when there is a newer one by now.
    what: names what was looked through for this.
    """
    engine = curator.open_engine(home)
    try:
        with engine.begin() as connection:
            if seen is not None and curator.last_change(connection) != seen:
                raise RecordError(
                    f"{what}: the record was changed since it was looked through; nothing was written, import it again"
                )
            yield connection
    except SQLAlchemyError as error:
        raise refused(error) from error
    finally:
        engine.dispose()
