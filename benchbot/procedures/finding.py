"""Finds the step that a question is about: sure, to be asked back, or none of our business."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import log
from typing import Literal

from benchbot.procedures.perhaps import Perhaps
from benchbot.procedures.steps import Procedures, Step
from benchbot.procedures.wording import Meant, Wording, words_of
from benchbot.vocabulary.terms import Vocabulary

Verdict = Literal["sure", "ask", "none"]

_ENOUGH = 0.62
_TIED, _VARIANTS_TIED = 0.9, 0.87
_IN_HAND = 0.8
_OTHER_AXLE = 0.8
_OF_ITS_PARTS = 0.85
_SAME_PART = 0.03
_IN_THE_TEXT = 0.5
_ELSEWHERE, _NONE_OF_IT = 0.85, 0.7
_BESIDE = 0.4
_UNKNOWN, _UNASKED, _TALK, _TALK_IN_PHRASE, _READING = 0.9, 0.9, 0.2, 0.4, 3.0
_MOST_HITS = 6
_WHEN = frozenset({"before", "after", "when", "while", "once"})


@dataclass(frozen=True, slots=True)
class Hit:
    """A step that fits, the procedures it stands in, and how well it fits (0 to 1)."""

    step: Step
    procedures: tuple[str, ...]
    score: float


@dataclass(frozen=True, slots=True)
class Found:
    """What a question leads to.

    sure: the first of `hits` is meant. ask: every one of `hits` fits and they differ; `differ` says by what, one
    label a hit ("cable parking brake", "Front disc brake service"). none: it is no question about the work.
    """

    verdict: Verdict
    hits: tuple[Hit, ...] = ()
    differ: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Phrase:
    concepts: frozenset[str]
    factor: float


class Finder:
    """Made once for the procedures of a book and its vocabulary; holds no state of any question."""

    def __init__(self, procedures: Procedures, vocabulary: Vocabulary) -> None:
        self.procedures = procedures
        self._wording = Wording(procedures.sayings, vocabulary)
        self._wording.learn(said for step in procedures.steps.values() for said in (*step.asked_as, step.title))
        self._things = frozenset(procedures.sayings.things)
        self._topics = frozenset(procedures.sayings.topics)
        self._of_work = self._topics | frozenset(procedures.sayings.acts)
        self._talk: set[str] = set()
        self._phrases: dict[str, tuple[_Phrase, ...]] = {}
        self._text: dict[str, frozenset[str]] = {}
        for key, step in procedures.steps.items():
            self._phrases[key] = tuple(self._phrases_of(step))
            told = self._concepts(" ".join((step.title, step.do, *step.about)))
            self._text[key] = told.union(*(phrase.concepts for phrase in self._phrases[key]))
        self._tells = self._telling()
        self._weight = self._weights()
        self._asked_with: dict[str, list[tuple[str, _Phrase]]] = {}
        for key, phrases in self._phrases.items():
            for phrase in phrases:
                for concept in phrase.concepts:
                    self._asked_with.setdefault(concept, []).append((key, phrase))

    def find(
        self,
        words: Sequence[str],
        components: Collection[str] = (),
        axles: Collection[str] = (),
        in_hand: str | None = None,
        fitted: Collection[str] = (),
    ) -> Found:
        """The steps that a question is about.

        words: the words of the message without those that name the vehicle (`words_of(text)` when there is none);
        components and axles: those that the message was read as naming; in_hand: the id of the procedure being walked,
        whose steps come first; fitted: what is known to be fitted, of the `only_if` of the steps.
        """
        if self._wording.asks_a_figure(words) or self._wording.is_talk(words):
            return Found("none")
        asked = _once(self._wording.meant(words))
        if not any(meant.concepts and not meant.everyday for meant in asked):
            return Found("none")
        said = frozenset(c for meant in asked for c in meant.concepts)
        beside = _beside(words, asked)
        named = [c for meant in asked for c in sorted(meant.concepts & self._things)]
        near: dict[str, dict[_Phrase, None]] = {}
        for concept in said:
            for key, phrase in self._asked_with.get(concept, ()):
                near.setdefault(key, {})[phrase] = None
        hits = []
        for key, phrases in near.items():
            step = self.procedures.steps[key]
            if fitted and step.only_if and step.only_if not in fitted:
                continue
            score = self._score(step, phrases, said, asked, beside) * self._of_these(key, named)
            if score and set(components) & set(step.about):
                score += _SAME_PART
            if axles and not self._on(step, axles):
                score *= _OTHER_AXLE
            if score >= _ENOUGH:
                hits.append(Hit(step, self.procedures.holding(key), score))
        hits.sort(key=lambda hit: (-hit.score, hit.step.key))
        if not hits:
            return Found("none")
        if in_hand is not None:
            here = [hit for hit in hits if in_hand in hit.procedures or not hit.procedures]
            if here and here[0].score >= _IN_HAND * hits[0].score:
                hits = here
        told = said.union(*(self._tells.get(one, frozenset()) for one in fitted))
        return self._judged(hits[:_MOST_HITS], in_hand, told)

    def only_names(self, words: Sequence[str]) -> bool:
        """Whether no word says what is done to a thing or wrong with it, or names a topic of the work."""
        said = {c for meant in self._wording.meant(words) for c in meant.concepts}
        return not said & self._of_work

    def perhaps(self, words: Sequence[str], axles: Collection[str] = ()) -> Found:
        """Where `find` knows nothing: steps to offer ("ask", each by its title), or none."""
        if self._wording.asks_a_figure(words) or self._wording.is_talk(words):
            return Found("none")
        steps = [self.procedures.steps[key] for key in self._perhaps.of(words)]
        steps = [step for step in steps if not axles or self._on(step, axles)]
        hits = tuple(Hit(step, self.procedures.holding(step.key), 0.0) for step in steps)
        return Found("ask", hits, tuple(step.title for step in steps)) if hits else Found("none")

    @cached_property
    def _perhaps(self) -> Perhaps:
        return Perhaps(self.procedures, self._wording)

    def strange(self, words: Sequence[str]) -> frozenset[str]:
        """The words that no saying and no step knows, of which one may be the name of a vehicle."""
        meant = self._wording.meant(words)
        return frozenset(one.said for one in meant if not one.concepts and not one.everyday)

    def _judged(self, hits: list[Hit], in_hand: str | None, said: frozenset[str]) -> Found:
        """Steps as good as the best that are done elsewhere, or to something else, must be told apart."""
        best = hits[0]
        assumed = bool(best.step.only_if) and not said & self._tells[best.step.only_if]
        tied = [
            hit for hit in hits if hit.score >= (_VARIANTS_TIED if assumed and hit.step.only_if else _TIED) * best.score
        ]
        unlike = [hit for hit in tied if hit is best or self._differ(best, hit, in_hand)]
        if len(unlike) == 1:
            return Found("sure", tuple(hits))
        return Found("ask", tuple(unlike), tuple(self._label(hit) for hit in unlike))

    def _differ(self, one: Hit, other: Hit, in_hand: str | None) -> bool:
        if one.step.only_if != other.step.only_if:
            return True
        if in_hand is not None or not one.procedures or not other.procedures:
            return False
        return not set(one.procedures) & set(other.procedures)

    def _label(self, hit: Hit) -> str:
        titles = ", ".join(self.procedures.procedures[name].title for name in hit.procedures) or hit.step.title
        return f"{titles}: {hit.step.only_if}" if hit.step.only_if else titles

    def _of_these(self, key: str, named: list[str]) -> float:
        """How far the step speaks of the things that were named, of the first one above all."""
        if not named or named[0] in self._text[key]:
            return 1.0
        return _ELSEWHERE if set(named) & self._text[key] else _NONE_OF_IT

    def _score(
        self, step: Step, phrases: Iterable[_Phrase], said: frozenset[str], asked: list[Meant], beside: list[float]
    ) -> float:
        """How much of the question the best phrase of a step explains, and how much of the phrase was said."""
        text, best = self._text[step.key], 0.0
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

    def _on(self, step: Step, axles: Collection[str]) -> bool:
        held = self.procedures.holding(step.key)
        return not held or any(self.procedures.procedures[name].axle in ("any", *axles) for name in held)

    def _weight_of(self, meant: Meant) -> float:
        if not meant.concepts:
            # a reading taken from a part is for the book's limits
            return _READING if "." in meant.said else _TALK if meant.everyday else _UNKNOWN
        return max(self._weight.get(c, _UNASKED) for c in meant.concepts)

    def _phrases_of(self, step: Step) -> list[_Phrase]:
        """What the step is asked as, and its acts upon the things it is about."""
        found = {self._concepts(said): 1.0 for said in step.asked_as}
        title = self._concepts(step.title)
        if len(title) > 1:
            found.setdefault(title, 1.0)
        for part in step.about:
            for act in step.acts:
                found.setdefault(self._concepts(part) | {act}, _OF_ITS_PARTS)
        return [_Phrase(concepts, factor) for concepts, factor in found.items() if concepts]

    def _concepts(self, said: str) -> frozenset[str]:
        concepts: set[str] = set()
        for meant in self._wording.meant(words_of(said), rescue=False):
            concepts |= meant.concepts
            if meant.everyday:
                self._talk |= meant.concepts
        return frozenset(concepts)

    def _telling(self) -> dict[str, frozenset[str]]:
        """For each thing that can be fitted, what tells it from the others: "cable", a piston that is wound in."""
        concepts: dict[str, frozenset[str]] = {}
        for step in self.procedures.steps.values():
            told = self._concepts(f"{step.only_if}. {step.title}") | set(step.acts)
            concepts[step.only_if] = concepts.get(step.only_if, frozenset()) | told
        del concepts[""]
        return {
            fitted: told - frozenset().union(*(other for name, other in concepts.items() if name != fitted))
            for fitted, told in concepts.items()
        }

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
