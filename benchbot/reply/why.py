"""Explains a reading: each word, how it was read, and what was left out of account or held back the answer."""

from __future__ import annotations

from itertools import groupby

from benchbot.reply import wording
from benchbot.understanding.reading import Ask, Reading, WordNote

_MARK = "a mark"


def why(reading: Reading) -> str:
    """The reading in plain words, one line for each run of words that were read together."""
    notes = [note for note in reading.notes if note.how != _MARK]
    if not notes:
        return wording.WHY_NOTHING
    lines = [wording.WHY_HEAD]
    for (role, read_as, how), run in groupby(notes, key=lambda note: (note.role, note.read_as, note.how)):
        words = " ".join(note.word for note in run)
        meaning = _meaning(WordNote(words, role, read_as, how))
        lines.append("  " + wording.WHY_WORD.format(words=words, meaning=meaning))
    lines.append(wording.VEHICLE_STATES[reading.vehicle.state])
    for ask in reading.asks:
        lines += _asked(ask)
    return "\n".join(lines)


def _meaning(note: WordNote) -> str:
    form = wording.ROLES[note.role]
    if note.read_as and note.role == "noise":
        form = wording.NOISE_WITH_REASON
    elif note.read_as and note.role == "left over":
        form = wording.LEFT_OVER_WITH_REASON
    meaning = form.format(read_as=note.read_as)
    return f"{meaning} ({wording.HOW.get(note.how, note.how)})" if note.how else meaning


def _asked(ask: Ask) -> list[str]:
    place = (*ask.place.axles, *ask.place.heights, *ask.place.depths, *ask.place.sides)
    named = " or ".join(ask.components)
    properties = (" or " if ask.vague else " and ").join(ask.properties)
    lines = [wording.WHY_ASK.format(what=", ".join(word for word in (" and ".join(place), named, properties) if word))]
    if ask.always:
        lines.append(wording.WHY_ALWAYS.format(what=named))
    if properties and not ask.named and not ask.vague:
        lines.append(wording.WHY_DEFAULT.format(what=properties))
    return lines
