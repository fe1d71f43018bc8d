"""The words a reader knows: the compiled vocabulary turned into tables that answer for one word at a time."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol, TypeVar

from rapidfuzz import process
from rapidfuzz.distance import OSA

from benchbot.understanding.spoken import NUMBER_WORDS, with_spoken_numbers
from benchbot.understanding.tokens import tokens_of
from benchbot.vocabulary.letters import slips_allowed
from benchbot.vocabulary.terms import Component, Phrase, Stated, Vocabulary, WordForm

# Words of components that add nothing where no phrase needs them ("front brake bracket bolts").
WEAK_WORDS = frozenset({"brake", "wheel", "side"})
_LONGEST_PHRASE = 6
_SIZE_UNITS = frozenset({"in", "mm", "inch", "l"})
# No word of the trade and no name is longer; what is longer is never put right.
LONGEST_WORD = 24
_T = TypeVar("_T")


class NameHit(Protocol):
    """A make or vehicle whose name has the word that was looked up; `words` = how many words that name has."""

    @property
    def of(self) -> str: ...
    @property
    def id(self) -> int: ...
    @property
    def form(self) -> int: ...
    @property
    def words(self) -> int: ...


class VehicleNames(Protocol):
    """What the reader needs to know of the book: the names of its makes and models, word by word."""

    def words(self, word: str) -> Sequence[NameHit]: ...
    def near_words(self, keys: Sequence[str]) -> Sequence[str]: ...
    def make_of(self, vehicle: int) -> int: ...
    def vehicles_of_make(self, make: int, most: int) -> Sequence[int]: ...


@dataclass(frozen=True, slots=True)
class Candidate:
    """A canonical word that a typed word can stand for; `slips` counts the letters that had to be forgiven."""

    word: str
    how: str
    slips: int = 0


def singulars(word: str) -> list[str]:
    """The word, and what it can be the plural of."""
    forms = [word]
    if len(word) > 3 and word[-1] in "sz" and word[-2:] != "ss":
        forms.append(word[:-1])
        if word.endswith("ies"):
            forms.append(word[:-3] + "y")
        elif word.endswith("es"):
            forms.append(word[:-2])
    return forms


def slip_between(typed: str, word: str) -> str:
    """How a typed word differs from a word one slip away: swapped, doubled, dropped, wrong or added."""
    if len(typed) == len(word):
        unlike = [i for i, (a, b) in enumerate(zip(typed, word, strict=True)) if a != b]
        if len(unlike) == 2 and unlike[1] == unlike[0] + 1 and typed[unlike[0]] == word[unlike[1]]:
            return "swapped"
        return "wrong"
    if len(typed) > len(word):
        for i in range(1, len(typed)):
            if typed[i] == typed[i - 1] and typed[:i] + typed[i + 1 :] == word:
                return "doubled"
        return "added"
    return "dropped"


class Lexicon:
    """Every table is made once, when the book is opened."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self.value_words: set[str] = set()
        self._phrases: dict[frozenset[str], Phrase] = {}
        self.part_words: set[str] = set()
        for phrase in vocabulary.component_phrases:
            self._phrases[frozenset(phrase.words)] = phrase
            self.part_words.update(phrase.words)
        self._pairs = {(a, b) for words in self._phrases for a in words for b in words if a != b}
        self.longest_part = min(_LONGEST_PHRASE, max((len(p) for p in self._phrases), default=1))
        self._forms = vocabulary.words
        self.property_phrases = Phrases((p.words, p) for p in vocabulary.property_phrases)
        self.position_phrases = Phrases((_plain(said), tokens) for said, tokens in vocabulary.positions.items())
        self.qualifier_phrases = Phrases((_plain(said), stated) for said, stated in vocabulary.qualifiers.items())
        self.lists = {
            name: Phrases((_plain(said), name) for said in words)
            for name, words in vocabulary.lists.items()
            if name not in ("function", "chatter")
        }
        self.function = {w for name in ("function", "joining") for w in vocabulary.lists.get(name, ())}
        self.chatter = set(vocabulary.lists.get("chatter", ()))
        self._property_words = {word for words in self.property_phrases for word in words}
        self._position_words = {word for words in self.position_phrases for word in words if len(words) == 1}
        self._qualifier_words = {w for words in self.qualifier_phrases for w in words if len(w) > 3 and w.isalpha()}
        forms = {w for w, all_forms in self._forms.items() if any(f.how != "heard" for f in all_forms)}
        listed = {
            w
            for phrases in self.lists.values()
            for words in phrases
            for w in words
        }  # fmt: skip
        self.trade_words = self.part_words | forms | self._property_words | self._position_words | self._qualifier_words
        self._whole = {w for w in self.trade_words if len(w) > 3 or w not in self._forms} | self.part_words
        self._known = self.trade_words | listed | self.function | self.chatter | set(self._forms)
        for words in (*self.position_phrases, *self.qualifier_phrases):
            self._known.update(words)
        self._rescue_to = sorted(w for w in self.trade_words if w.isalpha() and len(w) > 2)
        self._noise_by_end: dict[tuple[int, str, int], list[str]] = {}
        for word in self.chatter | self.function:
            if len(word) > 3:
                for end in (0, -1):
                    self._noise_by_end.setdefault((end, word[end], len(word)), []).append(word)
        self.rescued = lru_cache(maxsize=4096)(self._rescued)
        self.near_noise = lru_cache(maxsize=4096)(self._near_noise)
        self.near_parts = lru_cache(maxsize=4096)(self._near_parts)
        self._long_parts = [word for word in self._rescue_to if word in self.part_words and len(word) > 3]

    def component(self, name: str) -> Component:
        return self.vocabulary.components[name]

    def phrase(self, words: frozenset[str]) -> Phrase | None:
        """The phrase made of just these words, whatever their order."""
        return self._phrases.get(words)

    def part_starts_with(self, one: str, other: str) -> bool:
        """Whether some component's name has both words ("transmission" and "fluid")."""
        return (one, other) in self._pairs

    def forms_of(self, said: str) -> tuple[WordForm, ...]:
        """What a way of writing stands for; of several words the last may be in the plural."""
        return next((self._forms[form] for form in singulars(said) if form in self._forms), ())

    def is_known(self, word: str) -> bool:
        """Whether the word, or what it is the plural of, stands anywhere in the vocabulary."""
        return any(form in self._known for form in singulars(word))

    def is_trade(self, word: str) -> bool:
        """Whether the word can stand in a phrase for a component, property, position or qualifier."""
        return any(form in self.trade_words for form in singulars(word))

    def is_whole_word(self, word: str) -> bool:
        """Whether a part of a chunk typed without spaces may be read as this word; short forms are too short for it."""
        return any(form in self._whole for form in singulars(word))

    def canonical(self, word: str) -> list[Candidate]:
        """The canonical trade words that this word is a way of writing."""
        found: dict[str, Candidate] = {}
        for form in singulars(word):
            if form in self.part_words:
                found.setdefault(form, Candidate(form, "" if form == word else "plural"))
            for written in self._forms.get(form, ()):
                if written.how == "heard":
                    continue
                found.setdefault(written.word, Candidate(written.word, written.how))
        return list(found.values())

    def heard_as(self, word: str) -> list[Candidate]:
        """The words that dictation or autocorrect turns into this one."""
        found: dict[str, Candidate] = {}
        for form in singulars(word):
            for written in self._forms.get(form, ()):
                if written.how == "heard":
                    found.setdefault(written.word, Candidate(written.word, "heard"))
        return list(found.values())

    def _rescued(self, typed: str) -> tuple[Candidate, ...]:
        """The trade words nearest to an unknown word; all of those equally near, none when no slip explains it."""
        if not typed.isalpha() or not 2 < len(typed) <= LONGEST_WORD:
            return ()
        near: dict[str, int] = {}
        doubled = [typed[:-1]] if typed.endswith("ss") else []
        for form in (*singulars(typed), *(one for cut in doubled for one in singulars(cut))):
            for word, distance, _ in process.extract(
                form, self._rescue_to, scorer=OSA.distance, score_cutoff=2, limit=None
            ):
                slips = int(distance)
                if self._forgiven(form, word, slips) and slips < near.get(word, 9):
                    near[word] = slips
        best = min(near.values(), default=0)
        return tuple(Candidate(word, "spelling", slips) for word, slips in near.items() if slips == best)

    def _forgiven(self, typed: str, word: str, slips: int) -> bool:
        if slips > max(slips_allowed(word), 1) or slips > max(slips_allowed(typed) + (len(typed) == 7), 1):
            return False
        if slips == 1 and (len(word) < 4 or len(typed) < 4):
            return slip_between(typed, word) in ("swapped", "doubled") or (
                len(word) == 4 and slip_between(typed, word) == "dropped"
            )
        return True

    def slip_forgiven_in_position(self, typed: str, word: str) -> bool:
        """Axle, side and qualifier words are forgiven a swapped, doubled or dropped letter only."""
        return slip_between(typed, word) in ("swapped", "doubled", "dropped") and OSA.distance(typed, word) == 1

    def property_forms(self, word: str) -> list[Candidate]:
        """The words of property phrases that this word is a way of writing, heard ones last."""
        found: list[Candidate] = []
        for form in singulars(word):
            for written in self._forms.get(form, ()):
                if written.word in self._property_words:
                    found.append(Candidate(written.word, written.how))
        return sorted(found, key=lambda candidate: candidate.how == "heard")

    def names_property(self, word: str) -> bool:
        """Whether the word alone names a property."""
        return any((form,) in self.property_phrases for form in singulars(word))

    def is_property_word(self, word: str) -> bool:
        return any(form in self._property_words for form in singulars(word))

    def add_values(self, values: Iterable[tuple[str, str]]) -> None:
        """Takes in what the book's rows say of engine, drive, brakes ..., so that a message can name it.

        A value that is a bare size ("17 in", "320 mm") is read as a number with its unit instead.
        """
        for key, value in values:
            words = _plain(value)
            named = any(word.isalpha() and word not in _SIZE_UNITS for word in words)
            coded = len(words) == 1 and any(letter.isalpha() for letter in words[0])
            if key == "build" or not (named or coded):
                continue
            stated = Stated(key, value, False)
            there = self.qualifier_phrases.get(words, ())
            if stated not in there:
                self.qualifier_phrases[words] = (*(s for s in there if s.key != key), stated)
            self._known.update(words)
            self.value_words.update(w for w in words if not w.isdigit())

    def is_position_or_qualifier(self, word: str) -> bool:
        return word in self._position_words or word in self._qualifier_words

    def is_listed(self, word: str) -> bool:
        """Whether the word alone stands in one of the word lists (orders, miles, measured ...)."""
        return any((word,) in phrases for phrases in self.lists.values())

    def is_weak(self, word: str) -> bool:
        """Whether the word is one that adds nothing where no phrase needs it: "brake", "wheel" ..."""
        return any(c.word in WEAK_WORDS for c in self.canonical(word))

    def _near_noise(self, typed: str) -> bool:
        """Whether an unknown word is a slip away from an everyday word that means nothing here."""
        if not typed.isalpha() or len(typed) < 4:
            return False
        if any(form in self.chatter or form in self.function for form in _endings_cut(typed)):
            return True
        # one slip leaves the first or the last letter where it was
        lengths = range(len(typed) - 1, len(typed) + 2)
        ends = ((0, typed[0]), (-1, typed[-1]), (0, typed[1]))
        near = {word for end in ends for n in lengths for word in self._noise_by_end.get((*end, n), ())}
        return any(OSA.distance(typed, word, score_cutoff=1) <= 1 for word in near)

    def _near_parts(self, noise: str) -> tuple[Candidate, ...]:
        """Component words one slip away from an everyday word (autocorrect), longer words only."""
        if len(noise) < 4 or not noise.isalpha():
            return ()
        near = process.extract(noise, self._long_parts, scorer=OSA.distance, score_cutoff=1, limit=None)
        return tuple(Candidate(word, "autocorrect", 1) for word, _, _ in near)


def _endings_cut(word: str) -> list[str]:
    cut = [word]
    for ending, instead in (
        ("in", "ing"),
        ("in", ""),
        ("ing", ""),
        ("ed", ""),
        ("er", ""),
        ("y", ""),
        ("s", ""),
        ("d", ""),
    ):
        if word.endswith(ending) and len(word) - len(ending) > 2:
            cut.append(word[: -len(ending)] + instead)
    return cut


def _plain(said: str) -> tuple[str, ...]:
    """The words of a listed phrase as a message's tokens would be."""
    words = said.split(" ")
    if all(word.isascii() and word.isalpha() and word.islower() and word not in NUMBER_WORDS for word in words):
        return tuple(words)
    tokens = with_spoken_numbers(tokens_of(said, lambda _: True))
    return tuple(token.text for token in tokens if token.kind != "mark" or token.text in "&+#?@")


class Phrases(dict[tuple[str, ...], _T]):
    """Phrases by their words; `first` tells how long the longest phrase is that starts with a word."""

    def __init__(self, pairs: Iterable[tuple[tuple[str, ...], _T]]) -> None:
        super().__init__()
        self.first: dict[str, int] = {}
        for words, value in pairs:
            if words:
                self[words] = value

    def __setitem__(self, words: tuple[str, ...], value: _T) -> None:
        super().__setitem__(words, value)
        self.first[words[0]] = max(len(words), self.first.get(words[0], 0))
