"""Takes a question apart into what the likeness is learned from: its words, its pairs of words, pieces of its words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import log, sqrt

_PIECES = (3, 4)
Groups = tuple[Counter[str], Counter[str]]


def groups_of(words: Sequence[str]) -> Groups:
    """The features of a question in two groups, with how often each is there.

    words: as `wording.words_of` gives them. The first group holds words and pairs of neighbours ("pin", "slide pin"),
    the second pieces of three and four letters with the ends of the word marked (" pi", "pins", "ns "), which forgive
    slips of the finger and endings.
    """
    said = Counter(words)
    said.update(f"{one} {other}" for one, other in pairwise(words))
    pieces: Counter[str] = Counter()
    for word in words:
        padded = f" {word} "
        for length in _PIECES:
            pieces.update(padded[at : at + length] for at in range(max(1, len(padded) - length + 1)))
    # a piece is never mistaken for a word
    return said, Counter({f"_{piece}": count for piece, count in pieces.items()})


def weighed(groups: Groups, rarity: Mapping[str, float], strange: float) -> dict[str, float]:
    """Every known feature with its weight in the question: the rarer the heavier, each group of length 1.

    rarity: feature -> how rare it is; strange: that of a word which was never seen. It has no weight of its own, but
    what is known counts for less beside it.
    """
    found: dict[str, float] = {}
    for group in groups:
        heavy = {one: (1 + log(count)) * rarity.get(one, strange) for one, count in group.items()}
        length = sqrt(sum(weight * weight for weight in heavy.values())) or 1.0
        found |= {one: weight / length for one, weight in heavy.items() if one in rarity}
    return found
