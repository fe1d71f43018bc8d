"""What the bench asked and what became of it, counted; and the rows that have to be looked at again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from benchbot.records.entry import moment
from benchbot.records.record import Record

REPLIES = """
SELECT answer.location, answer.outcome, count(*) FROM answer
WHERE answer.at >= :since AND answer.at < :until AND answer.outcome IN ('answer', 'choose')
GROUP BY answer.location, answer.outcome
"""

# A question that was changed afterwards is nobody's any more.
GAPS = """
SELECT gap.location, answer.outcome, count(*) FROM gap JOIN answer ON answer.answer = gap.answer
WHERE gap.at >= :since AND gap.at < :until AND gap.state <> 'edited'
GROUP BY gap.location, answer.outcome
"""

GAPS_ASKED = """
SELECT gap.gap FROM gap
WHERE gap.at >= :since AND gap.at < :until AND gap.state <> 'edited'
AND (:everywhere = 1 OR gap.location = :location)
"""

# What was filled before and is missing again waits since it was opened again.
FILLED = """
SELECT filled.meaning, filled.at, min(gap.at), (
  SELECT min(opened.at) FROM meaning_change AS opened
  WHERE opened.meaning = filled.meaning AND opened.entry < filled.entry AND opened.entry > (
    SELECT max(earlier.entry) FROM meaning_change AS earlier
    WHERE earlier.meaning = filled.meaning AND earlier.state = 'filled' AND earlier.entry < filled.entry
  )
)
FROM meaning_change AS filled
JOIN gap_part ON gap_part.meaning = filled.meaning
JOIN gap ON gap.gap = gap_part.gap
WHERE filled.state = 'filled' AND filled.at >= :since AND filled.at < :until
AND gap.state <> 'edited' AND gap.at <= filled.at AND (:everywhere = 1 OR gap.location = :location)
GROUP BY filled.entry, filled.meaning, filled.at ORDER BY filled.entry
"""

SHOWN = """
SELECT answer.answer, spec_revision.make, spec_revision.model, spec_revision.component_read
FROM answer
JOIN answer_spec ON answer_spec.answer = answer.answer
JOIN spec_revision ON spec_revision.spec = answer_spec.spec AND spec_revision.revision = answer_spec.revision
WHERE answer.at >= :since AND answer.outcome = 'answer' AND (:everywhere = 1 OR answer.location = :location)
"""

MISSED = """
SELECT gap.answer, gap_part.meaning, gap.reading FROM gap JOIN gap_part ON gap_part.gap = gap.gap
WHERE gap.at >= :since AND gap.state <> 'edited' AND (:everywhere = 1 OR gap.location = :location)
"""

MEANINGS = """
SELECT DISTINCT meaning.meaning, meaning.kind, meaning.make, meaning.model, meaning.years, meaning.component,
meaning.position, meaning.property, meaning.words, meaning.state
FROM gap JOIN gap_part ON gap_part.gap = gap.gap JOIN meaning ON meaning.meaning = gap_part.meaning
WHERE gap.at >= :since AND gap.state <> 'edited' AND (:everywhere = 1 OR gap.location = :location)
"""

# What answers is the newest revision that is no draft; a draft on top of it says that somebody is at it.
DUE = """
SELECT held.spec, held.revision, held.make, held.model, held.year_from, held.year_to, held.only_if,
held.component_read, held.position_read, held.property, held.value, held.review_by,
(SELECT count(*) FROM spec_revision AS draft WHERE draft.spec = held.spec AND draft.revision > held.revision)
FROM spec_revision AS held
WHERE held.status = 'verified' AND held.review_by <> '' AND held.review_by <= :until
AND NOT EXISTS (
  SELECT 1 FROM spec_revision AS later
  WHERE later.spec = held.spec AND later.revision > held.revision AND later.status <> 'draft'
)
ORDER BY held.review_by, held.spec
"""

ALL = (REPLIES, GAPS, GAPS_ASKED, FILLED, SHOWN, MISSED, MEANINGS, DUE)


@dataclass(frozen=True, slots=True)
class Missed:
    """One meaning as far as coverage asks for it; columns as in `GapPart`."""

    number: int
    kind: str
    make: str
    model: str
    years: str
    component: str
    position: str
    property: str
    words: str
    state: str


@dataclass(frozen=True, slots=True)
class Ageing:
    """A row that answers until `review_by` (an ISO date). drafts: revisions on top of it that do not answer yet."""

    spec: str
    revision: int
    make: str
    model: str
    year_from: int
    year_to: int
    only_if: str
    component: str
    position: str
    property: str
    value: str
    review_by: str
    drafts: int


def replies(record: Record, since: datetime, until: datetime) -> dict[tuple[int | None, str], int]:
    """(location, "answer" or "choose") to how many replies there were."""
    return _counts(record.rows(REPLIES, {"since": moment(since), "until": moment(until)}))


def gaps(record: Record, since: datetime, until: datetime) -> dict[tuple[int | None, str], int]:
    """(location, outcome) to how many replies left something out: all of it ("gap") or a part ("answer")."""
    return _counts(record.rows(GAPS, {"since": moment(since), "until": moment(until)}))


def gaps_asked(record: Record, since: datetime, until: datetime, location: int | None) -> set[int]:
    """The numbers of the gaps of that time, at a location or (None) anywhere."""
    values = {"since": moment(since), "until": moment(until)} | _place(location)
    return {int(row[0]) for row in record.rows(GAPS_ASKED, values)}


def filled(record: Record, since: datetime, until: datetime, location: int | None) -> list[tuple[datetime, datetime]]:
    """(asked first, filled) of each meaning that was filled in that time, and had been asked at the location."""
    found = record.rows(FILLED, {"since": moment(since), "until": moment(until)} | _place(location))
    return [(datetime.fromisoformat(opened or asked), datetime.fromisoformat(at)) for _, at, asked, opened in found]


def shown(record: Record, since: datetime, location: int | None) -> list[tuple[int, str, str, str]]:
    """(answer, make, model, component) of every row shown since then to whoever had asked."""
    found = record.rows(SHOWN, {"since": moment(since)} | _place(location))
    return [(int(answer), make, model, component) for answer, make, model, component in found]


def missed(record: Record, since: datetime, location: int | None) -> list[tuple[int, int, str]]:
    """(answer, meaning, reading) of everything asked since then that the book did not hold; reading: JSON."""
    found = record.rows(MISSED, {"since": moment(since)} | _place(location))
    return [(int(answer), int(meaning), reading) for answer, meaning, reading in found]


def meanings(record: Record, since: datetime, location: int | None) -> dict[int, Missed]:
    """What the gaps since then meant, by number."""
    found = record.rows(MEANINGS, {"since": moment(since)} | _place(location))
    return {int(row[0]): Missed(int(row[0]), *row[1:]) for row in found}


def due(record: Record, until: date) -> list[Ageing]:
    """The rows that answer and whose review comes by that day or has passed, the most pressing first."""
    return [_ageing(row) for row in record.rows(DUE, {"until": until.isoformat()})]


def _place(location: int | None) -> dict[str, int]:
    return {"everywhere": int(location is None), "location": location or 0}


def _counts(rows: list[tuple[Any, ...]]) -> dict[tuple[int | None, str], int]:
    return {(None if place is None else int(place), outcome): int(count) for place, outcome, count in rows}


def _ageing(row: tuple[Any, ...]) -> Ageing:
    spec, revision, make, model, first, last, only_if, component, position, property_, value, review_by, drafts = row
    return Ageing(
        spec, int(revision), make, model, int(first), int(last), only_if, component, position, property_, value,
        review_by, int(drafts),
    )  # fmt: skip
