"""The first shape of the record."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_NUMBER = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.create_table(
        "answer",
        sa.Column("answer", _NUMBER, nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("asked", sa.Text(), nullable=False),
        sa.Column("reading", sa.Text(), nullable=False),
        sa.Column("outcome", sa.Text(), nullable=False),
        sa.Column("reply", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("book_version", _NUMBER, nullable=True),
        sa.PrimaryKeyConstraint("answer", name=op.f("pk_answer")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_answer_chat_at"), "answer", ["chat", "at"], unique=False)
    op.create_table(
        "change",
        sa.Column("change", _NUMBER, nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("change", name=op.f("pk_change")),
        sqlite_strict=True,
    )
    op.create_table(
        "chat_state",
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("updated_at", sa.Text(), nullable=False),
        sa.Column("expires_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("chat", name=op.f("pk_chat_state")),
        sqlite_strict=True,
    )
    op.create_table(
        "vocabulary",
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_vocabulary")),
        sqlite_strict=True,
    )
    op.create_table(
        "answer_spec",
        sa.Column("answer", _NUMBER, nullable=False),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["answer"], ["answer.answer"], name=op.f("fk_answer_spec_answer")),
        sa.PrimaryKeyConstraint("answer", "spec", "revision", name=op.f("pk_answer_spec")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_answer_spec_spec_revision"), "answer_spec", ["spec", "revision"], unique=False)
    op.create_table(
        "book_version",
        sa.Column("version", _NUMBER, autoincrement=False, nullable=False),
        sa.Column("made_on", sa.Text(), nullable=False),
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("rows", _NUMBER, nullable=False),
        sa.Column("last_spec_entry", _NUMBER, nullable=False),
        sa.Column("last_alias_entry", _NUMBER, nullable=False),
        sa.Column("vocabulary", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["vocabulary"], ["vocabulary.digest"], name=op.f("fk_book_version_vocabulary")),
        sa.PrimaryKeyConstraint("version", name=op.f("pk_book_version")),
        sqlite_strict=True,
    )
    op.create_table(
        "gap",
        sa.Column("gap", _NUMBER, nullable=False),
        sa.Column("answer", _NUMBER, nullable=False),
        sa.Column("question", sa.Text(), nullable=False),
        sa.Column("reading", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("detail", sa.Text(), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("waits", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["answer"], ["answer.answer"], name=op.f("fk_gap_answer")),
        sa.PrimaryKeyConstraint("gap", name=op.f("pk_gap")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_gap_state_at"), "gap", ["state", "at"], unique=False)
    op.create_table(
        "seen_message",
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("message", sa.Text(), nullable=False),
        sa.Column("answer", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["answer"], ["answer.answer"], name=op.f("fk_seen_message_answer")),
        sa.PrimaryKeyConstraint("chat", "message", name=op.f("pk_seen_message")),
        sqlite_strict=True,
    )
    op.create_table(
        "shop_word",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("term", sa.Text(), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("change", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["change"], ["change.change"], name=op.f("fk_shop_word_change")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_shop_word")),
        sa.UniqueConstraint("term", "said", name=op.f("uq_shop_word_term_said")),
        sqlite_strict=True,
    )
    op.create_table(
        "spec_revision",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("make", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("year_from", _NUMBER, nullable=False),
        sa.Column("year_to", _NUMBER, nullable=False),
        sa.Column("only_if", sa.Text(), nullable=False),
        sa.Column("scope_read", sa.Text(), nullable=False),
        sa.Column("component", sa.Text(), nullable=False),
        sa.Column("component_read", sa.Text(), nullable=False),
        sa.Column("position", sa.Text(), nullable=False),
        sa.Column("position_read", sa.Text(), nullable=False),
        sa.Column("property", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("second_value", sa.Text(), nullable=False),
        sa.Column("thread", sa.Text(), nullable=False),
        sa.Column("class", sa.Text(), nullable=False),
        sa.Column("condition", sa.Text(), nullable=False),
        sa.Column("reuse", sa.Text(), nullable=False),
        sa.Column("tightening_order", sa.Text(), nullable=False),
        sa.Column("cautions", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("checked_by", sa.Text(), nullable=False),
        sa.Column("checked_on", sa.Text(), nullable=False),
        sa.Column("review_by", sa.Text(), nullable=False),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("source_ref", sa.Text(), nullable=False),
        sa.Column("change", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["change"], ["change.change"], name=op.f("fk_spec_revision_change")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_spec_revision")),
        sa.UniqueConstraint("spec", "revision", name=op.f("uq_spec_revision_spec_revision")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_spec_revision_make_model"), "spec_revision", ["make", "model"], unique=False)
    op.create_table(
        "vehicle_alias",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("make", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("alias", sa.Text(), nullable=False),
        sa.Column("change", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["change"], ["change.change"], name=op.f("fk_vehicle_alias_change")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_vehicle_alias")),
        sa.UniqueConstraint("make", "model", "alias", name=op.f("uq_vehicle_alias_make_model_alias")),
        sqlite_strict=True,
    )
