"""What passes in and out of the job record: who, which vehicle, a judged measurement, a target, a refusal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from benchbot.jobs.agreeing import agrees

When = Literal["before", "after"]
Judgement = Literal["good", "bad", "not judged"]

WHENS: tuple[When, ...] = ("before", "after")
JUDGEMENTS: tuple[Judgement, ...] = ("good", "bad", "not judged")
WHEELS = ("front left", "front right", "rear left", "rear right")
# The fasteners that hold a wheel on, which a second person confirms where the shop wants it.
HOLD_WHEELS = frozenset({"wheel nut", "wheel bolt", "locking wheel nut"})


@dataclass(frozen=True, slots=True)
class Who:
    """A person as everywhere on record ("telegram 123"), and what they are called now."""

    person: str
    name: str


@dataclass(frozen=True, slots=True)
class Vehicle:
    """What is worked on, as it was said and as it was read; whose it is, is nowhere asked for.

    only_if: what narrows it, as the book writes it: (("drive", "4WD"),).
    """

    said: str
    make: str = ""
    model: str = ""
    year: int | None = None
    only_if: tuple[tuple[str, str], ...] = ()

    def to_plain(self) -> dict[str, Any]:
        """As JSON-able values."""
        return {
            "said": self.said,
            "make": self.make,
            "model": self.model,
            "year": self.year,
            "only_if": dict(self.only_if),
        }

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Vehicle:
        """The inverse of `to_plain`."""
        only_if = tuple((str(key), str(value)) for key, value in plain["only_if"].items())
        return cls(plain["said"], plain["make"], plain["model"], plain["year"], only_if)


@dataclass(frozen=True, slots=True)
class Shown:
    """A value of the book as it was shown: its text, and the row and revision that it stands in."""

    text: str
    spec: str
    revision: int


@dataclass(frozen=True, slots=True)
class Verdict:
    """What was found about a measurement. limits: the rows that it was held against, empty when the book has none."""

    judged: Judgement
    text: str
    limits: tuple[Shown, ...] = ()


NOT_JUDGED = Verdict("not judged", "")


@dataclass(frozen=True, slots=True)
class Measured:
    """A measurement as it was entered: "22.4" and "mm", or several figures with spaces between.

    component, property: as the vocabulary calls them. wheel: one of WHEELS, or "" where it belongs to none.
    """

    component: str
    property: str
    value: str
    unit: str
    when: When
    wheel: str = ""


@dataclass(frozen=True, slots=True)
class Tightened:
    """One fastener, tightened. which: what tells it from its neighbours ("upper"), or "". tool: which one, by its mark.

    set_to: what was set on the tool, with its unit, as entered. target: None when the book holds no value. value: the
    target in one unit, which set_to is held against; "" where that is all of the target's text.
    """

    component: str
    set_to: str
    tool: str
    wheel: str = ""
    which: str = ""
    target: Shown | None = None
    value: str = ""

    @property
    def differs(self) -> bool:
        """Whether it was set to anything else than the book says; such as for an adapter on the tool."""
        return self.target is not None and not agrees(self.set_to, self.value or self.target.text)


RefusedAbout = Literal[
    "no such job", "finished", "paused", "not paused", "repair order", "customer", "empty", "too long", "unit",
    "figure", "wheel", "step", "line", "same person", "point", "open points", "procedure", "fitted", "setting",
    "nothing to confirm", "judgement", "differs", "reason", "decided",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing was put on record, and why. choices: what could be said instead, where that is known."""

    reason: str
    about: RefusedAbout
    choices: tuple[str, ...] = ()
