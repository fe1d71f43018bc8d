"""The shop record as the path of an answer sees it: chat states, answers given, gaps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict
from datetime import datetime
from types import TracebackType
from typing import Any, Protocol, Self

from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records import statements
from benchbot.records.entry import Entry, GapEntry, GapPart, Kept, moment
from benchbot.records.sqlite import SqliteStore, sqlite_path

__all__ = ["Entry", "GapEntry", "GapPart", "Kept", "Record", "Store", "open_record"]

ASKED_AGAIN = "asked again"


class Store(Protocol):
    """A database that takes the statements: SQLite by itself, anything else through SQLAlchemy."""

    def row(self, statement: str, values: Mapping[str, Any]) -> tuple[Any, ...] | None: ...
    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]: ...
    def run(self, statement: str, values: Mapping[str, Any]) -> None: ...
    def begin(self) -> None: ...
    def commit(self) -> None: ...
    def rollback(self) -> None: ...
    def close(self) -> None: ...


class Record:
    """One connection to the shop record. Every time is aware; RecordError when the database fails."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._depth = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        self._store.close()

    def chat_state(self, chat: str, now: datetime) -> str | None:
        """The state of a chat; None when there is none or its time is over."""
        return self._one(statements.CHAT_STATE, {"chat": chat, "now": moment(now)})

    def put_chat_state(self, chat: str, state: str, now: datetime, until: datetime) -> None:
        """Sets the state of a chat outside of any answer."""
        values = {"chat": chat, "state": state, "at": moment(now), "expires_at": moment(until)}
        with self.writing() as store:
            store.run(statements.PUT_CHAT_STATE, values)

    def seen(self, chat: str, message: str) -> str | None:
        """What was shown for a message that came before, or None when it is new."""
        return self._one(statements.SEEN, {"chat": chat, "message": message})

    def put(self, entry: Entry) -> Kept:
        """Writes all of an entry or nothing. A message seen before writes nothing again."""
        with self.writing() as store:
            if entry.message is not None:
                before = store.row(statements.SEEN_GAP, {"chat": entry.chat, "message": entry.message})
                if before is not None:
                    return Kept(int(before[1]), before[0] if before[0] is None else int(before[0]), False)
            values = {
                "chat": entry.chat,
                "person": entry.person,
                "asked": entry.text,
                "reading": entry.reading,
                "outcome": entry.outcome,
                "reply": entry.reply,
                "at": moment(entry.at),
                "book_version": entry.book_version,
                "location": entry.location,
            }
            answer = number_of(store.row(statements.PUT_ANSWER, values))
            for spec, revision in entry.specs:
                store.run(statements.PUT_ANSWER_SPEC, {"answer": answer, "spec": spec, "revision": revision})
            gap = None
            if entry.instead_of is not None:
                store.run(statements.CLOSE_EDITED_GAP, {"instead_of": entry.instead_of})
            if entry.gap is not None:
                why = {"reason": entry.gap.reason, "detail": entry.gap.detail, "memory": entry.gap.memory}
                gap = number_of(store.row(statements.PUT_GAP, values | why | {"answer": answer}))
                # in one order for all writers, so that no two wait for each other
                for part in sorted(entry.gap.parts, key=lambda one: one.identity):
                    _put_part(store, gap, part, entry)
            if entry.message is not None:
                store.run(statements.PUT_SEEN, {"chat": entry.chat, "message": entry.message, "answer": answer})
            if entry.state is not None:
                until = moment(entry.expires_at or entry.at)
                store.run(statements.PUT_CHAT_STATE, values | {"state": entry.state, "expires_at": until})
            return Kept(answer, gap, True)

    def row(self, statement: str, values: Mapping[str, Any]) -> tuple[Any, ...] | None:
        """The first row of a reading statement."""
        return self._store.row(statement, values)

    def rows(self, statement: str, values: Mapping[str, Any]) -> list[tuple[Any, ...]]:
        """Every row of a reading statement."""
        return self._store.rows(statement, values)

    @contextmanager
    def writing(self) -> Iterator[Store]:
        """One transaction, all or nothing; inside another it is a part of that one."""
        if self._depth == 0:
            self._store.begin()
        self._depth += 1
        try:
            yield self._store
        except BaseException:
            self._depth -= 1
            if self._depth == 0:
                self._store.rollback()
            raise
        self._depth -= 1
        if self._depth == 0:
            self._store.commit()

    def _one(self, statement: str, values: Mapping[str, Any]) -> str | None:
        row = self._store.row(statement, values)
        return None if row is None else str(row[0])


def _put_part(store: Store, gap: int, part: GapPart, entry: Entry) -> None:
    """Joins the gap to what it meant; a meaning that was filled and is missing all the same is open again."""
    meant: dict[str, Any] = asdict(part)
    reason, at = meant.pop("reason"), moment(entry.at)
    row = store.row(statements.PUT_MEANING, meant | {"at": at})
    meaning = number_of(row)
    store.run(statements.PUT_GAP_PART, {"gap": gap, "meaning": meaning, "reason": reason})
    if row is not None and row[1] == "filled":
        change = {"meaning": meaning, "state": "open", "why": ASKED_AGAIN, "author": entry.person, "at": at}
        store.run(statements.SET_MEANING, change)
        store.run(statements.PUT_MEANING_CHANGE, change)


def open_record(place: Home | str) -> Record:
    """Opens the record of a home, or of a database URL; makes it, or brings it to the newest migration, when needed.

    RecordError: it cannot be opened, is damaged, or was made by a newer benchbot.
    """
    url = place.record_url if isinstance(place, Home) else place
    path = sqlite_path(url)
    if path is not None:
        return Record(SqliteStore(path))
    # Only shops that outgrew one machine pay for loading SQLAlchemy.
    from benchbot.records.server import ServerStore

    return Record(ServerStore(url))


def number_of(row: tuple[Any, ...] | None) -> int:
    """The number that an inserting statement returned."""
    if row is None:
        raise RecordError("the record gave no number for a new row; look at the database's own log")
    return int(row[0])
