"""Reads one knowledge file: every scalar as the text that stands there, every place with its line, every fault kept."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel, ValidationError

from benchbot.errors import Fault

Step = str | int
_Model = TypeVar("_Model", bound=BaseModel)


@dataclass(slots=True)
class Sheet:
    """A file read: plain values (dict, list, str) and the line of each place in them."""

    name: str
    plain: Any = None
    lines: dict[tuple[Step, ...], int] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def where(self, *path: Step) -> str:
        """Example: "words.yaml line 12": the line of a place, or of the nearest place above it that is known."""
        while path and path not in self.lines:
            path = path[:-1]
        return f"{self.name} line {self.lines.get(path, 1)}"

    def blame(self, path: tuple[Step, ...], wrong: str, mend: str) -> None:
        """Keeps a fault found at a place of this file."""
        column = ".".join(str(step) for step in path if isinstance(step, str))
        self.faults.append(Fault(self.where(*path), column, wrong, mend))


def read_sheet(path: Path, name: str) -> Sheet:
    """The file as plain values; what YAML cannot read, or a key written twice, is a fault."""
    sheet = Sheet(name)
    try:
        root = yaml.compose(path.read_text(encoding="utf-8"), Loader=yaml.SafeLoader)
    except UnicodeDecodeError as error:
        sheet.blame((), f"is no UTF-8 text ({error.reason})", "Save it as UTF-8.")
        return sheet
    except FileNotFoundError:
        sheet.blame((), "is missing", "Put it back from the shipped knowledge folder.")
        return sheet
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark
        sheet.lines[()] = mark.line + 1 if mark else 1
        sheet.blame((), f"cannot be read as YAML: {error.problem}", "Mend the indentation or quote the text.")
        return sheet
    if root is None:
        sheet.blame((), "is empty", "Fill it or delete it.")
        return sheet
    sheet.plain = _plain(sheet, root, ())
    return sheet


def _plain(sheet: Sheet, node: yaml.Node, path: tuple[Step, ...]) -> Any:
    sheet.lines[path] = node.start_mark.line + 1
    if isinstance(node, yaml.MappingNode):
        values: dict[str, Any] = {}
        for key_node, value_node in node.value:
            key = str(key_node.value)
            if key in values:
                sheet.lines[(*path, key)] = key_node.start_mark.line + 1
                sheet.blame((*path, key), f"the key {key!r} stands twice in one entry", "Keep one of them.")
                continue
            values[key] = _plain(sheet, value_node, (*path, key))
            sheet.lines[(*path, key)] = key_node.start_mark.line + 1
        return values
    if isinstance(node, yaml.SequenceNode):
        return [_plain(sheet, child, (*path, n)) for n, child in enumerate(node.value)]
    return str(node.value)


def checked(sheet: Sheet, model: type[_Model]) -> _Model | None:
    """The sheet as the model of its kind; None, with faults kept, when it does not fit."""
    if sheet.plain is None:
        return None
    try:
        return model.model_validate(sheet.plain)
    except ValidationError as error:
        for wrong in error.errors():
            path = tuple(wrong["loc"])
            while path and path not in sheet.lines and not isinstance(path[-1], str):
                path = path[:-1]
            message = wrong["msg"].removeprefix("Value error, ")
            shown = wrong["input"]
            got = f" (it says {shown!r})" if isinstance(shown, str) else ""
            sheet.blame(path, message[0].lower() + message[1:] + got, _mend_for(wrong["type"]))
        return None


def _mend_for(kind: str) -> str:
    return {
        "extra_forbidden": "Delete the key or correct its spelling.",
        "missing": "Add it.",
        "literal_error": "Use one of the words named.",
        "list_type": "Write a list: [one, two].",
        "too_short": "Add at least one, or delete the entry.",
    }.get(kind, "Correct it.")
