"""The questions behind a gap as they were asked, and what all who asked for an unknown word have in common."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from benchbot.outcomes import Subject
from benchbot.records import meanings
from benchbot.records.meanings import Question
from benchbot.records.record import Record

CHOSE = " → "
_MOST_STEPS = 12


@dataclass(frozen=True, slots=True)
class Asked:
    """One question as it was asked; one that ended in a choice is shown as "first message → label".

    name: what the person is called, the person itself where nobody knows. location, place: number and name, None and
    "" where nobody knows. words: how each word was read. waits: whether they still want the answer.
    """

    gap: int
    question: str
    person: str
    name: str
    location: int | None
    place: str
    at: datetime
    words: tuple[str, ...]
    reason: str
    waits: bool


def asked_in(record: Record, numbers: Iterable[int], most: int) -> list[Asked]:
    """The latest questions that asked for these meanings, the latest first."""
    found = {one.gap: one for number in numbers for one in meanings.questions_of(record, number, most)}
    latest = sorted(found.values(), key=lambda one: (one.at, one.gap), reverse=True)[:most]
    return [_asked(record, one) for one in latest]


def subject_of_words(seen: Sequence[tuple[str, str]], said: Subject) -> Subject:
    """What is known of an unknown word or vehicle: the parts of the subject that all who asked agree on.

    seen: detail and reading of each question, as on record.
    """
    subjects = [_subject(json.loads(detail), json.loads(reading)) for detail, reading in seen]

    def agreed(values: Iterable[Any], none: Any) -> Any:
        different = set(values)
        return different.pop() if len(different) == 1 else none

    vehicle = agreed(((one.make, one.model) for one in subjects), ("", ""))
    return Subject(
        make=said.make or vehicle[0],
        model=vehicle[1],
        years=agreed((one.years for one in subjects), ()),
        component=agreed((one.component for one in subjects), ""),
        position=agreed((one.position for one in subjects), ""),
        property=agreed((one.property for one in subjects), ""),
    )


def _subject(detail: list[dict[str, Any]], reading: dict[str, Any]) -> Subject:
    missing = next((one for one in detail if one["reason"].startswith("unknown")), detail[0])
    subject = missing["subject"]
    known = missing["reason"] == "unknown component" and bool(subject["make"])
    asks = [ask for ask in reading["asks"] if len(ask[0]) == 1]
    component, properties, axles = asks[0] if len(asks) == len(reading["asks"]) == 1 else ([""], [], [])
    return Subject(
        make=subject["make"] if known else "",
        model=subject["model"] if known else "",
        years=tuple(subject["years"]),
        component=component[0],
        position=axles[0] if len(axles) == 1 else "",
        property=properties[0] if len(properties) == 1 else "",
    )


def _asked(record: Record, one: Question) -> Asked:
    text, words = one.question, _words(one.reading)
    if not words:
        # only what was chosen has no words of its own
        first, words = _first_message(record, one)
        text = f"{first}{CHOSE}{_label(one)}" if first else _label(one)
    return Asked(
        gap=one.gap,
        question=text,
        person=one.person,
        name=one.name or one.person,
        location=one.location,
        place=one.place or "",
        at=datetime.fromisoformat(one.at),
        words=words,
        reason=one.reason,
        waits=one.waits,
    )


def _first_message(record: Record, one: Question) -> tuple[str, tuple[str, ...]]:
    """What the person wrote before they chose, and how it was read."""
    answer = one.answer
    for _ in range(_MOST_STEPS):
        before = meanings.answer_before(record, one.chat, one.person, answer)
        if before is None:
            break
        answer, asked, reading = before
        words = _words(reading)
        if words:
            return asked, words
    return "", ()


def _label(one: Question) -> str:
    """What the chosen number said, or the text as it was typed."""
    labels = json.loads(one.memory)["labels"] if one.memory else []
    said = one.question.strip()
    if said.isascii() and said.isdigit() and 1 <= int(said) <= len(labels):
        return str(labels[int(said) - 1])
    return said


def _words(reading: str) -> tuple[str, ...]:
    return tuple(str(word) for word in json.loads(reading).get("words", ()))
