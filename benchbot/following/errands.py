"""Does the errands that are due, one after the other, whoever looks after them first."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from benchbot.curation.publishing import finish, once_followed
from benchbot.errors import BenchbotError, RecordError
from benchbot.following.addressing import Addressee, Addresses
from benchbot.following.follow import Followed, follow, tell_later
from benchbot.following.publishing import PublishReport, PublishStopped, publish
from benchbot.following.reports import COVERAGE, DIGEST, plan_digests, send_coverage, send_digest
from benchbot.following.retorque import send_reminder
from benchbot.following.telling import tell_lines
from benchbot.following.wording import Wording
from benchbot.jobs.retorque import REMINDER
from benchbot.people import known_bot
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import errands
from benchbot.records.errands import Errand
from benchbot.records.lock import held
from benchbot.records.record import Record, open_record

# What makes an errand of its kind; what it returns says what became of it. BenchbotError: it is tried again later.
Runs = Callable[[Home, Errand, datetime], str]

_SHOWN_DIFFERENCES = 12
_FIRST_WAIT, _LONGEST_WAIT = timedelta(seconds=10), timedelta(minutes=15)
_GIVEN_UP_AFTER = timedelta(days=3)


def run_errand(home: Home, errand: Errand, now: datetime) -> str:
    """What became of it. ValueError: there is no errand of that kind. BenchbotError: it could not be done."""
    run = RUNS.get(errand.what)
    if run is None:
        raise ValueError(f"there is no errand {errand.what!r}; there are: {', '.join(RUNS)}")
    return run(home, errand, now)


@dataclass(frozen=True, slots=True)
class Done:
    """What became of an errand: done, put off, or failed; why says more."""

    number: int
    what: str
    state: str
    why: str


def run_due(home: Home, clock: Callable[[], datetime], record: Record | None = None) -> list[Done]:
    """Does all that is due. One process of a home at a time: to another, nothing is due.

    record: one that is open already. An errand that cannot be done is tried again later and later, then given up.
    """
    if record is None:
        with open_record(home) as opened:
            return run_due(home, clock, opened)
    plan_digests(record, clock())
    if errands.claim(record, clock()) is None:
        return []
    try:
        with held(home.folder / "errands.lock", 0, "another process does the errands"):
            return _run_all(home, clock, record)
    except RecordError as error:
        if "does the errands" not in str(error):
            raise
        return []


def _run_all(home: Home, clock: Callable[[], datetime], record: Record) -> list[Done]:
    found = []
    while (errand := errands.claim(record, clock())) is not None:
        now = clock()
        try:
            why = run_errand(home, errand, now)
        except BenchbotError as error:
            found.append(_put_off(record, errand, error, now))
        except Exception as error:  # A fault of ours in one errand must not stop the others, nor come back for ever.
            found.append(_ended(record, errand, "failed", f"{type(error).__name__}: {error}", now))
        else:
            found.append(_ended(record, errand, "done", why, now))
    return found


def _put_off(record: Record, errand: Errand, error: BenchbotError, now: datetime) -> Done:
    age = now - errand.at
    if age > _GIVEN_UP_AFTER:
        return _ended(record, errand, "failed", str(error), now)
    errands.later(record, errand.number, now + min(_LONGEST_WAIT, _FIRST_WAIT + age / 2), str(error))
    return Done(errand.number, errand.what, "put off", str(error))


def _ended(record: Record, errand: Errand, state: Literal["done", "failed"], why: str, now: datetime) -> Done:
    errands.ended(record, errand.number, state, why, now)
    return Done(errand.number, errand.what, state, why)


def _publish(home: Home, errand: Errand, now: datetime) -> str:
    """body: `by` the person who wants it, `accept` their reason for other outcomes of kept questions."""
    by = str(errand.body.get("by", ""))
    try:
        done = publish(home, now, str(errand.body.get("accept", "")), by)
    except RecordError:
        # it may only be busy
        raise
    except BenchbotError as error:
        why = str(error)
        return _told(home, errand, f"not published: {why}", lambda words: (words.failed.format(why=why),), now)
    if isinstance(done, PublishStopped):
        stopped, why = done, f"stopped by {len(done.differences)} kept questions"
        return _told(home, errand, why, lambda words: stopped_lines(stopped, words), now)
    made = _as_made(home, errand, done)
    followed = follow(home, now)
    return _told(home, errand, f"book {made.version}", lambda words: published_lines(made, followed, words), now)


def _as_made(home: Home, errand: Errand, done: PublishReport) -> PublishReport:
    """With `made` when the book has come on record since it was asked for: who made it was killed before telling so."""
    with open_record(home) as record:
        at = errands.put_at(record, once_followed(done.version))
    return replace(done, made=done.made or (at is not None and at >= errand.at))


def _follow(home: Home, errand: Errand, now: datetime) -> str:
    # A publishing that was killed had put the version on record and not yet the file in place.
    finish(home)
    done = follow(home, now)
    return f"book {done.version}: {done.told} told, {done.later} later, {done.recalled} recall notices"


def _tell_later(home: Home, errand: Errand, now: datetime) -> str:
    return tell_later(home, errand.number, int(errand.body["gap"]), now)


RUNS: Mapping[str, Runs] = {
    "publish": _publish, "follow": _follow, "tell": _tell_later, DIGEST: send_digest, COVERAGE: send_coverage,
    REMINDER: send_reminder,
}  # fmt: skip


def published_lines(done: PublishReport, followed: Followed, words: Wording) -> tuple[str, ...]:
    """What came of a publishing, for whoever asked for it."""
    form = words.published if done.made else words.published_before
    line = form.format(version=done.version, rows=f"{done.rows:,}")
    told = words.told.format(told=followed.told, later=followed.later, recalled=followed.recalled)
    return (line, told) if followed.told or followed.later or followed.recalled else (line,)


def stopped_lines(done: PublishStopped, words: Wording) -> tuple[str, ...]:
    """Why nothing was published, and what to do about it."""
    shown = done.differences[:_SHOWN_DIFFERENCES]
    lines = [
        words.difference.format(question=one.said, expected=one.expected, found=one.found) for one in shown
    ]  # fmt: skip
    more = len(done.differences) - len(shown)
    if more:
        lines.append(words.difference_more.format(count=more))
    return (words.stopped, *lines, words.accept)


def _told(home: Home, errand: Errand, why: str, lines: Callable[[Wording], tuple[str, ...]], now: datetime) -> str:
    """Whoever wanted the errand is told what came of it, and it has ended, or neither."""
    by = str(errand.body.get("by", ""))
    with open_record(home) as record:
        found: Addressee | None = Addresses.of(People(record), known_bot.load(home)).of_person(by, None)
        with record.writing() as store:
            if not errands.done(store, errand.number, why, now):
                return "done by somebody else"
            if found is not None:
                tell_lines(record, found, lines(found.words), now)
    return why
