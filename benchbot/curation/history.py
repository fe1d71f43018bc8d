"""The history of a row: every revision with who brought it, when and why, what changed, and what was done about it."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.curation.approving import cells_changed
from benchbot.curation.two_people import name_of
from benchbot.records import evidence, reviews, revisions
from benchbot.records.evidence import Evidence
from benchbot.records.record import Record
from benchbot.records.reviews import Passed, Review


@dataclass(frozen=True, slots=True)
class Step:
    """One revision. name: the author's by now. changes: (column, before, after) against the revision before it.

    one_person: nobody but its author has checked it.
    """

    spec: str
    revision: int
    status: str
    author: str
    name: str
    at: str
    why: str
    changes: tuple[tuple[str, str, str], ...]
    reviews: tuple[Review, ...]
    passed: tuple[Passed, ...]
    evidence: tuple[Evidence, ...]
    one_person: bool


def history(record: Record, spec: str) -> list[Step]:
    """Every step of a row, oldest first; none when the record has no such id."""
    done, passed, sole = reviews.of_spec(record, spec), reviews.passed(record, spec), reviews.sole(record, spec)
    before: dict[str, str] = {}
    steps = []
    for one in revisions.of_spec(record, spec):
        cells, number = one.cells, one.revision
        steps.append(
            Step(
                spec,
                number,
                one.status,
                one.author,
                name_of(record, one.author) or one.author,
                one.at,
                one.why,
                cells_changed(before, cells),
                tuple(review for review in done if review.revision == number),
                tuple(warning for warning in passed if warning.revision == number),
                tuple(evidence.of_revision(record, spec, number)),
                number in sole,
            )
        )
        before = cells
    return steps
