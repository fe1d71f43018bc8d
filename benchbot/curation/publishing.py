"""Turns the approved revisions on record into the next book."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import ColumnElement, Connection, case, select

from benchbot.book.builder import make_book
from benchbot.book.contents import ROW_COLUMNS, Contents, Made
from benchbot.book.place import leftovers, next_file, put_in_place
from benchbot.book.reader import Book
from benchbot.curation.language import learned_likeness, packed_knowledge, unpacked_knowledge
from benchbot.curation.speaking import answering
from benchbot.curation.turns import my_turn, reading, writing
from benchbot.errors import BookError
from benchbot.places import Home
from benchbot.records import curator, errands
from benchbot.records.alongside import AlongsideStore
from benchbot.records.curator import BookVersion
from benchbot.records.record import Store
from benchbot.records.schema import sole_check, spec_revision, vehicle_alias, word_state
from benchbot.specs.terms import Terms

_COMPONENT = ROW_COLUMNS.index("component_read")

# Looks at a book that was made and is not in place yet. What it returns goes on record together with the book's
# version; whatever it raises stops the publishing.
Judge = Callable[[Path], Callable[[Store], None]]


@dataclass(frozen=True, slots=True)
class PublishReport:
    """The book in place; with `made` false it was the newest already."""

    version: int
    digest: str
    rows: int
    made: bool


def once_followed(version: int) -> str:
    """What names the errand to tell everybody whom a book concerns; it is put on record together with the book."""
    return f"follow {version}"


def publish(home: Home, now: datetime, judge: Judge | None = None) -> PublishReport:
    """Makes the next book and puts it in place; when it is killed, the book before stays whole.

    A shop's own book is published by `following.publishing`, which judges it by the kept questions.
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
        body = packed_knowledge(curator.shop_words(record))
        before = curator.book_version_of(record)
        names, states = curator.last_entry(record, vehicle_alias), curator.last_entry(record, word_state)
        entries = (spec_entry, names, _digest(body), states)
        again = before is not None and entries == _entries(before)
        if again and before is not None and _in_place(home) == (before.version, before.digest):
            return PublishReport(before.version, before.digest, before.rows, made=False)
        version, made_on = (before.version if before else 0) + 1, now.date().isoformat()
        if again and before is not None:
            # A publishing was killed, or the book got lost: the same book is made once more.
            version, made_on = before.version, before.made_on
        file = next_file(home.book, version)
        made = _make(record, file, BookVersion(version, made_on, "", 0, *entries), body)
        put = BookVersion(version, made_on, made.digest, made.rows, *entries)
        if not again:
            beside = _judged(judge, file)
            with writing(home) as connection:
                curator.put_book_version(connection, put, body)
                store = AlongsideStore(connection)
                errands.put(store, "follow", {"version": version}, now, once_followed(version))
                beside(store)
        elif before is not None and before.digest != made.digest:
            file.unlink()
            raise _altered(before, made)
        put_in_place(file, home.book)
        return PublishReport(version, made.digest, made.rows, made=True)


def finish(home: Home) -> None:
    """Puts the newest version on record in place where a publishing was killed before it did so.

    BookError when it does not come out the same. RecordError.
    """
    with my_turn(home), reading(home) as record:
        held = curator.book_version_of(record) if record is not None else None
        if record is None or held is None or _in_place(home) == (held.version, held.digest):
            return
        for file in leftovers(home.book):
            file.unlink()
        file = next_file(home.book, held.version)
        made = _make(record, file, held, curator.vocabulary_body(record, held.vocabulary))
        if made.digest != held.digest:
            file.unlink()
            raise _altered(held, made)
        put_in_place(file, home.book)


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


def _entries(held: BookVersion) -> tuple[int, int, str, int]:
    return held.last_spec_entry, held.last_alias_entry, held.vocabulary, held.last_word_state


def _judged(judge: Judge | None, file: Path) -> Callable[[Store], None]:
    if judge is None:
        return lambda store: None
    try:
        return judge(file)
    except BaseException:
        file.unlink()
        raise


def _altered(held: BookVersion, made: Made) -> BookError:
    return BookError(
        f"book {held.version}: made anew it is {made.digest[:12]}, on record it is {held.digest[:12]}; "
        "rows of the record were altered, restore the record from a backup"
    )


def _column(name: str) -> ColumnElement[Any]:
    if name != "one_person":
        return spec_revision.c[name]
    alone = select(sole_check.c.spec).where(
        sole_check.c.spec == spec_revision.c.spec, sole_check.c.revision == spec_revision.c.revision
    )
    return case((alone.exists(), 1), else_=0)


def _make(record: Connection, file: Path, wanted: BookVersion, body: str) -> Made:
    vocabulary, words, procedures = unpacked_knowledge(body)
    chosen = answering([_column(name) for name in ROW_COLUMNS], wanted.last_spec_entry)
    rows = curator.stream(record, chosen.order_by(spec_revision.c.entry))
    aliases = curator.vehicle_names(record, wanted.last_alias_entry, wanted.last_word_state)
    renamed = _renamed(record, wanted.last_spec_entry, Terms(vocabulary))
    if renamed:
        rows = _with_names(rows, renamed)
    likeness = learned_likeness() if procedures else ""
    contents = Contents(wanted.version, wanted.made_on, rows, aliases, words, vocabulary.digest, procedures, likeness)
    return make_book(file, contents)


def _renamed(record: Connection, entry: int, terms: Terms) -> dict[str, str]:
    """Components that the vocabulary calls otherwise than when their rows were imported."""
    renamed: dict[str, str] = {}
    lost = []
    names = answering([spec_revision.c.component_read], entry)
    for (name,) in record.execute(names.distinct()):
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


def _in_place(home: Home) -> tuple[int, str] | None:
    """Version and digest of the book in place; None when there is none that can be read.

    Books of the same rows have the same digest, whatever words and procedures they carry.
    """
    try:
        with Book.open(home.book) as book:
            return book.version, book.digest
    except BookError:
        return None


def _digest(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()
