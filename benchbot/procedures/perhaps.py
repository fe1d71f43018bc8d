"""Steps that a question may be about where none is asked so: found by all that a step says, offered and never taken."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import log

from benchbot.procedures.steps import Procedures, Step
from benchbot.procedures.wording import Meant, Wording, words_of

_ENOUGH, _ALL = 0.5, 0.9
_NEAR = 0.8
_MOST = 3
_EVERYDAY = 0.15


class Perhaps:
    """Made once for the procedures of a book; holds no state of any question."""

    def __init__(self, procedures: Procedures, wording: Wording) -> None:
        self._wording = wording
        self._things = frozenset(procedures.sayings.things)
        self._told = {key: self._concepts(step) for key, step in procedures.steps.items()}
        self._count = Counter(concept for told in self._told.values() for concept in told)

    def of(self, words: Sequence[str]) -> tuple[str, ...]:
        """The keys of at most three steps, the likeliest first; empty where nothing is likely.

        A thing must be named, and something that is said of it; what no step speaks of counts against all of them.
        """
        asked = self._wording.meant(words, learning=True, rescue=False)
        named = {c for meant in asked for c in meant.concepts & self._things}
        weights = [self._weight(meant) for meant in asked]
        total = sum(weights)
        if not named or not total:
            return ()
        found = []
        for key, told in self._told.items():
            known = [(meant, weight) for meant, weight in zip(asked, weights, strict=True) if meant.concepts & told]
            of_it = {c for meant, _ in known for c in meant.concepts} & named
            share = sum(weight for _, weight in known) / total
            of_it_said = any(not meant.everyday and not meant.concepts & named for meant, _ in known)
            if of_it and (of_it_said or (len(of_it) > 1 and share >= _ALL)):
                found.append((share, key))
        found.sort(key=lambda one: (-one[0], one[1]))
        return tuple(key for share, key in found[:_MOST] if share >= max(_ENOUGH, _NEAR * found[0][0]))

    def _weight(self, meant: Meant) -> float:
        """Rare words tell more than common ones."""
        count = min((self._count[c] for c in meant.concepts if self._count[c]), default=0)
        weight = log(len(self._told) / count) if count else log(len(self._told)) / 2
        return weight * _EVERYDAY if meant.everyday else weight

    def _concepts(self, step: Step) -> frozenset[str]:
        texts = [step.title, step.do, step.because, *step.about, *step.asked_as]
        texts += [text for one in step.checks for text in (one.look, one.good, one.bad, one.then)]
        texts += [step.stop.when, step.stop.do] if step.stop else []
        texts += [step.judge.rule] if step.judge else []
        said = (self._wording.meant(words_of(text), learning=True, rescue=False) for text in texts)
        return frozenset(concept for meant in said for one in meant for concept in one.concepts)
