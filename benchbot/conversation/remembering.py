"""What a chat remembers after a turn."""

from __future__ import annotations

from dataclasses import replace

from benchbot.book.reader import Book
from benchbot.conversation.judging import leaves_the_vehicle
from benchbot.conversation.lift import Lift
from benchbot.conversation.past import Past
from benchbot.lookup.lookup import RANGE_CHOSEN
from benchbot.outcomes import Answer, Calculation, Choose, Gap, Other, Outcome
from benchbot.reply.choices import choices_of
from benchbot.reply.languages import wording_of
from benchbot.understanding.reading import Ask, Reading


def next_past(readings: tuple[Reading, ...], outcome: Outcome, past: Past, book: Book, language: str = "en") -> Past:
    """The memory after this turn; small talk and sums change nothing. language: the one that choices are shown in."""
    reading = readings[0]
    if leaves_the_vehicle(reading, outcome):
        return Past()
    if isinstance(outcome, Calculation) or (isinstance(outcome, Other) and outcome.what != "vehicle set"):
        return past
    options = outcome.options if isinstance(outcome, Choose) else ()
    if isinstance(outcome, Choose) and outcome.about == "unit":
        states, labels = tuple(o.states for o in options), tuple(o.label for o in options)
        return replace(past, choices=states, labels=labels, shown=_shown(outcome, language))
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
    )
    return replace(after, settled=_settled(after, outcome, past))


def _shown(asked: Choose, language: str) -> tuple[str, ...]:
    """The labels as they are shown, where that is not how the options have them."""
    wording = wording_of(language)
    if wording.is_the_books:
        return ()
    return tuple(choice.label for choice in choices_of(asked.options, asked.key, wording))


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
