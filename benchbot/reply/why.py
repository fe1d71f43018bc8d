"""Explains a reading: each word, how it was read, and what was left out of account or held back the answer."""

from __future__ import annotations

from itertools import groupby

from benchbot.reply.languages import wording_of
from benchbot.reply.read_words import read_words
from benchbot.reply.subjects import component_words, position_words, property_words
from benchbot.reply.wording import Wording
from benchbot.understanding.reading import Ask, Reading, WordNote

_MARK = "a mark"


def why(reading: Reading, language: str = "en") -> str:
    """The reading in plain words, one line for each run of words that were read together.

    language: one of LANGUAGES; ValueError for any other.
    """
    wording = wording_of(language)
    notes = [note for note in reading.notes if note.how != _MARK]
    if not notes:
        return wording.why_nothing
    lines = [wording.why_head]
    for (role, read_as, how), run in groupby(notes, key=lambda note: (note.role, note.read_as, note.how)):
        words = " ".join(note.word for note in run)
        meaning = _meaning(WordNote(words, role, read_as, how), wording)
        lines.append("  " + wording.why_word.format(words=words, meaning=meaning))
    lines.append(wording.vehicle_states[reading.vehicle.state])
    for ask in reading.asks:
        lines += _asked(ask, wording)
    return "\n".join(lines)


def _meaning(note: WordNote, wording: Wording) -> str:
    form = wording.roles[note.role]
    if note.read_as and note.role == "noise":
        form = wording.noise_with_reason
    elif note.read_as and note.role == "left over":
        form = wording.left_over_with_reason
    meaning = form.format(read_as=read_words(note.role, note.read_as, wording))
    return f"{meaning} ({wording.how.get(note.how, note.how)})" if note.how else meaning


def _asked(ask: Ask, wording: Wording) -> list[str]:
    places = (*ask.place.axles, *ask.place.heights, *ask.place.depths, *ask.place.sides)
    place = wording.both.join(position_words(one, wording) for one in places)
    named = wording.either.join(component_words(one, wording) for one in ask.components)
    joint = wording.either if ask.vague else wording.both
    properties = joint.join(property_words(one, wording) for one in ask.properties)
    lines = [wording.why_ask.format(what=", ".join(word for word in (place, named, properties) if word))]
    if ask.always:
        lines.append(wording.why_always.format(what=named))
    if properties and not ask.named and not ask.vague:
        lines.append(wording.why_default.format(what=properties))
    return lines
