"""People and locations, what came in and what goes out, cards with buttons, vehicles on the lift, notes."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_NUMBER = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.create_table(
        "arrival",
        sa.Column("bot", sa.Text(), nullable=False),
        sa.Column("number", _NUMBER, nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("handled_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("bot", "number", name=op.f("pk_arrival")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_arrival_handled_at"), "arrival", ["handled_at"], unique=False)
    op.create_table(
        "card",
        sa.Column("card", _NUMBER, nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("keeper", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("asked", sa.Text(), nullable=False),
        sa.Column("message", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("expires_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("card", name=op.f("pk_card")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_card_chat_asked"), "card", ["chat", "asked"], unique=False)
    op.create_table(
        "expected",
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("expires_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("chat", "person", name=op.f("pk_expected")),
        sqlite_strict=True,
    )
    op.create_table(
        "lift",
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("vehicle", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("chat", "vehicle", name=op.f("pk_lift")),
        sqlite_strict=True,
    )
    op.create_table(
        "location",
        sa.Column("location", _NUMBER, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("units", sa.Text(), nullable=False),
        sa.Column("language", sa.Text(), nullable=False),
        sa.Column("vehicle_hours", _NUMBER, nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("location", name=op.f("pk_location")),
        sa.UniqueConstraint("name", name=op.f("uq_location_name")),
        sqlite_strict=True,
    )
    op.create_table(
        "membership_change",
        sa.Column("entry", _NUMBER, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("entry", name=op.f("pk_membership_change")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_membership_change_person"), "membership_change", ["person"], unique=False)
    op.create_table(
        "sending",
        sa.Column("sending", _NUMBER, nullable=False),
        sa.Column("bot", sa.Text(), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("card", _NUMBER, nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("tries", _NUMBER, nullable=False),
        sa.Column("not_before", sa.Text(), nullable=False),
        sa.Column("message", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("ended_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("sending", name=op.f("pk_sending")),
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_sending_state_bot_chat_sending"), "sending", ["state", "bot", "chat", "sending"], unique=False
    )
    op.create_table(
        "invite",
        sa.Column("invite", _NUMBER, nullable=False),
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("shown", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("uses_left", _NUMBER, nullable=False),
        sa.Column("expires_at", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("revoked_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["location"], ["location.location"], name=op.f("fk_invite_location")),
        sa.PrimaryKeyConstraint("invite", name=op.f("pk_invite")),
        sa.UniqueConstraint("digest", name=op.f("uq_invite_digest")),
        sqlite_strict=True,
    )
    op.create_table(
        "note",
        sa.Column("note", _NUMBER, nullable=False),
        sa.Column("answer", _NUMBER, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=True),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["answer"], ["answer.answer"], name=op.f("fk_note_answer")),
        sa.PrimaryKeyConstraint("note", name=op.f("pk_note")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_note_state"), "note", ["state"], unique=False)
    op.create_table(
        "person",
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("standing", _NUMBER, nullable=True),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["standing"], ["location.location"], name=op.f("fk_person_standing")),
        sa.PrimaryKeyConstraint("person", name=op.f("pk_person")),
        sqlite_strict=True,
    )
    op.create_table(
        "membership",
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("location", _NUMBER, nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["location"], ["location.location"], name=op.f("fk_membership_location")),
        sa.ForeignKeyConstraint(["person"], ["person.person"], name=op.f("fk_membership_person")),
        sa.PrimaryKeyConstraint("person", "location", name=op.f("pk_membership")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_membership_location"), "membership", ["location"], unique=False)
    op.add_column("answer", sa.Column("location", _NUMBER, nullable=True))
    op.add_column("gap", sa.Column("location", _NUMBER, nullable=True))
