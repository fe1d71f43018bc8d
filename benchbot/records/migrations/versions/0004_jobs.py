"""Jobs: the procedure, all that happened, the shop's own word for a step; and words that were taken back."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

_NUMBER = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.create_table(
        "job_procedure",
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_job_procedure")),
        sqlite_strict=True,
    )
    op.create_table(
        "job",
        sa.Column("job", _NUMBER, nullable=False),
        sa.Column("vehicle", sa.Text(), nullable=False),
        sa.Column("repair_order", sa.Text(), nullable=False),
        sa.Column("procedure", sa.Text(), nullable=False),
        sa.Column("book_version", _NUMBER, nullable=True),
        sa.Column("location", _NUMBER, nullable=True),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["procedure"], ["job_procedure.digest"], name=op.f("fk_job_procedure")),
        sa.PrimaryKeyConstraint("job", name=op.f("pk_job")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_job_location"), "job", ["location"], unique=False)
    op.create_table(
        "job_event",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("job", _NUMBER, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("step", sa.Text(), nullable=False),
        sa.Column("other", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("once", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["job"], ["job.job"], name=op.f("fk_job_event_job")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_job_event")),
        sa.UniqueConstraint("once", name=op.f("uq_job_event_once")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_job_event_job"), "job_event", ["job"], unique=False)
    op.create_index(op.f("ix_job_event_other"), "job_event", ["other"], unique=False)
    op.create_index(op.f("ix_job_event_person"), "job_event", ["person"], unique=False)
    op.create_table(
        "step_override",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("procedure", sa.Text(), nullable=False),
        sa.Column("step", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("ended_at", sa.Text(), nullable=False),
        sa.Column("ended_by", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["location"], ["location.location"], name=op.f("fk_step_override_location")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_step_override")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_step_override_location"), "step_override", ["location"], unique=False)
    op.create_table(
        "word_state",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("word", _NUMBER, nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("change", _NUMBER, nullable=False),
        sa.ForeignKeyConstraint(["change"], ["change.change"], name=op.f("fk_word_state_change")),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_word_state")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_word_state_word"), "word_state", ["word"], unique=False)
    op.add_column("book_version", sa.Column("last_word_state", _NUMBER, nullable=True))
