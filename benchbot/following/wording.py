"""What is said to people who did not ask just now, as plain data: answers to old questions, recalls, publishings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

# What a recall names where it changed: by the columns of a revision, those that are read as one together.
CELLS = (
    "vehicle", "years", "scope", "component", "position", "property", "second_value", "thread", "class", "condition",
    "reuse", "tightening_order", "cautions",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Wording:
    """The sentences in one language; the defaults are English. cells: what each of CELLS is called."""

    language: str = "en"
    answered: str = "You asked on {date}: “{question}”. The book has it now:"
    asks_back: str = "You asked on {date}: “{question}”. The book can answer that now, once one thing more is known:"
    ask_again: str = "Ask it again, and say that with it."

    corrected: str = "RECALL {number}: a value that you were shown is another one now."
    withdrawn: str = "RECALL {number}: a value that you were shown is withdrawn. Do not use it."
    restored: str = "RECALL {number}: what was withdrawn stands in the book again."
    asked_on: str = "You asked on {date}: “{question}”."
    old: str = "OLD: {value}"
    new: str = "NEW: {value}"
    none: str = "none, it is withdrawn"
    differs: str = "{what}: {old} → {new}"
    nothing: str = "none"
    source: str = "Source: {source}. Checked by {who}, {when}."
    look: str = "Look at the vehicle that you used it on, then confirm."
    seen: str = "Seen, checked the vehicle"

    owner_told: str = "Recall {number}, {what}: {told} told. Who has confirmed: benchbot recalls list, or /book."
    owner_gone: str = "Was shown it and is no member any more: {names}. Reach them another way."

    published: str = "Book {version} is published: {rows} checked rows."
    published_before: str = "Book {version} is the newest already; there is nothing new to publish."
    told: str = "Told: {told}. Later, as it is quiet there now: {later}. Recall notices: {recalled}."
    stopped: str = "Nothing was published. These kept questions would come to something else:"
    difference: str = "“{question}”: expected {expected}; now {found}"
    difference_more: str = "And {count} more."
    accept: str = "If that is right, publish again with a reason: benchbot specs publish --accept REASON, or /book."
    failed: str = "Nothing was published: {why}"

    retorque: str = "Tighten the wheels of job {job} again: today is the day."
    retorque_order: str = "repair order {order}"
    retorque_fitted: str = "They were fitted on {date}."
    retorque_distance: str = "The slip says: at {distance}, or today, whichever comes first."
    cells: Mapping[str, str] = field(
        default_factory=lambda: {
            "vehicle": "vehicle",
            "years": "years",
            "scope": "only for",
            "component": "part",
            "position": "position",
            "property": "property",
            "second_value": "second value",
            "thread": "thread",
            "class": "class",
            "condition": "condition",
            "reuse": "reuse",
            "tightening_order": "order",
            "cautions": "cautions",
        }
    )


ENGLISH = Wording()


def wording_of(language: str) -> Wording:
    """The sentences of a language; English where it is none of ours."""
    if language == "es":
        from benchbot.following.spanish import SPANISH

        return SPANISH
    return ENGLISH
