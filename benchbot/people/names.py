"""Names of people and locations: what may be kept of one, and when two are the same."""

from __future__ import annotations

import unicodedata

LONGEST = 60
NO_NAME = "(no name)"

# Letters and signs by their class in Unicode, and yet nothing is to be seen of them.
_BLANKS = frozenset("\u115f\u1160\u2800\u3164\uffa0")


def fit_name(text: str) -> str | None:
    """A location's name as it is kept: 1 to 60 printable characters, spaces tidied; None when it is not fit.

    Control characters, marks that turn the writing direction and joiners are not printable: what is shown must be what
    was written.
    """
    name = _tidied(text)
    return name if len(name) <= LONGEST and name.isprintable() and _is_seen(name) else None


def shown_name(text: str, most: int = LONGEST) -> str:
    """What a messenger says that a person is called, made fit to be kept and shown: `most` characters of it."""
    name = _tidied("".join(map(_printable, text[: 20 * most])))
    if len(name) > most:
        name = f"{name[: most - 1].rstrip()}…"
    return name if _is_seen(name) else NO_NAME


def same_name(one: str, other: str) -> bool:
    """Whether two names are one: case, and the width or style of their letters, make no difference."""
    return _folded(one) == _folded(other)


def _tidied(text: str) -> str:
    return " ".join(unicodedata.normalize("NFC", text).split())


def _printable(letter: str) -> str:
    """The letter, nothing for a mark without width, a space for whatever else cannot be printed."""
    if letter.isprintable():
        return letter
    return "" if unicodedata.category(letter) == "Cf" else " "


def _folded(name: str) -> str:
    return _tidied(unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", name).casefold()))


def _is_seen(name: str) -> bool:
    return any(unicodedata.category(letter)[0] in "LNS" and letter not in _BLANKS for letter in name)
