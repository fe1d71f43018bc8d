"""What a value of the book can be: a single amount, a range, a tolerance, stages, a thread, a tool size, or words."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal


@dataclass(frozen=True, slots=True)
class Amount:
    """A figure and the symbol of its unit; `text` is the figure alone, as it was written ("22.0", "1 1/8")."""

    number: Decimal
    unit: str
    text: str


@dataclass(frozen=True, slots=True)
class Single:
    """One amount; `text` is the whole value exactly as entered, here and in every other kind of value."""

    amount: Amount
    text: str


@dataclass(frozen=True, slots=True)
class Span:
    """A range, both ends in the same unit, low below high."""

    low: Amount
    high: Amount
    text: str


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A middle and how far a reading may lie from it to either side, in the same unit."""

    middle: Amount
    within: Amount
    text: str


Plain = Single | Span | Tolerance


def leading_amount(plain: Plain) -> Amount:
    """The amount that tells the unit: the only one, the low end, or the middle."""
    if isinstance(plain, Single):
        return plain.amount
    return plain.low if isinstance(plain, Span) else plain.middle


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of a tightening.

    joint: what parts it from the stage before: "" for the first, else " + " or "; ".
    words: what is done ("rotate", "back off"), or "". amount: a torque or an angle, or None. One of both is there.
    """

    joint: str
    words: str
    amount: Plain | None


@dataclass(frozen=True, slots=True)
class Staged:
    """Stages that belong together and are never shown apart."""

    stages: tuple[Stage, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread: its diameter (mm or in), the pitch in mm or the threads per inch where stated, and its hand."""

    diameter: Amount
    pitch: Decimal | None
    per_inch: Decimal | None
    left_hand: bool
    text: str


@dataclass(frozen=True, slots=True)
class ToolSize:
    """What fits the fastener: the drive as far as said ("", "hex", "hex key", "Torx", ...), its size or its number."""

    drive: str
    size: Amount | None
    number: int | None
    text: str


@dataclass(frozen=True, slots=True)
class Words:
    """A value that is no quantity: a fluid's name, a note."""

    text: str


Value = Single | Span | Tolerance | Staged | Thread | ToolSize | Words

ValueKind = Literal["torque", "length", "volume", "angle", "pressure", "temperature", "thread", "tool size", "words"]
