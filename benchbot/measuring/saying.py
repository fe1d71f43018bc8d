"""Cuts what was measured out of a message: the figures with their units and sides, and the rest, which names the part.

Only figures that beyond doubt were taken off a part are cut out; any other message is left whole.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from benchbot.errors import QuantityError
from benchbot.measuring.measured import FEWEST_READINGS, Measure, Measured
from benchbot.measuring.sides import Sides, labelled
from benchbot.measuring.words import (
    BEFORE,
    ENGINE,
    FILL,
    JUDGE,
    PART,
    REMAINING,
    RUNS,
    SIZE,
    TAKEN,
    THOUSANDTHS,
    UNIT,
    UNITS,
    WITH_PLATE,
)  # fmt: skip
from benchbot.quantities.numbers import read_number
from benchbot.quantities.units import tidy_signs
from benchbot.vocabulary.letters import fold

MOST_LETTERS = 300
_NUMBER = re.compile(r"(?<![0-9.,/'#$])(?:(?<![a-z0-9-])[0-9]+(?:[.,][0-9]+|/[0-9]+)?|[.,][0-9]+)(?![0-9/]|[.,][0-9])")
_YEARS = range(1950, 2051)
_BRAKE_SIZES = range(200, 461)
_BETWEEN = re.compile(r"^[ ,;/&]*(?:and|y|n)?[ ,;]*$")
# An unglued "in" is the little word, unless the message or the clause ends with it.
_AFTER_INCH = re.compile(r"^ *(?:$|[,;.?!&)/]|and\b|[0-9.]|left\b|right\b|good\b|ok\b|thick\b|l\b|r\b|y\b)")
_MOST_APART = 4
# Runout beside a thickness: no two figures of one sort lie that far apart.
_MOST_TIMES = 30


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in the message that may have been measured: its place there, and what was read of it."""

    start: int
    end: int
    measure: Measure
    typed: bool
    """Whether it has a unit, a point or a stroke, as no year has."""
    engine_like: bool


@dataclass(frozen=True, slots=True)
class Said:
    """What was measured, and the rest of the message.

    sure: a word or a unit says that it was measured, even where no part is named.
    """

    measured: Measured
    rest: str
    sure: bool


def said_measurement(text: str, is_name: Callable[[str], bool]) -> Said | None:
    """What a message says was measured; None when it says nothing of the sort, or leaves it open which figure it is.

    is_name: whether a word belongs to the name of a vehicle that the book has.
    """
    if len(text) > MOST_LETTERS or not any(letter.isdigit() for letter in text):
        return None
    message = folded(text)
    figures = figures_in(message)
    sides = labelled(message, [one for one in figures if one.typed or not names_a_year(message, one, is_name)])
    chosen = _chosen(message, figures, bool(sides), is_name)
    if sides and (not chosen or len(sides) >= len(chosen)):
        chosen = [one for one in figures if id(one) in sides.measures]
    if not chosen:
        return None
    chosen = _with_their_list(message, figures, chosen)
    if _another_figure(figures, chosen):
        return None
    measures = measures_of(chosen, sides)
    sure = any(one.unit for one in measures) or TAKEN.search(message) is not None
    return Said(
        Measured(tuple(measures), WITH_PLATE.search(message) is not None), rest_of(message, chosen, sides), sure
    )


def folded(text: str) -> str:
    """The message as the patterns have it."""
    return fold(tidy_signs(text)).replace("\u2019", "'")


def measures_of(chosen: Sequence[Figure], sides: Sides) -> list[Measure]:
    """The figures of one part with their places; a unit said of one of them counts for those that have none."""
    measures = [replace(one.measure, **sides.of(one)) if sides else one.measure for one in chosen]
    units = {one.unit for one in measures if one.unit}
    if len(units) == 1:
        unit = units.pop()
        measures = [one if one.unit else replace(one, unit=unit) for one in measures]
    return measures


def rest_of(message: str, chosen: Sequence[Figure], sides: Sides, joined: Collection[int] = ()) -> str:
    """The message without the figures and all that says how they were taken, which names the part and the vehicle.

    joined: where figures begin in whose place an "and" stands.
    """
    spans = [(one.start, one.end) for one in chosen]
    spans += sides.spans if sides else []
    spans += [match.span() for pattern in (TAKEN, JUDGE, WITH_PLATE) for match in pattern.finditer(message)]
    spans += [match.span() for one in chosen for match in (BEFORE.search(message, 0, one.start),) if match is not None]
    spans += [
        (one.end, one.end + match.end())
        for one in chosen
        for match in (REMAINING.match(message[one.end :]),)
        if match and not (sides and any(start >= one.end for start, _ in sides.spans))
    ]
    rest = _without(message, spans, joined)
    if sides and sides.axles and not re.search(r"\b(?:front|rear)\b", rest):
        rest = f"{rest} {' and '.join(sides.axles)}"
    return rest


def figures_in(message: str) -> list[Figure]:
    """Every figure of a folded message that may have been measured."""
    found = []
    for match in _NUMBER.finditer(message):
        text, end = match[0], match.end()
        unit_said = UNIT.match(message, end)
        unit = ""
        if unit_said is not None:
            said = unit_said["unit"]
            unit = "thou" if THOUSANDTHS.fullmatch(said) else UNITS[said[:2]]
            unglued = said == "in" and unit_said["gap"] == " "
            if unglued and not _AFTER_INCH.match(message[unit_said.end() :]):
                unit, unit_said = "", None
        end = unit_said.end() if unit_said is not None else end
        behind = message[end:]
        if unit_said is None and (behind[:1].isalpha() or ENGINE.match(behind) or behind[:1] in ("-", "%")):
            continue
        try:
            number = read_number(text)
        except QuantityError:
            continue
        if unit and SIZE.match(behind) and (number >= 200 if unit == "mm" else unit == "in" and number >= 10):
            continue
        whole = text.isdigit()
        told = TAKEN.search(message) or JUDGE.search(message)
        if whole and unit == "mm" and number in _BRAKE_SIZES and not told:
            continue
        if whole and not unit and (number in _YEARS or number > 999):
            continue
        if "/" in text and not unit:
            unit = "in"
        one_decimal = not whole and "/" not in text and len(re.split("[.,]", text)[1]) == 1
        engine_like = not unit and one_decimal and text[0].isdigit() and number < 10
        found.append(Figure(match.start(), end, Measure(text, unit), not whole or bool(unit), engine_like))
    return found


def _chosen(message: str, figures: list[Figure], sided: bool, is_name: Callable[[str], bool]) -> list[Figure]:
    """The figures that were measured, before those that go on with them."""
    taken = TAKEN.search(message) is not None
    judged = JUDGE.search(message) is not None
    direct = [one for one in figures if _told_before(message, one, taken or judged, is_name)]
    if direct:
        return direct
    behind = [one for one in figures if REMAINING.match(message[one.end :]) and PART.search(message)]
    if behind and not sided:
        return [one for one in behind if one.typed or taken or judged]
    if not (taken or judged):
        listed = [one for one in figures if one.typed and not one.engine_like]
        return listed[:1] if len(listed) >= FEWEST_READINGS and alike(listed) and PART.search(message) else []
    typed = [one for one in figures if one.typed and not one.engine_like]
    return typed[:1] if len(typed) == 1 or alike(typed) else []


def _told_before(message: str, figure: Figure, told: bool, is_name: Callable[[str], bool]) -> bool:
    before = message[: figure.start]
    for match in TAKEN.finditer(before):
        if FILL.match(before[match.end() :]):
            return figure.typed or not names_a_year(message, figure, is_name)
    for pattern in (RUNS, PART):
        for match in pattern.finditer(before):
            if FILL.match(before[match.end() :]) and (pattern is RUNS or told or figure.measure.unit):
                return figure.typed
    if BEFORE.search(before) is None:
        return False
    if figure.engine_like and not (told or re.search(r"\b(?:at|down to|worn to|quedan?) *$", before)):
        # "its a merrit, has 2.0 in it": nothing tells that from a figure
        return False
    return figure.typed or (
        re.search(r"\b(?:pads?|shoes?|linings?|balatas?|they'?re|im|i'm|its|it's|are) (?:at|down to) *$", before)
        is not None and not names_a_year(message, figure, is_name)
    )  # fmt: skip


def names_a_year(message: str, figure: Figure, is_name: Callable[[str], bool]) -> bool:
    """Whether a vehicle's name stands behind a whole number: "measured 18 ..." may be its year."""
    words = re.findall(r"[a-z0-9]+", message[figure.end :])
    return bool(words) and is_name(words[0])


def alike(figures: list[Figure]) -> bool:
    """Whether figures can be readings of one thing: as many places, and not far from each other."""
    if len(figures) < 2:
        return bool(figures)
    numbers = [one.measure.number for one in figures]
    places = {one.measure.step for one in figures}
    return len(places) == 1 and max(numbers) <= min(numbers) * 5 / _MOST_APART


def _with_their_list(message: str, figures: list[Figure], chosen: list[Figure]) -> list[Figure]:
    """The chosen figures and those that follow them in a list: "22.41 22.40, 22.43"."""
    found = list(chosen)
    for before, one in pairwise(figures):
        if before not in found or one in found or not _BETWEEN.match(message[before.end : one.start]):
            continue
        if one.typed and (alike([before, one]) or (one.measure.unit and one.measure.unit == before.measure.unit)):
            found.append(one)
    return sorted(found, key=lambda one: one.start)


def _another_figure(figures: list[Figure], chosen: list[Figure]) -> bool:
    """Whether a figure is left that could be what was measured, or a limit read off the part: "22.4 or 22.1"."""
    left = [one for one in figures if one.typed and not one.engine_like and one not in chosen]
    if any(one.measure.unit or any(alike([one, other]) for other in chosen) for one in left):
        return True
    numbers = [one.measure.number for one in chosen]
    return max(numbers) > min(numbers) * _MOST_TIMES


def _without(message: str, spans: list[tuple[int, int]], joined: Collection[int]) -> str:
    """The message without these stretches."""
    rest, at = [], 0
    for start, end in sorted(spans):
        if end > at:
            rest.append(message[at : max(start, at)])
            at = end
        if start in joined and rest[-1] != "and":
            rest.append("and")
    rest.append(message[at:])
    return re.sub(r"[ ,;:=]{2,}", " ", " ".join(rest)).strip(" ,;:=")
