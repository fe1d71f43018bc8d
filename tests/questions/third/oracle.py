"""Decides a question's right outcome from its slots and the fleet's rows; it never reads the question's text."""

from __future__ import annotations

from dataclasses import dataclass

from bay_terms import PART
from invented_fleet import SpecRow

Model = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Wanted:
    """One thing asked for.

    components: one name; several = a word with two trade meanings; none = a part that no book here holds.
    positions: as stated, () = nothing stated; two = both were asked for.
    properties: as stated or meant by default; vague = the tech must choose among them.
    """

    components: tuple[str, ...]
    positions: tuple[str, ...]
    properties: tuple[str, ...]
    vague: bool = False


@dataclass(frozen=True, slots=True)
class Ask:
    """A question as slots.

    models: one (make, model); several = a make alone, part of a name, an undecidable spelling; none = no vehicle said.
    known: False when the vehicle named is in no book. stated: qualifier key -> the row values it can mean, () = none.
    whole: False when the qualifier was stated in part ("turbo").
    """

    models: tuple[Model, ...]
    year: int | None
    stated: tuple[tuple[str, tuple[str, ...]], ...]
    wanted: tuple[Wanted, ...]
    known: bool = True
    whole: bool = True


@dataclass(frozen=True, slots=True)
class Verdict:
    """The outcome wanted, the specs that must be shown or offered, and those that may be added."""

    expect: str
    ids: tuple[str, ...]
    also: tuple[str, ...]


GAP = Verdict("gap", (), ())


class Oracle:
    """The rules of the right outcome over one fleet."""

    def __init__(self, rows: list[SpecRow]) -> None:
        self._rows: dict[Model, list[SpecRow]] = {}
        for row in rows:
            self._rows.setdefault((row.vehicle.make, row.vehicle.model), []).append(row)

    def verdict(self, ask: Ask) -> Verdict | None:
        """None when the rules leave the case open (something is unstated and nothing fits what is)."""
        if not ask.known:
            return GAP
        if not ask.models:
            return Verdict("choose", (), ())
        rows = [row for model in ask.models for row in self._rows.get(model, ()) if _in_year(row, ask.year)]
        if not rows:
            return GAP if len(ask.models) == 1 else None
        settled = ask.year is not None and len(ask.models) == 1
        found: list[SpecRow] = []
        for wanted in ask.wanted:
            kept, complete = _fit(rows, wanted, ask)
            if len(wanted.components) > 1 and len({row.component for row in kept}) < len(wanted.components):
                return None
            if not (complete and settled) and (not kept or len(ask.wanted) > 1):
                return None
            settled = settled and complete
            found += [row for row in kept if row not in found]
        if len(ask.models) > 1 and {(r.vehicle.make, r.vehicle.model) for r in found} != set(ask.models):
            return None
        if not settled:
            return Verdict("choose", tuple(row.id for row in found), ())
        if not found:
            return GAP
        return Verdict("answer", tuple(row.id for row in found), _beside(rows, found))


def _in_year(row: SpecRow, year: int | None) -> bool:
    return year is None or row.vehicle.year_from <= year <= row.vehicle.year_to


def _fit(rows: list[SpecRow], wanted: Wanted, ask: Ask) -> tuple[list[SpecRow], bool]:
    """The verified rows that fit what is stated, and whether everything that decides the value is stated."""
    stated = dict(ask.stated)
    of_part = [row for row in rows if row.component in wanted.components]
    complete = not wanted.vague and len(wanted.components) <= 1
    for row in of_part:
        if row.only and (row.only[0] not in stated or (not ask.whole and row.only[1] in stated[row.only[0]])):
            complete = False
    kept = [row for row in of_part if not row.only or row.only[0] not in stated or row.only[1] in stated[row.only[0]]]
    if any(PART[name].axles == "both" for name in wanted.components) and not wanted.positions:
        complete = False
    if wanted.positions:
        kept = [row for row in kept if not row.position or any(_at(row, position) for position in wanted.positions)]
        finer = {row.position for row in kept} - set(wanted.positions) - {""}
        if any(" " in position for position in finer) and PART[wanted.components[0]].axles == "both":
            complete = False
    return [row for row in kept if row.property in wanted.properties and not row.draft], complete


def _at(row: SpecRow, position: str) -> bool:
    return row.position == position or row.position.startswith(position + " ")


def _beside(rows: list[SpecRow], found: list[SpecRow]) -> tuple[str, ...]:
    """Sockets that may be shown beside the torques found."""
    slots = {(row.vehicle, row.only, row.component, row.position) for row in found if row.property == "torque"}
    shown = {row.id for row in found}
    return tuple(
        row.id
        for row in rows
        if row.property == "socket"
        and not row.draft
        and row.id not in shown
        and (row.vehicle, row.only, row.component, row.position) in slots
    )
