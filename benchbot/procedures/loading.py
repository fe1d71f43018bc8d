"""Loads the procedure files of a knowledge folder; a single fault refuses all of them, every fault is named."""

from __future__ import annotations

from pathlib import Path

from benchbot.errors import Fault, KnowledgeError
from benchbot.procedures.crosschecks import check_procedure, check_sayings, check_steps
from benchbot.procedures.rows import ActFile, CommonFile, ProcedureFile, SharedRow, StepRow
from benchbot.procedures.steps import COMMON, Check, Judge, Measure, Procedure, Procedures, Sayings, Step, Stop, Tighten
from benchbot.vocabulary.sheets import Sheet, checked, read_sheet
from benchbot.vocabulary.terms import Vocabulary

FOLDER = "procedures"
AnyStep = StepRow | SharedRow
_ACTS, _COMMON = "acts.yaml", "common.yaml"


def load_procedures(folder: Path, vocabulary: Vocabulary) -> Procedures:
    """The procedures of a knowledge folder (the files lie in its sub-folder procedures/).

    vocabulary: names the components, properties and cautions that the files may speak of. Raises KnowledgeError with
    file and line of everything that is wrong.
    """
    inside = folder / FOLDER
    names = sorted(path.name for path in inside.glob("*.yaml") if path.name not in (_ACTS, _COMMON))
    if not names:
        raise KnowledgeError(
            str(folder), [Fault(FOLDER, "", "holds no procedure", "Put the shipped procedure files back.")]
        )
    sheets = {name: read_sheet(inside / name, f"{FOLDER}/{name}") for name in (_ACTS, _COMMON, *names)}
    acts, common = checked(sheets[_ACTS], ActFile), checked(sheets[_COMMON], CommonFile)
    files = {name: _read_procedure(sheets[name]) for name in names}
    _refuse_if_faulty(folder, sheets)
    assert acts is not None and common is not None  # else their sheets hold a fault

    check_sayings(sheets[_ACTS], acts)
    check_steps(sheets[_COMMON], list(enumerate(common.steps)), acts, vocabulary)
    ids = {row.id for row in common.steps}
    for name, (head, rows) in files.items():
        check_procedure(sheets[name], head, rows, ids, vocabulary)
        check_steps(sheets[name], [(n, r) for n, r in enumerate(rows) if isinstance(r, StepRow)], acts, vocabulary)
    _refuse_if_faulty(folder, sheets)

    steps = {f"{COMMON}/{row.id}": _step(COMMON, row) for row in common.steps}
    procedures: dict[str, Procedure] = {}
    for head, rows in files.values():
        steps |= {f"{head.id}/{row.id}": _step(head.id, row) for row in rows if isinstance(row, StepRow)}
        procedures[head.id] = _procedure(head, rows)
    return Procedures(procedures, steps, _sayings(acts))


def _read_procedure(sheet: Sheet) -> tuple[ProcedureFile, list[AnyStep]]:
    head = checked(sheet, ProcedureFile)
    if head is None:
        return ProcedureFile.model_construct(steps=[]), []
    rows: list[AnyStep] = []
    for n, plain in enumerate(head.steps):
        part = Sheet(sheet.name, plain, {path[2:]: at for path, at in sheet.lines.items() if path[:2] == ("steps", n)})
        row = checked(part, SharedRow) if "shared" in plain else checked(part, StepRow)
        sheet.faults.extend(part.faults)
        if row is not None:
            rows.append(row)
    return head, rows


def _procedure(head: ProcedureFile, rows: list[AnyStep]) -> Procedure:
    return Procedure(
        id=head.id,
        title=head.title,
        axle=head.axle,
        applies_when=head.applies_when,
        tools=tuple(head.tools),
        consumables=tuple(head.consumables),
        new_parts_always=tuple(head.new_parts_always),
        cautions=tuple(head.cautions),
        steps=tuple(f"{COMMON}/{r.shared}" if isinstance(r, SharedRow) else f"{head.id}/{r.id}" for r in rows),
    )


def _refuse_if_faulty(folder: Path, sheets: dict[str, Sheet]) -> None:
    faults = [fault for sheet in sheets.values() for fault in sheet.faults]
    if faults:
        raise KnowledgeError(str(folder), faults)


def _step(procedure: str, row: StepRow) -> Step:
    return Step(
        key=f"{procedure}/{row.id}",
        title=row.title,
        do=row.do,
        because=row.because,
        about=tuple(row.about),
        acts=tuple(row.act),
        asked_as=tuple(row.asked_as),
        cautions=tuple(row.cautions),
        checks=tuple(Check(one.look, one.good, one.bad, one.then) for one in row.checks),
        stop=Stop(row.stop.when, row.stop.do) if row.stop else None,
        judge=Judge(row.judge.rule, row.judge.decides) if row.judge else None,
        tighten=tuple(Tighten(one.component, tuple(one.position)) for one in row.tighten),
        measure=tuple(Measure(one.component, one.property, one.where) for one in row.measure),
        only_if=row.only_if,
        way_of=row.way_of,
        picture=row.picture,
    )


def _sayings(acts: ActFile) -> Sayings:
    return Sayings(
        acts={name: tuple(said) for name, said in acts.acts.items()},
        things={name: tuple(said) for name, said in acts.things.items()},
        topics={name: tuple(said) for name, said in acts.topics.items()},
        passing=tuple(acts.passing),
    )
