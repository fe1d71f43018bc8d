"""The curator's way to the record: the newest revisions, and how changes are put on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Engine,
    Select,
    Table,
    bindparam,
    func,
    insert,
    select,
    text,
)

from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records.engine import sqlite_engine
from benchbot.records.entry import moment
from benchbot.records.newest import NEWEST
from benchbot.records.schema import (
    book_version,
    change,
    shop_word,
    sole_check,
    spec_revision,
    vehicle_alias,
    vocabulary,
)
from benchbot.records.sqlite import applied, sqlite_path
from benchbot.records.word_states import in_use
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow

# SQLite takes 32,766 values in a statement; so many ids at a time leave room and cost little.
IDS_AT_A_TIME = 500
_FETCH = 5_000
_LATER = spec_revision.alias("later")


@dataclass(frozen=True, slots=True)
class BookVersion:
    """What one version of the book was made from; `vocabulary` is the digest of its stored body."""

    version: int
    made_on: str
    digest: str
    rows: int
    last_spec_entry: int
    last_alias_entry: int
    vocabulary: str
    last_word_state: int = 0


def open_engine(home: Home) -> Engine:
    """The record of a home, made or migrated when needed. RecordError when it cannot be opened."""
    path = sqlite_path(home.record_url)
    if path is None:
        # Only shops that outgrew one machine need it.
        from benchbot.records.server import curators_engine

        return curators_engine(home.record_url)
    if applied(path) != NEWEST:
        # Alembic is slow to load and seldom needed.
        from benchbot.records.migrate import migrate_sqlite

        migrate_sqlite(path)
    return sqlite_engine(path)


def is_begun(home: Home) -> bool:
    """Whether the home has a record at all; asking does not make one."""
    path = sqlite_path(home.record_url)
    if path is None:
        from benchbot.records.server import applied_on_server

        return applied_on_server(home.record_url) is not None
    return applied(path) is not None


def checked_columns() -> list[ColumnElement[Any]]:
    """The columns of a checked row, in its order."""
    return [spec_revision.c[name] for name in CHECKED_COLUMNS]


def newest(columns: Sequence[ColumnElement[Any]], last_entry: int | None = None) -> Select[Any]:
    """Selects the newest revision of every spec, or the newest among the entries up to `last_entry`."""
    newer = select(_LATER.c.entry).where(
        _LATER.c.spec == spec_revision.c.spec, _LATER.c.revision > spec_revision.c.revision
    )
    chosen = select(*columns)
    if last_entry is not None:
        newer = newer.where(_LATER.c.entry <= last_entry)
        chosen = chosen.where(spec_revision.c.entry <= last_entry)
    return chosen.where(~newer.exists())


def newest_of(connection: Connection, specs: Sequence[str]) -> dict[str, tuple[int, CheckedRow]]:
    """The newest (revision, row) of each of these ids that is on record."""
    found: dict[str, tuple[int, CheckedRow]] = {}
    for at in range(0, len(specs), IDS_AT_A_TIME):
        for row in connection.execute(_NEWEST_OF, {"specs": specs[at : at + IDS_AT_A_TIME]}).all():
            found[row[1]] = row[0], tuple(row[1:])
    return found


# Made once: building a statement takes longer than running it.
_NEWEST_OF = newest([spec_revision.c.revision, *checked_columns()]).where(
    spec_revision.c.spec.in_(bindparam("specs", expanding=True))
)


def revisions_of(connection: Connection, specs: Sequence[str]) -> dict[str, dict[CheckedRow, int]]:
    """Every row that each of these ids ever was on record, with the number of its latest such revision."""
    found: dict[str, dict[CheckedRow, int]] = {}
    for at in range(0, len(specs), IDS_AT_A_TIME):
        for number, *row in connection.execute(_ALL_OF, {"specs": specs[at : at + IDS_AT_A_TIME]}).all():
            known = found.setdefault(row[0], {})
            known[tuple(row)] = max(number, known.get(tuple(row), 0))
    return found


_ALL_OF = select(spec_revision.c.revision, *checked_columns()).where(
    spec_revision.c.spec.in_(bindparam("specs", expanding=True))
)


def checked_alone(connection: Connection, specs: Sequence[str]) -> set[tuple[str, str, str]]:
    """(id, checked_by, checked_on) of every check of these ids that is on record as that of one person alone."""
    found: set[tuple[str, str, str]] = set()
    for at in range(0, len(specs), IDS_AT_A_TIME):
        told = connection.execute(_CHECKED_ALONE, {"specs": specs[at : at + IDS_AT_A_TIME]})
        found |= {(spec, checked_by, checked_on) for spec, checked_by, checked_on in told}
    return found


_CHECKED_ALONE = (
    select(spec_revision.c.spec, spec_revision.c.checked_by, spec_revision.c.checked_on)
    .join(sole_check, (sole_check.c.spec == spec_revision.c.spec) & (sole_check.c.revision == spec_revision.c.revision))
    .where(sole_check.c.spec.in_(bindparam("specs", expanding=True)))
)


def last_change(connection: Connection | None) -> int:
    """The number of the newest change on record; 0 when there is none."""
    if connection is None:
        return 0
    return int(connection.execute(select(func.coalesce(func.max(change.c.change), 0))).scalar_one())


def stream(connection: Connection, statement: Select[Any]) -> Iterator[tuple[Any, ...]]:
    """The rows of a statement straight from the driver, a batch at a time."""
    compiled = statement.compile(dialect=connection.dialect, compile_kwargs={"literal_binds": True})
    cursor = connection.connection.cursor()
    try:
        cursor.execute(str(compiled))
        while batch := cursor.fetchmany(_FETCH):
            yield from batch
    finally:
        cursor.close()


def put_change(connection: Connection, author: str, now: datetime, why: str) -> int:
    """The number of a new change; every row that it brings names it."""
    made = insert(change).values(author=author, at=moment(now), why=why).returning(change.c.change)
    return int(connection.execute(made).scalar_one())


def put_rows(connection: Connection, table: Table, columns: Sequence[str], rows: Iterable[tuple[Any, ...]]) -> None:
    """Inserts many rows by the fastest way that the driver has."""
    statement = insert(table).values(dict.fromkeys(columns)).compile(dialect=connection.dialect)
    ready = list(rows)
    if not ready:
        return
    if statement.positional:
        order = [columns.index(name) for name in statement.positiontup or ()]
        assert order == list(range(len(columns)))
        connection.exec_driver_sql(str(statement), ready)
    else:
        connection.execute(insert(table), [dict(zip(columns, row, strict=True)) for row in ready])


def last_entry(connection: Connection, table: Table) -> int:
    """The highest entry of a table that counts its entries; 0 when it is empty."""
    return int(connection.execute(select(func.coalesce(func.max(table.c.entry), 0))).scalar_one())


def vehicle_names(
    connection: Connection, last: int | None = None, last_state: int | None = None
) -> list[tuple[str, str, str]]:
    """(make, model, alias) of all in use, in the order they came, or those that were so as of these entries."""
    statement = select(vehicle_alias.c.make, vehicle_alias.c.model, vehicle_alias.c.alias)
    statement = statement.where(text(in_use("name", last_state)))
    if last is not None:
        statement = statement.where(vehicle_alias.c.entry <= last)
    return [
        (make, model, alias) for make, model, alias in connection.execute(statement.order_by(vehicle_alias.c.entry))
    ]


def shop_words(connection: Connection) -> list[tuple[str, str]]:
    """(term, said) of the shop's own words that are in use."""
    chosen = select(shop_word.c.term, shop_word.c.said).where(text(in_use("word")))
    return [(term, said) for term, said in connection.execute(chosen.order_by(shop_word.c.entry))]


def book_version_of(connection: Connection, version: int | None = None) -> BookVersion | None:
    """That version, or the newest."""
    statement = select(book_version).order_by(book_version.c.version.desc()).limit(1)
    if version is not None:
        statement = statement.where(book_version.c.version == version)
    row = connection.execute(statement).one_or_none()
    return None if row is None else replace(BookVersion(*row), last_word_state=row.last_word_state or 0)


def vocabulary_body(connection: Connection, digest: str) -> str:
    """RecordError when the record has no vocabulary of that digest."""
    body = connection.execute(select(vocabulary.c.body).where(vocabulary.c.digest == digest)).scalar_one_or_none()
    if body is None:
        raise RecordError(f"the record has no vocabulary {digest}; restore the record from a backup")
    return str(body)


def put_book_version(connection: Connection, made: BookVersion, body: str) -> None:
    """Puts a version on record, and its vocabulary when that is new."""
    if connection.execute(select(vocabulary.c.digest).where(vocabulary.c.digest == made.vocabulary)).first() is None:
        connection.execute(insert(vocabulary).values(digest=made.vocabulary, body=body))
    names = (
        "version",
        "made_on",
        "digest",
        "rows",
        "last_spec_entry",
        "last_alias_entry",
        "vocabulary",
        "last_word_state",
    )
    connection.execute(insert(book_version).values({name: getattr(made, name) for name in names}))
