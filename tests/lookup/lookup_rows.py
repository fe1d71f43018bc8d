"""Invented spec rows, one bolt of one vehicle, for tests that look at rows alone."""

from __future__ import annotations

from dataclasses import replace

from benchbot.book.rows import SpecRow

_TOLD = ("88 N·m", "", "{}", "", "", "", "", "", (), "Invented sheet", "p. 1", "test lead", "2026-02-03", "")
_ROW = SpecRow("A", 1, 1, 2012, 2018, "", "caliper bracket bolt", "front", "torque", *_TOLD)


def row(spec: str = "A", **changes: object) -> SpecRow:
    """The plain row with changes."""
    return replace(_ROW, spec=spec, **changes)  # type: ignore[arg-type]
