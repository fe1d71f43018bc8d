"""The record on a database server, on the road through SQLAlchemy: what happens when the server goes away."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import event
from sqlalchemy.engine import ExceptionContext

from benchbot.errors import RecordBusyError, RecordError
from benchbot.records.server import ServerStore

COUNT = "SELECT count(*) FROM gap WHERE question = :question"
SECRET = "my question of this morning"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[ServerStore]:
    opened = ServerStore(f"sqlite+pysqlite:///{tmp_path / 'served.sqlite'}")
    yield opened
    opened.close()


def drop(context: ExceptionContext) -> None:
    """Every error is one of a connection that the server has dropped."""
    context.is_disconnect = True


def test_a_read_on_a_dropped_connection_does_not_shut_out_the_next(store: ServerStore) -> None:
    event.listen(store._engine, "handle_error", drop)
    for look in (store.row, store.rows):
        with pytest.raises(RecordBusyError, match="out of reach or busy"):
            look("SELECT nothing FROM nowhere", {})
        assert store.row(COUNT, {"question": ""}) == (0,)


def test_a_dropped_transaction_is_rolled_back_and_the_next_one_is_kept(store: ServerStore) -> None:
    put = "INSERT INTO change (author, at, why) VALUES (:author, :author, :author)"
    event.listen(store._engine, "handle_error", drop)
    store.begin()
    store.run(put, {"author": "lost"})
    with pytest.raises(RecordBusyError):
        store.run("INSERT INTO nowhere VALUES (1)", {})
    store.rollback()
    store.begin()
    store.run(put, {"author": "kept"})
    store.commit()
    assert store.rows("SELECT author FROM change", {}) == [("kept",)]


def test_no_error_tells_what_a_person_wrote(store: ServerStore) -> None:
    with pytest.raises(RecordError) as told:
        store.row("SELECT nothing FROM gap WHERE question = :question", {"question": SECRET})
    assert SECRET not in str(told.value)


def test_a_server_out_of_reach_may_be_there_later(tmp_path: Path) -> None:
    with pytest.raises(RecordBusyError, match="check that it runs"):
        ServerStore(f"sqlite+pysqlite:///{tmp_path / 'no' / 'such' / 'folder'}")
