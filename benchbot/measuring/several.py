"""Cuts what was measured of several parts out of one message: each figure goes to the part that it stands at."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from benchbot.measuring.figures import Figure, alike, figures_in, folded, names_a_year
from benchbot.measuring.measured import Measured
from benchbot.measuring.saying import MOST_LETTERS, Said, measures_of, rest_of
from benchbot.measuring.sides import Sides, labelled
from benchbot.measuring.stamped import stamp_in
from benchbot.measuring.words import FILL, PARTS, RUNS, TAKEN, WITH_PLATE

# What stands behind a whole number that belongs to the part before it.
_ENDS = re.compile(r"^ *(?:$|[,;.?!&)]|(?:and|y|front|rear|left|right|inner|outer|measured|ok|good)\b|[0-9])")
_LINING = re.compile(r"balatas?\b|pastillas?\b")


@dataclass(frozen=True, slots=True)
class _Mark:
    """Where a part is named."""

    start: int
    end: int
    part: str


def said_of_parts(text: str, is_name: Callable[[str], bool]) -> Said | None:
    """What a message says was measured of each of two parts or more; None when it does not say whose each figure is.

    is_name: whether a word belongs to the name of a vehicle that the book has.
    """
    message, marks, figures = _looked_at(text)
    parts = [one.part for one in marks]
    if len(parts) < 2 or len(set(parts)) < len(parts) or RUNS.search(message) or stamp_in(message, figures):
        return None
    sides = labelled(message, [one for one in figures if one.typed or not names_a_year(message, one, is_name)])
    if len(sides.axles) > 1:
        # "front rotor ... rear drum ...": the axle is told of each part, not of figures of one
        sides = Sides()
    beside = [one for one in figures if _at_a_part(message, one, marks)]
    chosen = [one for one in figures if _is_measured(one, sides) or (one in beside and _is_said_of_it(message, one))]
    chosen = [one for one in chosen if one.typed or not names_a_year(message, one, is_name)]
    left = [one for one in beside if one not in chosen and not names_a_year(message, one, is_name)]
    of_each = _of_each(chosen, marks)
    if left or of_each is None or not all(_of_one(ones, sides) for ones in of_each.values()):
        return None
    measures = [replace(one, part=part) for part, ones in of_each.items() for one in measures_of(ones, sides)]
    # the name of a part and that of the next would stand side by side
    joined = {ones[0].start for ones in of_each.values()}
    rest = rest_of(message, chosen, sides, joined)
    return Said(Measured(tuple(measures), WITH_PLATE.search(message) is not None), rest, True)


def is_of_parts(text: str, is_name: Callable[[str], bool]) -> bool:
    """Whether a message has figures that were taken off several parts, whichever belongs to which."""
    message, marks, figures = _looked_at(text)
    if len({one.part for one in marks}) < 2:
        return False
    beside = [one for one in figures if _at_a_part(message, one, marks)]
    taken = [one for one in figures if one.typed and (one in beside or not one.engine_like)]
    others = [one for one in beside if one not in taken and not names_a_year(message, one, is_name)]
    told = TAKEN.search(message) is not None or any(one.measure.unit for one in taken)
    each = len({_part_before(one, marks) for one in (*taken, *others)}) > 1
    return bool(taken) and (told or each) and len(taken) + len(others) > 1


def _looked_at(text: str) -> tuple[str, list[_Mark], list[Figure]]:
    """The message, the parts that it names, "rotor disc" as one, and its figures."""
    if len(text) > MOST_LETTERS:
        return "", [], []
    message = folded(text)
    found = [_Mark(*match.span(), part) for part, pattern in PARTS for match in pattern.finditer(message)]
    marks: list[_Mark] = []
    for one in sorted(found, key=lambda one: one.start):
        if marks and marks[-1].part == one.part and not message[marks[-1].end : one.start].strip():
            one = replace(marks.pop(), end=one.end)
        marks.append(one)
    if any(one.part == "brake drum" for one in marks):
        # what lines a brake is one word in the shop's Spanish
        marks = [replace(one, part="brake shoe") if _LINING.match(message, one.start) else one for one in marks]
    return message, marks, figures_in(message) if len(marks) > 1 else []


def _part_before(figure: Figure, marks: Sequence[_Mark]) -> str:
    return next((one.part for one in reversed(marks) if one.end <= figure.start), "")


def _is_measured(figure: Figure, sides: Sides) -> bool:
    return (figure.typed and not figure.engine_like) or id(figure) in sides.measures


def _is_said_of_it(message: str, figure: Figure) -> bool:
    """Whether the figure is no part of what stands behind it: "pads 18 merrit" may have the year there."""
    return figure.typed or _ENDS.match(message[figure.end :]) is not None


def _at_a_part(message: str, figure: Figure, marks: Sequence[_Mark]) -> bool:
    """Whether nothing but small words stands between the name of a part and the figure behind it."""
    return any(one.end <= figure.start and FILL.match(message[one.end : figure.start]) for one in marks)


def _of_each(chosen: Sequence[Figure], marks: Sequence[_Mark]) -> dict[str, list[Figure]] | None:
    """Part -> its figures; all figures stand behind the names of their parts, or all before them."""
    found: dict[str, list[Figure]] = {one.part: [] for one in marks}
    ahead = bool(chosen) and chosen[0].start < marks[0].start
    for figure in chosen:
        if ahead:
            mark = next((one for one in marks if one.start >= figure.end), None)
        else:
            mark = next((one for one in reversed(marks) if one.end <= figure.start), None)
        if mark is None:
            return None
        found[mark.part].append(figure)
    return found if all(found.values()) else None


def _of_one(figures: list[Figure], sides: Sides) -> bool:
    """Whether the figures can be of one part: one alone, one for each side, or readings of one place."""
    return len(figures) == 1 or all(id(one) in sides.measures for one in figures) or alike(figures)
