"""Puts a slip of the finger right: toward one word only, and never away from a word that is known."""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz import process
from rapidfuzz.distance import OSA

from benchbot.vocabulary.letters import slips_allowed

_SHORTEST, _LONGEST = 4, 24


class Spelling:
    """The words that a slip may be led back to; a word of four letters is forgiven two swapped or one left out."""

    def __init__(self, words: Iterable[str]) -> None:
        self._words = sorted({word for word in words if word.isalpha() and len(word) >= _SHORTEST})

    def nearest(self, typed: str) -> tuple[str, ...]:
        """The words equally near to an unknown one, within the slips that its length allows; () when none is."""
        if not typed.isalpha() or not _SHORTEST <= len(typed) <= _LONGEST:
            return ()
        near: dict[str, int] = {}
        for word, slips, _ in process.extract(typed, self._words, scorer=OSA.distance, score_cutoff=2, limit=None):
            sure = len(typed) > _SHORTEST or len(word) > len(typed) or sorted(typed) == sorted(word)
            if sure and slips <= min(slips_allowed(word), slips_allowed(typed)):
                near[word] = int(slips)
        best = min(near.values(), default=0)
        return tuple(word for word, slips in near.items() if slips == best)
