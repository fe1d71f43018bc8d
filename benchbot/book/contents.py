"""What a book is made from: the rows that may speak, the names of the vehicles, the vocabulary."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

# The order of a row of `Contents.rows`.
ROW_COLUMNS = (
    "spec", "revision", "make", "model", "year_from", "year_to", "scope_read", "component_read", "position_read",
    "property", "value", "second_value", "thread", "class", "condition", "reuse", "tightening_order", "cautions",
    "source", "checked_by", "checked_on", "review_by", "source_ref", "one_person",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Contents:
    """rows: tuples in the order of ROW_COLUMNS; aliases: (make, model, alias); made_on: an ISO date.

    one_person of a row: 1 when nobody but its author has checked it, else 0.

    vocabulary: the compiled vocabulary as JSON; vocabulary_digest: of the knowledge files it came from.
    procedures: the compiled procedures as JSON, "" for none; likeness: what was learned of how people ask for their
    steps, as text, "" for none.
    """

    version: int
    made_on: str
    rows: Iterable[tuple[Any, ...]]
    aliases: Iterable[tuple[str, str, str]]
    vocabulary: str
    vocabulary_digest: str
    procedures: str = ""
    likeness: str = ""


@dataclass(frozen=True, slots=True)
class Made:
    """What came of it."""

    version: int
    digest: str
    rows: int
