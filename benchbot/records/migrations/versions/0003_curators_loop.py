"""The curator's loop: what is missing, rows on their way, reviews, kept questions, recalls, errands."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

_NUMBER = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.create_table(
        "errand",
        sa.Column("errand", _NUMBER, nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("once", sa.Text(), nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("not_before", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("ended_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("errand", name=op.f("pk_errand")),
        sa.UniqueConstraint("once", name=op.f("uq_errand_once")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_errand_state_not_before"), "errand", ["state", "not_before"], unique=False)
    op.create_table(
        "meaning",
        sa.Column("meaning", _NUMBER, nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("identity", sa.Text(), nullable=False),
        sa.Column("make", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("years", sa.Text(), nullable=False),
        sa.Column("only_if", sa.Text(), nullable=False),
        sa.Column("component", sa.Text(), nullable=False),
        sa.Column("position", sa.Text(), nullable=False),
        sa.Column("property", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("meaning", name=op.f("pk_meaning")),
        sa.UniqueConstraint("identity", name=op.f("uq_meaning_identity")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_meaning_state"), "meaning", ["state"], unique=False)
    op.create_table(
        "passed_warning",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("concern", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_passed_warning")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_passed_warning_spec_revision"), "passed_warning", ["spec", "revision"], unique=False)
    op.create_table(
        "recall",
        sa.Column("recall", _NUMBER, nullable=False),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("recall", name=op.f("pk_recall")),
        sa.UniqueConstraint("spec", "revision", name=op.f("uq_recall_spec_revision")),
        sqlite_strict=True,
    )
    op.create_table(
        "review",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("did", sa.Text(), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_review")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_review_spec_revision"), "review", ["spec", "revision"], unique=False)
    op.create_table(
        "shop_setting",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_shop_setting")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_shop_setting_name"), "shop_setting", ["name"], unique=False)
    op.create_table(
        "sole_check",
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("spec", "revision", name=op.f("pk_sole_check")),
        sqlite_strict=True,
    )
    op.create_table(
        "filling",
        sa.Column("filling", _NUMBER, nullable=False),
        sa.Column("meaning", _NUMBER, nullable=True),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=True),
        sa.Column("fields", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("changed_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["meaning"], ["meaning.meaning"], name=op.f("fk_filling_meaning")),
        sa.PrimaryKeyConstraint("filling", name=op.f("pk_filling")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_filling_author_state"), "filling", ["author", "state"], unique=False)
    op.create_table(
        "location_hours",
        sa.Column("location", _NUMBER, autoincrement=False, nullable=False),
        sa.Column("zone", sa.Text(), nullable=False),
        sa.Column("quiet_from", sa.Text(), nullable=False),
        sa.Column("quiet_to", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["location"], ["location.location"], name=op.f("fk_location_hours_location")),
        sa.PrimaryKeyConstraint("location", name=op.f("pk_location_hours")),
        sqlite_strict=True,
    )
    op.create_table(
        "meaning_change",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("meaning", _NUMBER, nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["meaning"], ["meaning.meaning"], name=op.f("fk_meaning_change_meaning")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_meaning_change")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_meaning_change_meaning"), "meaning_change", ["meaning"], unique=False)
    op.create_table(
        "recall_notice",
        sa.Column("notice", _NUMBER, nullable=False),
        sa.Column("recall", _NUMBER, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=True),
        sa.Column("answer", _NUMBER, nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("told_at", sa.Text(), nullable=False),
        sa.Column("seen_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["answer"], ["answer.answer"], name=op.f("fk_recall_notice_answer")),
        sa.ForeignKeyConstraint(["recall"], ["recall.recall"], name=op.f("fk_recall_notice_recall")),
        sa.PrimaryKeyConstraint("notice", name=op.f("pk_recall_notice")),
        sa.UniqueConstraint("recall", "person", name=op.f("uq_recall_notice_recall_person")),
        sqlite_strict=True,
    )
    op.create_table(
        "evidence",
        sa.Column("evidence", _NUMBER, nullable=False),
        sa.Column("filling", _NUMBER, nullable=True),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("revision", _NUMBER, nullable=False),
        sa.Column("handle", sa.Text(), nullable=False),
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("size", _NUMBER, nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["filling"], ["filling.filling"], name=op.f("fk_evidence_filling")),
        sa.PrimaryKeyConstraint("evidence", name=op.f("pk_evidence")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_evidence_filling"), "evidence", ["filling"], unique=False)
    op.create_index(op.f("ix_evidence_spec_revision"), "evidence", ["spec", "revision"], unique=False)
    op.create_table(
        "followed",
        sa.Column("version", _NUMBER, autoincrement=False, nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["version"], ["book_version.version"], name=op.f("fk_followed_version")),
        sa.PrimaryKeyConstraint("version", name=op.f("pk_followed")),
        sqlite_strict=True,
    )
    op.create_table(
        "gap_part",
        sa.Column("gap", _NUMBER, nullable=False),
        sa.Column("meaning", _NUMBER, nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["gap"], ["gap.gap"], name=op.f("fk_gap_part_gap")),
        sa.ForeignKeyConstraint(["meaning"], ["meaning.meaning"], name=op.f("fk_gap_part_meaning")),
        sa.PrimaryKeyConstraint("gap", "meaning", name=op.f("pk_gap_part")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_gap_part_meaning"), "gap_part", ["meaning"], unique=False)
    op.create_table(
        "kept_question",
        sa.Column("question", _NUMBER, nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("memory", sa.Text(), nullable=True),
        sa.Column("expected", sa.Text(), nullable=False),
        sa.Column("gap", _NUMBER, nullable=True),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("ended_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["gap"], ["gap.gap"], name=op.f("fk_kept_question_gap")),
        sa.PrimaryKeyConstraint("question", name=op.f("pk_kept_question")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_kept_question_ended_at"), "kept_question", ["ended_at"], unique=False)
    op.create_table(
        "note_end",
        sa.Column("note", _NUMBER, autoincrement=False, nullable=False),
        sa.Column("did", sa.Text(), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["note"], ["note.note"], name=op.f("fk_note_end_note")),
        sa.PrimaryKeyConstraint("note", name=op.f("pk_note_end")),
        sqlite_strict=True,
    )
    op.add_column("gap", sa.Column("memory", sa.Text(), nullable=True))
