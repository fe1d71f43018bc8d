"""Questions about the work: finds the step that is meant, and pulls what it tightens with from the book."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property, partial
from typing import Any

from benchbot.book.reader import Book
from benchbot.conversation.at_the_job import is_of_its_vehicle, speaks_against
from benchbot.conversation.manner import InHand
from benchbot.conversation.of_work import (
    OF_THE_VEHICLE,
    asks_the_book,
    axles_kept,
    axles_of,
    is_bare,
    nothing_better,
    without_vehicle,
)
from benchbot.conversation.stud_count import studs_in
from benchbot.lookup.lookup import look_up
from benchbot.outcomes import Answer, Choose, Gap, Option, Outcome, Picture, Procedure, Pulled, Subject
from benchbot.procedures.finding import Finder, Found, Hit
from benchbot.procedures.showing import axle_of
from benchbot.procedures.steps import Procedures, Step, Tighten
from benchbot.procedures.wording import words_of
from benchbot.understanding.reading import Ask, Place, Reading, VehicleRead, WordNote
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

# What a choice states: the key of a step, the id of the procedure it is done in, the axles that were said, what is
# known to be fitted, whether it stays open which vehicle is meant, how many studs were named, and how a step is gone
# on from.
STEP, IN, AXLES, FITTED, OPEN, STUDS, GO = "step", "in", "axles", "fitted", "open", "studs", "go"
NEXT, LIST, INSTEAD = "next step", "whole list", "instead"
_LABELS = {NEXT: "Next step", LIST: "Whole list"}
OF_THE_WORK = "a question about the work"


@dataclass(frozen=True, slots=True)
class Bench:
    """Where a question about the work is asked.

    settled: whether the vehicle on the lift is beyond doubt. shop_says: procedure -> the shop's own words for its
    steps, by the key of the step. in_hand: the job that whoever asks is at.
    """

    settled: bool
    today: date
    shop_says: Callable[[str], Mapping[str, str]]
    in_hand: InHand | None = None


@dataclass(frozen=True, slots=True)
class _Where:
    """Where in the work a step is shown: the procedure ("" for none), the axles said, what is known to be fitted.

    open: which vehicle is meant stays open. studs: how many the question named, 0 for none.
    """

    inside: str
    axles: tuple[str, ...]
    fitted: tuple[str, ...]
    open: bool
    studs: int = 0

    def states(self, key: str, **more: str) -> dict[str, Any]:
        """What a choice of that step states."""
        return {
            STEP: key, IN: self.inside, AXLES: list(self.axles), FITTED: list(self.fitted), OPEN: self.open,
            STUDS: self.studs, **more,
        }  # fmt: skip


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
        return (
            Finder(self._procedures, self._vocabulary, self._book.likeness()) if self._procedures is not None else None
        )

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
        axles, held = axles_of(reading), self._finder.procedures
        open_ = reading.vehicle.state == "none" and self._speaks_of_another(reading, asked)
        job = None if open_ else self._job(bench.in_hand, reading, completed, axles)
        figure = bool(reading.properties)
        found = self._finder.find(asked, _components(reading), axles, figure=figure)
        if job is not None and not speaks_against(job, found):
            found = self._finder.find(asked, _components(reading), axles, job.procedure, job.fitted, figure)
        else:
            job = None
        if found.offered and not nothing_better(reading, outcome):
            return None
        if found.verdict == "none" or (found.verdict == "ask" and isinstance(outcome, Answer)):
            return None
        vehicle = _noted(completed)
        if open_ or (reading.vehicle.state == "none" and not bench.settled):
            vehicle = _no_vehicle(vehicle, reading.years if open_ else ())
        axles = axles or axles_kept(reading, completed)
        where = partial(_where, axles=axles, held=held, job=job, open_=open_, studs=studs_in(text))
        if found.verdict == "ask":
            options = tuple(Option(label, where(hit).states(hit.step.key), ()) for hit, label in _told(found))
            return Work(vehicle, Choose("likely step" if found.offered else "step", "", "", options, Subject()))
        hit = found.hits[0]
        shown = self._shown(hit.step, where(hit), vehicle, bench)
        near = tuple(
            Option(one.step.title, where(one).states(one.step.key, **{GO: INSTEAD}), ())
            for one in found.hits[1 : 1 + found.close]
        )
        return Work(vehicle, replace(shown, options=(*near, *shown.options)))

    def _job(self, job: InHand | None, reading: Reading, completed: Reading, axles: tuple[str, ...]) -> InHand | None:
        """The job in hand, where the question can be about it: of its axle, and of no other vehicle."""
        held = self._procedures
        if job is None or held is None or job.procedure not in held.procedures:
            return None
        if axles and held.procedures[job.procedure].axle not in ("any", *axles):
            return None
        return job if is_of_its_vehicle(job, completed, self._book) else None

    def chosen(self, states: Mapping[str, Any], reading: Reading, bench: Bench) -> Procedure | None:
        """The step that a choice states; None where the book has it no more."""
        held = self._procedures
        if held is None or states[STEP] not in held.steps or (states[IN] and states[IN] not in held.procedures):
            return None
        # a chat from before jobs were asked about has nothing fitted, and one from before pictures no studs
        fitted, studs = tuple(states.get(FITTED, ())), int(states.get(STUDS, 0))
        where = _Where(states[IN], tuple(states[AXLES]), fitted, bool(states[OPEN]), studs)
        vehicle = _no_vehicle(reading) if where.open or not bench.settled else reading
        shown = self._shown(held.steps[states[STEP]], where, vehicle, bench)
        if states.get(GO) != LIST or not where.inside:
            return shown
        listed = tuple(_titled(one) for one in _steps_of(held, where, states[STEP]))
        return replace(shown, pulled=(), listed=listed, options=shown.options[:-1], picture=None)

    def _shown(self, step: Step, where: _Where, reading: Reading, bench: Bench) -> Procedure:
        """A step with what the book holds for it."""
        held, inside = self._procedures, where.inside
        assert held is not None  # the step came out of it
        axle = axle_of(held, step.key, where.axles, inside)
        pulled = tuple(Pulled(one, self._pulled(one, axle, reading, bench.today)) for one in step.tighten)
        picture = None if step.picture is None else Picture(step.picture, where.studs)
        if not inside:
            own = self._own(step.key, held, bench)
            return Procedure(step, axle=axle, shop_says=own, pulled=pulled, picture=picture)
        own = bench.shop_says(inside).get(step.key, "")
        keys = [one.key for one in _steps_of(held, where, step.key)]
        at = keys.index(step.key)
        options = []
        if at + 1 < len(keys):
            options.append(Option(_LABELS[NEXT], where.states(keys[at + 1], **{GO: NEXT}), ()))
        options.append(Option(_LABELS[LIST], where.states(step.key, **{GO: LIST}), ()))
        title = held.procedures[inside].title
        return Procedure(step, inside, title, at + 1, len(keys), axle, own, pulled, (), tuple(options), picture)

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


def _where(hit: Hit, axles: tuple[str, ...], held: Procedures, job: InHand | None, open_: bool, studs: int) -> _Where:
    """In the job in hand, else in the one procedure that has the step, of several in that of the axle that was said."""
    if job is not None and job.procedure in hit.procedures:
        return _Where(job.procedure, axles, job.fitted, open_, studs)
    fits = [name for name in hit.procedures if not axles or held.procedures[name].axle in axles] or hit.procedures
    return _Where(fits[0] if len(fits) == 1 else "", axles, (), open_, studs)


def _steps_of(held: Procedures, where: _Where, shown: str) -> tuple[Step, ...]:
    """The steps that are done where it is shown; the shown one is among them whatever is fitted."""
    fits = held.steps_of(where.inside, frozenset(where.fitted))
    return fits if any(one.key == shown for one in fits) else held.steps_of(where.inside)


def _told(found: Found) -> list[tuple[Hit, str]]:
    """Each hit with what tells it from the others; where that is said of two, with its title as well."""
    return [
        (hit, f"{label}: {hit.step.title}" if found.differ.count(label) > 1 else label)
        for hit, label in zip(found.hits, found.differ, strict=True)
    ]


def _titled(step: Step) -> str:
    return f"{step.title} ({step.only_if})" if step.only_if else step.title


def _place(position: tuple[str, ...]) -> Place:
    def said(*words: str) -> tuple[str, ...]:
        return tuple(word for word in position if word in words)

    return Place(said("front", "rear"), said("left", "right"), said("upper", "lower"), said("inner", "outer"))
