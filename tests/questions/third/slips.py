"""Slips of the finger: a word with one letter dropped, doubled, swapped or hit on the neighbouring key."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random

_KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
# Real words that lie one slip from a trade word and mean something else.
_NEAR_TRADE = (
    "side sides slid break brakes bake brace racket rocket color caller sender senior wheal steel speed seed "
    "spend plant plane place bear hearing wearing rubber locker backing packing joint point strut struts stunt "
    "shocks stock chock link lint line ring rings stable knuckles cooling collar sump sumps spark sparks bleed "
    "bleeders bolts bold tire tires tyre type types gauge fluid fluids flow tough touch torch pressure pleasure "
    "hub hubs tied outer inter cover clover lower slower tower mower upper supper socket pocket rocket sprocket "
    "minimum maximum nominal "
)
OTHER_WORDS = frozenset(_NEAR_TRADE.split())


def distance(one: str, two: str) -> int:
    """Optimal string alignment distance: insert, delete, replace, or swap two neighbours."""
    before: list[int] = []
    last = list(range(len(two) + 1))
    for i, a in enumerate(one, 1):
        row = [i]
        for j, b in enumerate(two, 1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a != b))
            if i > 1 and j > 1 and a == two[j - 2] and one[i - 2] == b:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        before, last = last, row
    return last[-1]


def slip(rng: Random, word: str) -> str:
    """`word` with one slip behind its first letter."""
    at = rng.randrange(1, len(word))
    kind = rng.choice(("drop", "double", "swap", "neighbour"))
    if kind == "drop":
        return word[:at] + word[at + 1 :]
    if kind == "double":
        return word[:at] + word[at] + word[at:]
    if kind == "swap" and at + 1 < len(word):
        return word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    return word[:at] + _neighbour(rng, word[at]) + word[at + 1 :]


def _neighbour(rng: Random, letter: str) -> str:
    for row in _KEYS:
        if letter in row:
            at = row.index(letter)
            return rng.choice([row[n] for n in (at - 1, at + 1) if 0 <= n < len(row)])
    return letter


def trade_slip(rng: Random, word: str, known: Iterable[str]) -> str:
    """A slip of a trade word, two edits nearer to it than to any other known word; the word itself if none is found."""
    others = {w for w in (*known, *OTHER_WORDS) if w not in (word, word + "s", word.removesuffix("s"))}
    for _ in range(8):
        typed = slip(rng, word)
        if typed != word and typed not in others and all(distance(typed, other) >= 3 for other in others):
            return typed
    return word
