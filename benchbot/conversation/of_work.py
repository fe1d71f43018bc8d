"""Tells a question about the work from one for the book, and takes from it the words that speak of the vehicle."""

from __future__ import annotations

from benchbot.outcomes import Answer, Choose, Gap, Other, Outcome
from benchbot.procedures.wording import words_of
from benchbot.understanding.reading import Reading

OF_THE_VEHICLE = ("vehicle", "year")

_ASKS = frozenset({"how", "where", "why", "should", "can", "do", "does", "when", "need", "what", "which", "must"})
# asked of a figure as well: "what socket", "which thread"
_ASKS_A_FIGURE = frozenset({"what", "which"})
_JOINING = frozenset({"the", "a", "an", "on", "of", "for", "my", "and"})
_AXLES = ("front", "rear")
_KEPT_QUALIFIERS = ("brakes", "axle")


def asks_the_book(reading: Reading, completed: Reading, outcome: Outcome, words: tuple[str, ...]) -> bool:
    """Whether the book is asked, so that no finder need be made: a figure is named, and no word asks of the work."""
    named = bool(reading.properties) or any(ask.named for ask in reading.asks)
    answered, of_a_vehicle = isinstance(outcome, Answer), reading.vehicle.state != "none"
    works = bool(_ASKS & set(words))
    if named and ((answered and of_a_vehicle) or (not works and (answered or of_a_vehicle))):
        return True
    whole = not (reading.left_over or reading.unknown_part)
    if isinstance(outcome, (Answer, Choose)) and of_a_vehicle and whole and not works:
        return True
    if reading.said_values and isinstance(outcome, (Answer, Choose)) and completed.vehicle.state != "none":
        # "lugs 100 right?": the book's value is told beside the one that was said
        return True
    placed = isinstance(outcome, Answer) or (isinstance(outcome, Choose) and outcome.about != "left over")
    settled = completed.vehicle.state != "none" and placed
    return settled and "handling" in reading.signs


def is_bare(reading: Reading) -> bool:
    """Whether the words say which part of which vehicle, and nothing of it: a bare part asks for its figure."""
    roles = (*OF_THE_VEHICLE, "qualifier", "component", "position", "unit")
    notes = (note for note in reading.notes if note.how != "a mark" and note.word.casefold() not in _JOINING)
    return bool(reading.asks) and all(note.role in roles for note in notes)


def nothing_better(reading: Reading, outcome: Outcome) -> bool:
    """Whether the book says nothing to the message but that it knows nothing of it, or of a word in it."""
    if isinstance(outcome, Choose) and outcome.about == "left over":
        return True
    if reading.vehicle.state != "none" or reading.years or reading.kind in ("small talk", "nothing"):
        return False
    if isinstance(outcome, Gap):
        return outcome.missing[0].reason in ("unknown component", "unknown vehicle")
    return isinstance(outcome, Other) or is_about_vehicle(outcome)


def is_about_vehicle(outcome: Outcome) -> bool:
    """Whether it asks which vehicle is meant."""
    return isinstance(outcome, Choose) and outcome.about == "vehicle"


def without_vehicle(words: tuple[str, ...], reading: Reading) -> tuple[str, ...]:
    """The words that do not name the vehicle, its year, its engine or its drive."""
    left = list(words)
    for note in reading.notes:
        kept = note.role == "qualifier" and note.read_as.startswith(_KEPT_QUALIFIERS)
        if note.role in OF_THE_VEHICLE or (note.role == "qualifier" and not kept):
            for word in words_of(note.word):
                if word in left:
                    left.remove(word)
    return tuple(left)


def axles_of(reading: Reading) -> tuple[str, ...]:
    """The axles said; "back" says one only right before a part, as what is pushed back is no rear."""
    notes = [note for note in reading.notes if note.how != "a mark"]
    said = []
    for note, after in zip(notes, [*notes[1:], None], strict=True):
        if note.role != "position":
            continue
        if note.word.casefold() == "back" and (after is None or after.role != "component"):
            continue
        said += [axle for axle in _AXLES if axle in note.read_as.split()]
    return tuple(dict.fromkeys(said))


def axles_kept(reading: Reading, completed: Reading) -> tuple[str, ...]:
    """The axle that the chat remembers, of the part that the message names again, as it is kept for a figure of it.

    completed: the reading with what the chat remembers.
    """
    kept = {ask.place.axles for ask in completed.asks} if reading.asks and not reading.place.axles else set()
    return kept.pop() if len(kept) == 1 else ()
