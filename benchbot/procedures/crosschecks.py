"""Checks procedure files against the vocabulary and against each other; every fault is kept on its file's sheet."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import PurePosixPath
from typing import Any

from benchbot.procedures.rows import ActFile, ProcedureFile, SharedRow, StepRow
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.sheets import Sheet, Step
from benchbot.vocabulary.terms import Vocabulary

_Path = tuple[Step, ...]

_LENGTH = r"(?:ft|foot|feet|in|inch|inches)"
_POUND = r"(?:lbf?s?|pounds?)"
# a figure for a fastener, in any unit of torque or as an angle of turn
_FASTENER_FIGURE = re.compile(
    rf"""(?ix) \d [\d.,/]* \s* [-–]? \s* (?:
        n\s?[.·⋅*-]?\s?m\b | newton
      | {_LENGTH}\s?[.·-]?\s?{_POUND}\b | {_POUND}\s?[.·-]?\s?{_LENGTH}\b
      | kgf?\s?[.·-]?\s?c?m\b | ° | deg(?:rees?)?\b
    )""",
)


def has_fastener_figure(text: str) -> bool:
    """Whether a text names a torque or an angle of turn: such figures come from the book only."""
    return _FASTENER_FIGURE.search(text) is not None


def check_sayings(sheet: Sheet, acts: ActFile) -> None:
    """A way of saying stands for one thing only."""
    claimed: dict[tuple[str, ...], str] = {}
    for kind, table in (("acts", acts.acts), ("things", acts.things), ("topics", acts.topics)):
        for name, said in table.items():
            for n, one in enumerate(said):
                words = name_words(one)
                if not words:
                    sheet.blame((kind, name, n), f"{one!r} holds no word", "Write a word or delete it.")
                elif claimed.setdefault(words, name) != name:
                    sheet.blame(
                        (kind, name, n), f"{one!r} stands for {claimed[words]!r} already", "Keep it under one of them."
                    )


def check_procedure(
    sheet: Sheet, file: ProcedureFile, rows: Sequence[StepRow | SharedRow], common: set[str], vocabulary: Vocabulary
) -> None:
    """The head of a procedure and its shared steps; common: the ids of the steps that can be shared."""
    stem = PurePosixPath(sheet.name).stem
    if file.id != stem:
        sheet.blame(("id",), f"is {file.id!r} in a file named {stem!r}", "Make the id the name of the file.")
    _known_cautions(sheet, ("cautions",), file.cautions, vocabulary)
    done: set[str] = set()
    for n, row in enumerate(rows):
        if not isinstance(row, SharedRow):
            continue
        path: _Path = ("steps", n, "shared")
        if row.shared not in common:
            sheet.blame(path, f"{row.shared!r} is no step of common.yaml", "Correct it, or write the step here.")
        elif row.shared in done:
            sheet.blame(path, f"{row.shared!r} is done twice", "Keep one of them.")
        done.add(row.shared)
    _no_figures(sheet, (), file.model_dump(exclude={"steps"}))


def check_steps(sheet: Sheet, rows: list[tuple[int, StepRow]], acts: ActFile, vocabulary: Vocabulary) -> None:
    """The steps written in one file; each row with its number in the file."""
    ids: set[str] = set()
    asked: dict[tuple[str, ...], str] = {}
    for n, row in rows:
        path: _Path = ("steps", n)
        if row.id in ids:
            sheet.blame((*path, "id"), f"the id {row.id!r} stands twice in this file", "Give each step its own.")
        ids.add(row.id)
        for at, act in enumerate(row.act):
            if act not in acts.acts and act not in acts.topics:
                sheet.blame((*path, "act", at), f"{act!r} is no act of acts.yaml", "Correct it, or add it there.")
        _known_components(sheet, path, row, vocabulary)
        _known_cautions(sheet, (*path, "cautions"), row.cautions, vocabulary)
        _no_figures(sheet, path, row.model_dump())
        for at, said in enumerate(row.asked_as):
            words = name_words(said)
            if not row.only_if and asked.get(words, row.id) != row.id:
                wrong = f"{said!r} is asked of the step {asked[words]!r} already"
                sheet.blame((*path, "asked_as", at), wrong, "Keep it under one of the steps of this file.")
            if not row.only_if:
                asked[words] = row.id


def _known_components(sheet: Sheet, path: _Path, row: StepRow, vocabulary: Vocabulary) -> None:
    mend = "Use the name of a component in knowledge/components."
    for at, name in enumerate(row.about):
        if name not in vocabulary.components:
            sheet.blame((*path, "about", at), f"{name!r} is no component", mend)
    for at, one in enumerate(row.tighten):
        component = vocabulary.components.get(one.component)
        if component is None:
            sheet.blame((*path, "tighten", at, "component"), f"{one.component!r} is no component", mend)
        elif "torque" not in component.properties:
            wrong = f"a {one.component} has no torque"
            sheet.blame((*path, "tighten", at, "component"), wrong, "Name the fastener that is tightened.")
        elif component.axles == "both" and not {"axle", "front", "rear"} & set(one.position):
            wrong = f"a {one.component} sits on either axle, and the position does not say which"
            sheet.blame((*path, "tighten", at), wrong, "Add position: [axle], or [front] or [rear].")
    for at, measure in enumerate(row.measure):
        component = vocabulary.components.get(measure.component)
        if component is None:
            sheet.blame((*path, "measure", at, "component"), f"{measure.component!r} is no component", mend)
        elif measure.property not in component.properties:
            wrong = f"a {measure.component} has no property {measure.property!r}"
            sheet.blame((*path, "measure", at, "property"), wrong, f"Use one of: {', '.join(component.properties)}.")


def _known_cautions(sheet: Sheet, path: _Path, names: list[str], vocabulary: Vocabulary) -> None:
    for at, name in enumerate(names):
        if name not in vocabulary.cautions:
            sheet.blame((*path, at), f"{name!r} is no caution", "Use the name of a caution in knowledge/cautions.yaml.")


def _no_figures(sheet: Sheet, path: _Path, plain: dict[str, Any]) -> None:
    for inside, text in _texts((), plain):
        if has_fastener_figure(text):
            sheet.blame(
                (*path, *inside),
                f"names a torque or an angle ({text!r})",
                "Delete it: `tighten` pulls it from the book.",
            )


def _texts(path: _Path, plain: Any) -> Iterator[tuple[_Path, str]]:
    if isinstance(plain, str):
        yield path, plain
    elif isinstance(plain, dict):
        for key, value in plain.items():
            yield from _texts((*path, key), value)
    elif isinstance(plain, list | tuple):
        for n, value in enumerate(plain):
            yield from _texts((*path, n), value)
