"""What a chat remembers after a turn."""

from __future__ import annotations

from dataclasses import replace

from benchbot.book.reader import Book
from benchbot.conversation.judging import leaves_the_vehicle
from benchbot.conversation.lift import Lift
from benchbot.conversation.past import Past
from benchbot.lookup.lookup import RANGE_CHOSEN
from benchbot.measuring.measured import Measured
from benchbot.outcomes import Answer, Calculation, Choose, Gap, Other, Outcome, Procedure
from benchbot.reply.choices import choices_of
from benchbot.reply.languages import wording_of
from benchbot.understanding.reading import Ask, Reading


def next_past(
    readings: tuple[Reading, ...],
    outcome: Outcome,
    past: Past,
    book: Book,
    language: str = "en",
    measured: Measured | None = None,
) -> Past:
    """The memory after this turn; small talk and sums change nothing.

    language: the one that choices are shown in. measured: what the question back will be held against.
    """
    reading = readings[0]
    if leaves_the_vehicle(reading, outcome):
        return Past()
    if isinstance(outcome, Calculation) or (isinstance(outcome, Other) and outcome.what != "vehicle set"):
        return replace(past, begun="")
    if isinstance(outcome, Procedure) or (isinstance(outcome, Choose) and outcome.about == "step"):
        return _after_a_step(reading, outcome, past, book, language)
    options = outcome.options if isinstance(outcome, Choose) else ()
    if isinstance(outcome, Choose) and outcome.about in ("unit", "sum") and measured is None:
        states, labels = tuple(o.states for o in options), tuple(o.label for o in options)
        begun = outcome.key if outcome.about == "sum" else ""
        return replace(past, choices=states, labels=labels, shown=_shown(outcome, language), begun=begun)
    asks = reading.asks
    if len(readings) > 1 and isinstance(outcome, Choose):
        asks = _asks_of_all(readings)
    if not asks and options and isinstance(outcome, Choose) and outcome.about == "component":
        # "runout?" asked of no component yet: the choice will name it
        names_offered = tuple(str(option.states["component"]) for option in options if "component" in option.states)
        named = bool(reading.properties)
        asks = (Ask(names_offered, True, "", reading.properties, not named, reading.place, named),)
    names = tuple(book.vehicle(one) for one in reading.vehicle.ids[:40])
    unknown = reading.vehicle.state == "unknown" or (isinstance(outcome, Gap) and not names)
    after = Past(
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
        shown=_shown(outcome, language) if isinstance(outcome, Choose) else (),
        measured=measured,
    )
    return replace(after, settled=_settled(after, outcome, past))


def _after_a_step(reading: Reading, outcome: Procedure | Choose, past: Past, book: Book, language: str) -> Past:
    """The vehicle that was named with it, and how it can be gone on; what was asked of the book before stays."""
    states, labels = tuple(o.states for o in outcome.options), tuple(o.label for o in outcome.options)
    after = replace(past, begun="", measured=None)
    if reading.vehicle.state != "none":
        names = tuple(book.vehicle(one) for one in reading.vehicle.ids[:40])
        after = replace(
            after,
            vehicles=tuple((name.make, name.model) for name in names),
            state="none" if reading.vehicle.state == "unknown" else reading.vehicle.state,
            said=reading.vehicle.said,
            years=reading.years,
            year_range=RANGE_CHOSEN in reading.signs,
            stated=reading.stated,
            excluded=reading.excluded,
        )
        same = (after.vehicles, after.years) == (past.vehicles, past.years)
        after = after if same else replace(after, asks=(), left_over=(), only_rows=(), answered=True)
        after = replace(after, settled=_settled(after, outcome, past))
    elif reading.years or reading.signs & {"next_vehicle", "negated vehicle"}:
        # another vehicle is meant than the one on the lift, and nobody knows which
        after = Past()
    return replace(after, choices=states, labels=labels, shown=_shown(outcome, language))


def _shown(asked: Choose | Procedure, language: str) -> tuple[str, ...]:
    """The labels as they are shown, where that is not how the options have them."""
    wording = wording_of(language)
    if wording.is_the_books:
        return ()
    key = asked.key if isinstance(asked, Choose) else ""
    return tuple(choice.label for choice in choices_of(asked.options, key, wording))


def _settled(after: Past, outcome: Outcome, past: Past) -> bool:
    """Whether the vehicle remembered is beyond doubt the one on the lift: named by itself, or the only one so far."""
    if isinstance(outcome, Other):
        return True
    old, new = Lift.of(past), Lift.of(after)
    if old is None or new is None or old.identity == new.identity:
        return past.settled
    return False


def _asks_of_all(readings: tuple[Reading, ...]) -> tuple[Ask, ...]:
    first = readings[0].asks[0] if readings[0].asks else None
    components = tuple(dict.fromkeys(c for r in readings for ask in r.asks for c in ask.components))
    return (replace(first, components=components, always=True),) if first else readings[0].asks
