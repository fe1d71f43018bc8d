"""Asks the kept questions of a new book before it is put in place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from benchbot.book.reader import Book
from benchbot.conversation.conversation import Conversation
from benchbot.outcomes import Calculation, Choose, Gap, Other, Outcome, Procedure, findings_of
from benchbot.records import kept_questions
from benchbot.records.kept_questions import Expected, KeptQuestion
from benchbot.records.record import Record


@dataclass(frozen=True, slots=True)
class Difference:
    """A kept question that would come to something else. expected, found: in a few words; now: what it comes to."""

    question: int
    said: str
    expected: str
    found: str
    now: Expected


def differences(record: Record, file: Path, now: datetime) -> list[Difference]:
    """Those of the kept questions whose outcome the book in that file changes unexpectedly.

    A question is expected to come to the same kind of outcome with the same rows, less those that were withdrawn or
    must be checked again; and to nothing once that is all of them.
    """
    kept = kept_questions.kept(record)
    if not kept:
        return []
    book = Book.open(file)
    try:
        conversation = Conversation(book, book.vocabulary(), record, lambda: now)
        return [one for question in kept for one in _difference(question, conversation, now.date())]
    finally:
        book.close()


def expected_of(outcome: Outcome) -> Expected:
    """What a question comes to, as it is kept."""
    specs = tuple(sorted({finding.row.spec for finding in findings_of(outcome)}))
    return Expected(type(outcome).__name__.lower(), specs)


def _difference(question: KeptQuestion, conversation: Conversation, today: date) -> Sequence[Difference]:
    outcome = conversation.consider(question.said, question.memory).outcome
    found, expected = expected_of(outcome), question.expected
    if found.same(expected):
        return ()
    if expected.outcome == "answer":
        speaking = tuple(spec for spec in expected.specs if conversation.book.spec(spec, today) is not None)
        if not speaking and isinstance(outcome, Gap):
            return ()
        # A gap beside the rows that still speak is of those that were withdrawn.
        if speaking and found.same(Expected("answer", speaking)):
            return ()
    told = in_words(expected.outcome, expected.specs, "")
    return (Difference(question.number, question.said, told, _words_of(outcome, found), found),)


def in_words(outcome: str, specs: Sequence[str], more: str) -> str:
    """Example: "an answer with D0001, D0002", "no answer (component not held)"."""
    named = f" with {', '.join(specs)}" if specs else ""
    kinds = {
        "answer": "an answer",
        "gap": "no answer",
        "choose": "a question back",
        "calculation": "a sum",
        "procedure": "a step",
    }
    return f"{kinds.get(outcome, 'no question of the book')}{named}{f' ({more})' if more else ''}"


def _words_of(outcome: Outcome, found: Expected) -> str:
    more = ""
    if isinstance(outcome, Gap):
        more = ", ".join(dict.fromkeys(one.reason for one in outcome.missing))
    elif isinstance(outcome, Choose):
        more = outcome.key or outcome.about
    elif isinstance(outcome, Other):
        more = outcome.what
    elif isinstance(outcome, Calculation):
        more = outcome.result
    elif isinstance(outcome, Procedure):
        more = outcome.step.title
    return in_words(found.outcome, found.specs, more)
