"""Says what a word was read as, for the echo of a rescued spelling and for the explanation of a reading."""

from __future__ import annotations

from benchbot.reply.subjects import OR, build_words, component_words, position_words, property_words
from benchbot.reply.wording import Wording
from benchbot.understanding.reading import Role


def read_words(role: Role, read_as: str, wording: Wording) -> str:
    """What stands in a note's `read_as`, in the language of the wording; what it has no word for stays as it is."""
    if role == "component":
        return component_words(read_as, wording)
    if role == "property":
        return property_words(read_as, wording)
    if role == "position":
        return position_words(read_as, wording)
    if role == "qualifier":
        return wording.either.join(_qualifier(one, wording) for one in read_as.split(OR))
    return _reason(read_as, wording)


def _qualifier(read_as: str, wording: Wording) -> str:
    """Example: "drive 4WD", "built 2016-05"."""
    key, space, value = read_as.partition(" ")
    return build_words(value, wording) if key == "built" else wording.names.keys.get(key, key) + space + value


def _reason(read_as: str, wording: Wording) -> str:
    """Example: "a price"; "said not to be so: sport", where only what stands before the colon is ours."""
    ours, colon, said = read_as.partition(": ")
    return wording.names.reasons.get(ours, ours) + colon + said
