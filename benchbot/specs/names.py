"""Checks the two small tables: what the shop also calls a vehicle, and what it also says for a part."""

from __future__ import annotations

from collections.abc import Iterable

from benchbot.specs.cell import cell_fault, unshielded
from benchbot.specs.table import Faults, Lines
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words

VehicleName = tuple[str, str, str]
Word = tuple[str, str]
_LONGEST_NAME = 80


def check_vehicle_names(table: Lines, faults: Faults, held: Iterable[VehicleName] = ()) -> list[VehicleName]:
    """The rows (make, model, alias) without a fault. `held`: the names already on record."""
    owner = {_key(alias): ((make, model), 0) for make, model, alias in held}
    rows: list[VehicleName] = []
    for line, cells in table.rows():
        if not _filled(line, cells, ("make", "model", "alias"), faults):
            continue
        make, model, alias = (" ".join(unshielded(cell).split()) for cell in cells)
        other, there = owner.setdefault(_key(alias), ((make, model), line))
        if other != (make, model):
            place = f"line {there}" if there else "on record"
            faults.add(line, "alias", f"{alias!r} is also {' '.join(other)} ({place})", "keep it for one vehicle")
        elif _key(alias) == _key(model):
            faults.add(line, "alias", f"{alias!r} is the model's own name", "delete the row")
        elif (make, model, alias) in rows[-1:] or there not in (0, line):
            faults.add(line, "alias", f"{alias!r} is given twice (line {there})", "delete one of the two rows")
        else:
            rows.append((make, model, alias))
    return rows


def check_words(
    table: Lines, terms: Terms, faults: Faults, clashes: list[tuple[Word, str]] | None = None
) -> list[Word]:
    """The rows (term, said) without a fault, the term by its canonical name.

    clashes: takes the words that mean something else already, each with what it means; without it they are faults.
    """
    owner: dict[tuple[str, ...], tuple[str, int]] = {}
    rows: list[Word] = []
    for line, cells in table.rows():
        if not _filled(line, cells, ("term", "said"), faults):
            continue
        said = " ".join(unshielded(cells[1]).split())
        try:
            term = terms.component(unshielded(cells[0]).strip())
        except ValueError as error:
            faults.add(line, "term", *error.args)
            continue
        other, there = owner.setdefault(_key(said), (term, line))
        known = _means(terms, said)
        if other != term:
            faults.add(line, "said", f"{said!r} is also said for {other} (line {there})", "keep it for one term")
        elif there != line:
            faults.add(line, "said", f"{said!r} is given twice (line {there})", "delete one of the two rows")
        elif known and known != term and clashes is not None:
            clashes.append(((term, said), known))
        elif known and known != term:
            faults.add(line, "said", f"{said!r} already means {known}", "choose words that mean one thing")
        else:
            rows.append((term, said))
    return rows


def _filled(line: int, cells: tuple[str, ...], columns: tuple[str, ...], faults: Faults) -> bool:
    good = True
    for column, cell in zip(columns, cells, strict=True):
        fault = cell_fault(cell)
        if fault is None and not name_words(cell):
            fault = ("is empty", "fill it in") if not cell.strip() else (f"{cell!r} holds no word", "write a name")
        if fault is None and len(cell) > _LONGEST_NAME:
            fault = (f"{len(cell)} characters in a name", f"shorten it to {_LONGEST_NAME}")
        if fault:
            faults.add(line, column, *fault)
            good = False
    return good


def _means(terms: Terms, said: str) -> str:
    try:
        return terms.component(said)
    except ValueError as error:
        wrong, mend = error.args
        return mend.removeprefix("write one of: ") if "more than one" in wrong else ""


def _key(name: str) -> tuple[str, ...]:
    return name_words(name)
