"""What becomes of one sending, and how that goes on record."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchbot.channels.telegram.calls import Verdict
from benchbot.desk.sheets import Button, Parcel, Sheet
from benchbot.desk.wording import wording_of
from benchbot.records import outbox
from benchbot.records.outbox import Claimed
from benchbot.records.record import Record
from benchbot.reply.reply import Block

# An internal error of the server that stays this long is about this one message; it must not hold up its chat.
TRIES_AT_MOST = 40
# What the server answered so that nobody can read it, it may well answer so again.
GARBLED_AT_MOST = 5
_WHY_AT_MOST = 300
_FIRST_WAIT, _LONGEST_WAIT = 0.5, 30.0


@dataclass(frozen=True, slots=True)
class Sent:
    """message: the id of the message that shows it now, or empty."""

    message: str


@dataclass(frozen=True, slots=True)
class Back:
    """To be tried again after a while; moved: to the chat that the group has become."""

    wait: timedelta
    why: str
    moved: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    why: str


@dataclass(frozen=True, slots=True)
class Unsure:
    """Nobody can tell whether it was shown."""

    why: str


Fate = Sent | Back | Refused | Unsure


def fate_of(verdict: Verdict, parcel: Parcel, tries: int) -> Fate:
    """What comes of a call that failed: nothing may be lost, and nothing may be shown twice without a word."""
    if verdict.what == "wait":
        return Back(verdict.wait, verdict.why)
    if verdict.what == "moved":
        return Back(timedelta(0), verdict.why, verdict.chat)
    if parcel.do == "menu" and (verdict.what == "token" or tries >= TRIES_AT_MOST):
        # A server that knows no menus answers as to a wrong token; no answer may wait behind a menu.
        return Refused(verdict.why)
    if verdict.what == "token":
        return Back(timedelta(0), verdict.why)
    if verdict.what == "not done" and tries < TRIES_AT_MOST:
        return Back(backoff(tries), verdict.why)
    same_again = parcel.do in ("change", "caption", "menu")
    if verdict.what == "garbled":
        if same_again and tries < GARBLED_AT_MOST:
            return Back(backoff(tries), verdict.why)
        return Refused(verdict.why) if parcel.do == "menu" else Unsure(verdict.why)
    if verdict.what in ("not done", "unknown"):
        return Back(backoff(tries), verdict.why) if same_again or parcel.twice else Unsure(verdict.why)
    return Refused(verdict.why)


def backoff(tries: int, chance: Callable[[], float] = random.random) -> timedelta:
    """0.5 s, then twice as long each time, at most 30 s; up to half of it by chance, so that not all come at once."""
    longest = min(_LONGEST_WAIT, _FIRST_WAIT * 2.0 ** min(tries - 1, 10))
    return timedelta(seconds=longest * (0.5 + chance() / 2))


def put_on_record(record: Record, bot: str, claimed: Claimed, fate: Fate, now: datetime) -> None:
    """Inside a transaction of the caller, or in one of its own."""
    if isinstance(fate, Sent):
        outbox.sent(record, claimed.number, fate.message, now)
    elif isinstance(fate, Refused):
        outbox.ended(record, claimed.number, "refused", _brief(fate.why), now)
    elif isinstance(fate, Unsure):
        with record.writing() as store:
            outbox.ended(record, claimed.number, "unsure", _brief(fate.why), now)
            about = Parcel.from_text(claimed.body)
            if not about.twice:
                # What may show twice asks about another one already.
                outbox.add(store, bot, claimed.chat, _asking(claimed, about).to_text(), now)
    else:
        with record.writing() as store:
            outbox.back(record, claimed.number, now + fate.wait if fate.wait else None, _brief(fate.why))
            if fate.moved:
                outbox.rechat(store, bot, claimed.chat, fate.moved)


def _brief(why: str) -> str:
    """A line that every database takes, whatever a server or an exception says."""
    return why[:_WHY_AT_MOST].encode("utf-8", "replace").decode("utf-8").replace("\x00", "")


def _asking(claimed: Claimed, about: Parcel) -> Parcel:
    """Asks the person: only they can see whether the message is there."""
    words = wording_of(about.language)
    sheet = Sheet((Block("note", words.unsure),), (Button(words.show_it, f"again.{claimed.number}", wide=True),))
    return Parcel(
        "post", claimed.chat, sheet, topic=about.topic, quote=about.quote, twice=True, language=about.language
    )
