"""Who was shown a value that is another one now, and who of them has confirmed that they know."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchbot.records import recalls, settings
from benchbot.records.entry import moment
from benchbot.records.recalls import Notice, Recall, Revision, Sighting
from benchbot.records.record import Record, Store

DAYS, DAYS_AT_MOST = 180, 3650
_SETTING = "recall_days"


@dataclass(frozen=True, slots=True)
class RecallState:
    """One recall: the revision that holds now, and everybody whom it concerns with the revision that they saw.

    present is None when the record has lost it. overtaken: a later recall of the same spec takes its place.
    """

    recall: Recall
    present: Revision | None
    shown: tuple[tuple[Notice, Revision | None], ...]
    overtaken: bool

    @property
    def open(self) -> tuple[Notice, ...]:
        """Those who have not confirmed."""
        return tuple(notice for notice, _ in self.shown if notice.seen_at is None)

    @property
    def members_open(self) -> tuple[Notice, ...]:
        """Those of them who can still be reached: they were told, and belong to a location."""
        return tuple(notice for notice in self.open if notice.member)

    @property
    def gone(self) -> tuple[Notice, ...]:
        """Those of them who are no member any more: somebody must reach them another way."""
        return tuple(notice for notice in self.open if not notice.member)


def recall_list(record: Record | Store) -> list[RecallState]:
    """Every recall, the latest first."""
    return [state_of(record, recall) for recall in recalls.recalls(record)]


def state_of(record: Record | Store, recall: Recall) -> RecallState:
    notices = recalls.notices(record, recall.number)
    known = {
        number: recalls.revision(record, recall.spec, number)
        for number in {recall.revision, *(one.revision for one in notices)}
    }
    shown = tuple((one, known[one.revision]) for one in notices)
    return RecallState(recall, known[recall.revision], shown, recalls.overtaken(record, recall))


def recall_days(record: Record) -> int:
    """How far back a recall goes."""
    held = settings.setting(record, _SETTING)
    return DAYS if held is None else int(held.value)


def set_recall_days(record: Record, days: int, author: str, now: datetime) -> None:
    """ValueError when the number of days is not from 1 to DAYS_AT_MOST."""
    if not 1 <= days <= DAYS_AT_MOST:
        raise ValueError(f"{days} is no number of days from 1 to {DAYS_AT_MOST}")
    settings.put(record, _SETTING, str(days), author, now)


def recall_between(store: Store, after: int, up_to: int, days: int, now: datetime) -> list[int]:
    """Makes the recalls that the entries behind `after` up to `up_to` call for; their numbers, those made before too.

    Whoever was shown another revision than the one that holds now gets a notice, which is nobody's news yet.
    """
    made = []
    for spec in recalls.touched(store, after, up_to):
        present = recalls.present(store, spec, up_to)
        if present is None:
            continue
        wrong = _saw_another(store, spec, present, now - timedelta(days=days))
        if wrong:
            what: recalls.What = "withdrawn" if present.status == "withdrawn" else "corrected"
            number = recalls.put(store, spec, present.number, what, now)
            for seen in wrong:
                recalls.put_notice(store, number, seen)
            made.append(number)
    return made


def _saw_another(store: Store, spec: str, present: Revision, since: datetime) -> list[Sighting]:
    """For each person the last time that they were shown something else than what holds now.

    What an earlier recall told them is what they saw last before it was told; what they saw before that is settled.
    """
    sayings: dict[int, tuple[str, ...]] = {}

    def says(number: int) -> tuple[str, ...]:
        if number not in sayings:
            held = recalls.revision(store, spec, number)
            sayings[number] = () if held is None else held.says
        return sayings[number]

    begins = moment(since)
    told = {seen.person: seen for seen in recalls.told_before(store, spec, present.number)}
    found: dict[str, Sighting] = {}
    for seen in _in_order(told.values(), recalls.sightings(store, spec, present.number, since)):
        settled = told.get(seen.person)
        if settled is not None and seen is not settled and seen.at <= settled.at:
            continue
        if seen.at >= begins and says(seen.revision) != present.says:
            found[seen.person] = seen
    return list(found.values())


def _in_order(told: Iterable[Sighting], shown: Iterable[Sighting]) -> list[Sighting]:
    return sorted((*told, *shown), key=lambda seen: seen.at)
