"""One message of one person in one chat becomes one turn: read, looked up, put on record, replied to."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import nullcontext
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from functools import partial
from types import TracebackType

from benchbot.book.reader import Book
from benchbot.calculators.asked import calculate
from benchbot.conversation.context import as_remembered, in_context, with_choice
from benchbot.conversation.deciding import nothing_asked, outcome_of
from benchbot.conversation.lift import OFFERED, Lift
from benchbot.conversation.manner import PLAIN, VEHICLE_KEPT, Aside, InHand, Manner
from benchbot.conversation.measurements import Judgement, Measurements, open_still
from benchbot.conversation.of_work import is_about_vehicle, nothing_better
from benchbot.conversation.past import Past
from benchbot.conversation.recorded import gap_entry, plain_reading, shown_of
from benchbot.conversation.remembering import next_past
from benchbot.conversation.standing import standing
from benchbot.conversation.steps import STEP, Bench, Steps, Work, bare
from benchbot.conversation.typed_choices import typed_choice
from benchbot.conversation.wanted import Wanted
from benchbot.conversation.which_lift import names_only_a_part, on_lift, which_lift
from benchbot.lookup.lookup import look_up
from benchbot.measuring.measured import Measured
from benchbot.outcomes import Answer, Choose, Gap, Other, Outcome, Procedure, Subject
from benchbot.places import Home
from benchbot.records import lifts, step_overrides
from benchbot.records.notes import questioned
from benchbot.records.record import Entry, Record, open_record
from benchbot.records.swapping import settle
from benchbot.reply.compose import Reply, compose
from benchbot.understanding.lexicon import Lexicon
from benchbot.understanding.reader import Reader
from benchbot.understanding.reading import Reading, VehicleRead
from benchbot.vocabulary.terms import Vocabulary

__all__ = ["VEHICLE_KEPT", "Conversation", "Turn"]


@dataclass(frozen=True, slots=True)
class Turn:
    """What came of one message: the outcome, how it was read, the gap logged (or None), and the reply to show.

    answer: its number on record; before: the chat's memory when it came; fresh: it was not on record before.
    in_hand: the job that whoever asked had in hand then.
    """

    outcome: Outcome
    reading: Reading
    gap: int | None
    reply: Reply
    first: bool
    answer: int = 0
    before: str | None = None
    fresh: bool = True
    in_hand: InHand | None = None


Beside = Callable[[Turn], None]


@dataclass(frozen=True, slots=True)
class _Asking:
    """One message on its way: who asks, where, how the place is served, and what else goes on record with it."""

    chat: str
    person: str
    text: str
    message: str | None
    now: datetime
    stored: str | None
    past: Past
    manner: Manner
    beside: Beside | None
    aside: Aside | None = None
    on_record: bool = True


def _now() -> datetime:
    return datetime.now(UTC)


class Conversation:
    """Serves any number of chats from one book and one record; it knows nothing of the channel."""

    def __init__(
        self, book: Book, vocabulary: Vocabulary, record: Record, clock: Callable[[], datetime] = _now
    ) -> None:
        self.record = record
        self._clock = clock
        self._take(book, vocabulary)

    def _take(self, book: Book, vocabulary: Vocabulary) -> None:
        self.book = book
        self.lexicon = Lexicon(vocabulary)
        self.lexicon.add_values(book.qualifiers())
        self._reader = Reader(self.lexicon, book)
        self._steps = Steps(book, vocabulary)

    def newest_book(self) -> None:
        """Takes the book that was published since; a withdrawn row must not speak from an open chat."""
        if self.book.replaced:
            newer = Book.open(self.book.path)
            self.book.close()
            self._take(newer, newer.vocabulary())

    @classmethod
    def open(cls, home: Home, clock: Callable[[], datetime] = _now) -> Conversation:
        """Opens the book and the record of a home. Raises BookError when no book has been published yet."""
        settle(home)
        book = Book.open(home.book)
        return cls(book, book.vocabulary(), open_record(home), clock)

    def __enter__(self) -> Conversation:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        self.record.close()
        self.book.close()

    def say(
        self,
        chat: str,
        person: str,
        text: str,
        message: str | None = None,
        manner: Manner = PLAIN,
        beside: Beside | None = None,
        aside: Aside | None = None,
    ) -> Turn:
        """Answers one message. The turn is on record before it is returned.

        beside: puts more on record in the same transaction, once the turn is known.
        """
        asking = self._asking(chat, person, text, message, manner, beside, aside)
        number = typed_choice(text, asking.past)
        return self._said(asking) if number is None else self._chosen(asking, number)

    def press(self, chat: str, person: str, number: int, manner: Manner = PLAIN, beside: Beside | None = None) -> Turn:
        """Takes choice `number` (from 1) of the chat's pending question."""
        return self._chosen(self._asking(chat, person, str(number), None, manner, beside, None), number)

    def consider(self, said: str | int, before: str | None, manner: Manner = PLAIN) -> Turn:
        """What comes of a message, or of choice number `said`, with a chat's memory; nothing goes on record.

        Said again with the memory that the chat had then, and the job in hand, a message has its former outcome, or the
        book has changed.
        """
        asking = replace(self._asking("", "", str(said), None, manner, None, Aside(before)), on_record=False)
        number = said if isinstance(said, int) else typed_choice(said, asking.past)
        return self._said(asking) if number is None else self._chosen(asking, number)

    def want(self, chat: str, person: str, text: str, message: str, wanted: Wanted, manner: Manner = PLAIN) -> Turn:
        """What the work in hand wants to know of its vehicle: on record as any question, and no chat remembers it.

        text: how it goes on record; message: names it, so that it is on record once however often it is shown.
        """
        asking = self._asking(chat, person, text, message, manner, None, Aside(None))
        reading, outcome = wanted.outcome(self.book, self.lexicon.vocabulary, asking.now.date())
        return self._finish(asking, (reading,), outcome)

    def lifts(self, chat: str, count: int = OFFERED) -> list[Lift]:
        """The last vehicles on the lift of a chat, the latest first, as far as the book still knows them."""
        held = (Lift.from_text(one) for one in lifts.latest(self.record, chat, count))
        return [one for one in held if self.book.find_vehicle(one.make, one.model) is not None]

    def _asking(
        self,
        chat: str,
        person: str,
        text: str,
        message: str | None,
        manner: Manner,
        beside: Beside | None,
        aside: Aside | None,
    ) -> _Asking:
        self.newest_book()
        now = self._clock()
        stored = aside.before if aside is not None else self.record.chat_state(chat, now)
        past = Past.from_text(stored) if stored else Past()
        return _Asking(chat, person, text, message, now, stored, past, manner, beside, aside)

    def _said(self, asking: _Asking) -> Turn:
        text, past = asking.text, asking.past
        sum_asked = calculate(text, past.begun)
        measurements = self._measurements(past, asking.now)
        judged = measurements.of(text, past)
        if judged is not None and (sum_asked is None or judged.has_verdict):
            # "pads at 1 mm, can i drive it": nothing to judge it by, but a rule of the work
            lost = not judged.has_verdict and nothing_better(judged.readings[0], judged.outcome)
            asks = lost and not is_about_vehicle(judged.outcome)
            work = self._work(asking, judged.readings[0], judged.completed[0], judged.outcome) if asks else None
            if work is None:
                return self._judged(asking, judged)
            return self._finish(asking, (work.reading,), work.outcome)
        if sum_asked is not None:
            return self._finish(asking, (Reading(),), sum_asked)
        asked_build = any(choice.get("stated", ("",))[0] == "build" for choice in past.choices)
        plain = measurements.plain(text)
        readings, completed = self.read(
            f"built {plain}" if asked_build and len(plain) < 20 else plain, past, asking.now
        )
        outcome = outcome_of(readings, completed, self.book, self.lexicon.vocabulary, asking.now.date())
        work = self._work(asking, readings[0], completed[0], outcome)
        if work is not None:
            return self._finish(asking, (work.reading,), work.outcome)
        choose = self._which_lift(asking, readings[0], outcome)
        # the vehicle that was doubted is left out of the chat's memory until one is chosen
        kept = completed if choose is None else readings
        return self._finish(asking, kept, measurements.unclear(text, choose or outcome))

    def _work(self, asking: _Asking, reading: Reading, completed: Reading, outcome: Outcome) -> Work | None:
        return self._steps.of(asking.text, reading, completed, outcome, self._bench(asking))

    def _measurements(self, past: Past, now: datetime) -> Measurements:
        vocabulary, today = self.lexicon.vocabulary, now.date()
        return Measurements(
            vocabulary,
            lambda word: bool(self.book.words(word)),
            lambda text: self.read(text, past, now),
            lambda readings, completed: outcome_of(readings, completed, self.book, vocabulary, today),
        )

    def _judged(self, asking: _Asking, judged: Judgement) -> Turn:
        choose = self._which_lift(asking, judged.readings[0], judged.outcome)
        if choose is not None:
            return self._finish(asking, judged.readings, choose, measured=judged.measured)
        return self._finish(asking, judged.completed, judged.outcome, measured=judged.measured)

    def _which_lift(self, asking: _Asking, first: Reading, outcome: Outcome) -> Choose | None:
        """Offers the vehicles that were on the lift where the message names none and it is not beyond doubt."""
        unknown = isinstance(outcome, Choose) and outcome.about == "vehicle" and not outcome.options
        doubted = asking.manner.asks_again and not asking.past.settled and not isinstance(outcome, Other)
        if not (unknown or doubted) or not names_only_a_part(first):
            return None
        return which_lift(self.lifts(asking.chat), first, self.book, self.lexicon.vocabulary, asking.now.date())

    def read(self, text: str, past: Past, now: datetime) -> tuple[tuple[Reading, ...], tuple[Reading, ...]]:
        """The readings of the message by itself, and completed from the chat's memory."""
        remembered = self._remembered(past)
        makes = {self.book.make_of(one) for one in remembered.ids}
        make = makes.pop() if len(makes) == 1 else None
        readings = self._reader.read(text, now.date(), make)
        return readings, tuple(in_context(one, past, remembered, self.lexicon) for one in readings)

    def _remembered(self, past: Past) -> VehicleRead:
        """The vehicle on the lift, by its ids in the present book."""
        ids = [self.book.find_vehicle(make, model) for make, model in past.vehicles]
        known = tuple(one for one in ids if one is not None)
        if past.state == "none" or not known:
            return VehicleRead()
        return VehicleRead(past.state, known, None, past.said)  # type: ignore[arg-type]

    def _chosen(self, asking: _Asking, number: int) -> Turn:
        past = asking.past
        if not 1 <= number <= len(past.choices):
            return self._finish(asking, (Reading(),), Other("nothing asked"))
        states = past.choices[number - 1]
        if "text" in states:
            return self._said(replace(asking, text=str(states["text"])))
        base = as_remembered(past, self._remembered(past))
        if STEP in states:
            step = self._steps.chosen(states, base, self._bench(asking)) or Other("nothing asked")
            return self._finish(asking, (bare(base),), step)
        if "lift" in states:
            base = on_lift(base, Lift.from_plain(states["lift"]), self.book)
        if "vehicle" in states:
            make, model = states["vehicle"]
            vehicle = self.book.find_vehicle(make, model)
            ids = () if vehicle is None else (vehicle,)
            base = replace(base, vehicle=VehicleRead("named" if ids else "unknown", ids, None, f"{make} {model}"))
        if "typed" in states:
            about = Subject(model=base.vehicle.said, years=base.years)
            outcome: Outcome = Choose("vehicle" if len(base.vehicle.ids) > 1 else "year", "", "", (), about)
            return self._finish(asking, (base,), outcome, measured=past.measured)
        reading = with_choice(base, states)
        if past.measured is not None:
            measurements = self._measurements(past, asking.now)
            judged = measurements.chosen(reading, past.measured, states)
            if judged is not None:
                return self._finish(asking, judged.completed, judged.outcome, "lift" in states, judged.measured)
        if not reading.asks:
            outcome = nothing_asked(reading, reading, self.book, asking.now.date())
        else:
            outcome = look_up((reading,), self.book, self.lexicon.vocabulary, asking.now.date())
        return self._finish(asking, (reading,), outcome, settles="lift" in states)

    def _bench(self, asking: _Asking) -> Bench:
        doubted = asking.manner.asks_again and not asking.past.settled
        place = asking.manner.location
        own = partial(step_overrides.shop_says, self.record, place)
        return Bench(not doubted, asking.now.date(), own, asking.manner.in_hand)

    def _standing(self, answer: Answer) -> Answer | Gap:
        """What the record lets stand of it: a row that was withdrawn is silent before the next book is."""
        still = standing(answer, self.record)
        return self._marked(still) if isinstance(still, Answer) else still

    def _marked(self, answer: Answer) -> Answer:
        """The answer with the rows that somebody doubts marked, whoever asks, until a curator has settled it."""
        shown = [(finding.row.spec, finding.row.revision) for finding in answer.findings]
        since = questioned(self.record, shown)
        if not since:
            return answer
        findings = (
            replace(one, questioned=since[one.row.spec].isoformat()) if one.row.spec in since else one
            for one in answer.findings
        )
        return replace(answer, findings=tuple(findings))

    def _finish(
        self,
        asking: _Asking,
        readings: tuple[Reading, ...],
        outcome: Outcome,
        settles: bool = False,
        measured: Measured | None = None,
    ) -> Turn:
        """Puts the turn on record, with all that goes with it or not at all."""
        reading, manner, now = readings[0], asking.manner, asking.now
        if isinstance(outcome, Answer):
            outcome = self._standing(replace(outcome, units=manner.units))
        elif isinstance(outcome, Procedure):
            outcome = outcome.with_answers(lambda one: self._standing(replace(one, units=manner.units)))
        if not asking.on_record:
            reply = compose(outcome, reading, None, self.lexicon.vocabulary, asking.stored is None, manner.language)
            first = asking.stored is None
            return Turn(outcome, reading, None, reply, first, before=asking.stored, in_hand=manner.in_hand)
        held = open_still(outcome, measured)
        past = next_past(readings, outcome, asking.past, self.book, manner.language, held)
        past = replace(past, settled=True) if settles else past
        shown = shown_of(outcome)
        goes_on = asking.aside is None or asking.aside.goes_on
        entry = Entry(
            chat=asking.chat,
            person=asking.person,
            message=asking.message,
            text=asking.text[:4000],
            at=now,
            outcome=type(outcome).__name__.lower(),
            reading=plain_reading(reading),
            reply=json.dumps([spec for spec, _ in shown]),
            specs=shown,
            book_version=self.book.version,
            gap=gap_entry(outcome, reading, asking.stored, self.book, self.lexicon),
            state=past.to_text() if goes_on else None,
            expires_at=now + manner.kept,
            location=manner.location,
            instead_of=None if asking.aside is None else asking.aside.instead_of,
        )
        lift = Lift.of(past) if goes_on else None
        with nullcontext() if asking.beside is None else self.record.writing():
            kept = self.record.put(entry)
            if lift is not None and kept.fresh:
                lifts.put(self.record, asking.chat, lift.to_text(), now)
            reply = compose(outcome, reading, kept.gap, self.lexicon.vocabulary, asking.stored is None, manner.language)
            before, job = asking.stored, manner.in_hand
            turn = Turn(outcome, reading, kept.gap, reply, before is None, kept.answer, before, kept.fresh, job)
            if asking.beside is not None:
                asking.beside(turn)
        return turn
