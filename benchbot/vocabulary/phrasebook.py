"""Gathers who claims which words: one component, or a doubtful entry; two claims to the same words are a fault."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.patterns import PatternError, expand
from benchbot.vocabulary.rows import DoubtfulRow, ShorthandRow
from benchbot.vocabulary.sheets import Sheet, Step
from benchbot.vocabulary.terms import Phrase

_Words = frozenset[str]


@dataclass(frozen=True, slots=True)
class _Claim:
    """Who says that these words mean what, and where it stands."""

    phrase: Phrase
    sheet: Sheet
    path: tuple[Step, ...]
    own_name: bool = False

    @property
    def where(self) -> str:
        return self.sheet.where(*self.path)


@dataclass(slots=True)
class Phrasebook:
    """Every phrase of the components, by its words in any order.

    joining: words that do not count. one_word: runs of words that stand for one ("u", "bolt" -> "ubolt").
    """

    joining: frozenset[str]
    one_word: dict[tuple[str, ...], str]
    claims: dict[_Words, _Claim] = field(default_factory=dict)
    doubts: dict[_Words, _Claim] = field(default_factory=dict)
    extra: dict[_Words, Phrase] = field(default_factory=dict)

    def spell_out(self, sheet: Sheet, path: tuple[Step, ...], pattern: str) -> list[tuple[str, ...]]:
        """The phrases of one line of `said`, joining words taken out; a line that cannot be expanded is a fault."""
        try:
            phrases = expand(pattern)
        except PatternError as error:
            sheet.blame(path, str(error), "Write plain words, a/b for either, (a) for one that may be left out.")
            return []
        kept = []
        for phrase in phrases:
            words = self.bare(phrase)
            if words:
                kept.append(words)
        if not kept:
            sheet.blame(path, f"{pattern!r} holds nothing but joining words", "Name the part.")
        return list(dict.fromkeys(kept))

    def _joined(self, phrase: tuple[str, ...]) -> tuple[str, ...]:
        words: list[str] = []
        at = 0
        while at < len(phrase):
            length = next((n for n in range(len(phrase) - at, 1, -1) if phrase[at : at + n] in self.one_word), 1)
            words.append(self.one_word.get(phrase[at : at + length], phrase[at]) if length > 1 else phrase[at])
            at += length
        return tuple(words)

    def claim(self, sheet: Sheet, path: tuple[Step, ...], component: str, pattern: str) -> None:
        """Takes the words for one component; words that another component has taken are a fault."""
        for words in self.spell_out(sheet, path, pattern):
            key = frozenset(words)
            there = self.claims.get(key)
            if there is None:
                self.claims[key] = _Claim(Phrase(words, (component,), False, ""), sheet, path)
            elif there.phrase.means != (component,):
                sheet.blame(
                    path,
                    f"{' '.join(words)!r} is claimed by {component!r} and by {there.phrase.means[0]!r} ({there.where})",
                    "Take it from one of them, or list it in doubtful.yaml with both.",
                )

    def claim_name(self, sheet: Sheet, path: tuple[Step, ...], name: str) -> None:
        """Takes the words of a component's own name, which may hold capitals and strokes."""
        words = self.bare(name_words(name))
        there = self.claims.get(frozenset(words))
        if there is not None:
            sheet.blame(path, f"{name!r} has the words of {there.phrase.means[0]!r} ({there.where})", "Rename one.")
            return
        self.claims[frozenset(words)] = _Claim(Phrase(words, (name,), False, ""), sheet, path, own_name=True)

    def bare(self, words: tuple[str, ...]) -> tuple[str, ...]:
        """The words without joining words and second mentions, runs that stand for one word made one."""
        return tuple(dict.fromkeys(word for word in self._joined(words) if word not in self.joining))

    def means(self, words: tuple[str, ...]) -> tuple[str, ...]:
        """What the words mean so far, in any order; () when nobody claims them."""
        key = frozenset(self.bare(words))
        claim = self.doubts.get(key) or self.claims.get(key)
        return claim.phrase.means if claim else ()

    def clear_meaning(self, words: tuple[str, ...]) -> str | None:
        """The one component that the words mean, or None."""
        meant = self.means(words)
        return meant[0] if len(meant) == 1 else None

    def add(self, phrase: Phrase) -> None:
        """Takes in a phrase that was checked already."""
        self.extra[frozenset(phrase.words)] = phrase

    def doubt(self, sheet: Sheet, at: int, row: DoubtfulRow) -> None:
        """Takes the words for several components; they may repeat a name or synonym of one of those."""
        for n, pattern in enumerate(row.said):
            path: tuple[Step, ...] = ("doubtful", at, "said", n)
            for words in self.spell_out(sheet, path, pattern):
                key = frozenset(words)
                there = self.doubts.get(key)
                if there is not None and there.path[1] != at:
                    sheet.blame(path, f"{' '.join(words)!r} stands in another entry too ({there.where})", "Keep one.")
                    continue
                claimed = self.claims.get(key)
                if claimed is not None and claimed.phrase.means[0] not in row.could_be:
                    name = claimed.phrase.means[0]
                    sheet.blame(
                        path,
                        f"{' '.join(words)!r} is a clear name of {name!r} ({claimed.where})",
                        f"Add {name!r} to `could be`, or take the words from one of the two.",
                    )
                self.doubts[key] = _Claim(Phrase(words, tuple(row.could_be), row.always == "yes", row.ask), sheet, path)

    def shorten(self, sheet: Sheet, at: int, row: ShorthandRow) -> None:
        """Lets one word stand for several in every phrase that has them all."""
        path: tuple[Step, ...] = ("shorthand", at, "stands for")
        long = frozenset(row.stands_for.split())
        found = False
        for book, own in ((self.claims, False), (self.doubts, True)):
            for key, claim in list(book.items()):
                if not long <= key:
                    continue
                found = True
                words = (row.short, *(word for word in claim.phrase.words if word not in long))
                short = frozenset(words)
                there = (self.doubts if own else self.claims).get(short)
                if there is not None and there.phrase.means != claim.phrase.means and not there.own_name:
                    sheet.blame(
                        path,
                        f"{' '.join(words)!r} would mean {claim.phrase.means[0]!r} and {there.phrase.means[0]!r} too"
                        f" ({there.where})",
                        "Choose another short form, or take the words from one of the two.",
                    )
                    continue
                if there is None:
                    phrase = Phrase(words, claim.phrase.means, claim.phrase.always, claim.phrase.ask)
                    book[short] = _Claim(phrase, sheet, path)
        if not found:
            sheet.blame(path, f"no phrase holds all of {row.stands_for!r}", "Correct the words, or delete the entry.")

    def phrases(self) -> Iterator[Phrase]:
        """All phrases; a doubtful entry goes before the clear name that it repeats."""
        for key, claim in self.claims.items():
            if key not in self.doubts and key not in self.extra:
                yield claim.phrase
        for claim in self.doubts.values():
            yield claim.phrase
        yield from self.extra.values()

    def trade_words(self) -> dict[str, str]:
        """Every word that stands in a phrase, and where it first does."""
        words: dict[str, str] = {}
        for claim in (*self.claims.values(), *self.doubts.values()):
            for word in claim.phrase.words:
                words.setdefault(word, claim.where)
        return words
