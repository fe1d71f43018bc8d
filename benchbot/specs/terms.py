"""Finds the component that a table means by a term or by one of its unambiguous synonyms."""

from __future__ import annotations

from difflib import get_close_matches

from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

_JOINING = {"the", "of", "on", "to", "for", "a"}


class Terms:
    """The component names and synonyms of one vocabulary, ready to be looked up."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self._names = {name_words(name): name for name in vocabulary.components}
        self._phrases = {frozenset(phrase.words): phrase for phrase in vocabulary.component_phrases}
        self._part_words = {word for phrase in vocabulary.component_phrases for word in phrase.words}

    def component(self, text: str) -> str:
        """The canonical name. ValueError says what is wrong and what would be right."""
        words = name_words(text)
        exact = self._names.get(words)
        if exact is not None:
            return exact
        meant: set[str] = set()
        for form in (frozenset(words), self._canonical(words)):
            phrase = self._phrases.get(form)
            if phrase is not None:
                if len(phrase.means) == 1 and not phrase.always:
                    return phrase.means[0]
                meant.update(phrase.means)
        if meant:
            raise ValueError(f"{text!r} can mean more than one part", f"write one of: {', '.join(sorted(meant))}")
        near = get_close_matches(" ".join(words), list(self.vocabulary.components), 3, 0.75)
        known = f"write {' or '.join(near)}" if near else "write a term of the vocabulary"
        raise ValueError(f"{text!r} is no component", f"{known}, or add the term to the vocabulary")

    def cautions(self, text: str) -> str:
        """The ids of a `cautions` cell, "; " between them. ValueError says what is wrong and what would be right."""
        ids = [piece.strip() for piece in text.split(";") if piece.strip()]
        for name in ids:
            if name not in self.vocabulary.cautions:
                near = get_close_matches(name, list(self.vocabulary.cautions), 1, 0.6)
                raise ValueError(
                    f"{name!r} is no caution",
                    f"write {near[0]}" if near else f"the cautions are: {', '.join(self.vocabulary.cautions)}",
                )
            if ids.count(name) > 1:
                raise ValueError(f"{name!r} is given twice", "write it once")
        return "; ".join(ids)

    def _canonical(self, words: tuple[str, ...]) -> frozenset[str]:
        """The words with plurals and one-meaning variants put in their canonical form."""
        plain = set()
        for word in words:
            if word in _JOINING:
                continue
            plain.add(self._canonical_word(word))
        return frozenset(plain)

    def _canonical_word(self, word: str) -> str:
        for form in (word, word.removesuffix("s")):
            if form in self._part_words or (form,) in self._names:
                return form
            written = {f.word for f in self.vocabulary.words.get(form, ()) if f.how in ("variant", "short")}
            if len(written) == 1:
                return written.pop()
        return word
