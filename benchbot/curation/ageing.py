"""The rows whose review comes up: they stop answering after that day, until somebody has read their source again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from benchbot.outcomes import Subject
from benchbot.records import tallies
from benchbot.records.record import Record

DAYS = 30


@dataclass(frozen=True, slots=True)
class Due:
    """A checked row that answers up to and including `review_by`, and no more after it.

    past: it has stopped. in_hand: a change of it is drafted, which does not answer yet.
    """

    spec: str
    revision: int
    subject: Subject
    year_from: int
    year_to: int
    value: str
    review_by: date
    past: bool
    in_hand: bool


def due(record: Record, today: date, days: int = DAYS) -> list[Due]:
    """The rows for the curator's list: those that stopped, then those that stop within so many days, earliest first."""
    return [
        Due(
            spec=one.spec,
            revision=one.revision,
            subject=Subject(one.make, one.model, (), _pairs(one.only_if), one.component, one.position, one.property),
            year_from=one.year_from,
            year_to=one.year_to,
            value=one.value,
            review_by=date.fromisoformat(one.review_by),
            past=one.review_by < today.isoformat(),
            in_hand=one.drafts > 0,
        )
        for one in tallies.due(record, today + timedelta(days))
    ]


def _pairs(only_if: str) -> tuple[tuple[str, str], ...]:
    halves = (part.partition("=") for part in only_if.split(";") if part.strip())
    return tuple((key.strip(), value.strip()) for key, _, value in halves)
