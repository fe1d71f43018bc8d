"""What narrows a spec row to some of the vehicles of a model: engine, drive, brakes, build date ..."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches

from benchbot.vocabulary.qualifiers import KEYS, value_words

_MONTH = r"(\d{4})-(0[1-9]|1[0-2])"
_BUILD = re.compile(rf"(?:{_MONTH})?\s*\.\.\s*(?:{_MONTH})?")


@dataclass(frozen=True, slots=True)
class Scope:
    """The pairs of an `only_if` cell in the order of the contract's keys, with their values as entered."""

    pairs: tuple[tuple[str, str], ...]

    @property
    def text(self) -> str:
        """The canonical text, "engine=1.5; drive=4WD"; "" when nothing narrows the row."""
        return "; ".join(f"{key}={value}" for key, value in self.pairs)

    def compatible(self, other: Scope) -> bool:
        """Whether one vehicle can be under both: no key on which the two differ."""
        mine = dict(self.pairs)
        return all(key not in mine or _meet(key, mine[key], value) for key, value in other.pairs)


def read_scope(text: str) -> Scope:
    """The scope of an `only_if` cell. ValueError says what is wrong and what would be right."""
    found: dict[str, str] = {}
    for piece in text.split(";"):
        if not piece.strip():
            if text.strip() and len(text.split(";")) > 1 and piece is not text.split(";")[-1]:
                raise ValueError("an empty part between two ';'", "take the extra ';' away")
            continue
        key, equals, value = (part.strip() for part in piece.partition("="))
        key = key.casefold()
        if not equals:
            raise ValueError(f"{piece.strip()!r} has no '='", "write key=value, for example engine=2.0T; drive=4WD")
        if key not in KEYS:
            near = get_close_matches(key, KEYS, 1, 0.7)
            raise ValueError(f"{key!r} is no key", f"write {near[0]}" if near else f"the keys are {', '.join(KEYS)}")
        if key in found:
            raise ValueError(f"{key} is given twice", "write one row for each value")
        if not value or "=" in value:
            raise ValueError(f"{key} has no readable value", f"write {key}= and one value")
        found[key] = _build_range(value) if key == "build" else " ".join(value.split())
        if key != "build" and not value_words(key, value):
            raise ValueError(f"{value!r} says nothing of the {key}", f"write the {key} as the shop says it")
    return Scope(tuple((key, found[key]) for key in KEYS if key in found))


def _build_range(text: str) -> str:
    match = _BUILD.fullmatch(text)
    if match is None or not any(match.groups()):
        raise ValueError(f"{text!r} is no range of build months", "write ..2016-05, 2016-06.. or 2016-06..2017-01")
    low, _, high = (part.strip() for part in text.partition(".."))
    if low and high and low > high:
        raise ValueError(f"the build range {text} ends before it starts", f"write {high}..{low}")
    return f"{low}..{high}"


def _meet(key: str, one: str, other: str) -> bool:
    if key != "build":
        return value_words(key, one) == value_words(key, other)
    low, _, high = one.partition("..")
    other_low, _, other_high = other.partition("..")
    return (not high or not other_low or other_low <= high) and (not other_high or not low or low <= other_high)
