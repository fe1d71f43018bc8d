"""What can come of a message: plain values, with no wording before them and no parsing after them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from benchbot.book.reader import SpecRow

About = Literal[
    "vehicle", "model", "year", "component", "axle", "side", "height", "depth", "qualifier", "property", "row",
    "left over", "unit",
]  # fmt: skip
Reason = Literal[
    "unknown vehicle", "unknown model", "unknown component", "component not held", "year not covered",
    "position not held", "qualifier not held", "property not held", "no such choice",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Subject:
    """What a figure, a question back or a gap is about, as far as it is known; echoed to whoever asked."""

    make: str = ""
    model: str = ""
    years: tuple[int, ...] = ()
    only_if: tuple[tuple[str, str], ...] = ()
    component: str = ""
    position: str = ""
    property: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing asked for that the book does not hold, and why."""

    reason: Reason
    detail: str
    subject: Subject


@dataclass(frozen=True, slots=True)
class Finding:
    """One checked row that answers, with the year the technician named."""

    row: SpecRow
    subject: Subject


@dataclass(frozen=True, slots=True)
class Option:
    """One way to go on: its label, what choosing it states, and every row still possible behind it."""

    label: str
    states: dict[str, Any]
    specs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """Values to show; `missing` are things asked in the same message that the book does not hold.

    unit: the unit asked for, or None. units: those that the place likes best, shown first among the conversions.
    """

    findings: tuple[Finding, ...]
    missing: tuple[Missing, ...] = ()
    unit: str | None = None
    said_values: tuple[str, ...] = ()
    units: tuple[str, ...] = ()

    @property
    def units_first(self) -> tuple[str, ...]:
        """Units to convert to before all others, in this order."""
        return ((self.unit,) if self.unit else ()) + self.units


@dataclass(frozen=True, slots=True)
class Choose:
    """A question back: what decides and is not stated, with at most eight options (none when it must be typed)."""

    about: About
    key: str
    question: str
    options: tuple[Option, ...]
    subject: Subject
    open_facets: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Gap:
    """Nothing in the book answers; logged for the curator."""

    missing: tuple[Missing, ...]


@dataclass(frozen=True, slots=True)
class Calculation:
    """A sum that needs no book: what was given, what comes out, and how."""

    given: str
    result: str
    formula: str


@dataclass(frozen=True, slots=True)
class Other:
    """Nothing was asked of the book: small talk, a vehicle set, something out of our scope, a message too long."""

    what: Literal["small talk", "vehicle set", "out of scope", "too long", "not understood", "nothing asked"]
    subject: Subject = Subject()
    held: tuple[str, ...] = field(default=())
    options: tuple[Option, ...] = ()


Outcome = Answer | Choose | Gap | Calculation | Other
