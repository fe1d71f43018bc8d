"""The tables of the shop record, for SQLite (STRICT) and PostgreSQL alike."""

from __future__ import annotations

from typing import Any

from sqlalchemy import (
    BigInteger,
    Column,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

# STRICT tables know INTEGER only, and an INTEGER PRIMARY KEY numbers itself; PostgreSQL needs BIGINT to go as far.
Number = BigInteger().with_variant(Integer, "sqlite")


def _table(name: str, *columns: Any) -> Table:
    return Table(name, metadata, *columns, sqlite_strict=True)


def _text(name: str, *rules: Any, **settings: Any) -> Column[str]:
    return Column(name, Text, *rules, nullable=False, **settings)


def _number(name: str, *rules: Any, **settings: Any) -> Column[int]:
    return Column(name, Number, *rules, nullable=False, **settings)


change = _table(
    "change",
    Column("change", Number, primary_key=True),
    _text("author"),
    _text("at"),
    _text("why"),
)

# As entered; the columns *_read hold the canonical reading. `entry` counts up, so that "everything up to entry n"
# is the state of the specs at one moment.
spec_revision = _table(
    "spec_revision",
    Column("entry", Number, primary_key=True),
    _text("spec"),
    _number("revision"),
    _text("make"),
    _text("model"),
    _number("year_from"),
    _number("year_to"),
    _text("only_if"),
    _text("scope_read"),
    _text("component"),
    _text("component_read"),
    _text("position"),
    _text("position_read"),
    _text("property"),
    _text("value"),
    _text("second_value"),
    _text("thread"),
    _text("class"),
    _text("condition"),
    _text("reuse"),
    _text("tightening_order"),
    _text("cautions"),
    _text("source"),
    _text("checked_by"),
    _text("checked_on"),
    _text("review_by"),
    _text("status"),
    _text("source_ref"),
    _number("change", ForeignKey("change.change")),
    UniqueConstraint("spec", "revision"),
    Index(None, "make", "model"),
)

vehicle_alias = _table(
    "vehicle_alias",
    Column("entry", Number, primary_key=True),
    _text("make"),
    _text("model"),
    _text("alias"),
    _number("change", ForeignKey("change.change")),
    UniqueConstraint("make", "model", "alias"),
)

shop_word = _table(
    "shop_word",
    Column("entry", Number, primary_key=True),
    _text("term"),
    _text("said"),
    _number("change", ForeignKey("change.change")),
    UniqueConstraint("term", "said"),
)

vocabulary = _table("vocabulary", Column("digest", Text, primary_key=True, nullable=False), _text("body"))

# Everything that a book is made from, so that any version can be made again.
book_version = _table(
    "book_version",
    Column("version", Number, primary_key=True, autoincrement=False),
    _text("made_on"),
    _text("digest"),
    _number("rows"),
    _number("last_spec_entry"),
    _number("last_alias_entry"),
    _text("vocabulary", ForeignKey("vocabulary.digest")),
)

answer = _table(
    "answer",
    Column("answer", Number, primary_key=True),
    _text("chat"),
    _text("person"),
    _text("asked"),
    _text("reading"),
    _text("outcome"),
    _text("reply"),
    _text("at"),
    Column("book_version", Number),
    Index(None, "chat", "at"),
)

answer_spec = _table(
    "answer_spec",
    _number("answer", ForeignKey("answer.answer"), primary_key=True),
    _text("spec", primary_key=True),
    _number("revision", primary_key=True),
    Index(None, "spec", "revision"),
)

gap = _table(
    "gap",
    Column("gap", Number, primary_key=True),
    _number("answer", ForeignKey("answer.answer")),
    _text("question"),
    _text("reading"),
    _text("reason"),
    _text("detail"),
    _text("chat"),
    _text("person"),
    _text("at"),
    _text("state"),
    _number("waits"),
    Index(None, "state", "at"),
)

chat_state = _table(
    "chat_state",
    Column("chat", Text, primary_key=True, nullable=False),
    _text("state"),
    _text("updated_at"),
    _text("expires_at"),
)

seen_message = _table(
    "seen_message",
    Column("chat", Text, primary_key=True, nullable=False),
    Column("message", Text, primary_key=True, nullable=False),
    _number("answer", ForeignKey("answer.answer")),
)
