"""Turns words into what they stand for: acts, things, or plain words that some step is asked with."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from benchbot.procedures.spelling import Spelling
from benchbot.procedures.steps import Sayings
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

_FARTHEST = 5
_RUN_TOGETHER = 6
# stands in a saying for the thing that is named between its two words
BETWEEN = ".."
_COUNTED = frozenset({"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "both"})
# Everyday words that carry a sentence: dictation writes them for trade words as well, which is not heard here.
_NEVER_HEARD = frozenset({"not", "have", "log", "talk", "hello", "pen", "pet"})


@dataclass(frozen=True, slots=True)
class Meant:
    """A word or phrase of a question and the concepts it can stand for; none: a word that nothing here knows.

    everyday: it is talk, and says nothing against a reading that leaves it out.
    """

    said: str
    concepts: frozenset[str]
    everyday: bool = False


class Wording:
    """The tables for one vocabulary and the sayings of the procedures; made once."""

    def __init__(self, sayings: Sayings, vocabulary: Vocabulary) -> None:
        lists = vocabulary.lists
        self._function = {w for name in ("function", "joining") for w in lists.get(name, ())}
        self._everyday = {word for said in lists.values() for one in said for word in one.split()} | _COUNTED
        self._passing = {word for said in sayings.passing for word in name_words(said)}
        self._trade = {word for phrase in vocabulary.component_phrases for word in phrase.words}
        self._forms = vocabulary.words
        self._written = lru_cache(maxsize=4096)(self._write)
        self._phrases: dict[tuple[str, ...], str] = {}
        for table in (sayings.acts, sayings.things, sayings.topics):
            for name, all_said in table.items():
                for said in (one for one in all_said if BETWEEN not in one):
                    self._phrases.setdefault(self._key(name_words(said)), name)
        self._around: dict[tuple[str, str], str] = {}
        for table in (sayings.acts, sayings.things, sayings.topics):
            for name, all_said in table.items():
                for said in all_said:
                    ends = tuple(word.strip() for word in said.split(BETWEEN))
                    if len(ends) == 2:
                        self._around.setdefault(ends, name)
        # how many words the longest phrase has that starts with a word
        self._first: dict[str, int] = {}
        for words in self._phrases:
            self._first[words[0]] = max(len(words), self._first.get(words[0], 0))
        self._asked_with: set[str] = set()
        self._spelling = Spelling(())

    def learn(self, phrases: Iterable[str]) -> None:
        """Takes in the words that steps are asked with, so that questions may be put right toward them."""
        for phrase in phrases:
            for meant in self.meant(words_of(phrase), learning=True):
                self._asked_with |= meant.concepts
        known = {word for words in self._phrases for word in words} | self._asked_with
        self._spelling = Spelling(word for word in known if word not in self._function | self._passing)

    def meant(self, words: Sequence[str], learning: bool = False, rescue: bool = True) -> list[Meant]:
        """What the words of a question stand for, the longest phrases first; grammar and passing words left out."""
        words = [part for word in words for part in self._apart(word)]
        forms = [self._written(word) for word in words]
        found: list[Meant] = []
        closed: set[int] = set()
        at = 0
        while at < len(words):
            if at in closed:
                at += 1
                continue
            length, names = self._longest(forms, at, self._phrases)
            if names:
                concepts = frozenset(self._phrases[name] for name in names)
                found.append(Meant(" ".join(words[at : at + length]), concepts))
                at += length
                continue
            act, end = self._opened(words, at)
            if act:
                found.append(Meant(f"{words[at]} {BETWEEN} {words[end]}", frozenset({act})))
                closed.add(end)
                at += 1
                continue
            one = self._alone(words[at], learning, rescue)
            if one is not None:
                found.append(one)
            at += 1
        return found

    def _apart(self, word: str) -> tuple[str, ...]:
        """The two words that were run together into one that nothing knows ("parkbrake", "balljoint")."""
        if len(word) < _RUN_TOGETHER or word in self._first:
            return (word,)
        cuts = ((_single(word[:n]), _single(word[n:])) for n in range(3, len(word) - 2))
        pairs = [pair for pair in cuts if pair in self._phrases]
        return pairs[0] if len(pairs) == 1 else (word,)

    def _opened(self, words: Sequence[str], at: int) -> tuple[str, int]:
        """The act whose two words stand around a thing, and where its second word stands; the nearest one counts."""
        for end in range(at + 1, min(at + _FARTHEST + 1, len(words))):
            act = self._around.get((words[at], words[end]))
            if act:
                return act, end
        return "", at

    def _alone(self, word: str, learning: bool, rescue: bool) -> Meant | None:
        if word in self._function or word in self._passing:
            return None
        forms = self._written(word)
        stems = [_stem(form) for form in forms]
        if learning:
            return Meant(word, frozenset({stems[-1]}), word in self._everyday)
        known = frozenset(stem for stem in stems if stem in self._asked_with)
        if known or self._knows(forms):
            return Meant(word, known, word in self._everyday)
        near = self._spelling.nearest(forms[0]) if rescue else ()
        concepts = {self._phrases.get((one,), one) for one in near}
        if len(concepts) == 1:
            return Meant(word, frozenset(concepts))
        return Meant(word, frozenset(), word.isdigit())

    def _knows(self, forms: tuple[str, ...]) -> bool:
        return any(
            form in self._everyday or form in self._forms or form in self._trade or form in self._first
            for form in forms
        )

    def _longest(
        self, forms: list[tuple[str, ...]], at: int, table: Container[tuple[str, ...]]
    ) -> tuple[int, list[tuple[str, ...]]]:
        """How many words from a place make the longest phrase of a table, and which phrases those are."""
        most = max(self._first.get(form, 0) for form in forms[at])
        for length in range(min(most, len(forms) - at), 0, -1):
            names = [words for words in product(*forms[at : at + length]) if words in table]
            if names:
                return length, names
        return 0, []

    def _key(self, words: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(_single(word) for word in words)

    def _write(self, word: str) -> tuple[str, ...]:
        """The word in the singular, and the trade words that it is a way of writing."""
        single = _single(word)
        found = [single]
        for form in dict.fromkeys((word, single)):
            for written in self._forms.get(form, ()):
                heard = written.how == "heard"
                if " " in written.word or (heard and (form in self._function or form in _NEVER_HEARD)):
                    continue
                if written.word not in found:
                    found.append(written.word)
        if word not in self._first:
            found += [form for form in _endings_cut(word) if form in self._first and form not in found]
        return tuple(found)


def _endings_cut(word: str) -> list[str]:
    """What the word can be a form of: "washed" -> wash, "greasing" -> grease, "stripping" -> strip."""
    for ending in ("ing", "ed"):
        stem = word.removesuffix(ending)
        if stem != word and len(stem) > 2:
            return [stem, f"{stem}e", *([stem[:-1]] if stem[-1] == stem[-2] else [])]
    return []


def _stem(word: str) -> str:
    """What the forms of a word have in common: "stretched", "stretching" and "stretch" are one."""
    for ending in ("ing", "ed", "e"):
        stem = word.removesuffix(ending)
        if stem != word and len(stem) > 3:
            return stem[:-1] if ending != "e" and stem[-1] == stem[-2] and stem[-1] not in "ls" else stem
    return word


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text as questions are read: folded, apostrophes and hyphens gone ("won't" -> wont)."""
    return name_words(text.replace("’", "'").replace("'", ""))


def _single(word: str) -> str:
    """The word, or what it is the plural of."""
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        if word.endswith("ies"):
            return word[:-3] + "y"
        if word.endswith(("shes", "ches", "xes", "sses")):
            return word[:-2]
        return word[:-1]
    return word
