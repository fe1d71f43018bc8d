"""The columns of the three tables that an import takes: specs, vehicle names, shop words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Kind = Literal["specs", "vehicle names", "words"]


@dataclass(frozen=True, slots=True)
class Layout:
    """One kind of table: its columns in the order we write them, and those that a file may not leave out.

    marks: further columns, which whole books have, and a table where a row of it needs them.
    """

    kind: Kind
    columns: tuple[str, ...]
    required: tuple[str, ...]
    marks: tuple[str, ...] = ()

    @property
    def whole(self) -> tuple[str, ...]:
        """Every column, in the order in which the cells of a row are given."""
        return self.columns + self.marks


SPECS = Layout(
    "specs",
    (
        "id", "make", "model", "year_from", "year_to", "only_if", "component", "position", "property", "value",
        "second_value", "thread", "class", "condition", "reuse", "order", "cautions", "source", "source_ref",
        "checked_by", "checked_on", "review_by", "status",
    ),
    ("id", "make", "model", "year_from", "year_to", "component", "property", "value", "status"),
    ("one_person",),
)  # fmt: skip
VEHICLE_NAMES = Layout("vehicle names", ("make", "model", "alias"), ("make", "model", "alias"))
WORDS = Layout("words", ("term", "said"), ("term", "said"))
LAYOUTS = (SPECS, VEHICLE_NAMES, WORDS)


def layout_for(header: Sequence[str]) -> Layout:
    """The kind of table whose columns the header shares most; a spec table when it shares none."""
    named = set(header)
    return max(LAYOUTS, key=lambda layout: (len(named & set(layout.columns)) / len(layout.required), layout is SPECS))
