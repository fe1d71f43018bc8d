"""Whether a checked row already states the same thing of the same vehicle, with the same figure or another one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from benchbot.checking.figures import size_of
from benchbot.checking.found import Found
from benchbot.checking.rows import Components, HeldRow
from benchbot.specs.figure import sameness
from benchbot.specs.overlap import Overlaps
from benchbot.specs.scope import Scope

# The thinner of two thicknesses of one part; True: the two may be equal.
_THINNER = (
    ("minimum thickness", "machine-to thickness", True),
    ("machine-to thickness", "nominal thickness", False),
    ("minimum thickness", "nominal thickness", False),
)
_PART = "correct the value, part the years or only_if of the two, or change that row instead of adding one"


def contradictions(row: HeldRow, held: Sequence[HeldRow], components: Components) -> list[Found]:
    """Refused: another figure for one vehicle, part and place, or thicknesses the wrong way round.

    A warning: the same figure twice, or another figure for a place that only holds the other one's place.
    """
    name = components.name(row.component)
    beside = [
        other
        for other in held
        if other.vehicle == row.vehicle
        and (not row.spec or other.spec != row.spec)
        and (other.places <= row.places or other.places >= row.places)
        and components.name(other.component) == name
    ]
    return [*_stated_twice(row, beside), *_wrong_way_round(row, beside)]


def _stated_twice(row: HeldRow, beside: Sequence[HeldRow]) -> list[Found]:
    if row.property == "note":
        return []
    alike = [other for other in beside if other.property == row.property]
    found = []
    for other, differ in _met(row, alike):
        if differ and other.places != row.places:
            told = f"{_stated(other)} for {_place(other)}; this row states {row.value} for {_place(row)}"
            found.append(Found("contradiction", "warning", told, "say in both rows which place is meant"))
        elif differ:
            told = f"{_stated(other)} for the same vehicle, part and years; this row states {row.value}"
            found.append(Found("contradiction", "refused", told, _PART))
        else:
            told = f"{_stated(other)} already, for years that overlap"
            found.append(Found("contradiction", "warning", told, "change that row instead of adding one"))
    return found


def _wrong_way_round(row: HeldRow, beside: Sequence[HeldRow]) -> list[Found]:
    found = []
    for thin, thick, equal in _THINNER:
        if row.property not in (thin, thick):
            continue
        wanted = thick if row.property == thin else thin
        for other, _ in _met(row, [one for one in beside if one.property == wanted and one.places == row.places]):
            mine, theirs = size_of(row.figure()), size_of(other.figure())
            if mine is None or theirs is None:
                continue
            less, more = (mine[1], theirs[1]) if row.property == thin else (theirs[1], mine[1])
            if less > more or (less == more and not equal):
                told = f"{_stated(other)} as {other.property}; a {row.property} of {row.value} cannot be right with it"
                found.append(Found("contradiction", "refused", told, "compare both rows with their source pages"))
    return found


def _met(row: HeldRow, others: Iterable[HeldRow]) -> list[tuple[HeldRow, bool]]:
    """The rows that one vehicle of one year falls under together with this one, and whether their figures differ."""
    rows = [*others, row]
    scopes: list[Scope] = [one.scope for one in rows]
    figures: dict[object, int] = {}
    numbers = [figures.setdefault(sameness(one.figure()), len(figures)) for one in rows]
    met = []
    for at, other in enumerate(rows[:-1]):
        # A pair at a time: what the held rows are to each other was judged when they came in.
        pair = Overlaps(scopes)
        pair.add(other.spec, 0, 0, *other.years, at, numbers[at])
        met += [(other, one.differ) for one in pair.add(row.spec, 1, 0, *row.years, len(rows) - 1, numbers[-1])]
    return met


def _stated(row: HeldRow) -> str:
    years = row.year_from if row.year_from == row.year_to else f"{row.year_from} to {row.year_to}"
    only = f", {row.only_if}" if row.only_if else ""
    return f"{row.spec} ({years}{only}) states {row.value}"


def _place(row: HeldRow) -> str:
    return row.position or "no place"
