"""What a message was read as: plain values, with a note for every word."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from benchbot.vocabulary.terms import Stated

Role = Literal[
    "vehicle", "year", "qualifier", "component", "position", "property", "unit", "number", "noise", "sign", "left over"
]
VehicleState = Literal["none", "named", "part", "make", "several", "conflict", "unknown"]
Kind = Literal["question", "vehicle only", "slots only", "small talk", "out of scope", "nothing", "too long"]


@dataclass(frozen=True, slots=True)
class WordNote:
    """How one word (or number) of the message was read, and by which way it got there."""

    word: str
    role: Role
    read_as: str = ""
    how: str = ""

    def __str__(self) -> str:
        meaning = f"{self.role} {self.read_as}".strip()
        return f"{self.word}: {meaning}" + (f" ({self.how})" if self.how else "")


@dataclass(frozen=True, slots=True)
class Place:
    """Where on the vehicle: each tuple holds what was stated, empty when nothing was.

    several: two were joined ("front and rear") and each is asked for; two that are not joined contradict each other.
    """

    axles: tuple[str, ...] = ()
    sides: tuple[str, ...] = ()
    heights: tuple[str, ...] = ()
    depths: tuple[str, ...] = ()
    several: bool = False

    def __bool__(self) -> bool:
        return bool(self.axles or self.sides or self.heights or self.depths)


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing asked for.

    components: every component it can be; always: ask which, even when one alone is held.
    properties: the properties asked for (each one), or, when `vague`, those it can be.
    named: whether the message itself named the property (else it is the component's own default).
    """

    components: tuple[str, ...]
    always: bool = False
    question: str = ""
    properties: tuple[str, ...] = ()
    vague: bool = False
    place: Place = Place()
    named: bool = False


@dataclass(frozen=True, slots=True)
class VehicleRead:
    """Which vehicles the message can mean.

    state: named = by full name; part = by a part of a model name; make = the make alone; several = more than one
    vehicle named; conflict = make and model do not go together; unknown = a name the book does not have.
    """

    state: VehicleState = "none"
    ids: tuple[int, ...] = ()
    make: int | None = None
    said: str = ""
    rescued: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read the whole message.

    sizes: the threads, and the sizes beside a word such as bolt ("m10", "12 mm"); they tell no part. A thread is left
    over as well, until the book's row is seen to have it.
    """

    kind: Kind = "nothing"
    vehicle: VehicleRead = VehicleRead()
    years: tuple[int, ...] = ()
    stated: tuple[Stated, ...] = ()
    excluded: tuple[Stated, ...] = ()
    unsure: frozenset[str] = frozenset()
    conditions: tuple[str, ...] = ()
    asks: tuple[Ask, ...] = ()
    properties: tuple[str, ...] = ()
    vague: bool = False
    vague_properties: tuple[str, ...] = ()
    vague_always: bool = False
    place: Place = Place()
    unit: str | None = None
    left_over: tuple[str, ...] = ()
    unknown_part: str = ""
    said_values: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    only_rows: tuple[str, ...] = ()
    signs: frozenset[str] = frozenset()
    notes: tuple[WordNote, ...] = field(default=())
