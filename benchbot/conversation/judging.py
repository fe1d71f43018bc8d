"""What a reading says about the talk itself: no question, another vehicle, a bare number."""

from __future__ import annotations

from benchbot.outcomes import Gap, Other, Outcome, Reason
from benchbot.understanding.reading import Reading

_ANOTHER = frozenset({"a", "an", "now", "got", "about", "another", "here", "this"})


def unknown_vehicle(first: Reading, whole: Reading) -> Reason | None:
    """Whether words that nobody knows stand where the vehicle should."""
    strange = first.left_over or first.unknown_part
    if first.vehicle.state == "none" and strange and first.asks and (whole.vehicle.state == "none" or first.years):
        return "unknown vehicle"
    if whole.vehicle.state == "none" and first.unknown_part and first.years:
        return "unknown vehicle"
    if first.vehicle.state in ("make", "part") and first.left_over:
        return "unknown model"
    return None


def leaves_the_vehicle(reading: Reading, outcome: Outcome) -> bool:
    """Another vehicle is on the lift, one that the book or the reader does not know: the old one must not answer."""
    if isinstance(outcome, Gap):
        return outcome.missing[0].reason in ("unknown vehicle", "unknown model")
    if not isinstance(outcome, Other) or outcome.what == "vehicle set":
        return False
    if reading.signs & {"next_vehicle", "negated vehicle"}:
        return True
    words = {note.word.casefold() for note in reading.notes}
    return bool(reading.left_over) and bool(reading.years or words & _ANOTHER)


def only_a_number(reading: Reading) -> bool:
    """A bare figure and nothing else: no slot, no unit, nothing put up for confirmation."""
    slots = reading.vehicle.state != "none" or reading.years or reading.stated or reading.asks or reading.place
    asked = reading.properties or reading.vague or reading.unit or reading.signs & {"confirm", "same"}
    bare = bool(reading.said_values) and all(value.replace(".", "").isdigit() for value in reading.said_values)
    return bare and not slots and not asked


def is_chat_about_work(reading: Reading) -> bool:
    """A part is mentioned in talk, nothing is asked: no property, vehicle or year, and no word that asks."""
    if reading.vehicle.state != "none" or reading.years or reading.properties or reading.vague or reading.unit:
        return False
    if not (reading.unknown_part or reading.asks) or any(ask.properties for ask in reading.asks):
        return False
    return "chatter" in reading.signs and not reading.signs & {"question", "asking"}
