"""Decides what comes of a message that was read: the book is asked, or there is nothing to ask it."""

from __future__ import annotations

from datetime import date

from benchbot.book.reader import Book
from benchbot.conversation.judging import is_chat_about_work, only_a_number, unknown_vehicle
from benchbot.lookup.lookup import look_up
from benchbot.outcomes import Choose, Gap, Missing, Other, Outcome, Subject
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.terms import Vocabulary

_SHORT = 4


def outcome_of(
    readings: tuple[Reading, ...], completed: tuple[Reading, ...], book: Book, vocabulary: Vocabulary, today: date
) -> Outcome:
    """readings: those of the message by itself; completed: the same with what the chat remembers."""
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
        return nothing_asked(first, whole, book, today)
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
    return look_up(completed, book, vocabulary, today)


def nothing_asked(first: Reading, whole: Reading, book: Book, today: date) -> Outcome:
    """A vehicle was named, or a slot of it, and nothing was asked."""
    if first.vehicle.state == "none" and whole.vehicle.state == "none":
        return Other("nothing asked")
    if whole.vehicle.state == "named" and len(whole.vehicle.ids) == 1:
        if first.left_over:
            return Other("not understood")
        name = book.vehicle(whole.vehicle.ids[0])
        held = tuple(dict.fromkeys(row.component for row in book.specs_of(whole.vehicle.ids, today)))
        return Other("vehicle set", Subject(name.make, name.model, whole.years), held)
    if first.vehicle.state in ("part", "make", "several", "conflict"):
        return Other("vehicle set", Subject(model=whole.vehicle.said, years=whole.years))
    return Other("nothing asked")
