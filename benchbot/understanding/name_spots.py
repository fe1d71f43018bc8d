"""Where words of makes and models stand in a message, spelt right or with a slip."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from rapidfuzz.distance import OSA

from benchbot.understanding.lexicon import LONGEST_WORD
from benchbot.understanding.work import Work
from benchbot.vocabulary.letters import deletions, slips_allowed


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in the message where a word of a vehicle name stands."""

    places: tuple[int, ...]
    word: str
    slips: int = 0
    weak: bool = False


@dataclass(slots=True)
class Found:
    """A make or vehicle with the spots that name it."""

    of: str
    id: int
    form: int
    words: int
    spots: dict[str, Spot] = field(default_factory=dict)

    @property
    def full(self) -> bool:
        return len(self.spots) >= self.words

    @property
    def places(self) -> frozenset[int]:
        return frozenset(at for spot in self.spots.values() for at in spot.places)

    @property
    def slips(self) -> int:
        return sum(spot.slips for spot in self.spots.values())

    @property
    def weak(self) -> bool:
        return all(spot.weak for spot in self.spots.values())

    @property
    def numeric(self) -> bool:
        return all(spot.word.isdigit() for spot in self.spots.values())


def exact_spots(work: Work) -> Iterable[Spot]:
    for at, token in enumerate(work.tokens):
        if not work.free(at) or token.kind in ("code", "thread") or token.short_year:
            continue
        if work.names.words(token.text):
            yield Spot((at,), token.text, weak=_everyday_or_trade(work, token.text))
        for value in _other_names(work, token.text):
            yield Spot((at,), value, weak=True)
        after = work.next_at(at)
        if not work.free(after) or after - at > 2 or (after - at == 2 and work.text(at + 1) not in "-."):
            continue
        joined = token.text + work.text(after)
        if len(joined) > 1 and not joined.isdigit() and work.names.words(joined):
            yield Spot((at, after), joined)


def _other_names(work: Work, word: str) -> Iterable[str]:
    """The word that a body or trim word is short for, where a model is named so: "spt" for sport, "wgn" for wagon."""
    for one in work.lexicon.qualifier_phrases.get((word,), ()):
        value = one.value.casefold()
        letters = iter(value)
        short = value[:1] == word[:1] and len(word) < len(value) and all(letter in letters for letter in word)
        if one.key in ("body", "trim") and short and work.names.words(value):
            yield value


def _everyday_or_trade(work: Work, word: str) -> bool:
    return not word.isdigit() and work.lexicon.is_known(word)


def unknown(work: Work, at: int) -> bool:
    if not work.free(at) or not work.is_word(at):
        return False
    # a trim word may be meant for a part of a model's name ("wendle sprt")
    trim = work.lexicon.qualifier_phrases.get((work.text(at),), ())
    return not work.lexicon.is_known(work.text(at)) or (bool(trim) and all(one.key == "trim" for one in trim))


def beside_name(work: Work, at: int) -> bool:
    """An everyday word that autocorrect may have put in place of a name: next to a number, with five letters."""
    if not work.free(at) or not work.is_word(at) or len(work.text(at)) < 5 or work.lexicon.is_trade(work.text(at)):
        return False
    beside = (work.next_at(at), work.next_at(at, -1))
    return any(work.is_number(n) or (work.is_word(n) and work.names.words(work.text(n))) for n in beside)


def near_spots(work: Work, at: int) -> Iterable[Spot]:
    """The name words nearest to a misspelt word: the best, and those hardly farther."""
    typed = work.text(at)
    if not 2 < len(typed) <= LONGEST_WORD or not typed.isalpha():
        return
    allowed = max(1, slips_allowed(typed))
    near: dict[str, int] = {}
    for word in work.names.near_words(sorted(deletions(typed, allowed))):
        slips = OSA.distance(typed, word)
        if slips <= max(slips_allowed(word), 1 if len(word) > 3 else 0):
            near[word] = slips
    if not near:
        return
    best = min(near.values())
    for word, slips in sorted(near.items()):
        if slips <= best + 1:
            yield Spot((at,), word, slips)


def gather(work: Work, spots: Iterable[Spot]) -> list[Found]:
    found: dict[tuple[str, int, int], Found] = {}
    for spot in spots:
        for hit in work.names.words(spot.word):
            one = found.setdefault((hit.of, hit.id, hit.form), Found(hit.of, hit.id, hit.form, hit.words))
            there = one.spots.get(spot.word)
            if there is None or _closer(work, one, spot, there):
                one.spots[spot.word] = spot
    return list(found.values())


def _closer(work: Work, one: Found, spot: Spot, there: Spot) -> bool:
    """Of two places with the same word, the one that stands next to the rest of the name."""
    others = [at for word, other in one.spots.items() if word != spot.word for at in other.places]
    if not others:
        return False
    return min(abs(at - spot.places[0]) for at in others) < min(abs(at - there.places[0]) for at in others)
