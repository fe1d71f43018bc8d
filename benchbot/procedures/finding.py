"""Finds the step that a question is about: sure, to be asked back, or none of our business."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from benchbot.procedures.likeness import NO_STEP, Likeness, Weights
from benchbot.procedures.overlap import Overlap
from benchbot.procedures.steps import Procedures, Step
from benchbot.procedures.wording import Wording
from benchbot.vocabulary.terms import Vocabulary

Verdict = Literal["sure", "ask", "none"]

# By the words alone: what is found at all, what is as good as the best, what stays the likelier where a job is done.
_ENOUGH = 0.62
_TIED, _VARIANTS_TIED = 0.9, 0.87
_IN_HAND = 0.8
_PLAIN = 0.85
_OTHER_AXLE = 0.8
# With what was learned: the share of the words in it, what is worth an offer, what is sure, and by how much it leads.
_WORDS = 0.3
_OFFERED, _SURE = -0.8, -0.55
_LEADS, _CLOSE = 0.05, 0.35
_STRONG = -0.25
_PLAINLY = 0.8
_OVER_NO_STEP, _OVER_WITH_NAMES = 1.05, 0.8
_AXLE_COSTS = 0.4
_MOST_HITS, _MOST_OFFERED, _FEWEST_OFFERED = 6, 3, 2
_WHERE = frozenset(
    {"the", "a", "and", "my", "of", "on", "for", "one", "both", "el", "la", "los", "las", "de", "del", "al", "lado"}
    | {"front", "rear", "left", "right", "upper", "lower", "inner", "outer"}
)


@dataclass(frozen=True, slots=True)
class Hit:
    """A step that fits, the procedures it stands in, and how well it fits: the more the better."""

    step: Step
    procedures: tuple[str, ...]
    score: float


@dataclass(frozen=True, slots=True)
class Found:
    """What a question leads to.

    sure: the first of `hits` is meant; `close` of those after it are nearly as likely. ask: every one of `hits` fits
    and they differ; `differ` says by what, one label a hit ("cable parking brake", "Front disc brake service");
    `offered` when none of them is likely enough to speak of the work where something else may be meant. none: it is no
    question about the work.
    """

    verdict: Verdict
    hits: tuple[Hit, ...] = ()
    differ: tuple[str, ...] = ()
    close: int = 0
    offered: bool = False


class Finder:
    """Made once for the procedures of a book and its vocabulary; holds no state of any question.

    learned: how people ask for the steps, None for a book that carries nothing of it: then the words alone tell.
    """

    def __init__(self, procedures: Procedures, vocabulary: Vocabulary, learned: Weights | None = None) -> None:
        self.procedures = procedures
        self._wording = Wording(procedures.sayings, vocabulary)
        self._wording.learn(said for step in procedures.steps.values() for said in (*step.asked_as, step.title))
        self._things = frozenset(procedures.sayings.things)
        self._topics = frozenset(procedures.sayings.topics)
        self._of_work = self._topics | frozenset(procedures.sayings.acts)
        self._overlap = Overlap(procedures, self._wording)
        self._tells = self._telling()
        self._ways, self._told_apart = self._of_ways()
        self._likeness = Likeness(learned) if learned is not None else None

    def find(
        self,
        words: Sequence[str],
        components: Collection[str] = (),
        axles: Collection[str] = (),
        in_hand: str | None = None,
        fitted: Collection[str] = (),
        figure: bool = False,
    ) -> Found:
        """The steps that a question is about.

        words: the words of the message without those that name the vehicle (`words_of(text)` when there is none);
        components and axles: those that the message was read as naming; in_hand: the id of the procedure being walked,
        whose steps come first; fitted: what is known to be fitted, of the `only_if` of the steps; figure: whether the
        message was read as naming a figure of the book ("torque", "thread"), which takes more to be about the work.
        """
        if self._is_bare(words):
            return Found("none")
        overlap = self._overlap.of(words, components)
        if fitted:
            steps = self.procedures.steps
            overlap = {key: n for key, n in overlap.items() if not steps[key].only_if or steps[key].only_if in fitted}
        told = self._said(words).union(*(self._tells.get(one, frozenset()) for one in fitted))
        spoken = self._by_words(overlap, axles, in_hand, told)
        if self._likeness is None:
            return spoken
        if in_hand is not None and _is_plain(spoken, in_hand):
            return spoken
        return self._by_learning(words, overlap, spoken, axles, in_hand, fitted, figure)

    def only_names(self, words: Sequence[str]) -> bool:
        """Whether no word says what is done to a thing or wrong with it, or names a topic of the work."""
        return not self._said(words) & self._of_work

    def _is_bare(self, words: Sequence[str]) -> bool:
        """Whether there is nothing but names of things and where they sit: a bare part asks for its figure."""
        things = {
            part for one in self._wording.meant(words) if one.concepts & self._things for part in one.said.split()
        }
        return all(word in things or word in _WHERE for word in words)

    def _speaks_of_the_work(self, words: Sequence[str]) -> bool:
        """Whether a part or a topic is named: without one it may be about anything ("same thing on the next one")."""
        return bool(self._said(words) & (self._things | self._topics))

    def strange(self, words: Sequence[str]) -> frozenset[str]:
        """The words that no saying and no step knows, of which one may be the name of a vehicle."""
        meant = self._wording.meant(words)
        return frozenset(one.said for one in meant if not one.concepts and not one.everyday)

    def _said(self, words: Sequence[str]) -> frozenset[str]:
        return frozenset(c for meant in self._wording.meant(words) for c in meant.concepts)

    def _by_words(
        self, overlap: dict[str, float], axles: Collection[str], in_hand: str | None, told: frozenset[str]
    ) -> Found:
        """By the words that the steps are asked with."""
        hits = []
        for key, score in overlap.items():
            step = self.procedures.steps[key]
            if axles and not self._on(step, axles):
                score *= _OTHER_AXLE
            if score >= _ENOUGH:
                hits.append(self._hit(key, score))
        hits.sort(key=lambda hit: (-hit.score, hit.step.key))
        if not hits:
            return Found("none")
        if in_hand is not None:
            here = [hit for hit in hits if in_hand in hit.procedures or not hit.procedures]
            if here and here[0].score >= _IN_HAND * hits[0].score:
                hits = here
        return self._judged(hits[:_MOST_HITS], in_hand, told)

    def _by_learning(
        self,
        words: Sequence[str],
        overlap: dict[str, float],
        spoken: Found,
        axles: Collection[str],
        in_hand: str | None,
        fitted: Collection[str],
        figure: bool,
    ) -> Found:
        """By how people ask for the steps, the words beside it."""
        assert self._likeness is not None
        likeness = self._likeness.of(words)
        hits = []
        for key, step in self.procedures.steps.items():
            if fitted and step.only_if and step.only_if not in fitted:
                continue
            share = overlap.get(key, 0.0)
            # a step that the shop has added is asked for by its own words alone
            score = likeness.get(key, _own(share)) + _WORDS * share
            if axles and not self._on(step, axles):
                score -= _AXLE_COSTS
            if in_hand is not None and in_hand in self.procedures.holding(key):
                score += _CLOSE
            if score >= _OFFERED:
                hits.append(self._hit(key, score))
        hits.sort(key=lambda hit: (-hit.score, hit.step.key))
        # a part of which nothing is said asks for its figure, whatever stands around it
        over = _OVER_NO_STEP if figure else _OVER_WITH_NAMES if self.only_names(words) else 0.0
        least = likeness.get(NO_STEP, _OFFERED) + over
        if not hits or hits[0].score <= least:
            return Found("none")
        best = hits[0]
        if best.score < _STRONG and spoken.verdict == "none" and not self._speaks_of_the_work(words):
            return Found("none")
        ways = self._other_ways(best, likeness, self._said(words), axles, in_hand, fitted)
        if ways:
            return Found("ask", ways, tuple(self._label(hit) for hit in ways))
        if _turns_on_what_is_fitted(spoken) and any(hit.step is best.step for hit in spoken.hits):
            return spoken
        near = [hit for hit in hits[:_MOST_OFFERED] if hit.score > best.score - _CLOSE]
        leads = len(near) == 1 or best.score - near[1].score >= _LEADS
        if best.score >= _SURE and leads:
            return Found("sure", tuple(hits[:_MOST_HITS]), close=len(near) - 1)
        offered = tuple(hits[: max(len(near), _FEWEST_OFFERED)])
        return Found("ask", offered, tuple(hit.step.title for hit in offered), offered=True)

    def _other_ways(
        self,
        best: Hit,
        likeness: dict[str, float],
        said: frozenset[str],
        axles: Collection[str],
        in_hand: str | None,
        fitted: Collection[str],
    ) -> tuple[Hit, ...]:
        """The ways in which the same is done, where nothing that was said tells them apart; the best one first."""
        of = [self.procedures.steps[key] for key in self._ways.get(best.step.way_of, ())]
        of = [step for step in of if not fitted or not step.only_if or step.only_if in fitted]
        of = [step for step in of if not axles or self._on(step, axles)]
        if in_hand in best.procedures:
            of = [step for step in of if in_hand in self.procedures.holding(step.key)]
        others = [self._hit(step.key, likeness.get(step.key, _OFFERED)) for step in of if step is not best.step]
        tells = self._told_apart.get(best.step.key, frozenset())
        if not others or said & tells:
            return ()
        others.sort(key=lambda hit: -hit.score)
        # of a way that nothing tells from the others a lead says no more than that it is the commonest
        return () if tells and best.score - others[0].score >= _PLAINLY else (best, *others)

    def _hit(self, key: str, score: float) -> Hit:
        return Hit(self.procedures.steps[key], self.procedures.holding(key), score)

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

    def _on(self, step: Step, axles: Collection[str]) -> bool:
        held = self.procedures.holding(step.key)
        return not held or any(self.procedures.procedures[name].axle in ("any", *axles) for name in held)

    def _of_ways(self) -> tuple[dict[str, tuple[str, ...]], dict[str, frozenset[str]]]:
        """What is done in several ways -> its steps; step -> what only it among them speaks of."""
        ways: dict[str, tuple[str, ...]] = {}
        for key, step in self.procedures.steps.items():
            if step.way_of:
                ways[step.way_of] = (*ways.get(step.way_of, ()), key)
        told = {
            key: self._overlap.concepts(f"{step.only_if}. {step.title}") | set(step.acts)
            for key, step in self.procedures.steps.items()
            if step.way_of
        }
        apart = {
            key: told[key] - frozenset().union(*(told[other] for other in of if other != key))
            for of in ways.values()
            for key in of
        }
        return ways, apart

    def _telling(self) -> dict[str, frozenset[str]]:
        """For each thing that can be fitted, what tells it from the others: "cable", a piston that is wound in."""
        concepts: dict[str, frozenset[str]] = {}
        for step in self.procedures.steps.values():
            told = self._overlap.concepts(f"{step.only_if}. {step.title}") | set(step.acts)
            concepts[step.only_if] = concepts.get(step.only_if, frozenset()) | told
        del concepts[""]
        return {
            fitted: told - frozenset().union(*(other for name, other in concepts.items() if name != fitted))
            for fitted, told in concepts.items()
        }


def _turns_on_what_is_fitted(found: Found) -> bool:
    """Whether it asks which of several kinds is fitted, as of pistons that are pushed or wound in."""
    return found.verdict == "ask" and len({hit.step.only_if for hit in found.hits}) == len(found.hits)


def _is_plain(found: Found, in_hand: str) -> bool:
    """Whether a step of the job in hand was asked for nearly as its file has it."""
    told = found.verdict == "sure" or _turns_on_what_is_fitted(found)
    return told and in_hand in found.hits[0].procedures and found.hits[0].score >= _PLAIN


def _own(share: float) -> float:
    """What the words alone are worth beside what was learned."""
    return (share - _ENOUGH) / (1 - _ENOUGH) + _SURE if share >= _ENOUGH else 2 * _OFFERED
