"""Letters and words of any text: folding to a plain form, splitting into words, and the spellings one slip away."""

from __future__ import annotations

import re
import unicodedata

_WORD = re.compile(r"[a-z0-9]+(?:\.[0-9]+[a-z]*)?|[^\W_]+")


def fold(text: str) -> str:
    """The text in lower case, without accents, invisible or control characters; widths and ligatures made plain."""
    plain = unicodedata.normalize("NFKD", text)
    kept = []
    for letter in plain:
        kind = unicodedata.category(letter)
        if kind in ("Mn", "Cf", "Me"):
            continue
        kept.append(" " if kind[0] in "CZ" else letter)
    return "".join(kept).casefold()


def name_words(name: str) -> tuple[str, ...]:
    """The words of a make, model or alias as the reader of messages sees them: "Example 1500" -> example, 1500."""
    return tuple(_WORD.findall(fold(name)))


def deletions(word: str, most: int) -> set[str]:
    """The word and every form of it with up to `most` letters left out.

    Two words whose optimal string alignment distance is n share a form at `most` = n (symmetric deletion).
    """
    forms = {word}
    edge = {word}
    for _ in range(most):
        edge = {form[:i] + form[i + 1 :] for form in edge for i in range(len(form))}
        forms |= edge
    return forms


def slips_allowed(word: str) -> int:
    """How many slips of the finger a word of this length may carry and still be rescued (digits: none)."""
    if any(letter.isdigit() for letter in word) or len(word) < 4:
        return 0
    return 1 if len(word) < 8 else 2
