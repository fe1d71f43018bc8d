"""Takes a wrong word of the shop's, or a wrong name of a vehicle, back; and finds what was answered through it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime, timedelta

from rapidfuzz.distance import OSA

from benchbot.records import own_words
from benchbot.records.own_words import Message, OwnWord
from benchbot.records.record import Record
from benchbot.vocabulary.letters import name_words, slips_allowed

# As far back as an answer may still be on somebody's mind.
DAYS = 180


@dataclass(frozen=True, slots=True)
class TakenBack:
    """read: the answers of the last DAYS days that were read through it, the latest first."""

    word: OwnWord
    read: tuple[Message, ...]


def find(record: Record, said: str, means: str = "") -> list[OwnWord]:
    """The words and names in use that are written so; means: only those of that part or vehicle."""
    words, meant = name_words(said), name_words(means)
    return [
        one
        for one in own_words.all_in_use(record)
        if name_words(one.said) == words and (not meant or name_words(one.means) == meant)
    ]


def take_back(record: Record, word: OwnWord, author: str, why: str, now: datetime) -> TakenBack | None:
    """It counts in no book from the next one on; None when it was taken back before. why: may be empty."""
    with record.writing():
        if word not in own_words.all_in_use(record):
            return None
        read = read_through(record, word, now)
        told = f"the shop does not say {word.said!r} for {word.means} any more"
        own_words.take_back(record, word, author, f"{told}: {why}" if why else told, now)
    return TakenBack(word, read)


def read_through(record: Record, word: OwnWord, now: datetime) -> tuple[Message, ...]:
    """Answers to messages that have the word, and to those that went on from them in the same chat."""
    found: list[Message] = []
    chat, through = "", False
    for one in own_words.asked_about(record, word, now - timedelta(days=DAYS)):
        if one.chat != chat:
            chat, through = one.chat, False
        through = _says(one.asked, word.said) or (through and _goes_on(one, word))
        if through and one.shown:
            found.append(one)
    return tuple(sorted(found, key=lambda one: (one.at, one.answer), reverse=True))


def _says(asked: str, said: str) -> bool:
    """Whether the message has the words, in whatever order, run together or with a slip of the finger in each."""
    words, wanted = name_words(asked), name_words(said)
    if "".join(wanted) in "".join(words):
        return True
    return all(any(_is_near(word, one) for word in words) for one in wanted)


def _is_near(word: str, wanted: str) -> bool:
    most = slips_allowed(wanted)
    return word.removesuffix("s") == wanted.removesuffix("s") or OSA.distance(word, wanted, score_cutoff=most) <= most


def _goes_on(one: Message, word: OwnWord) -> bool:
    """A choice that was pressed, or a message that names no other part or vehicle itself."""
    if one.asked.strip().isdecimal():
        return True
    role = "component" if word.kind == "word" else "vehicle"
    notes = json.loads(one.reading).get("words", []) if one.reading else []
    return not any(str(note).partition(": ")[2].startswith(role) for note in notes)
