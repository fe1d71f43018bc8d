"""Shown values that are other ones now, and who was shown them, on record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

What = Literal["corrected", "withdrawn"]

# What a revision says of a bolt, apart from where that comes from and who checked it.
MATTERS = (
    "make", "model", "year_from", "year_to", "scope_read", "component_read", "position_read", "property", "value",
    "second_value", "thread", "class", "condition", "reuse", "tightening_order", "cautions",
)  # fmt: skip
FROM = ("source", "source_ref", "checked_by", "checked_on", "review_by")

_REVISION = f"SELECT revision, status, {', '.join((*MATTERS, *FROM))} FROM spec_revision"

# Specs of which somebody was shown an older revision than one of these entries.
TOUCHED = """
SELECT DISTINCT newer.spec FROM spec_revision AS newer
JOIN answer_spec ON answer_spec.spec = newer.spec AND answer_spec.revision < newer.revision
WHERE newer.entry > :after AND newer.entry <= :up_to AND newer.revision > 1 AND newer.status <> 'draft'
ORDER BY newer.spec
"""

# A draft says nothing yet: the revision before it stays.
PRESENT = f"""
{_REVISION} WHERE spec = :spec AND entry <= :up_to AND status <> 'draft' ORDER BY revision DESC LIMIT 1
"""

ONE_REVISION = f"{_REVISION} WHERE spec = :spec AND revision = :revision"

SHOWN = """
SELECT answer.person, answer_spec.revision, answer.answer, answer.location, answer.at
FROM answer_spec JOIN answer ON answer.answer = answer_spec.answer
WHERE answer_spec.spec = :spec AND answer_spec.revision < :revision AND answer.at >= :since
ORDER BY answer.answer
"""

TOLD_BEFORE = """
SELECT recall_notice.person, recall.revision, recall_notice.answer, recall_notice.location, recall_notice.told_at
FROM recall_notice JOIN recall ON recall.recall = recall_notice.recall
WHERE recall.spec = :spec AND recall_notice.told_at <> '' AND recall.revision < :revision
ORDER BY recall.recall
"""

PUT = """
INSERT INTO recall (spec, revision, what, at) VALUES (:spec, :revision, :what, :at)
ON CONFLICT (spec, revision) DO UPDATE SET what = excluded.what RETURNING recall
"""

PUT_NOTICE = """
INSERT INTO recall_notice (recall, person, location, answer, revision, told_at, seen_at)
VALUES (:recall, :person, :location, :answer, :revision, '', '')
ON CONFLICT (recall, person) DO NOTHING RETURNING notice
"""

TOLD = "UPDATE recall_notice SET told_at = :at WHERE notice = :notice"

SEEN = """
UPDATE recall_notice SET seen_at = :at WHERE notice = :notice AND person = :person AND seen_at = '' RETURNING recall
"""

ALL_RECALLS = "SELECT recall, spec, revision, what, at FROM recall ORDER BY recall DESC"

_NOTICE = """
SELECT recall_notice.notice, recall_notice.recall, recall_notice.person, coalesce(person.name, recall_notice.person),
recall_notice.location, coalesce(location.name, ''), recall_notice.answer, recall_notice.revision, answer.asked,
answer.at, answer.reading, recall_notice.told_at, recall_notice.seen_at,
(SELECT count(*) FROM membership WHERE membership.person = recall_notice.person)
FROM recall_notice
JOIN answer ON answer.answer = recall_notice.answer
LEFT JOIN person ON person.person = recall_notice.person
LEFT JOIN location ON location.location = recall_notice.location
"""

NOTICES = f"{_NOTICE} WHERE recall_notice.recall = :recall ORDER BY recall_notice.notice"

UNTOLD = f"""
{_NOTICE} WHERE recall_notice.told_at = '' AND recall_notice.seen_at = '' AND EXISTS (
  SELECT 1 FROM membership WHERE membership.person = recall_notice.person
)
ORDER BY recall_notice.notice
"""

ONE = "SELECT recall, spec, revision, what, at FROM recall WHERE recall = :recall"

# A recall of the same spec that came later takes the place of an earlier one.
NEWEST_OF = "SELECT max(revision) FROM recall WHERE spec = :spec"

ALL = (
    TOUCHED, PRESENT, ONE_REVISION, SHOWN, TOLD_BEFORE, PUT, PUT_NOTICE, TOLD, SEEN, ALL_RECALLS, NOTICES, UNTOLD, ONE,
    NEWEST_OF,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Revision:
    """A revision of a spec. cells: by the names of MATTERS and FROM, each as text."""

    number: int
    status: str
    cells: dict[str, str]

    @property
    def says(self) -> tuple[str, ...]:
        """Two revisions that say the same are equal in this; one that is withdrawn says nothing."""
        if self.status == "withdrawn":
            return ()
        return tuple(self.cells[name] for name in MATTERS)


@dataclass(frozen=True, slots=True)
class Sighting:
    """A person was shown a revision: on that answer, or by a recall that began with it."""

    person: str
    revision: int
    answer: int
    location: int | None
    at: str


@dataclass(frozen=True, slots=True)
class Recall:
    """revision: the one that holds now."""

    number: int
    spec: str
    revision: int
    what: What
    at: datetime


@dataclass(frozen=True, slots=True)
class Notice:
    """One person who was shown another revision before.

    revision: the one that they saw last; answer, asked, asked_at, reading: where. told_at: None when they could not be
    told; seen_at: None until they confirmed. member: they belong to a location now.
    """

    number: int
    recall: int
    person: str
    name: str
    location: int | None
    place: str
    answer: int
    revision: int
    asked: str
    asked_at: datetime
    reading: str
    told_at: datetime | None
    seen_at: datetime | None
    member: bool


def touched(store: Record | Store, after: int, up_to: int) -> list[str]:
    """Specs with an entry after `after` and not beyond `up_to`, of which somebody was shown an older revision."""
    return [str(row[0]) for row in store.rows(TOUCHED, {"after": after, "up_to": up_to})]


def present(store: Record | Store, spec: str, up_to: int) -> Revision | None:
    """The revision that held once that entry was made."""
    return _revision(store.row(PRESENT, {"spec": spec, "up_to": up_to}))


def revision(store: Record | Store, spec: str, number: int) -> Revision | None:
    return _revision(store.row(ONE_REVISION, {"spec": spec, "revision": number}))


def sightings(store: Record | Store, spec: str, before: int, since: datetime) -> list[Sighting]:
    """Who was shown a revision older than `before`, at that time or later, on answers: in their order."""
    found = store.rows(SHOWN, {"spec": spec, "revision": before, "since": moment(since)})
    return [Sighting(person, int(number), int(answer), place, at) for person, number, answer, place, at in found]


def told_before(store: Record | Store, spec: str, before: int) -> list[Sighting]:
    """Who was told of a revision older than `before` by a recall, in the order of the recalls."""
    found = store.rows(TOLD_BEFORE, {"spec": spec, "revision": before})
    return [Sighting(person, int(number), int(answer), place, at) for person, number, answer, place, at in found]


def put(store: Store, spec: str, number: int, what: What, now: datetime) -> int:
    """The recall that this revision of the spec began, made when there is none."""
    return number_of(store.row(PUT, {"spec": spec, "revision": number, "what": what, "at": moment(now)}))


def put_notice(store: Store, recall: int, seen: Sighting) -> bool:
    """False when that person has a notice of this recall already."""
    values = {"recall": recall, "person": seen.person, "location": seen.location, "answer": seen.answer}
    return store.row(PUT_NOTICE, values | {"revision": seen.revision}) is not None


def told(store: Store, notice: int, now: datetime) -> None:
    """What tells them waits to be sent."""
    store.run(TOLD, {"notice": notice, "at": moment(now)})


def seen(store: Store, notice: int, person: str, now: datetime) -> bool:
    """They confirm it; False when they did before, or it is not theirs."""
    return store.row(SEEN, {"notice": notice, "person": person, "at": moment(now)}) is not None


def recalls(record: Record | Store) -> list[Recall]:
    """All of them, the latest first."""
    return [_recall(row) for row in record.rows(ALL_RECALLS, {})]


def one(record: Record | Store, number: int) -> Recall | None:
    row = record.row(ONE, {"recall": number})
    return None if row is None else _recall(row)


def overtaken(record: Record | Store, recall: Recall) -> bool:
    """Whether a later revision was recalled since."""
    row = record.row(NEWEST_OF, {"spec": recall.spec})
    return row is not None and int(row[0]) > recall.revision


def notices(record: Record | Store, recall: int) -> list[Notice]:
    """Everybody whom a recall concerns."""
    return [_notice(row) for row in record.rows(NOTICES, {"recall": recall})]


def untold(record: Record | Store) -> list[Notice]:
    """Members who were not told yet."""
    return [_notice(row) for row in record.rows(UNTOLD, {})]


def _revision(row: Sequence[Any] | None) -> Revision | None:
    if row is None:
        return None
    number, status, *cells = row
    return Revision(int(number), str(status), dict(zip((*MATTERS, *FROM), map(str, cells), strict=True)))


def _recall(row: Sequence[Any]) -> Recall:
    return Recall(int(row[0]), row[1], int(row[2]), row[3], datetime.fromisoformat(row[4]))


def _notice(row: Sequence[Any]) -> Notice:
    number, recall, person, name, location, place, answer, shown, asked, at, reading, told_at, seen_at, member = row
    return Notice(
        int(number), int(recall), person, name, location, place, int(answer), int(shown), asked,
        datetime.fromisoformat(at), reading, _time(told_at), _time(seen_at), bool(member),
    )  # fmt: skip


def _time(text: str) -> datetime | None:
    return datetime.fromisoformat(text) if text else None
