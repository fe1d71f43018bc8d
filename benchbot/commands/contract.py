"""One turn as the JSON object that scripts rely on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from benchbot.conversation.conversation import Turn
from benchbot.outcomes import Answer, Calculation, Choose, Gap, Other, Outcome, Procedure, Subject, missing_of
from benchbot.reply.reply import Reply


def contract(outcome: Outcome, reply: Reply, gap: int | None) -> dict[str, Any]:
    """outcome, specs, choices, gap, reading, text: plain values, ready for json."""
    options = outcome.options if isinstance(outcome, (Choose, Procedure, Other)) else ()
    return {
        "outcome": reply.outcome,
        # the values of a step stand in its text: it is no answer to a question for them
        "specs": [] if isinstance(outcome, Procedure) else list(reply.specs),
        "choices": [{"label": option.label, "specs": list(option.specs)} for option in options],
        "gap": _gap(outcome, gap),
        "reading": _reading(_subjects(outcome)),
        "text": reply.text(),
    }


def of_turn(turn: Turn) -> dict[str, Any]:
    return contract(turn.outcome, turn.reply, turn.gap)


def refused(text: str) -> dict[str, Any]:
    """The object for a line that is no question; `text` says what is wrong with it."""
    return contract(Other("not understood"), Reply("other", ()), None) | {"text": text}


def _gap(outcome: Outcome, gap: int | None) -> dict[str, Any] | None:
    missing = missing_of(outcome)
    return {"id": gap, "reason": missing[0].reason} if gap is not None and missing else None


def _subjects(outcome: Outcome) -> list[Subject]:
    if isinstance(outcome, Answer):
        return [finding.subject for finding in outcome.findings]
    if isinstance(outcome, Gap):
        return [one.subject for one in outcome.missing]
    return [] if isinstance(outcome, (Calculation, Procedure)) else [outcome.subject]


def _reading(subjects: list[Subject]) -> dict[str, Any]:
    """What is known of the subjects; where several are answered at once and differ, all that was read."""
    years = {year for subject in subjects for year in subject.years}
    return {
        "make": _all(subject.make for subject in subjects),
        "model": _all(subject.model for subject in subjects),
        "year": years.pop() if len(years) == 1 else None,
        "only_if": {key: value for subject in subjects for key, value in subject.only_if},
        "component": _all(subject.component for subject in subjects),
        "position": _all(subject.position for subject in subjects),
        "property": _all(subject.property for subject in subjects),
    }


def _all(texts: Iterable[str]) -> str | None:
    return " and ".join(dict.fromkeys(text for text in texts if text)) or None
