"""All knowledge files of a folder, read and checked for their shape, each with the sheet that knows its lines."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Generic, TypeVar

from pydantic import BaseModel

from benchbot.errors import Fault, KnowledgeError
from benchbot.vocabulary.everyday import read_everyday
from benchbot.vocabulary.rows import (
    CautionFile,
    ComponentFile,
    ComponentRow,
    DoubtfulFile,
    ListFile,
    PositionFile,
    PropertyFile,
    QualifierFile,
    ShorthandFile,
    WordFile,
)
from benchbot.vocabulary.sheets import Sheet, Step, checked, read_sheet

_Model = TypeVar("_Model", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class Filled(Generic[_Model]):
    """A file that has the shape it should have."""

    sheet: Sheet
    rows: _Model


@dataclass(frozen=True, slots=True)
class Place:
    """A component's row: its file's sheet, the path of the row in it, the file's own settings, and the row."""

    sheet: Sheet
    path: tuple[Step, ...]
    file: ComponentFile
    row: ComponentRow


@dataclass(slots=True)
class KnowledgeFiles:
    """What a knowledge folder holds; faults found later are kept on the sheets."""

    folder: Path
    components: list[Filled[ComponentFile]]
    words: Filled[WordFile]
    shorthand: Filled[ShorthandFile]
    doubtful: Filled[DoubtfulFile]
    properties: Filled[PropertyFile]
    positions: Filled[PositionFile]
    qualifiers: Filled[QualifierFile]
    lists: Filled[ListFile]
    cautions: Filled[CautionFile]
    everyday: dict[str, list[str]]
    more_faults: list[Fault] = field(default_factory=list)

    def component_rows(self) -> list[Place]:
        return [
            Place(filled.sheet, ("components", n), filled.rows, row)
            for filled in self.components
            for n, row in enumerate(filled.rows.components)
        ]

    def refuse_if_faulty(self) -> None:
        """Raises KnowledgeError with every fault kept so far, file by file."""
        sheets = [filled.sheet for filled in self.components]
        sheets += [self.words.sheet, self.shorthand.sheet, self.doubtful.sheet, self.properties.sheet]
        sheets += [self.positions.sheet, self.qualifiers.sheet, self.lists.sheet, self.cautions.sheet]
        faults = [fault for sheet in sheets for fault in sheet.faults] + self.more_faults
        if faults:
            raise KnowledgeError(str(self.folder), faults)


def read_knowledge(folder: Path) -> KnowledgeFiles:
    """Every file of the folder; raises KnowledgeError when one is missing or has not the shape it should have."""
    faults: list[Fault] = []

    def read(name: str, model: type[_Model]) -> Filled[_Model]:
        sheet = read_sheet(folder / name, name)
        rows = checked(sheet, model)
        faults.extend(sheet.faults)
        sheet.faults.clear()
        # a file without its shape never leaves this function: its faults are raised below
        return Filled(sheet, rows if rows is not None else model.model_construct())

    components = [
        read(path.relative_to(folder).as_posix(), ComponentFile)
        for path in sorted((folder / "components").glob("*.yaml"))
    ]
    if not components:
        faults.append(Fault("components", "", "holds no .yaml file", "Put the shipped component files back."))
    everyday, everyday_faults = read_everyday(folder / "everyday.txt")
    files = KnowledgeFiles(
        folder,
        components,
        read("words.yaml", WordFile),
        read("shorthand.yaml", ShorthandFile),
        read("doubtful.yaml", DoubtfulFile),
        read("properties.yaml", PropertyFile),
        read("positions.yaml", PositionFile),
        read("qualifiers.yaml", QualifierFile),
        read("lists.yaml", ListFile),
        read("cautions.yaml", CautionFile),
        everyday,
    )
    faults += everyday_faults
    if faults:
        raise KnowledgeError(str(folder), faults)
    return files
