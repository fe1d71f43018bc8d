"""How much of a question a step explains by the words it is asked with: acts, things, topics, and plain words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from math import log

from benchbot.procedures.steps import Procedures, Step
from benchbot.procedures.wording import Meant, Wording, words_of

_OF_ITS_PARTS = 0.85
_SAME_PART = 0.03
_IN_THE_TEXT = 0.5
_ELSEWHERE, _NONE_OF_IT = 0.85, 0.7
_BESIDE = 0.4
_UNKNOWN, _UNASKED, _TALK, _TALK_IN_PHRASE, _READING = 0.9, 0.9, 0.2, 0.4, 3.0
_WHEN = frozenset({"before", "after", "when", "while", "once"})


@dataclass(frozen=True, slots=True)
class _Phrase:
    concepts: frozenset[str]
    factor: float


class Overlap:
    """Made once for the procedures of a book; holds no state of any question."""

    def __init__(self, procedures: Procedures, wording: Wording) -> None:
        self._steps = procedures.steps
        self._wording = wording
        self._things = frozenset(procedures.sayings.things)
        self._topics = frozenset(procedures.sayings.topics)
        self._talk: set[str] = set()
        self._phrases: dict[str, tuple[_Phrase, ...]] = {}
        self._text: dict[str, frozenset[str]] = {}
        for key, step in self._steps.items():
            self._phrases[key] = tuple(self._phrases_of(step))
            told = self.concepts(" ".join((step.title, step.do, *step.about)))
            self._text[key] = told.union(*(phrase.concepts for phrase in self._phrases[key]))
        self._weight = self._weights()
        self._asked_with: dict[str, list[tuple[str, _Phrase]]] = {}
        for key, phrases in self._phrases.items():
            for phrase in phrases:
                for concept in phrase.concepts:
                    self._asked_with.setdefault(concept, []).append((key, phrase))

    def of(self, words: Sequence[str], components: Collection[str] = ()) -> dict[str, float]:
        """Key of a step -> how well it fits (0 to 1), of those that share anything with the question.

        words: as `wording.words_of` gives them; components: those that the message was read as naming.
        """
        asked = _once(self._wording.meant(words))
        if not any(meant.concepts and not meant.everyday for meant in asked):
            return {}
        said = frozenset(c for meant in asked for c in meant.concepts)
        beside = _beside(words, asked)
        named = [c for meant in asked for c in sorted(meant.concepts & self._things)]
        near: dict[str, dict[_Phrase, None]] = {}
        for concept in said:
            for key, phrase in self._asked_with.get(concept, ()):
                near.setdefault(key, {})[phrase] = None
        found = {}
        for key, phrases in near.items():
            score = self._score(key, phrases, said, asked, beside) * self._of_these(key, named)
            if score:
                found[key] = score + (_SAME_PART if set(components) & set(self._steps[key].about) else 0.0)
        return found

    def concepts(self, said: str) -> frozenset[str]:
        """What a text of the step files speaks of."""
        concepts: set[str] = set()
        for meant in self._wording.meant(words_of(said), rescue=False):
            concepts |= meant.concepts
            if meant.everyday:
                self._talk |= meant.concepts
        return frozenset(concepts)

    def _of_these(self, key: str, named: list[str]) -> float:
        """How far the step speaks of the things that were named, of the first one above all."""
        if not named or named[0] in self._text[key]:
            return 1.0
        return _ELSEWHERE if set(named) & self._text[key] else _NONE_OF_IT

    def _score(
        self, key: str, phrases: Iterable[_Phrase], said: frozenset[str], asked: list[Meant], beside: list[float]
    ) -> float:
        """How much of the question the best phrase of a step explains, and how much of the phrase was said."""
        text, best = self._text[key], 0.0
        weights = [self._weight_of(meant) * less for meant, less in zip(asked, beside, strict=True)]
        total = sum(weights)
        for phrase in phrases:
            shared = said & phrase.concepts
            if not shared & self._topics and (len(shared) < 2 or shared <= self._things):
                # a bare part asks for its figure, a bare act says of nothing what is done to it
                continue
            explained = 0.0
            for meant, weight in zip(asked, weights, strict=True):
                if meant.concepts & phrase.concepts:
                    explained += weight
                elif meant.concepts & text:
                    explained += weight * _IN_THE_TEXT
            precision = explained / total
            recall = sum(self._weight[c] for c in shared) / sum(self._weight[c] for c in phrase.concepts)
            best = max(best, phrase.factor * 2 * precision * recall / (precision + recall))
        return best

    def _weight_of(self, meant: Meant) -> float:
        if not meant.concepts:
            # a reading taken from a part is for the book's limits
            return _READING if "." in meant.said else _TALK if meant.everyday else _UNKNOWN
        return max(self._weight.get(c, _UNASKED) for c in meant.concepts)

    def _phrases_of(self, step: Step) -> list[_Phrase]:
        """What the step is asked as, and its acts upon the things it is about."""
        found = {self.concepts(said): 1.0 for said in step.asked_as}
        title = self.concepts(step.title)
        if len(title) > 1:
            found.setdefault(title, 1.0)
        for part in step.about:
            for act in step.acts:
                found.setdefault(self.concepts(part) | {act}, _OF_ITS_PARTS)
        return [_Phrase(concepts, factor) for concepts, factor in found.items() if concepts]

    def _weights(self) -> dict[str, float]:
        """Rare concepts tell more than common ones; everyday words tell little."""
        many = len(self._phrases)
        counts: dict[str, int] = {}
        for phrases in self._phrases.values():
            for concept in frozenset().union(*(phrase.concepts for phrase in phrases)):
                counts[concept] = counts.get(concept, 0) + 1
        return {
            concept: (0.5 + log(many / count) / log(many)) * (_TALK_IN_PHRASE if concept in self._talk else 1.0)
            for concept, count in counts.items()
        }


def _beside(words: Sequence[str], asked: list[Meant]) -> list[float]:
    """How much each counts: what stands behind "before", "after" ... says when it is asked, not what."""
    at = next((n for n, word in enumerate(words) if n and word in _WHEN), len(words))
    ahead = " ".join(words[:at])
    first = [meant.said in ahead for meant in asked]
    if sum(known and bool(meant.concepts) for known, meant in zip(first, asked, strict=True)) < 2:
        return [1.0] * len(asked)
    return [1.0 if known else _BESIDE for known in first]


def _once(asked: list[Meant]) -> list[Meant]:
    """What is said twice counts once ("growling noise")."""
    return list({meant.concepts or frozenset({meant.said}): meant for meant in asked}.values())
