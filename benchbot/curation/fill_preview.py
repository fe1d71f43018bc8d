"""A row that is being filled in, shown exactly as a technician will see it."""

from __future__ import annotations

import json
from collections.abc import Mapping

from benchbot.book.rows import SpecRow
from benchbot.outcomes import Answer, Finding, Subject
from benchbot.quantities.presentation import present
from benchbot.reply.compose import compose
from benchbot.reply.reply import Reply
from benchbot.specs.figure import read_figure
from benchbot.specs.scope import read_scope
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.terms import Vocabulary


def preview(
    cells: Mapping[str, str],
    vocabulary: Vocabulary,
    checked_by: str,
    checked_on: str,
    language: str,
    units: tuple[str, ...] = (),
    spec: str = "",
) -> Reply:
    """The answer to a question about the row's first year. Every field must have been read.

    checked_by, checked_on: as they are to stand there; who will check it is not known before.
    """
    reading = read_figure(cells["property"], cells["value"], cells.get("second_value", ""))
    shown = json.dumps(present(reading.value, reading.second).to_plain(), ensure_ascii=False)
    row = SpecRow(
        spec=spec,
        revision=1,
        vehicle=0,
        year_from=int(cells["year_from"]),
        year_to=int(cells["year_to"]),
        only_if=cells.get("only_if", ""),
        component=cells["component"],
        position=cells.get("position", ""),
        property=cells["property"],
        value=cells["value"],
        second_value=cells.get("second_value", ""),
        shown=shown,
        thread=cells.get("thread", ""),
        strength_class=cells.get("class", ""),
        condition=cells.get("condition", ""),
        reuse=cells.get("reuse", ""),
        order=cells.get("order", ""),
        cautions=tuple(one for one in cells.get("cautions", "").split("; ") if one),
        source=cells.get("source", ""),
        source_ref=cells.get("source_ref", ""),
        checked_by=checked_by,
        checked_on=checked_on,
        review_by=cells.get("review_by", ""),
    )
    subject = Subject(
        make=cells["make"],
        model=cells["model"],
        years=(row.year_from,),
        only_if=read_scope(row.only_if).pairs,
        component=row.component,
        position=row.position,
        property=row.property,
    )
    answer = Answer((Finding(row, subject),), units=units)
    return compose(answer, Reading(), None, vocabulary, first=False, language=language)
