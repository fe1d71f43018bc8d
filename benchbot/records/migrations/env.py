"""Runs the migrations inside the transaction that the caller holds."""

from __future__ import annotations

from alembic import context

from benchbot.records.schema import metadata

context.configure(connection=context.config.attributes["connection"], target_metadata=metadata)
with context.begin_transaction():
    context.run_migrations()
