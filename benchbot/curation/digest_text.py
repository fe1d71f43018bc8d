"""The week's digest in words, for a chat and for a terminal, and as plain values for programs."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from benchbot.curation.digest import Digest, Tally, TopGap
from benchbot.curation.figure_wording import FigureWording, figure_wording
from benchbot.curation.gaps import Group
from benchbot.reply.languages import wording_of
from benchbot.reply.subjects import subject_words

_MINUTE, _HOUR, _DAY = timedelta(minutes=1), timedelta(hours=1), timedelta(days=1)


def digest_title(found: Digest, language: str) -> str:
    """Such as "South shop. Week 2026-W47, 2026-11-16 to 2026-11-22"."""
    words = figure_wording(language)
    monday = found.week.monday
    form = words.week_so_far if found.so_far else words.week_title
    week = form.format(week=found.week, first=monday, last=monday + timedelta(days=6))
    place = words.whole_shop if found.location is None else found.location.name
    return f"{place[:1].upper()}{place[1:]}. {week}"


def digest_text(found: Digest, language: str) -> tuple[str, ...]:
    """Its lines, the title first."""
    words = figure_wording(language)
    lines = [digest_title(found, language)]
    if not found.sum.whole:
        lines.append(words.quiet)
    elif len(found.tallies) > 1:
        lines.append(_tally(found.sum, words.whole_shop, words))
    lines += [_tally(one, one.name or words.nowhere, words) for one in found.tallies if one.whole]
    lines.append(words.open_gaps.format(open=found.open_gaps, fresh=found.fresh))
    if found.to_fill is None:
        lines.append(words.filled_none)
    else:
        lines.append(words.filled_gaps.format(filled=found.filled, time=_time(found.to_fill, words)))
    if found.due:
        lines.append(words.due.format(due=found.due, past=found.past))
    else:
        lines.append(words.due_none)
    if found.top:
        lines.append(words.top)
    return (*lines, *(_gap(number, one, words) for number, one in enumerate(found.top, 1)))


def digest_plain(found: Digest) -> dict[str, Any]:
    """For programs. Times to fill are in seconds."""
    return {
        "week": str(found.week),
        "from": found.week.monday.isoformat(),
        "so_far": found.so_far,
        "location": None if found.location is None else found.location.name,
        "replies": [_plain(one) for one in found.tallies],
        "open_gaps": found.open_gaps,
        "new_gaps": found.fresh,
        "filled_gaps": found.filled,
        "median_seconds_to_fill": None if found.to_fill is None else found.to_fill.total_seconds(),
        "due": found.due,
        "past_review": found.past,
        "top": [
            {
                "gap": one.group.number,
                "what": gap_title(one.group, "en"),
                "people": one.group.people,
                "asks": one.group.asks,
                "asks_in_week": one.asks,
            }
            for one in found.top
        ],
    }


def gap_title(group: Group, language: str) -> str:
    """What is missing: a row by what it is about, a word or vehicle as it was written."""
    words = figure_wording(language)
    if group.kind == "word":
        return words.word.format(words=group.words)
    if group.kind == "vehicle":
        return words.vehicle.format(words=group.words)
    what = subject_words(group.subject, wording_of(language))
    return words.with_words.format(what=what, words=group.words) if group.words else what


def _gap(number: int, one: TopGap, words: FigureWording) -> str:
    waiting = one.group.people
    people = words.nobody_waits if not waiting else words.one_waits if waiting == 1 else words.many_wait
    return words.gap.format(
        number=number,
        what=gap_title(one.group, words.language),
        people=people.format(count=waiting),
        asks=words.asked_times.format(count=one.group.asks),
        week=words.this_week.format(count=one.asks),
    )


def _tally(one: Tally, name: str, words: FigureWording) -> str:
    told = words.line.format(
        name=name, answered=one.answered, asked_back=one.asked_back, not_answered=one.not_answered
    )  # fmt: skip
    return f"{told} ({words.in_part.format(count=one.in_part)})" if one.in_part else told


def _time(length: timedelta, words: FigureWording) -> str:
    """In the unit that needs one or two figures, rounded up: it is what half of the askers waited at most."""
    for unit, form, most in ((_MINUTE, words.minutes, 120), (_HOUR, words.hours, 48), (_DAY, words.days, 10**9)):
        count = -(-length // unit)
        if count <= most:
            return form.format(count=count)
    return str(length)


def _plain(one: Tally) -> dict[str, Any]:
    return {
        "location": one.name or None,
        "answered": one.answered,
        "answered_in_part": one.in_part,
        "asked_back": one.asked_back,
        "not_answered": one.not_answered,
    }
