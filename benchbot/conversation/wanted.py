"""What a step of the work wants to know of the vehicle in hand: a value of one part at one place, or a verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from benchbot.book.reader import Book
from benchbot.conversation.context import with_choice
from benchbot.conversation.lift import Lift
from benchbot.conversation.which_lift import on_lift
from benchbot.lookup.lookup import look_up
from benchbot.measuring.holding import held_against
from benchbot.measuring.limits import DIAMETER, THICKNESSES, VARIATION
from benchbot.measuring.measured import Measured
from benchbot.outcomes import Choose, Outcome
from benchbot.understanding.reading import Ask, Place, Reading
from benchbot.vocabulary.terms import Vocabulary


@dataclass(frozen=True, slots=True)
class Wanted:
    """lift: the vehicle. component, property: as the vocabulary calls them. place: words of a position ("front upper").

    side: "left" or "right"; told to the book only where its rows differ by side. states: what earlier choices stated.
    measured: what was measured of it, to be held against its limits.
    """

    lift: Lift
    component: str
    property: str
    place: tuple[str, ...] = ()
    side: str = ""
    states: tuple[Mapping[str, Any], ...] = ()
    measured: Measured | None = None

    def outcome(self, book: Book, vocabulary: Vocabulary, today: date) -> tuple[Reading, Outcome]:
        """How it was asked, and what the book says to it."""
        reading = on_lift(Reading(kind="question", asks=(self._ask(vocabulary),)), self.lift, book)
        for states in self.states:
            reading = with_choice(reading, dict(states))
        outcome = look_up((reading,), book, vocabulary, today)
        if self.side and isinstance(outcome, Choose) and outcome.about == "side":
            reading = with_choice(reading, {"side": self.side})
            outcome = look_up((reading,), book, vocabulary, today)
        if self.measured is not None:
            # a figure has its unit by now, so that there is always an outcome
            outcome = held_against(outcome, self.measured, False) or outcome
        return reading, outcome

    def _ask(self, vocabulary: Vocabulary) -> Ask:
        properties: tuple[str, ...] = (self.property,)
        if self.measured is not None and self.property in (*THICKNESSES, DIAMETER):
            held = vocabulary.components[self.component].properties
            around = (VARIATION,) if self.measured.readings else ()
            properties = tuple(name for name in (*THICKNESSES, DIAMETER, *around) if name in held)
        place = Place(
            tuple(word for word in self.place if word in ("front", "rear")),
            (),
            tuple(word for word in self.place if word in ("upper", "lower")),
            tuple(word for word in self.place if word in ("inner", "outer")),
        )
        return replace(Ask((self.component,), properties=properties, place=place), named=True)
