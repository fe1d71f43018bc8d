"""What follows once a book is in place: who waited gets the answer, who was shown another value hears of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchbot.conversation.conversation import Conversation
from benchbot.curation.publishing import once_followed
from benchbot.curation.recalling import recall_between, recall_days
from benchbot.following.addressing import Addresses
from benchbot.following.answered import Answered, answered, considered, is_answered, said_again
from benchbot.following.kept import expected_of
from benchbot.following.recalled import tell_recalls
from benchbot.following.telling import tell
from benchbot.people import known_bot
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import errands, kept_questions, recalls, waiting
from benchbot.records.record import Record, Store

AUTHOR = "publishing"
NOTHING_TO_TELL = "nothing to tell"
# A message that was on its way while the book changed was answered from the book before.
_ON_ITS_WAY = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Followed:
    """version: of the book in place. told: askers told; later: those for whom it is quiet now; recalled: notices."""

    version: int
    told: int = 0
    later: int = 0
    recalled: int = 0


@dataclass(frozen=True, slots=True)
class _Following:
    conversation: Conversation
    addresses: Addresses
    version: int
    now: datetime

    @property
    def record(self) -> Record:
        return self.conversation.record


def follow(home: Home, now: datetime) -> Followed:
    """Tells everybody whom the book in place concerns; done again, only those who were not told.

    All of it is on record at once or not at all. BookError: there is no book; RecordError.
    """
    with _opened(home, now) as one:
        entries = waiting.spec_entries(one.record, one.version)
        if entries is None:
            # a book from elsewhere: this record knows nothing of it
            return Followed(one.version)
        before = waiting.followed_at(one.record, one.version)
        gaps = _open_gaps(one.record, before, one.version)
        # looked up before the transaction, which keeps the bench from writing
        found = answered(one.conversation, gaps, one.addresses)
        with one.record.writing() as store:
            first = waiting.put_followed(store, one.version, now)
            if first == (before is not None):
                # somebody else was faster: all that is left are those whose message was on its way
                return Followed(one.version)
            seen = {gap.number for gap in gaps}
            since = gaps[-1].at if gaps else now - _ON_ITS_WAY
            fresh = [gap for gap in waiting.open_gaps(store, min(since, now)) if gap.number not in seen]
            found += answered(one.conversation, fresh, one.addresses)
            told, later = _fill(one, store, found)
            made = recall_between(store, *entries, recall_days(one.record), now)
            made += [notice.recall for notice in recalls.untold(store)]
            recalled = tell_recalls(one.record, made, one.addresses, now)
            errands.ended_once(store, once_followed(one.version), now)
            if first:
                once = f"{once_followed(one.version)} again"
                errands.put(store, "follow", {"version": one.version}, now, once, now + _ON_ITS_WAY)
        return Followed(one.version, told, later, recalled)


def tell_later(home: Home, errand: int, gap: int, now: datetime) -> str:
    """Tells the asker of a gap that was filled while it was quiet at their place; what became of it.

    The errand that wanted it ends in the same transaction. The gap is open again when the book does not answer it any
    more.
    """
    with _opened(home, now) as one, one.record.writing() as store:
        held = waiting.gap(store, gap)
        if held is None or held.state != "filled" or not held.waits:
            errands.done(store, errand, NOTHING_TO_TELL, now)
            return NOTHING_TO_TELL
        turn = considered(one.conversation, held, one.addresses)
        addressee = one.addresses.of_person(held.person, held.location)
        why = "told" if is_answered(turn) and addressee is not None else NOTHING_TO_TELL
        if not errands.done(store, errand, why, now):
            # somebody else was faster, on another machine with the same record
            return "done by somebody else"
        if not is_answered(turn):
            waiting.reopen(store, gap, "the row that had filled it is gone", AUTHOR, now)
        elif addressee is not None:
            tell(one.record, Answered(held, turn), addressee, one.version, now)
        return why


def _fill(one: _Following, store: Store, found: Sequence[Answered]) -> tuple[int, int]:
    """How many were told, and how many will be when it is not quiet any more."""
    told = later = 0
    filled = []
    again = said_again(store, found)
    for each in found:
        gap = each.gap
        waits = waiting.fill(store, gap.number)
        if waits is None:
            continue
        filled.append(gap.number)
        expected = expected_of(each.turn.outcome)
        kept_questions.put(store, gap.question, gap.memory, expected, gap.number, AUTHOR, one.now)
        addressee = one.addresses.of_person(gap.person, gap.location) if waits else None
        if addressee is None or gap.number in again:
            continue
        until = one.addresses.quiet_until(addressee, one.now)
        if until is None:
            tell(one.record, each, addressee, one.version, one.now)
            told += 1
        else:
            errands.put(store, "tell", {"gap": gap.number}, one.now, f"tell {gap.number} {one.version}", until)
            later += 1
    waiting.fill_meanings(store, filled, f"book {one.version}", AUTHOR, one.now)
    return told, later


def _open_gaps(record: Record, before: datetime | None, version: int) -> list[waiting.OpenGap]:
    if before is None:
        return waiting.open_gaps(record)
    return [
        gap
        for gap in waiting.open_gaps(record, before - _ON_ITS_WAY)
        if gap.version is not None and gap.version < version
    ]


@contextmanager
def _opened(home: Home, now: datetime) -> Iterator[_Following]:
    with Conversation.open(home, lambda: now) as conversation:
        addresses = Addresses.of(People(conversation.record), known_bot.load(home))
        yield _Following(conversation, addresses, conversation.book.version, now)
