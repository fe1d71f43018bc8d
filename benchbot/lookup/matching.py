"""Whether a spec row agrees with what was stated: year, place, and each qualifier."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from benchbot.book.reader import SpecRow
from benchbot.understanding.reading import Place
from benchbot.vocabulary.qualifiers import built_within, compare, value_words
from benchbot.vocabulary.terms import Stated

_AXLES = frozenset({"front", "rear"})
_SIDES = frozenset({"left", "right"})
_HEIGHTS = frozenset({"upper", "lower"})
_DEPTHS = frozenset({"inner", "outer"})


@lru_cache(maxsize=16384)
def conditions(only_if: str) -> tuple[tuple[str, str], ...]:
    """The qualifiers of a row: "engine=1.8T; drive=4WD" -> (("engine", "1.8T"), ("drive", "4WD"))."""
    pairs = (part.partition("=") for part in only_if.split(";") if part.strip())
    return tuple((key.strip(), value.strip()) for key, _, value in pairs)


@lru_cache(maxsize=1024)
def position_words(position: str) -> frozenset[str]:
    return frozenset(position.split())


def axle_of(row: SpecRow) -> str:
    return next(iter(position_words(row.position) & _AXLES), "")


def side_of(row: SpecRow) -> str:
    return next(iter(position_words(row.position) & _SIDES), "")


def height_of(row: SpecRow) -> str:
    return next(iter(position_words(row.position) & _HEIGHTS), "")


def depth_of(row: SpecRow) -> str:
    return next(iter(position_words(row.position) & _DEPTHS), "")


@dataclass(frozen=True, slots=True)
class Said:
    """What a message states of one qualifier key: all its words together; clash = it contradicts itself."""

    key: str
    words: frozenset[str]
    clash: bool
    text: str


def said_by_key(stated: Iterable[Stated], unsure: Collection[str] = ()) -> dict[str, Said]:
    """All that was said, put together by key; two engines or two drives said at once clash."""
    by_key: dict[str, list[Stated]] = {}
    for one in stated:
        by_key.setdefault(one.key, []).append(one)
    said: dict[str, Said] = {}
    for key, ones in by_key.items():
        values = [one for one in ones if not one.part]
        distinct = {value_words(key, one.value) for one in values}
        largest = [w for w in distinct if not any(w < other for other in distinct)]
        numbered = [w for w in distinct if any(word[0].isdigit() for word in w)]
        words = frozenset().union(*(value_words(key, one.value) for one in ones))
        clash = max(len(largest), len(numbered)) > 1 and not _one_value(key, distinct)
        said[key] = Said(key, words, clash or key in unsure, " ".join(dict.fromkeys(one.value for one in ones)))
    return said


def _one_value(key: str, distinct: set[frozenset[str]]) -> bool:
    """Example: "3.5" and "V6" are two words on one engine; two displacements are two engines."""
    return key == "engine" and sum(any(word[0].isdigit() for word in one) for one in distinct) == 1


def qualifiers_agree(row: SpecRow, said: dict[str, Said], excluded: Iterable[Stated] = ()) -> bool:
    """Whether nothing that was said, or said not to be so, rules the row out; a part or something unclear does not."""
    held = conditions(row.only_if)
    if any(
        key == one.key and value_words(key, one.value) <= value_words(key, v) for one in excluded for key, v in held
    ):
        return False
    return all(_key_agrees(key, value, said) for key, value in held)


def rule_out(said: dict[str, Said], values: Iterable[tuple[str, str]]) -> set[tuple[str, str]]:
    """The values that were overshot where the vehicle has just what was said: with a 1.6T about, "1.6T" is no 1.6.

    values: every (key, value) that rows of the vehicle and year carry, whatever the component.
    """
    found: set[tuple[str, str]] = set()
    for key, one in said.items():
        if one.clash or key == "build":
            continue
        matches = {value: compare(key, one.words, value) for k, value in values if k == key}
        if "same" in matches.values() and "part" not in matches.values():
            found |= {(key, value) for value, match in matches.items() if match != "same"}
    return found


def _key_agrees(key: str, value: str, said: dict[str, Said]) -> bool:
    one = said.get(key)
    if one is None:
        return True
    if key == "build":
        return _built_agrees(one.text, value)
    if one.clash:
        return any(compare(key, frozenset({w}), value) != "other" for w in one.words) or not one.words
    return compare(key, one.words, value) != "other"


def _built_agrees(said: str, row_value: str) -> bool:
    """`said` is a month ("2016-05"), or a row's own range when it was chosen from the options."""
    if ".." in said:
        return said == row_value
    year, month = said.split()[0].split("-")
    return built_within(date(int(year), int(month), 1), row_value)


def settled(key: str, rows: Sequence[SpecRow], said: dict[str, Said]) -> bool:
    """Whether what was said of a key decides between the rows: it was stated whole, and just one value has it."""
    one = said.get(key)
    if one is None or one.clash:
        return False
    if key == "build":
        return True
    values = {value for row in rows for k, value in conditions(row.only_if) if k == key}
    return all(compare(key, one.words, value) in ("same", "other") for value in values)


def place_agrees(row: SpecRow, place: Place) -> bool:
    """Whether the row lies where the message says; a row with a blank position is not ruled out by an axle."""
    words = position_words(row.position)
    axle, side = words & _AXLES, words & _SIDES
    height, depth = words & _HEIGHTS, words & _DEPTHS
    if place.axles and axle and not axle & set(place.axles):
        return False
    sides = set(place.sides) & _SIDES
    if sides and side and not side & sides:
        return False
    if place.heights and height and not height & set(place.heights):
        return False
    return not (place.depths and depth and not depth & set(place.depths))


def year_agrees(row: SpecRow, years: Sequence[int]) -> bool:
    return not years or any(row.year_from <= year <= row.year_to for year in years)
