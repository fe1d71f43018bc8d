"""What a line of `said` stands for: "(brake) rotor/disc screw" is every phrase made with or without "brake"."""

from __future__ import annotations

from itertools import product

from benchbot.vocabulary.letters import fold, name_words

_MOST_PHRASES = 2000


class PatternError(ValueError):
    """A line of `said` that cannot be expanded; the text says why."""


def expand_text(pattern: str) -> list[str]:
    """Every text of the pattern, its words one space apart, marks kept ("f & r").

    "a/b" is either word, "(a)" may be left out. Raises PatternError for no words at all, unbalanced brackets,
    letters that are not plain lower case, or too many texts.
    """
    if fold(pattern) != pattern:
        raise PatternError(f"{pattern!r} is not in plain lower-case letters")
    choices: list[list[str]] = []
    count = 1
    for piece in pattern.split():
        optional = piece.startswith("(") and piece.endswith(")")
        inner = piece[1:-1] if optional else piece
        if "(" in inner or ")" in inner:
            raise PatternError(f"the brackets of {piece!r} in {pattern!r} do not close around one word")
        words = inner.split("/")
        if not all(words):
            raise PatternError(f"{piece!r} in {pattern!r} lacks a word beside the stroke")
        choices.append([*words, ""] if optional else words)
        count *= len(choices[-1])
    if count > _MOST_PHRASES:
        raise PatternError(f"{pattern!r} stands for {count} phrases, more than {_MOST_PHRASES}")
    texts = [" ".join(word for word in picked if word) for picked in product(*choices)]
    kept = [text for text in dict.fromkeys(texts) if text]
    if not kept:
        raise PatternError(f"{pattern!r} holds no word")
    return kept


def expand(pattern: str) -> list[tuple[str, ...]]:
    """Every phrase of the pattern as its words in the order written; a hyphen parts two words ("hold-down")."""
    phrases = [name_words(text) for text in expand_text(pattern)]
    kept = [phrase for phrase in dict.fromkeys(phrases) if phrase]
    if not kept:
        raise PatternError(f"{pattern!r} holds no word")
    return kept
