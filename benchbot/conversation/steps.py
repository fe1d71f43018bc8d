"""Questions about the work: finds the step that is meant, and pulls what it tightens with from the book."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import Any

from benchbot.book.reader import Book
from benchbot.conversation.of_work import (
    OF_THE_VEHICLE,
    asks_the_book,
    axles_of,
    is_bare,
    nothing_better,
    without_vehicle,
)
from benchbot.lookup.lookup import look_up
from benchbot.outcomes import Answer, Choose, Gap, Option, Outcome, Procedure, Pulled, Subject
from benchbot.procedures.finding import Finder, Found, Hit
from benchbot.procedures.showing import axle_of
from benchbot.procedures.steps import Procedures, Step, Tighten
from benchbot.procedures.wording import words_of
from benchbot.understanding.reading import Ask, Place, Reading, VehicleRead, WordNote
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

# What a choice states: the key of a step, the id of the procedure it is done in, the axles that were said, whether it
# stays open which vehicle is meant, and how a step is gone on from.
STEP, IN, AXLES, OPEN, GO = "step", "in", "axles", "open", "go"
NEXT, LIST = "next step", "whole list"
_LABELS = {NEXT: "Next step", LIST: "Whole list"}
OF_THE_WORK = "a question about the work"


@dataclass(frozen=True, slots=True)
class Bench:
    """Where a question about the work is asked.

    settled: whether the vehicle on the lift is beyond doubt. shop_says: procedure -> the shop's own words for its
    steps, by the key of the step.
    """

    settled: bool
    today: date
    shop_says: Callable[[str], Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class Work:
    """The step that is meant, or a question back, and the reading as it is kept: of the vehicle, and no more."""

    reading: Reading
    outcome: Procedure | Choose


class Steps:
    """The procedures of one book; the finder is made when the first question needs it."""

    def __init__(self, book: Book, vocabulary: Vocabulary) -> None:
        self._book = book
        self._vocabulary = vocabulary

    @cached_property
    def _procedures(self) -> Procedures | None:
        return self._book.procedures()

    @cached_property
    def _finder(self) -> Finder | None:
        return Finder(self._procedures, self._vocabulary) if self._procedures is not None else None

    def of(self, text: str, reading: Reading, completed: Reading, outcome: Outcome, bench: Bench) -> Work | None:
        """The step that a message is about, a question back, or None where it asks nothing of the work.

        reading: the message by itself; completed: with what the chat remembers; outcome: what the book says to it.
        """
        words = tuple(word for word in words_of(text) if word)
        if not words or reading.kind == "too long" or asks_the_book(reading, completed, outcome, words):
            return None
        if self._finder is None:
            return None
        asked = without_vehicle(words, reading)
        if is_bare(reading) and self._finder.only_names(asked):
            return None
        axles = axles_of(reading)
        found = self._finder.find(asked, _components(reading), axles)
        if found.verdict == "none" and nothing_better(reading, outcome):
            found = self._finder.perhaps(asked, axles)
        if found.verdict == "none" or (found.verdict == "ask" and isinstance(outcome, Answer)):
            return None
        vehicle, open_ = _noted(completed), False
        if reading.vehicle.state == "none":
            open_ = self._speaks_of_another(reading, asked)
            vehicle = _no_vehicle(vehicle, reading.years if open_ else ()) if open_ or not bench.settled else vehicle
        if found.verdict == "ask":
            return Work(vehicle, _choose(found, axles, self._finder.procedures, open_))
        hit = found.hits[0]
        inside = _procedure_of(hit, axles, self._finder.procedures)
        return Work(vehicle, self.shown(hit.step, inside, axles, vehicle, bench, open_))

    def chosen(self, states: Mapping[str, Any], reading: Reading, bench: Bench) -> Procedure | None:
        """The step that a choice states; None where the book has it no more."""
        held = self._procedures
        if held is None or states[STEP] not in held.steps or (states[IN] and states[IN] not in held.procedures):
            return None
        open_ = bool(states[OPEN])
        vehicle = _no_vehicle(reading) if open_ or not bench.settled else reading
        shown = self.shown(held.steps[states[STEP]], states[IN], tuple(states[AXLES]), vehicle, bench, open_)
        if states.get(GO) != LIST or not states[IN]:
            return shown
        listed = tuple(_titled(one) for one in held.steps_of(states[IN]))
        return replace(shown, pulled=(), listed=listed, options=shown.options[:-1])

    def shown(
        self, step: Step, inside: str, axles: tuple[str, ...], reading: Reading, bench: Bench, open_: bool
    ) -> Procedure:
        """A step with what the book holds for it.

        inside: the id of the procedure it is done in, "" for none. open_: which vehicle is meant stays open.
        """
        held = self._procedures
        assert held is not None  # the step came out of it
        axle = axle_of(held, step.key, axles, inside)
        pulled = tuple(Pulled(one, self._pulled(one, axle, reading, bench.today)) for one in step.tighten)
        if not inside:
            return Procedure(step, axle=axle, shop_says=self._own(step.key, held, bench), pulled=pulled)
        own = bench.shop_says(inside).get(step.key, "")
        keys = held.procedures[inside].steps
        at = keys.index(step.key)
        options = []
        if at + 1 < len(keys):
            options.append(Option(_LABELS[NEXT], _states(keys[at + 1], inside, axles, open_) | {GO: NEXT}, ()))
        options.append(Option(_LABELS[LIST], _states(step.key, inside, axles, open_) | {GO: LIST}, ()))
        title = held.procedures[inside].title
        return Procedure(step, inside, title, at + 1, len(keys), axle, own, pulled, (), tuple(options))

    def _own(self, key: str, held: Procedures, bench: Bench) -> str:
        """The shop's own words for a step of several procedures, each under the title of its own."""
        said = ((held.procedures[name].title, bench.shop_says(name).get(key, "")) for name in held.holding(key))
        return " ".join(f"{title}: {text}" for title, text in said if text)

    def _pulled(self, tighten: Tighten, axle: str, reading: Reading, today: date) -> Answer | Choose | Gap | None:
        """What the book answers to a plain question for the torque of this fastener."""
        if reading.vehicle.state == "none":
            return None
        ask = Ask((tighten.component,), properties=("torque",), place=_place(tighten.position(axle)), named=True)
        found = look_up((bare(reading, (ask,)),), self._book, self._vocabulary, today)
        return found if isinstance(found, (Answer, Choose, Gap)) else None

    def _speaks_of_another(self, reading: Reading, asked: tuple[str, ...]) -> bool:
        """Whether a word that nobody knows may be the name of a vehicle that is not the one on the lift."""
        assert self._finder is not None
        if reading.signs & {"next_vehicle", "negated vehicle"}:
            return True
        left = {w for text in (*reading.left_over, reading.unknown_part) for w in name_words(text)}
        return bool(left & self._finder.strange(asked))


def bare(reading: Reading, asks: tuple[Ask, ...] = ()) -> Reading:
    """The vehicle of a reading and what was stated of it, without the words of the message."""
    return Reading(
        kind="question",
        vehicle=reading.vehicle,
        years=reading.years,
        stated=reading.stated,
        excluded=reading.excluded,
        unsure=reading.unsure,
        conditions=reading.conditions,
        asks=asks,
        signs=reading.signs,
        notes=reading.notes,
    )


def _components(reading: Reading) -> tuple[str, ...]:
    return tuple(name for ask in reading.asks for name in ask.components)


def _no_vehicle(reading: Reading, years: tuple[int, ...] = ()) -> Reading:
    return replace(reading, vehicle=VehicleRead(), years=years, stated=(), excluded=())


def _noted(reading: Reading) -> Reading:
    """The reading as it is kept: words that do not speak of the vehicle ask of the work, whatever they may name."""
    return replace(bare(reading), notes=tuple(_note(note) for note in reading.notes))


def _note(note: WordNote) -> WordNote:
    of_the_vehicle = note.role in (*OF_THE_VEHICLE, "qualifier")
    return note if of_the_vehicle or note.how == "a mark" else WordNote(note.word, "sign", OF_THE_WORK)


def _states(key: str, inside: str, axles: tuple[str, ...], open_: bool) -> dict[str, Any]:
    return {STEP: key, IN: inside, AXLES: list(axles), OPEN: open_}


def _procedure_of(hit: Hit, axles: tuple[str, ...], held: Procedures) -> str:
    """The one procedure that the step is done in, of several the one of the axle that was said; "" for none."""
    fits = [name for name in hit.procedures if not axles or held.procedures[name].axle in axles] or hit.procedures
    return fits[0] if len(fits) == 1 else ""


def _choose(found: Found, axles: tuple[str, ...], held: Procedures, open_: bool) -> Choose:
    twice = {label for label in found.differ if found.differ.count(label) > 1}
    options = tuple(
        Option(
            f"{label}: {hit.step.title}" if label in twice else label,
            _states(hit.step.key, _procedure_of(hit, axles, held), axles, open_),
            (),
        )
        for hit, label in zip(found.hits, found.differ, strict=True)
    )
    return Choose("step", "", "", options, Subject())


def _titled(step: Step) -> str:
    return f"{step.title} ({step.only_if})" if step.only_if else step.title


def _place(position: tuple[str, ...]) -> Place:
    def said(*words: str) -> tuple[str, ...]:
        return tuple(word for word in position if word in words)

    return Place(said("front", "rear"), said("left", "right"), said("upper", "lower"), said("inner", "outer"))
