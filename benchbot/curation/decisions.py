"""What a person decided about the differences of a foreign book, and the table in which they can write it down."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from benchbot.curation.book_folder import write_csv
from benchbot.curation.differences import KINDS, Difference, Kind, SpecDifference
from benchbot.errors import SettingError, TableError
from benchbot.specs.cell import unshielded
from benchbot.specs.lines import lines_of
from benchbot.specs.table import Faults

Choice = Literal["take", "leave"]
CHOICES: tuple[Choice, ...] = ("take", "leave")
COLUMNS = ("decision", "kind", "table", "name", "told", "mark")


@dataclass(slots=True)
class Decisions:
    """marks: by the mark of a difference; kinds: for every other difference of a kind; before: left at another time."""

    marks: dict[str, Choice] = field(default_factory=dict)
    kinds: dict[Kind, Choice] = field(default_factory=dict)
    before: frozenset[str] = frozenset()

    def of(self, one: Difference | SpecDifference) -> Choice | None:
        """What was decided; None: nothing yet. "take" for all of a kind does not reach what can only be left."""
        if not self.marks and one.takeable and one.kind in self.kinds:
            # Marks cost time at a million rows.
            return self.kinds[one.kind]
        if not (self.marks or self.before or self.kinds):
            return None
        mark = one.mark
        if mark in self.marks:
            return self.marks[mark]
        choice = self.kinds.get(one.kind)
        if choice is None or (choice == "take" and not one.takeable):
            return "leave" if mark in self.before else None
        return choice


def write_differences(path: Path, differences: Iterable[Difference], decisions: Decisions) -> int:
    """Writes the table with a column for the decisions, blank where there is none; how many rows.

    SettingError: it cannot be written.
    """
    rows = ((decisions.of(one) or "", one.kind, one.table, one.name, one.told, one.mark) for one in differences)
    beside = path.with_name(f".{path.name}.part")
    try:
        count = write_csv(beside, COLUMNS, rows)
        beside.replace(path)
    except OSError as error:
        raise SettingError(f"{path}: cannot be written ({error.strerror}); name another file") from error
    finally:
        beside.unlink(missing_ok=True)
    return count


def read_decisions(path: Path) -> dict[str, Choice]:
    """The decisions by mark; rows left blank are undecided. TableError lists every fault."""
    faults = Faults(path.name)
    found: dict[str, Choice] = {}
    for line, cells in _rows(path, faults):
        said, mark = unshielded(cells["decision"]).strip().casefold(), cells["mark"].strip()
        chosen = next((choice for choice in CHOICES if choice == said), None)
        if said and chosen is None:
            faults.add(line, "decision", f"{said[:40]!r} is no decision", "write take or leave, or nothing yet")
        elif not mark.isalnum():
            faults.add(line, "mark", f"{mark[:40]!r} is no mark", "leave that column as it was written")
        elif mark in found:
            faults.add(line, "mark", f"{mark} was decided on in a row before", "keep one of the two rows")
        elif chosen:
            found[mark] = chosen
    faults.settle()
    return found


def read_kinds(take: Iterable[str], leave: Iterable[str]) -> dict[Kind, Choice]:
    """SettingError: a kind is to be both taken and left."""
    found: dict[Kind, Choice] = {}
    for choice, named in zip(CHOICES, (set(take), set(leave)), strict=True):
        for kind in KINDS:
            if kind in named:
                if kind in found:
                    raise SettingError(f"{kind} rows cannot be both taken and left; say one of the two")
                found[kind] = choice
    return found


def _rows(path: Path, faults: Faults) -> Iterator[tuple[int, dict[str, str]]]:
    reader = csv.reader(lines_of(path), strict=True)
    try:
        header = [cell.strip() for cell in next(reader, [])]
        missing = [name for name in ("decision", "mark") if name not in header]
        if missing:
            faults.add(
                1, missing[0], "the column is missing", "take the table that --differences wrote, and fill it in"
            )
            return
        for cells in reader:
            if len(cells) == len(header):
                yield reader.line_num, dict(zip(header, cells, strict=True))
            elif cells:
                wrong = f"the row has {len(cells)} cells, the header {len(header)}"
                faults.add(reader.line_num, "", wrong, "put a cell that holds a comma in double quotes")
    except csv.Error as error:
        faults.add(
            reader.line_num, "", f"the row cannot be read ({error})", "close every quote, keep ordinary line ends"
        )
    except TableError as error:
        raise TableError(path.name, [*faults.found, *error.faults]) from error
