"""Which choice of the pending question a typed message takes."""

from __future__ import annotations

from benchbot.conversation.past import Past
from benchbot.vocabulary.letters import fold
from benchbot.vocabulary.qualifiers import value_words


def typed_choice(text: str, past: Past) -> int | None:
    """The number of the pending choice that was typed, by its label or by its number."""
    if not past.labels:
        return None
    said = " ".join(fold(text).strip(" .!").split())
    labels = [" ".join(fold(label).split()) for label in past.labels]
    if said in labels:
        return labels.index(said) + 1
    if said.isdigit() and len(said) == 1 and 1 <= int(said) <= len(labels):
        return int(said)
    by_word = [
        n for n, choice in enumerate(past.choices, 1) if "vehicle" in choice and said in fold(labels[n - 1]).split()
    ]
    return by_word[0] if len(by_word) == 1 else _by_its_number(said, past)


def _by_its_number(said: str, past: Past) -> int | None:
    """Example: "320", "the 17s": the figure of just one of the offered brake sizes or engines."""
    figure = said.removeprefix("the ").removesuffix("s")
    if not figure.replace(".", "", 1).isdigit():
        return None
    stated = [choice.get("stated", ("", "")) for choice in past.choices]
    fits = [n for n, (key, value) in enumerate(stated, 1) if key and figure in value_words(key, value)]
    return fits[0] if len(fits) == 1 else None
