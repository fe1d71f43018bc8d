"""Turns the approved revisions on record into the next book."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

from benchbot.book.builder import make_book
from benchbot.book.contents import ROW_COLUMNS, Contents, Made
from benchbot.book.place import leftovers, next_file, put_in_place
from benchbot.book.reader import Book
from benchbot.curation.language import packed_vocabulary
from benchbot.curation.turns import my_turn, reading, writing
from benchbot.errors import BookError
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.curator import BookVersion
from benchbot.records.schema import spec_revision, vehicle_alias
from benchbot.specs.terms import Terms
from benchbot.vocabulary.terms import Vocabulary

_COMPONENT = ROW_COLUMNS.index("component_read")


@dataclass(frozen=True, slots=True)
class PublishReport:
    """The book in place; with `made` false it was the newest already."""

    version: int
    digest: str
    rows: int
    made: bool


def publish(home: Home, now: datetime) -> PublishReport:
    """Makes the next book and puts it in place; when it is killed, the book before stays whole.

    BookError: the record holds no specs, or rows that the vocabulary no longer knows. RecordError, KnowledgeError.
    """
    with my_turn(home), reading(home) as record:
        for file in leftovers(home.book):
            file.unlink()
        spec_entry = curator.last_entry(record, spec_revision) if record is not None else 0
        if record is None or spec_entry == 0:
            raise BookError(
                f"{home.folder}: there are no specs to publish; bring a table in with: benchbot specs import"
            )
        body = packed_vocabulary(curator.shop_words(record))
        before = curator.book_version_of(record)
        entries = (spec_entry, curator.last_entry(record, vehicle_alias), _digest(body))
        again = before is not None and entries == (before.last_spec_entry, before.last_alias_entry, before.vocabulary)
        if again and before is not None and _in_place(home) == before.digest:
            return PublishReport(before.version, before.digest, before.rows, made=False)
        version, made_on = (before.version if before else 0) + 1, now.date().isoformat()
        if again and before is not None:
            # A publishing was killed, or the book got lost: the same book is made once more.
            version, made_on = before.version, before.made_on
        file = next_file(home.book, version)
        made = _make(record, file, BookVersion(version, made_on, "", 0, *entries), body)
        put = BookVersion(version, made_on, made.digest, made.rows, *entries)
        if not again:
            with writing(home) as connection:
                curator.put_book_version(connection, put, body)
        elif before is not None and before.digest != made.digest:
            file.unlink()
            raise BookError(
                f"book {version}: made anew it is {made.digest[:12]}, on record it is {before.digest[:12]}; "
                "rows of the record were altered, restore the record from a backup"
            )
        put_in_place(file, home.book)
        return PublishReport(version, made.digest, made.rows, made=True)


def rebuild(home: Home, version: int, file: Path) -> PublishReport:
    """Makes any version again, in another file. BookError when it is not on record or does not come out the same."""
    with reading(home) as record:
        held = curator.book_version_of(record, version) if record is not None else None
        if record is None or held is None:
            raise BookError(f"book {version} is not on record; look at the versions with: benchbot specs list")
        made = _make(record, file, held, curator.vocabulary_body(record, held.vocabulary))
    if made.digest != held.digest:
        raise BookError(f"{file}: book {version} comes out as {made.digest[:12]}, on record it is {held.digest[:12]}")
    return PublishReport(version, made.digest, made.rows, made=True)


def _make(record: Connection, file: Path, wanted: BookVersion, body: str) -> Made:
    vocabulary = Vocabulary.from_plain(json.loads(body))
    columns = [spec_revision.c[name] for name in ROW_COLUMNS]
    chosen = curator.newest(columns, wanted.last_spec_entry).where(spec_revision.c.status == "verified")
    rows = curator.stream(record, chosen.order_by(spec_revision.c.entry))
    aliases = curator.vehicle_names(record, wanted.last_alias_entry)
    renamed = _renamed(record, wanted.last_spec_entry, Terms(vocabulary))
    if renamed:
        rows = _with_names(rows, renamed)
    return make_book(file, Contents(wanted.version, wanted.made_on, rows, aliases, body, vocabulary.digest))


def _renamed(record: Connection, entry: int, terms: Terms) -> dict[str, str]:
    """Components that the vocabulary calls otherwise than when their rows were imported."""
    renamed: dict[str, str] = {}
    lost = []
    speaking = curator.newest([spec_revision.c.component_read], entry).where(spec_revision.c.status == "verified")
    for (name,) in record.execute(speaking.distinct()):
        try:
            now = terms.component(name)
        except ValueError as error:
            lost.append(f"{error.args[0]} any more. {error.args[1]}")
            continue
        if now != name:
            renamed[name] = now
    if lost:
        raise BookError("the book was not made:\n" + "\n".join(f"  {line}" for line in lost))
    return renamed


def _with_names(rows: Iterator[tuple[Any, ...]], renamed: dict[str, str]) -> Iterator[tuple[Any, ...]]:
    for row in rows:
        name = row[_COMPONENT]
        yield (*row[:_COMPONENT], renamed.get(name, name), *row[_COMPONENT + 1 :])


def _in_place(home: Home) -> str | None:
    """The digest of the book in place; None when there is none that can be read."""
    try:
        with Book.open(home.book) as book:
            return book.digest
    except BookError:
        return None


def _digest(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()
