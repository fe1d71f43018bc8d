"""What the bench asked for and did not get: grouped by what was meant, ranked by who waits, set from state to state."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from benchbot.book.reader import Book, SpecRow
from benchbot.curation.gap_joining import Wording, joined, wording
from benchbot.curation.gap_nearby import nearby_rows
from benchbot.curation.gap_questions import Asked, asked_in, subject_of_words
from benchbot.outcomes import Subject
from benchbot.records import meanings
from benchbot.records.meanings import Change, GapSeen, Kind, Meaning, State
from benchbot.records.record import Record
from benchbot.vocabulary.terms import Vocabulary

__all__ = ["OPEN_STATES", "REASONED", "STATES", "Asked", "Group"]

STATES: tuple[State, ...] = ("open", "being filled", "waiting", "filled", "set aside")
OPEN_STATES: tuple[State, ...] = ("open", "being filled", "waiting")
# Nobody can tell later why these were chosen, unless it is said.
REASONED: tuple[State, ...] = ("waiting", "set aside")
# Of several wordings of one word, the first of these states that one of them is in is that of all.
_FIRST: tuple[State, ...] = ("being filled", "waiting", "set aside", "open", "filled")


@dataclass(frozen=True, slots=True)
class Group:
    """All that was meant by one thing missing.

    number: the meaning that stands for the group; group() takes any of `meanings`. kind: "row" (a row is missing),
    "word" or "vehicle" (nobody knows what `words` are). subject: as far as it is known, of words and vehicles as far
    as all who asked agree. words: what nobody could read, also of a row ("" when all was read). why: the reason of
    the state. people: who wait; asks: how often it was asked; locations: (number, asks), the most asking first, None
    for nobody knows where. gaps: their numbers, the oldest first.
    """

    number: int
    meanings: tuple[int, ...]
    kind: Kind
    subject: Subject
    words: str
    state: State
    why: str
    people: int
    asks: int
    locations: tuple[tuple[int | None, int], ...]
    first_at: datetime
    last_at: datetime
    gaps: tuple[int, ...]


def groups(record: Record, now: datetime, states: Collection[State] = OPEN_STATES) -> list[Group]:
    """The groups in these states: those that most people wait for first, then the most asked, then the latest.

    now: what is asked later than that is left out.
    """
    found: list[Group] = []
    for state in states:
        seen = _by_meaning(meanings.gaps_in_state(record, state))
        found += [_group([one], seen) for one in meanings.rows_in_state(record, state) if one.number in seen]
    found += [one for one in _of_words(record) if one.state in states]
    return sorted((one for one in found if one.first_at <= now), key=_rank)


def group(record: Record, number: int) -> Group | None:
    """The group that a meaning is in; None when there is none of that number, or nobody asks for it any more."""
    one = meanings.one(record, number)
    if one is None:
        return None
    if one.kind != "row":
        return next((each for each in _of_words(record) if number in each.meanings), None)
    seen = _by_meaning(meanings.gaps_of(record, number))
    return _group([one], seen) if seen else None


def asked(record: Record, group: Group, most: int = 20) -> list[Asked]:
    """The questions as they were asked, the latest first."""
    return asked_in(record, group.meanings, most)


def set_state(record: Record, group: Group, state: State, why: str, author: str, now: datetime) -> None:
    """Sets how all of a group stands, and keeps it in the history. ValueError: a state of REASONED without a reason."""
    reason = " ".join(why.split())
    if state in REASONED and not reason:
        raise ValueError(f"a gap is not {state} without a reason")
    with record.writing():
        for number in group.meanings:
            meanings.set_state(record, number, state, reason, author, now)


def history(record: Record, group: Group) -> list[Change]:
    """What the group was set to, by whom, when and why, the oldest first."""
    found = (change for number in group.meanings for change in meanings.history(record, number))
    return sorted(dict.fromkeys(found), key=lambda change: change.at)


def stop_waiting(record: Record, gap: int, person: str) -> bool:
    """ "Done already": the person needs no answer to their question any more; whether they waited for one."""
    return meanings.stop_waiting(record, gap, person)


def nearby(group: Group, book: Book, vocabulary: Vocabulary, today: date, most: int = 12) -> list[SpecRow]:
    """What the book holds nearby, for a curator to look at: never for the asker, for whom it is another vehicle's."""
    return nearby_rows(group.kind, group.subject, group.words, book, vocabulary, today, most)


def _of_words(record: Record) -> list[Group]:
    seen = _by_meaning(meanings.gaps_of_words(record))
    held = {one.number: one for one in meanings.of_words(record) if one.number in seen}
    wordings = [_wording(one, seen[one.number]) for one in held.values()]
    found = [_group([held[number] for number in together], seen) for together in joined(wordings)]
    details = meanings.details_of_words(record)
    return [replace(one, subject=subject_of_words([details[gap] for gap in one.gaps], one.subject)) for one in found]


def _wording(one: Meaning, seen: Sequence[GapSeen]) -> Wording:
    return wording(one.number, one.kind, one.identity, len(seen), {gap.person for gap in seen})


def _by_meaning(seen: Iterable[GapSeen]) -> dict[int, list[GapSeen]]:
    found: dict[int, list[GapSeen]] = {}
    for one in seen:
        found.setdefault(one.meaning, []).append(one)
    return found


def _group(together: Sequence[Meaning], seen: dict[int, list[GapSeen]]) -> Group:
    """One group of meanings, the one asked most first."""
    said = together[0]
    state = min((one.state for one in together), key=_FIRST.index)
    in_state = max((one for one in together if one.state == state), key=lambda one: one.at)
    gaps = {gap.gap: gap for one in together for gap in seen[one.number]}
    places = Counter(gap.location for gap in gaps.values())
    times = [gap.at for gap in gaps.values()]
    return Group(
        number=min(one.number for one in together),
        meanings=tuple(sorted(one.number for one in together)),
        kind=said.kind,
        subject=_subject(said),
        words=said.words,
        state=state,
        why=in_state.why,
        people=len({gap.person for gap in gaps.values() if gap.waits and gap.open}),
        asks=len(gaps),
        locations=tuple(sorted(places.items(), key=lambda place: (-place[1], place[0] is None, place[0] or 0))),
        first_at=datetime.fromisoformat(min(times)),
        last_at=datetime.fromisoformat(max(times)),
        gaps=tuple(sorted(gaps)),
    )


def _subject(one: Meaning) -> Subject:
    pairs = tuple(tuple(pair.split("=", 1)) for pair in one.only_if.split("; ") if pair)
    return Subject(
        one.make,
        one.model,
        tuple(int(year) for year in one.years.split()),
        tuple((key, value) for key, value in pairs),
        one.component,
        one.position,
        one.property,
    )


def _rank(group: Group) -> tuple[int, int, float, int]:
    return (-group.people, -group.asks, -group.last_at.timestamp(), group.number)
