"""One message of one person in one chat becomes one turn: read, looked up, put on record, replied to."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime, timedelta
from types import TracebackType

from benchbot.book.reader import Book
from benchbot.calculators.conversion import calculate
from benchbot.conversation.context import in_context, with_choice
from benchbot.conversation.judging import is_chat_about_work, leaves_the_vehicle, only_a_number, unknown_vehicle
from benchbot.conversation.past import Past
from benchbot.conversation.typed_choices import typed_choice
from benchbot.lookup.lookup import RANGE_CHOSEN, look_up
from benchbot.outcomes import Answer, Calculation, Choose, Gap, Missing, Other, Outcome, Subject
from benchbot.places import Home
from benchbot.records.record import Entry, GapEntry, Record, open_record
from benchbot.reply.compose import Reply, compose
from benchbot.understanding.lexicon import Lexicon
from benchbot.understanding.reader import Reader
from benchbot.understanding.reading import Ask, Reading, VehicleRead
from benchbot.vocabulary.terms import Vocabulary

_SHORT = 4


VEHICLE_KEPT = timedelta(hours=4)


@dataclass(frozen=True, slots=True)
class Turn:
    """What came of one message: the outcome, how it was read, the gap logged (or None), and the reply to show."""

    outcome: Outcome
    reading: Reading
    gap: int | None
    reply: Reply
    first: bool


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

    def _newest_book(self) -> None:
        """Takes the book that was published since; a withdrawn row must not speak from an open chat."""
        if self.book.replaced:
            newer = Book.open(self.book.path)
            self.book.close()
            self._take(newer, newer.vocabulary())

    @classmethod
    def open(cls, home: Home, clock: Callable[[], datetime] = _now) -> Conversation:
        """Opens the book and the record of a home. Raises BookError when no book has been published yet."""
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

    def say(self, chat: str, person: str, text: str, message: str | None = None) -> Turn:
        """Answers one message. The turn is on record before it is returned."""
        self._newest_book()
        now = self._clock()
        stored = self.record.chat_state(chat, now)
        past = Past.from_text(stored) if stored else Past()
        number = typed_choice(text, past)
        if number is not None:
            return self._chosen(chat, person, text, number, past, now, message)
        sum_asked = calculate(text)
        if sum_asked is not None:
            return self._finish(chat, person, text, (Reading(),), sum_asked, past, now, message, stored is None)
        asked_build = any(choice.get("stated", ("",))[0] == "build" for choice in past.choices)
        readings, completed = self.read(f"built {text}" if asked_build and len(text) < 20 else text, past, now)
        outcome = self._outcome(readings, completed, past, now)
        return self._finish(chat, person, text, completed, outcome, past, now, message, stored is None)

    def press(self, chat: str, person: str, number: int) -> Turn:
        """Takes choice `number` (from 1) of the chat's pending question."""
        self._newest_book()
        now = self._clock()
        stored = self.record.chat_state(chat, now)
        past = Past.from_text(stored) if stored else Past()
        return self._chosen(chat, person, str(number), number, past, now, None)

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

    def _outcome(
        self, readings: tuple[Reading, ...], completed: tuple[Reading, ...], past: Past, now: datetime
    ) -> Outcome:
        first, whole = readings[0], completed[0]
        if first.kind == "too long":
            return Other("too long")
        if first.kind == "out of scope":
            return Other("out of scope")
        if first.kind in ("small talk", "nothing"):
            return Other("small talk" if first.kind == "small talk" else "not understood")
        if is_chat_about_work(first):
            return Other("small talk")
        if first.kind == "question" and not whole.asks and not whole.unknown_part and whole.vehicle.state == "none":
            # "torque?" is a question that lost its fastener; a tool named in passing is none
            short = len([note for note in first.notes if note.how != "a mark"]) <= _SHORT
            return Choose("component", "", "", (), Subject()) if short else Other("small talk")
        if not whole.asks and not whole.unknown_part and not (whole.properties or whole.vague):
            return self._nothing_asked(first, whole, now)
        if "negated vehicle" in first.signs and first.vehicle.state == "none":
            return Other("not understood")
        if only_a_number(first) and whole.asks:
            # "and the 320?": a number that nobody asked for must not bring the last answer up again
            return Other("not understood")
        unknown = unknown_vehicle(first, whole)
        if unknown:
            strange = (*first.left_over, *([first.unknown_part] if first.unknown_part else []))
            subject = Subject(model=" ".join((whole.vehicle.said, *strange)).strip(), years=first.years)
            return Gap((Missing(unknown, " ".join(strange), subject),))
        return look_up(completed, self.book, self.lexicon.vocabulary, now.date())

    def _nothing_asked(self, first: Reading, whole: Reading, now: datetime) -> Outcome:
        """A vehicle was named, or a slot of it, and nothing was asked."""
        if first.vehicle.state == "none" and whole.vehicle.state == "none":
            return Other("nothing asked")
        if whole.vehicle.state == "named" and len(whole.vehicle.ids) == 1:
            if first.left_over:
                return Other("not understood")
            name = self.book.vehicle(whole.vehicle.ids[0])
            held = tuple(dict.fromkeys(row.component for row in self.book.specs_of(whole.vehicle.ids, now.date())))
            return Other("vehicle set", Subject(name.make, name.model, whole.years), held)
        if first.vehicle.state in ("part", "make", "several", "conflict"):
            return Other("vehicle set", Subject(model=whole.vehicle.said, years=whole.years))
        return Other("nothing asked")

    def _chosen(
        self, chat: str, person: str, text: str, number: int, past: Past, now: datetime, message: str | None
    ) -> Turn:
        if not 1 <= number <= len(past.choices):
            return self._finish(chat, person, text, (Reading(),), Other("nothing asked"), past, now, message, False)
        states = past.choices[number - 1]
        if "text" in states:
            return self.say(chat, person, str(states["text"]), message)
        base = Reading(
            kind="question",
            vehicle=self._remembered(past),
            years=past.years,
            stated=past.stated,
            excluded=past.excluded,
            asks=past.asks,
            left_over=past.left_over,
            only_rows=past.only_rows,
            signs=frozenset({RANGE_CHOSEN} if past.year_range else ()),
        )
        if "vehicle" in states:
            make, model = states["vehicle"]
            vehicle = self.book.find_vehicle(make, model)
            ids = () if vehicle is None else (vehicle,)
            base = replace(base, vehicle=VehicleRead("named" if ids else "unknown", ids, None, f"{make} {model}"))
        if "typed" in states:
            about = Subject(model=base.vehicle.said, years=base.years)
            outcome: Outcome = Choose("vehicle" if len(base.vehicle.ids) > 1 else "year", "", "", (), about)
            return self._finish(chat, person, text, (base,), outcome, past, now, message, False)
        reading = with_choice(base, states)
        if not reading.asks:
            outcome = self._nothing_asked(reading, reading, now)
        else:
            outcome = look_up((reading,), self.book, self.lexicon.vocabulary, now.date())
        return self._finish(chat, person, text, (reading,), outcome, past, now, message, False)

    def _finish(
        self,
        chat: str,
        person: str,
        text: str,
        readings: tuple[Reading, ...],
        outcome: Outcome,
        past: Past,
        now: datetime,
        message: str | None,
        first: bool,
    ) -> Turn:
        reading = readings[0]
        state = self._next_past(reading, readings, outcome, past)
        shown: tuple[tuple[str, int], ...] = ()
        gap: GapEntry | None = None
        if isinstance(outcome, Answer):
            shown = tuple((finding.row.spec, finding.row.revision) for finding in outcome.findings)
            gap = _gap_entry(outcome.missing)
        elif isinstance(outcome, Gap):
            gap = _gap_entry(outcome.missing)
        body = json.dumps(_plain_reading(reading), ensure_ascii=False)
        entry = Entry(
            chat=chat,
            person=person,
            message=message,
            text=text[:4000],
            at=now,
            outcome=type(outcome).__name__.lower(),
            reading=body,
            reply=json.dumps([spec for spec, _ in shown]),
            specs=shown,
            book_version=self.book.version,
            gap=gap,
            state=state.to_text(),
            expires_at=now + VEHICLE_KEPT,
        )
        number = self.record.put(entry)
        reply = compose(outcome, reading, number, self.lexicon.vocabulary, first)
        return Turn(outcome, reading, number, reply, first)

    def _next_past(self, reading: Reading, readings: tuple[Reading, ...], outcome: Outcome, past: Past) -> Past:
        """What the chat remembers after this turn; small talk and sums change nothing."""
        if leaves_the_vehicle(reading, outcome):
            return Past()
        if isinstance(outcome, Calculation) or (isinstance(outcome, Other) and outcome.what != "vehicle set"):
            return past
        options = outcome.options if isinstance(outcome, Choose) else ()
        if isinstance(outcome, Choose) and outcome.about == "unit":
            return replace(past, choices=tuple(o.states for o in options), labels=tuple(o.label for o in options))
        asks = reading.asks
        if len(readings) > 1 and isinstance(outcome, Choose):
            asks = _asks_of_all(readings)
        if not asks and options and isinstance(outcome, Choose) and outcome.about == "component":
            # "runout?" asked of no component yet: the choice will name it
            names_offered = tuple(str(option.states["component"]) for option in options if "component" in option.states)
            named = bool(reading.properties)
            asks = (Ask(names_offered, True, "", reading.properties, not named, reading.place, named),)
        names = tuple(self.book.vehicle(one) for one in reading.vehicle.ids[:40])
        unknown = reading.vehicle.state == "unknown" or (isinstance(outcome, Gap) and not names)
        return Past(
            vehicles=tuple((name.make, name.model) for name in names),
            state="none" if unknown else reading.vehicle.state,
            said=reading.vehicle.said,
            years=reading.years,
            year_range=RANGE_CHOSEN in reading.signs,
            stated=reading.stated,
            excluded=reading.excluded,
            asks=asks,
            left_over=(*reading.left_over, *([reading.unknown_part] if reading.unknown_part else [])),
            only_rows=reading.only_rows,
            answered=isinstance(outcome, (Answer, Gap, Other)),
            choices=tuple(option.states for option in options),
            labels=tuple(option.label for option in options),
        )


def _asks_of_all(readings: tuple[Reading, ...]) -> tuple[Ask, ...]:
    first = readings[0].asks[0] if readings[0].asks else None
    components = tuple(dict.fromkeys(c for r in readings for ask in r.asks for c in ask.components))
    return (replace(first, components=components, always=True),) if first else readings[0].asks


def _gap_entry(missing: tuple[Missing, ...]) -> GapEntry | None:
    if not missing:
        return None
    first = missing[0]
    return GapEntry(reason=first.reason, detail=json.dumps([asdict(one) for one in missing], ensure_ascii=False))


def _plain_reading(reading: Reading) -> dict[str, object]:
    """The reading as it goes on record: slots and words, without what can be looked up again."""
    return {
        "kind": reading.kind,
        "vehicle": reading.vehicle.said,
        "years": reading.years,
        "stated": [[one.key, one.value] for one in reading.stated],
        "asks": [[list(ask.components), list(ask.properties), list(ask.place.axles)] for ask in reading.asks],
        "left_over": reading.left_over,
        "unknown_part": reading.unknown_part,
        "words": [str(note) for note in reading.notes if note.how != "a mark"],
    }
