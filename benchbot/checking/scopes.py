"""Whether a row answers for more, or for other vehicles than its source can be about: years, qualifiers, position."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from benchbot.checking.found import Found
from benchbot.checking.rows import Components, HeldRow, RowToCheck, spoken_vehicle
from benchbot.vocabulary.qualifiers import value_words

MOST_YEARS = 30
_OPPOSITE = {
    "front": "rear", "rear": "front", "upper": "lower", "lower": "upper", "left": "right", "right": "left",
    "inner": "outer", "outer": "inner",
}  # fmt: skip


def scope_sanity(row: RowToCheck, held: Sequence[HeldRow], components: Components, today: date) -> list[Found]:
    """Every doubt of the row's scope; a "passed" when there is none."""
    model = [other for other in held if other.vehicle == row.vehicle and (not row.spec or other.spec != row.spec)]
    found = [
        *_wider_than_asked(row),
        *_years(row, model, today),
        *_qualifiers(row, model),
        *_position(row, components),
    ]
    if found:
        return found
    only = f", {row.only_if}" if row.only_if else ""
    told = f"{spoken_vehicle(row)} {_span(*row.years)}{only}: nothing speaks against the scope"
    return [Found("scope", "passed", told, "")]


def _warning(told: str, mend: str) -> Found:
    return Found("scope", "warning", told, mend)


def _wider_than_asked(row: RowToCheck) -> list[Found]:
    found = []
    if row.asked_years is not None:
        (first, last), (asked_first, asked_last) = row.years, row.asked_years
        if first > asked_first or last < asked_last:
            told = f"{_span(asked_first, asked_last)} was asked, and the row answers for {_span(first, last)} only"
            found.append(_warning(told, "check that the page is about the year asked for"))
        if first < asked_first or last > asked_last:
            told = f"{_span(asked_first, asked_last)} was asked, and the row would answer for {_span(first, last)}"
            found.append(_warning(told, "narrow the years, or say where the source covers the others"))
    held = dict(row.scope.pairs)
    for key, value in row.asked_scope.pairs:
        if key not in held:
            told = f"{key} {value} was asked, and the row would answer for every {key}"
            found.append(_warning(told, f"write {key}={value} in only_if, or say where the source covers the others"))
    if not row.scope.compatible(row.asked_scope):
        told = f"{row.asked_only_if} was asked, and the row answers for {row.only_if}"
        found.append(_warning(told, "check that the page is about the vehicle asked for"))
    return found


def _years(row: RowToCheck, model: Sequence[HeldRow], today: date) -> list[Found]:
    first, last = row.years
    found = []
    if last - first + 1 >= MOST_YEARS:
        told = f"the row answers for {last - first + 1} model years"
        found.append(_warning(told, "narrow the years to those that the source names"))
    if last > today.year + 1:
        told = f"model year {last} is not built yet"
        found.append(_warning(told, "end the row with the newest model year that the source names"))
    if model:
        held_first, held_last = min(one.years[0] for one in model), max(one.years[1] for one in model)
        if first < held_first or last > held_last:
            told = (
                f"the book holds {spoken_vehicle(row)} for {_span(held_first, held_last)}, "
                f"and the row answers for {_span(first, last)}"
            )
            found.append(_warning(told, "check that the model was built in those years with this part"))
    return found


def _qualifiers(row: RowToCheck, model: Sequence[HeldRow]) -> list[Found]:
    found = []
    for key, value in row.scope.pairs:
        if key == "build":
            continue
        known = {other_value for other in model for other_key, other_value in other.scope.pairs if other_key == key}
        if known and value_words(key, value) not in {value_words(key, one) for one in known}:
            shown = sorted(known)
            more = f" and {len(shown) - 6} more" if len(shown) > 6 else ""
            told = f"{key} {value} is new for {spoken_vehicle(row)}; the book holds {key} {', '.join(shown[:6])}{more}"
            found.append(_warning(told, "write it as the book does if it is one of those"))
    return found


def _position(row: RowToCheck, components: Components) -> list[Found]:
    name = components.name(row.component)
    for word in name.split():
        opposite = _OPPOSITE.get(word)
        # "inner ... outer" in one name tells two parts apart and no place.
        if opposite in row.places and opposite not in name.split():
            told = f"a {name} cannot sit {opposite}"
            return [Found("scope", "refused", told, f"take {opposite} out of the position, or name the other part")]
    component = components.vocabulary.components.get(name)
    if component is None:
        return []
    if component.axles in ("front", "rear") and _OPPOSITE[component.axles] in row.places:
        other = _OPPOSITE[component.axles]
        told = f"a {name} is a part of the {component.axles} axle, and the row says {other}"
        return [_warning(told, f"check the part and the position; {component.axles} goes without saying")]
    if component.axles == "both" and not row.places & {"front", "rear"}:
        told = f"a {name} sits on both axles, and the row does not say on which"
        return [_warning(told, "write front or rear in the position")]
    return []


def _span(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"
