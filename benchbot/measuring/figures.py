"""The figures of a message that may have been measured, with their units and signs, and what tells them from a year."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from benchbot.errors import QuantityError
from benchbot.measuring.measured import Measure
from benchbot.measuring.words import ENGINE, JUDGE, RUNS, SIZE, TAKEN, THOUSANDTHS, UNIT, UNITS
from benchbot.quantities.numbers import read_number
from benchbot.quantities.units import tidy_signs
from benchbot.vocabulary.letters import fold

_NUMBER = re.compile(r"(?<![0-9.,/'#$])(?:(?<![a-z0-9-])[0-9]+(?:[.,][0-9]+|/[0-9]+)?|[.,][0-9]+)(?![0-9/]|[.,][0-9])")
# The same with its sign, as a dial is read.
_SIGNED = re.compile(
    r"(?<![0-9.,/'#$])(?:(?<![a-z0-9+-])[+-]?[0-9]+(?:[.,][0-9]+|/[0-9]+)?|(?<![a-z0-9+-])[+-][.,][0-9]+|"
    r"(?<![+-])[.,][0-9]+)(?![0-9/]|[.,][0-9])"
)
_SIGNS = (
    (re.compile(r"\b(?:minus|menos|negative) (?=[0-9.,])"), "-"),
    (re.compile(r"\b(?:plus|mas) (?=[0-9.,])"), "+"),
)
_LARGEST_ON_A_DIAL = 2.54
_YEARS = range(1950, 2051)
_BRAKE_SIZES = range(200, 461)
# An unglued "in" is the little word, unless the message or the clause ends with it.
_AFTER_INCH = re.compile(r"^ *(?:$|[,;.?!&)/]|and\b|[0-9.]|left\b|right\b|good\b|ok\b|thick\b|l\b|r\b|y\b)")
_MOST_APART = 4
_JOINED = re.compile(r" *(?:(?P<comma>, *)|(?P<word>,? *(?:and|&|y|e) +)| )")
_WHOLE_YEAR = re.compile(r"\b(?:19|20)[0-9]{2}\b")


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in the message that may have been measured: its place there, and what was read of it."""

    start: int
    end: int
    measure: Measure
    typed: bool
    """Whether it has a unit, a point or a stroke, as no year has."""
    engine_like: bool


def folded(text: str) -> str:
    """The message as the patterns have it."""
    message = fold(tidy_signs(text)).replace("\u2019", "'")
    if RUNS.search(message):
        for word, sign in _SIGNS:
            message = word.sub(sign, message)
    return message


def figures_in(message: str) -> list[Figure]:
    """Every figure of a folded message that may have been measured."""
    found = []
    runs = RUNS.search(message) is not None
    for match in (_SIGNED if runs else _NUMBER).finditer(message):
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
        if unit == "um":
            # no bay speaks of a part in micrometres: it is shown, and judged, in millimetres
            number, unit = number.scaleb(-3), "mm"
            text = f"{number:f}"
        if unit and SIZE.match(behind) and (number >= 200 if unit == "mm" else unit == "in" and number >= 10):
            continue
        whole = text.lstrip("+-").isdigit()
        told = TAKEN.search(message) or JUDGE.search(message)
        if whole and unit == "mm" and number in _BRAKE_SIZES and not told:
            continue
        if whole and not unit and (number in _YEARS or number > 999):
            continue
        if "/" in text and not unit:
            unit = "in"
        one_decimal = not whole and "/" not in text and len(re.split("[.,]", text)[-1]) == 1
        engine_like = not unit and one_decimal and text[0].isdigit() and number < 10
        typed = not whole or bool(unit) or (runs and number == 0)
        found.append(Figure(match.start(), end, Measure(text, unit), typed, engine_like))
    return _sharing(message, found)


def _sharing(message: str, found: list[Figure]) -> list[Figure]:
    """The same; a figure that is joined to the next one has its unit ("17 and 19 mm"): neither of them is a year."""
    shared = found[-1:]
    for one, after in zip(found[-2::-1], found[:0:-1], strict=True):
        joined = _JOINED.fullmatch(message, one.end, after.start)
        unit = shared[0].measure.unit
        # without a word between them it may as well be a year, unless one stands ahead of it: "18, 5 mm"
        sure = joined and (joined["word"] or len(one.measure.text) == 1 or _after_a_year(message, one, found))
        if joined and unit and not one.measure.unit and (sure or (joined["comma"] and alike([one, after]))):
            one = replace(one, measure=replace(one.measure, unit=unit), typed=True, engine_like=False)
        shared = [one, *shared]
    return shared


def _after_a_year(message: str, figure: Figure, found: list[Figure]) -> bool:
    ahead = (one for one in found if one.start < figure.start and not one.typed)
    return _WHOLE_YEAR.search(message, 0, figure.start) is not None or any(len(one.measure.text) == 2 for one in ahead)


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


def on_a_dial(figure: Figure) -> bool:
    """Whether it can be a reading of a dial gauge in any unit but thousandths."""
    return abs(figure.measure.number) <= _LARGEST_ON_A_DIAL
