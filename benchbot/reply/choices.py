"""The ways to go on, labelled in the language of the reply."""

from __future__ import annotations

from collections.abc import Sequence

from benchbot.outcomes import Option
from benchbot.reply.reply import Choice
from benchbot.reply.subjects import build_words, component_words, position_words, property_words
from benchbot.reply.wording import Wording

_PLACES = ("axle", "height", "depth", "side")


def choices_of(options: Sequence[Option], key: str, wording: Wording) -> tuple[Choice, ...]:
    """key: what the question is about, as the words to be left out of account."""
    return tuple(Choice(choice_label(option, key, wording), option.states) for option in options)


def choice_label(option: Option, key: str, wording: Wording) -> str:
    """What the option states, in words. Values, years and names of vehicles are the same in every language."""
    states, names = option.states, wording.names
    if "go" in states:
        return wording.steps[states["go"]].format(title=option.label)
    if wording.is_the_books:
        return option.label
    for place in _PLACES:
        if place in states:
            return position_words(states[place], wording)
    if "property" in states:
        return property_words(states["property"], wording)
    if "component" in states:
        return component_words(states["component"], wording)
    if "typed" in states:
        return names.typed
    if "ignore" in states:
        return names.leave_out.format(words=key)
    if "stated" in states and states["stated"][0] == "build":
        return build_words(states["stated"][1], wording)
    return _row_label(option.label, wording) if "row" in states else option.label


def _row_label(label: str, wording: Wording) -> str:
    """Example: "front upper, engine=1.6, 2015-2019"; a row without a position begins with what narrows it."""
    first, comma, rest = label.partition(", ")
    placed = all(word in wording.names.positions for word in first.split(" "))
    return (position_words(first, wording) if placed else first) + comma + rest
