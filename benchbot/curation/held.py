"""A table beside what the record holds already: rows that disagree, names spelt otherwise, rows that are unchanged."""

from __future__ import annotations

from collections.abc import Mapping, Set
from typing import Any

from sqlalchemy import Connection, select

from benchbot.curation.own_rows import as_verified
from benchbot.curation.speaking import speaking_of, speaking_of_vehicle
from benchbot.curation.stage import Stage
from benchbot.records import curator
from benchbot.records.schema import spec_revision
from benchbot.specs.check import CHECKED_COLUMNS, SpecCheck
from benchbot.specs.table import Faults
from benchbot.vocabulary.letters import name_words

_STATUS = CHECKED_COLUMNS.index("status")


def meet_held(record: Connection, checking: SpecCheck, faults: Faults) -> None:
    """Puts the record's rows of the table's vehicles beside the table's own, but for those that it replaces."""
    named = {part.cells for part in checking.parts.vehicles.values() if not part.faults}
    held = select(spec_revision.c.make, spec_revision.c.model).distinct()
    for make, model in record.execute(held).all():
        if (make, model) in named:
            _meet_vehicle(record, checking, make, model)
        else:
            _meet_spelling(record, checking, faults, make, model)


def compare(record: Connection, stage: Stage, fresh: Stage, own: Set[str] = frozenset()) -> tuple[int, int, int]:
    """Puts (revision, row) of every row that is new or changed on `fresh`; how many are new, changed, unchanged.

    A row is unchanged when it is the newest revision of its spec, or what speaks for it while a draft waits. own: the
    ids of those that became drafts for want of a second person.
    """
    new = changed = unchanged = 0
    for batch in stage.batches():
        before = curator.newest_of(record, [row[0] for row in batch])
        waiting = [spec for spec, (_, held) in before.items() if held[_STATUS] == "draft"]
        speaking = speaking_of(record, [*waiting, *(own & before.keys())])
        out = []
        for row in batch:
            revision, held = before.get(row[0], (0, None))
            known = speaking.get(row[0])
            if row in (held, known) or (row[0] in own and as_verified(row) == known):
                unchanged += 1
                continue
            new, changed = (new, changed + 1) if revision else (new + 1, changed)
            out.append((revision + 1, row))
        fresh.put_batch(out)
    return new, changed, unchanged


def put_beside(checking: SpecCheck, held: Mapping[str, Any]) -> None:
    """Compares a verified row on record, its cells by name, with the rows that were checked."""
    parts = checking.parts
    component, position = parts.component[held["component_read"]], parts.position[held["position_read"]]
    figure = parts.figures[held["property"], held["value"], held["second_value"]]
    scope = parts.scope[held["scope_read"]]
    if any(part.faults for part in (component, position, figure, scope)):
        # The words or rules have changed since the row went on record; publishing names such rows.
        return
    subject = parts.subject(parts.vehicles[held["make"], held["model"]], component, position, figure)
    checking.meet(held["spec"], subject, held["year_from"], held["year_to"], scope.number, figure.number)


def _meet_vehicle(record: Connection, checking: SpecCheck, make: str, model: str) -> None:
    for row in speaking_of_vehicle(record, make, model):
        held = dict(zip(CHECKED_COLUMNS, row, strict=True))
        replaced = held["spec"] in checking.ids and held["spec"] not in checking.drafts
        if held["status"] == "verified" and not replaced:
            put_beside(checking, held)


def _meet_spelling(record: Connection, checking: SpecCheck, faults: Faults, make: str, model: str) -> None:
    make_key, model_key = name_words(make), name_words(model)
    here, line = checking.parts.makes.get(make_key, (make, 0))
    column, there = "make", make
    if here == make:
        here, line = checking.parts.models.get((make_key, model_key), (model, 0))
        column, there = "model", model
    if here == there:
        return
    kept = [
        held[0]
        for held in speaking_of_vehicle(record, make, model)
        if held[_STATUS] != "withdrawn" and held[0] not in checking.ids
    ]
    if kept:
        wrong = f"{here!r} is written {there!r} on record ({kept[0]})"
        faults.add(line, column, wrong, f"write {there!r}, or bring every row of the vehicle in with the new spelling")
