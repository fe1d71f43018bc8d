"""Tells whether a question about the work is about the job that whoever asks it has in hand."""

from __future__ import annotations

from benchbot.book.reader import Book
from benchbot.conversation.manner import InHand
from benchbot.procedures.finding import Found
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.qualifiers import value_words


def is_of_its_vehicle(job: InHand, completed: Reading, book: Book) -> bool:
    """Whether no other vehicle is meant than that of the job: what is fitted to it says nothing of the next one.

    completed: the reading with what the chat remembers.
    """
    if completed.years and job.year not in completed.years:
        return False
    if completed.vehicle.state != "none":
        vehicle = book.find_vehicle(job.make, job.model) if job.make else None
        if vehicle is None or completed.vehicle.ids != (vehicle,):
            return False
    known = {key: value_words(key, value) for key, value in job.only_if}
    stated = [(one.key, value_words(one.key, one.value)) for one in completed.stated if not one.part]
    return all(value == known.get(key, value) for key, value in stated)


def speaks_against(job: InHand, found: Found) -> bool:
    """Whether the question itself says that something else is fitted than what the job knows of.

    found: what the question leads to without the job.
    """
    other = found.hits[0].step.only_if if found.verdict == "sure" else ""
    return bool(other and job.fitted) and other not in job.fitted
