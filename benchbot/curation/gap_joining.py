"""Joins the ways that a word nobody knows was written: with slips, as one word or two, with or without the make."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations

from rapidfuzz.distance import OSA

from benchbot.vocabulary.letters import deletions, slips_allowed

# Stands before a word that the shop knows, in the identity of a meaning.
_KNOWN = "="
_MOST_SLIPS = 2
_MOST_UNLIKE = 3
# So many people do not all slip alike: what they write, one in so many of those who write the other, is another word.
_OWN_WORD_PEOPLE = 3
_OWN_WORD_SHARE = 4
# An unknown make that is said once where another is said so often is a stray word.
_STRAY = 10


@dataclass(frozen=True, slots=True)
class Wording:
    """One way that unknown words were written, or all ways that differ in the make alone.

    make: as in the identity, "" where none was said. words: sorted, in one form; known: those of them that the shop
    knows. numbers: of the meanings, the one asked most first.
    """

    numbers: tuple[int, ...]
    kind: str
    make: str
    words: tuple[str, ...]
    known: frozenset[str]
    asks: int
    people: frozenset[str]

    @property
    def figures(self) -> tuple[str, ...]:
        """The words that hold a digit: a slip in one of them makes another thing of it."""
        return tuple(word for word in self.words if any(letter.isdigit() for letter in word))

    @property
    def rank(self) -> tuple[int, int]:
        return -self.asks, self.numbers[0]


def wording(number: int, kind: str, identity: str, asks: int, people: Collection[str]) -> Wording:
    """Reads the identity of an unknown word or vehicle."""
    _, *marked = json.loads(identity)
    make = marked.pop(0) if kind == "vehicle" else ""
    words = tuple(sorted(word.removeprefix(_KNOWN) for word in marked))
    known = frozenset(word.removeprefix(_KNOWN) for word in marked if word.startswith(_KNOWN))
    return Wording((number,), kind, make, words, known, asks, frozenset(people))


def joined(wordings: Iterable[Wording]) -> list[tuple[int, ...]]:
    """The numbers of those that mean the same, the one asked most first.

    A wording joins the nearest one that is asked more often, or stays alone where two are equally near: two words that
    the shop knows, makes or figures that differ, never stand for one another.
    """
    same = _with_and_without_make(wordings)
    near = _Near(same)
    leads: dict[tuple[int, ...], list[Wording]] = {}
    make_of: dict[tuple[int, ...], str] = {}
    for one in sorted(same, key=lambda each: each.rank):
        found = []
        for slips, lead in near.beside(one):
            if lead.numbers not in leads:
                continue
            unlike = _unlike_make(one.make, make_of[lead.numbers])
            if unlike is not None and not _is_own_word(one, lead):
                found.append((2 * slips + unlike, lead))
        best = [lead for far, lead in found if far == min(far for far, _ in found)]
        lead = best[0] if len(best) == 1 else one
        leads.setdefault(lead.numbers, []).append(one)
        make_of[lead.numbers] = make_of.get(lead.numbers, "") or one.make
    return [tuple(number for one in together for number in one.numbers) for together in leads.values()]


def _is_own_word(one: Wording, other: Wording) -> bool:
    return len(one.people) >= _OWN_WORD_PEOPLE and len(other.people) <= len(one.people) * _OWN_WORD_SHARE


def _unlike_make(one: str, other: str) -> int | None:
    """How unlike two makes are: 0 the same, 1 one is left out, 2 a slip; None for two makes."""
    if not one or not other:
        return int(one != other)
    slips = _make_slips(one, other)
    return None if slips is None else 2 * slips


def _with_and_without_make(wordings: Iterable[Wording]) -> list[Wording]:
    """A model without its make is that of the only make it was asked with."""
    found: list[Wording] = []
    alike: dict[tuple[str, tuple[str, ...]], list[Wording]] = {}
    for one in wordings:
        alike.setdefault((one.kind, one.words), []).append(one)
    for ones in alike.values():
        by_make: dict[str, list[Wording]] = {}
        for one in sorted(ones, key=lambda each: (not each.make, each.rank)):
            make = next((make for make in by_make if make and _make_slips(one.make, make) is not None), one.make)
            by_make.setdefault(make, []).append(one)
        asks = {make: sum(one.asks for one in held) for make, held in by_make.items() if make}
        makes = [make for make in asks if make.startswith(_KNOWN) or asks[make] * _STRAY > max(asks.values())]
        if len(makes) == 1:
            by_make[makes[0]] += by_make.pop("", [])
        found += [_together(make, held) for make, held in by_make.items()]
    return found


def _together(make: str, held: Sequence[Wording]) -> Wording:
    ranked = sorted(held, key=lambda one: one.rank)
    first = ranked[0]
    return Wording(
        tuple(number for one in ranked for number in one.numbers),
        first.kind,
        make,
        first.words,
        first.known,
        sum(one.asks for one in held),
        frozenset().union(*(one.people for one in held)),
    )


class _Near:
    """Finds the wordings a slip away from one, without comparing each with each."""

    def __init__(self, wordings: Iterable[Wording]) -> None:
        self._by_words: dict[tuple[str, tuple[str, ...]], list[Wording]] = {}
        self._holding: dict[tuple[str, str], list[Wording]] = {}
        self._by_key: dict[str, set[str]] = {}
        self._split: dict[tuple[str, tuple[str, ...]], list[Wording]] = {}
        for one in wordings:
            self._by_words.setdefault((one.kind, one.words), []).append(one)
            for words in set(_run_together(one)):
                self._split.setdefault((one.kind, words), []).append(one)
            for word in set(one.words):
                self._holding.setdefault((one.kind, word), []).append(one)
                for key in deletions(word, slips_allowed(word)) if slips_allowed(word) else ():
                    self._by_key.setdefault(key, set()).add(word)

    def beside(self, one: Wording) -> list[tuple[int, Wording]]:
        """(slips, other) for each whose words may be the same, whatever its make."""
        found: dict[tuple[int, ...], tuple[int, Wording]] = {}
        for other in (
            *self._by_words.get((one.kind, one.words), ()),
            *self._split.get((one.kind, one.words), ()),
            *(whole for words in set(_run_together(one)) for whole in self._by_words.get((one.kind, words), ())),
        ):
            found[other.numbers] = (0, other)
        for other in self._with_a_near_word(one):
            slips = None if other.numbers in found else _slips(one, other)
            if slips is not None:
                found[other.numbers] = (slips, other)
        found.pop(one.numbers, None)
        return list(found.values())

    def _with_a_near_word(self, one: Wording) -> Iterable[Wording]:
        """Every pair has a counterpart for each word: those of the word that the fewest others have will do."""
        best: list[Wording] | None = None
        for word in one.words:
            beside = {word}
            if slips_allowed(word):
                beside.update(*(self._by_key.get(key, ()) for key in deletions(word, slips_allowed(word))))
            held = [other for near in beside for other in self._holding.get((one.kind, near), ())]
            if best is None or len(held) < len(best):
                best = held
        return best or ()


def _slips(one: Wording, other: Wording) -> int | None:
    """How many slips lie between two wordings, None where they cannot mean the same."""
    if len(one.words) != len(other.words) or one.figures != other.figures:
        return None
    mine, theirs = Counter(one.words), Counter(other.words)
    left, right = list((mine - theirs).elements()), list((theirs - mine).elements())
    if len(left) > _MOST_UNLIKE:
        return None
    sums = []
    for order in permutations(right):
        slips = [_word_slips(a, b, one, other) for a, b in zip(left, order, strict=True)]
        if None not in slips:
            sums.append(sum(each or 0 for each in slips))
    least = min(sums, default=None)
    return least if least is not None and least <= _MOST_SLIPS else None


@lru_cache(maxsize=4096)
def _make_slips(one: str, other: str) -> int | None:
    if one == other:
        return 0
    plain, known = one.removeprefix(_KNOWN).casefold(), other.removeprefix(_KNOWN).casefold()
    allowed = min(slips_allowed(plain), slips_allowed(known))
    if not allowed or (one.startswith(_KNOWN) and other.startswith(_KNOWN)):
        return None
    slips = OSA.distance(plain, known, score_cutoff=allowed)
    return slips if slips <= allowed else None


def _word_slips(word: str, other: str, one: Wording, two: Wording) -> int | None:
    allowed = min(slips_allowed(word), slips_allowed(other))
    if not allowed or (word in one.known and other in two.known):
        return None
    slips = OSA.distance(word, other, score_cutoff=allowed)
    return slips if slips <= allowed else None


def _run_together(one: Wording) -> Iterable[tuple[str, ...]]:
    """The words with two of them written as one: "bone bolt dog" gives "bolt dogbone" among others."""
    plain = [word for word in one.words if word.isalpha()]
    for first in plain:
        for second in plain:
            if first != second:
                rest = list(one.words)
                rest.remove(first)
                rest.remove(second)
                yield tuple(sorted([*rest, first + second]))
