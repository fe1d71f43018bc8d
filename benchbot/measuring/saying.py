"""Cuts what was measured out of a message: the figures with their units and sides, and the rest, which names the part.

Only figures that beyond doubt were taken off a part are cut out; any other message is left whole.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from benchbot.measuring.figures import Figure, alike, figures_in, folded, names_a_year, on_a_dial
from benchbot.measuring.measured import FEWEST_READINGS, Measure, Measured
from benchbot.measuring.sides import Sides, labelled
from benchbot.measuring.stamped import Stamp, stamp_in
from benchbot.measuring.words import (
    BEFORE,
    FILL,
    JUDGE,
    LIMIT_NAMED,
    PART,
    REMAINING,
    RUNS,
    TAKEN,
    TURN_TO,
    WITH_PLATE,
)  # fmt: skip

MOST_LETTERS = 300
_BETWEEN_READINGS = re.compile(r"^[ ,;/&]*(?:and|y|n|to|a|then|up to|hasta)?[ ,;]*$")
_BETWEEN = re.compile(r"^[ ,;/&]*(?:and|y|n)?[ ,;]*$")
# Runout beside a thickness: no two figures of one sort lie that far apart.
_MOST_TIMES = 30


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
    turned = _to_turn_to(message, figures)
    if turned is not None:
        return _with_a_target(message, figures, *turned, is_name)
    return _beside_what_is_stamped(message, figures, is_name)


def _to_turn_to(message: str, figures: list[Figure]) -> tuple[Figure, int] | None:
    """The figure that the part is to be machined to, and where the words for it begin."""
    for one in figures:
        told = TURN_TO.search(message, 0, one.start)
        if told is not None and len(figures) > 1:
            return one, told.start()
    return None


def _with_a_target(
    message: str, figures: list[Figure], target: Figure, start: int, is_name: Callable[[str], bool]
) -> Said | None:
    blanked = f"{message[:start]}{' ' * (target.end - start)}{message[target.end :]}"
    said = _beside_what_is_stamped(blanked, [one for one in figures if one is not target], is_name, marked=True)
    if said is None or said.measured.which_stamped:
        return None
    units = {one.unit for one in said.measured.measures}
    unit = target.measure.unit or (units.pop() if len(units) == 1 else "")
    measured = said.measured.in_unit(unit) if unit else said.measured
    return replace(said, measured=replace(measured, target=replace(target.measure, unit=unit)))


def _beside_what_is_stamped(
    message: str, figures: list[Figure], is_name: Callable[[str], bool], marked: bool = False
) -> Said | None:
    stamp = stamp_in(message, figures)
    if stamp is not None:
        return _beside_a_stamp(message, figures, stamp, is_name)
    return _said(message, figures, is_name, marked)


def _beside_a_stamp(message: str, figures: list[Figure], stamp: Stamp, is_name: Callable[[str], bool]) -> Said | None:
    """What was measured besides a limit on the part; both figures where it is open which of them was measured."""
    if stamp.figure is None:
        two = [one for one in figures if one.typed]
        if len(two) != 2:
            return None
        both = measures_of(two, Sides())
        return Said(Measured(tuple(both), which_stamped=True), rest_of(message, two, Sides(), also=stamp.spans), True)
    limit = stamp.figure
    spans = ((limit.start, limit.end), *stamp.spans)
    blanked = list(message)
    for start, end in spans:
        blanked[start:end] = " " * (end - start)
    said = _said("".join(blanked), [one for one in figures if one is not limit], is_name, marked=True)
    if said is None:
        return None
    units = {one.unit for one in said.measured.measures}
    unit = limit.measure.unit or (units.pop() if len(units) == 1 else "")
    measured = said.measured.in_unit(unit) if unit else said.measured
    return replace(said, measured=replace(measured, stamped=replace(limit.measure, unit=unit)))


def _said(message: str, figures: list[Figure], is_name: Callable[[str], bool], marked: bool = False) -> Said | None:
    """marked: a limit on the part was told, so that a figure besides was measured."""
    sides = labelled(message, [one for one in figures if one.typed or not names_a_year(message, one, is_name)])
    chosen = _chosen(message, figures, bool(sides), is_name)
    if not chosen and marked:
        chosen = [one for one in figures if one.typed][:1]
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


def measures_of(chosen: Sequence[Figure], sides: Sides) -> list[Measure]:
    """The figures of one part with their places; a unit said of one of them counts for those that have none."""
    measures = [replace(one.measure, **sides.of(one)) if sides else one.measure for one in chosen]
    units = {one.unit for one in measures if one.unit}
    if len(units) == 1:
        unit = units.pop()
        measures = [one if one.unit else replace(one, unit=unit) for one in measures]
    return measures


def rest_of(
    message: str,
    chosen: Sequence[Figure],
    sides: Sides,
    joined: Collection[int] = (),
    also: Sequence[tuple[int, int]] = (),
) -> str:
    """The message without the figures and all that says how they were taken, which names the part and the vehicle.

    joined: where figures begin in whose place an "and" stands. also: further stretches to leave out.
    """
    spans = [*((one.start, one.end) for one in chosen), *also]
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
        if len(listed) >= FEWEST_READINGS and alike(listed) and PART.search(message):
            return listed[:1]
        return _of_the_part_named(message, listed)
    typed = [one for one in figures if one.typed and not one.engine_like]
    return typed[:1] if len(typed) == 1 or alike(typed) else []


def _of_the_part_named(message: str, typed: list[Figure]) -> list[Figure]:
    """The figure of a message that holds a part, a figure with its unit, and no word for a limit, in any order."""
    if not any(one.measure.unit for one in typed):
        return []
    if RUNS.search(message):
        return typed[:1] if len(typed) == 1 or all(on_a_dial(one) for one in typed) or alike(typed) else []
    if not PART.search(message) or LIMIT_NAMED.search(message):
        return []
    return typed if len(typed) == 1 else []


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


def _with_their_list(message: str, figures: list[Figure], chosen: list[Figure]) -> list[Figure]:
    """The chosen figures and those that follow them in a list: "22.41 22.40, 22.43"."""
    found = list(chosen)
    runs = RUNS.search(message) is not None
    between = _BETWEEN_READINGS if runs else _BETWEEN
    for before, one in pairwise(figures):
        if before not in found or one in found or not between.match(message[before.end : one.start]):
            continue
        if runs and one.typed and all(on_a_dial(other) for other in (before, one)):
            found.append(one)
            continue
        if one.typed and (alike([before, one]) or (one.measure.unit and one.measure.unit == before.measure.unit)):
            found.append(one)
    return sorted(found, key=lambda one: one.start)


def _another_figure(figures: list[Figure], chosen: list[Figure]) -> bool:
    """Whether a figure is left that could be what was measured, or a limit read off the part: "22.4 or 22.1"."""
    left = [one for one in figures if one.typed and not one.engine_like and one not in chosen]
    if any(one.measure.unit or any(alike([one, other]) for other in chosen) for one in left):
        return True
    if all(on_a_dial(one) for one in chosen):
        return False
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
