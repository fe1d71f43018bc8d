"""Which choice of the pending question a typed message takes, in the book's language or in the one it was shown in."""

from __future__ import annotations

import re
from typing import Any

from benchbot.conversation.past import Past
from benchbot.vocabulary.letters import fold
from benchbot.vocabulary.qualifiers import value_words

_ARTICLE = re.compile(r"^(?:the|(?:el|la|los|las)(?: de)?) ")


def typed_choice(text: str, past: Past) -> int | None:
    """The number of the pending choice that was typed, by its label or by its number."""
    if not past.labels:
        return None
    said = " ".join(fold(text).strip(" .!¡").split())
    by_label = [n for n in range(1, len(past.labels) + 1) if said in _labels(past, n)]
    if len(by_label) == 1:
        return by_label[0]
    if said.isdigit() and len(said) == 1 and 1 <= int(said) <= len(past.labels):
        return int(said)
    bare = _ARTICLE.sub("", said)
    by_letter = [n for n, choice in enumerate(past.choices, 1) if bare in _initials(choice)]
    if len(by_letter) == 1:
        return by_letter[0]
    by_word = [
        n
        for n, choice in enumerate(past.choices, 1)
        if "vehicle" in choice and bare in fold(past.labels[n - 1]).split()
    ]
    return by_word[0] if len(by_word) == 1 else _by_its_number(bare, past)


def _initials(choice: dict[str, Any]) -> set[str]:
    """Example: "f", "r": a letter means rear where front or rear was asked, and right where left or right was."""
    return {str(choice[place])[0] for place in ("axle", "side") if place in choice}


def _labels(past: Past, number: int) -> set[str]:
    """How a choice can be called: as the book has it, as it was shown, and by the part's own name behind the book's."""
    shown = past.shown[number - 1 : number]
    called = [past.labels[number - 1], *shown]
    if "component" in past.choices[number - 1]:
        called += [own.removesuffix(")") for _, own in (label.split(" (", 1) for label in shown if " (" in label)]
    return {" ".join(fold(label).split()) for label in called}


def _by_its_number(bare: str, past: Past) -> int | None:
    """Example: "320", "17s": the figure of just one of the offered brake sizes or engines."""
    figure = bare.removesuffix("s")
    if not figure.replace(".", "", 1).isdigit():
        return None
    stated = [choice.get("stated", ("", "")) for choice in past.choices]
    fits = [n for n, (key, value) in enumerate(stated, 1) if key and figure in value_words(key, value)]
    return fits[0] if len(fits) == 1 else None
