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
    Column("location", Number),
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
    Column("location", Number),
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

# vehicle_hours: how long the vehicle on the lift is taken for granted. units: source, metric or US.
location = _table(
    "location",
    Column("location", Number, primary_key=True),
    _text("name", unique=True),
    _text("units"),
    _text("language"),
    _number("vehicle_hours"),
    _text("at"),
)

# person: the channel and its own number, such as "telegram 123"; standing: the location that they said they are at.
person = _table(
    "person",
    Column("person", Text, primary_key=True, nullable=False),
    _text("name"),
    Column("standing", Number, ForeignKey("location.location")),
    _text("at"),
)

membership = _table(
    "membership",
    _text("person", ForeignKey("person.person"), primary_key=True),
    _number("location", ForeignKey("location.location"), primary_key=True),
    _text("role"),
    _text("at"),
)

# Every change of a membership, for whoever asks later who let whom in: role is empty when they were removed.
membership_change = _table(
    "membership_change",
    Column("entry", Number, primary_key=True),
    _text("person"),
    _number("location"),
    _text("role"),
    _text("author"),
    _text("at"),
    Index(None, "person"),
)

# The code itself is never kept, only its digest. shown: its first letters, to tell invites apart.
invite = _table(
    "invite",
    Column("invite", Number, primary_key=True),
    _text("digest", unique=True),
    _text("shown"),
    _number("location", ForeignKey("location.location")),
    _text("role"),
    _number("uses_left"),
    _text("expires_at"),
    _text("author"),
    _text("at"),
    _text("revoked_at"),
)

# A message as it came in, kept before the channel is told that we have it; handled once.
arrival = _table(
    "arrival",
    _text("bot", primary_key=True),
    _number("number", primary_key=True),
    _text("chat"),
    _text("body"),
    _text("at"),
    _text("handled_at"),
    Index(None, "handled_at"),
)

# What waits to be sent, in order for each chat. state: waiting, sending, sent, unsure, refused.
sending = _table(
    "sending",
    Column("sending", Number, primary_key=True),
    _text("bot"),
    _text("chat"),
    _text("body"),
    Column("card", Number),
    _text("state"),
    _number("tries"),
    _text("not_before"),
    _text("message"),
    _text("why"),
    _text("at"),
    _text("ended_at"),
    Index(None, "state", "bot", "chat", "sending"),
)

# A message of ours that has buttons, or that an edited question changes. keeper: who may press them.
# message: the channel's id of it, empty until it was sent; asked: of the message that it answers.
card = _table(
    "card",
    Column("card", Number, primary_key=True),
    _text("chat"),
    _text("keeper"),
    _text("kind"),
    _text("asked"),
    _text("message"),
    _text("state"),
    _text("body"),
    _text("at"),
    _text("expires_at"),
    Index(None, "chat", "asked"),
)

# The vehicles that were on the lift of a chat, the latest by `at`.
lift = _table(
    "lift",
    _text("chat", primary_key=True),
    _text("vehicle", primary_key=True),
    _text("at"),
)

# What a technician said about an answer that looked wrong to them; without words until they have written them.
note = _table(
    "note",
    Column("note", Number, primary_key=True),
    _number("answer", ForeignKey("answer.answer")),
    _text("person"),
    Column("location", Number),
    _text("said"),
    _text("state"),
    _text("at"),
    Index(None, "state"),
)

# The next plain message of a person in a chat is an entry for this, not a question.
expected = _table(
    "expected",
    _text("chat", primary_key=True),
    _text("person", primary_key=True),
    _text("what"),
    _text("body"),
    _text("expires_at"),
)
