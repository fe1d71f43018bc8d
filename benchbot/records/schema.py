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

# A shop word or a vehicle's name that was taken back, or is said again: its newest entry counts. kind: word (of
# shop_word) or name (of vehicle_alias); word: its entry there. state: taken back, in use.
word_state = _table(
    "word_state",
    Column("entry", Number, primary_key=True),
    _text("kind"),
    _number("word"),
    _text("state"),
    _number("change", ForeignKey("change.change")),
    Index(None, "word"),
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
    # empty: no vehicle's name was ever taken back by then
    Column("last_word_state", Number),
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
    # the chat's memory when the question came, so that it can be asked again
    Column("memory", Text),
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
    Index(None, "location"),
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

# What somebody meant that the book does not hold, whoever asked and however they wrote it. kind: "row" (a spec row is
# missing), "word" (nobody knows what `words` means), "vehicle" (nobody knows the vehicle `words`).
# identity: the canonical text of all that was meant. state: open, being filled, waiting, filled, set aside.
meaning = _table(
    "meaning",
    Column("meaning", Number, primary_key=True),
    _text("kind"),
    _text("identity", unique=True),
    _text("make"),
    _text("model"),
    _text("years"),
    _text("only_if"),
    _text("component"),
    _text("position"),
    _text("property"),
    _text("words"),
    _text("state"),
    _text("why"),
    _text("author"),
    _text("at"),
    Index(None, "state"),
)

# What one gap asked for; a message can ask for several things.
gap_part = _table(
    "gap_part",
    _number("gap", ForeignKey("gap.gap"), primary_key=True),
    _number("meaning", ForeignKey("meaning.meaning"), primary_key=True),
    _text("reason"),
    Index(None, "meaning"),
)

meaning_change = _table(
    "meaning_change",
    Column("entry", Number, primary_key=True),
    _number("meaning", ForeignKey("meaning.meaning")),
    _text("state"),
    _text("why"),
    _text("author"),
    _text("at"),
    Index(None, "meaning"),
)

# A row on its way, field by field, until it is submitted. spec: the row that it changes, empty for a new one.
# fields: JSON of the cells entered so far. state: open, submitted, dropped.
filling = _table(
    "filling",
    Column("filling", Number, primary_key=True),
    Column("meaning", Number, ForeignKey("meaning.meaning")),
    _text("spec"),
    _text("author"),
    Column("location", Number),
    _text("fields"),
    _text("state"),
    _text("at"),
    _text("changed_at"),
    Index(None, "author", "state"),
)

# What was done about a revision. did: submitted, sent back, approved, withdrawn.
review = _table(
    "review",
    Column("entry", Number, primary_key=True),
    _text("spec"),
    _number("revision"),
    _text("person"),
    _text("did"),
    _text("said"),
    _text("at"),
    Index(None, "spec", "revision"),
)

# A warning that a person let pass, and why.
passed_warning = _table(
    "passed_warning",
    Column("entry", Number, primary_key=True),
    _text("spec"),
    _number("revision"),
    _text("concern"),
    _text("told"),
    _text("reason"),
    _text("person"),
    _text("at"),
    Index(None, "spec", "revision"),
)

# Revisions that nobody but their author has checked, where the shop allowed that.
sole_check = _table(
    "sole_check",
    _text("spec", primary_key=True),
    _number("revision", primary_key=True),
    _text("person"),
    _text("at"),
)

# The newest entry of a name counts.
shop_setting = _table(
    "shop_setting",
    Column("entry", Number, primary_key=True),
    _text("name"),
    _text("value"),
    _text("author"),
    _text("at"),
    Index(None, "name"),
)

# zone: an IANA name. quiet_from, quiet_to: such as 19:00 and 07:00, both empty where it is never quiet.
location_hours = _table(
    "location_hours",
    Column("location", Number, ForeignKey("location.location"), primary_key=True, autoincrement=False),
    _text("zone"),
    _text("quiet_from"),
    _text("quiet_to"),
)

# A picture of a source page. handle: what the messenger calls it. digest: SHA-256 of the bytes, which lie in the home's
# evidence folder, empty until they were fetched. state: awaited, kept, refused. revision: 0 while the row is filled in.
evidence = _table(
    "evidence",
    Column("evidence", Number, primary_key=True),
    Column("filling", Number, ForeignKey("filling.filling")),
    _text("spec"),
    _number("revision"),
    _text("handle"),
    _text("digest"),
    _text("kind"),
    _number("size"),
    _text("state"),
    _text("person"),
    _text("at"),
    Index(None, "spec", "revision"),
    Index(None, "filling"),
)

# A question whose outcome a new book must not change unawares. expected: JSON of the outcome and the ids of its specs.
kept_question = _table(
    "kept_question",
    Column("question", Number, primary_key=True),
    _text("said"),
    Column("memory", Text),
    _text("expected"),
    Column("gap", Number, ForeignKey("gap.gap")),
    _text("author"),
    _text("at"),
    _text("ended_at"),
    Index(None, "ended_at"),
)

# A book in place whose waiting askers were told and whose recalls were made.
followed = _table(
    "followed",
    Column("version", Number, ForeignKey("book_version.version"), primary_key=True, autoincrement=False),
    _text("at"),
)

# A shown value that is another one now. revision: the new one; what: corrected or withdrawn.
recall = _table(
    "recall",
    Column("recall", Number, primary_key=True),
    _text("spec"),
    _number("revision"),
    _text("what"),
    _text("at"),
    UniqueConstraint("spec", "revision"),
)

# Who was shown it, which revision they saw last and on which answer; seen_at: when they confirmed.
recall_notice = _table(
    "recall_notice",
    Column("notice", Number, primary_key=True),
    _number("recall", ForeignKey("recall.recall")),
    _text("person"),
    Column("location", Number),
    _number("answer", ForeignKey("answer.answer")),
    _number("revision"),
    _text("told_at"),
    _text("seen_at"),
    UniqueConstraint("recall", "person"),
)

# Work that a message asked for and that takes longer than an answer. once: what must not be done twice, or empty.
# state: waiting, done, failed.
errand = _table(
    "errand",
    Column("errand", Number, primary_key=True),
    _text("what"),
    _text("body"),
    Column("once", Text, unique=True),
    _text("state"),
    _text("not_before"),
    _text("why"),
    _text("at"),
    _text("ended_at"),
    Index(None, "state", "not_before"),
)

# What a curator found about a note. did: right (the value stands), corrected, withdrawn.
note_end = _table(
    "note_end",
    Column("note", Number, ForeignKey("note.note"), primary_key=True, autoincrement=False),
    _text("did"),
    _text("said"),
    _text("person"),
    _text("at"),
)

# A procedure as a job began with it: its steps, its wheels, and what each of them wants, as JSON.
job_procedure = _table("job_procedure", Column("digest", Text, primary_key=True, nullable=False), _text("body"))

# vehicle: JSON of what is worked on, never whose it is. repair_order: the shop's own number, or empty.
# book_version: the book in place when it began.
job = _table(
    "job",
    Column("job", Number, primary_key=True),
    _text("vehicle"),
    _text("repair_order"),
    _text("procedure", ForeignKey("job_procedure.digest")),
    Column("book_version", Number),
    Column("location", Number),
    _text("person"),
    _text("at"),
    Index(None, "location"),
)

# All that happened in a job; its state is worked out from this alone. name: what the person was called then.
# step: the key of the step that it belongs to, or empty. other: a second person, or empty. once: what must not be done
# twice, such as a message.
job_event = _table(
    "job_event",
    Column("entry", Number, primary_key=True),
    _number("job", ForeignKey("job.job")),
    _text("person"),
    _text("name"),
    _text("what"),
    _text("step"),
    _text("other"),
    _text("body"),
    _text("at"),
    Column("once", Text, unique=True),
    Index(None, "job"),
    Index(None, "person"),
    Index(None, "other"),
)

# The shop's own word for a step at a location. step: its key, in that procedure. ended_at, ended_by: empty while it
# counts.
step_override = _table(
    "step_override",
    Column("entry", Number, primary_key=True),
    _text("procedure"),
    _text("step"),
    _number("location", ForeignKey("location.location")),
    _text("text"),
    _text("author"),
    _text("at"),
    _text("ended_at"),
    _text("ended_by"),
    Index(None, "location"),
)
