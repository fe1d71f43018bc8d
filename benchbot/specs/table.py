"""Opens a CSV table: recognises its kind by the header, and gives its rows in the order of its layout."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator
from difflib import get_close_matches
from operator import itemgetter
from pathlib import Path
from typing import Protocol

from benchbot.errors import Fault, TableError
from benchbot.specs.columns import Layout, layout_for
from benchbot.specs.lines import lines_of

MOST_FAULTS = 5_000
Row = tuple[str, ...]
_LINE = re.compile(r"\bline ([0-9]+)")


class Lines(Protocol):
    """Anything that gives (line number, cells in the order of its layout)."""

    def rows(self) -> Iterator[tuple[int, Row]]: ...


class Faults:
    """The faults of one file, in the order found; after MOST_FAULTS the reading stops.

    unit: what its numbers count, lines of a text or rows of a database table.
    """

    def __init__(self, file: str, unit: str = "line") -> None:
        self.file = file
        self.unit = unit
        self.found: list[Fault] = []

    def add(self, line: int, column: str, wrong: str, mend: str) -> None:
        if self.unit != "line":
            wrong = _LINE.sub(f"{self.unit} \\1", wrong)
        self.found.append(Fault(f"{self.unit} {line}", column, wrong, mend))
        if len(self.found) >= MOST_FAULTS:
            self.found.append(
                Fault(
                    f"{self.unit} {line}",
                    "",
                    f"{MOST_FAULTS:,} faults so far; the rest of the file was not read",
                    "mend these first",
                )
            )
            raise TableError(self.file, self.found)

    def settle(self) -> None:
        """TableError when anything was found."""
        if self.found:
            raise TableError(self.file, sorted(self.found, key=lambda fault: int(fault.where.split()[1])))


class Table:
    """One CSV file. `rows` gives (line number, cells); a row that cannot be split is put on the faults instead."""

    def __init__(self, path: Path, faults: Faults) -> None:
        self.path = path
        self._faults = faults
        self._reader = csv.reader(lines_of(path), strict=True)
        self.layout, self._header = self._read_header()

    def rows(self) -> Iterator[tuple[int, Row]]:
        reader, width = self._reader, len(self._header)
        pick = _picker(self._header, self.layout)
        any_row = False
        while True:
            line = reader.line_num + 1
            try:
                for cells in reader:
                    if len(cells) == width:
                        any_row = True
                        cells.append("")
                        yield line, pick(cells)
                    elif cells:
                        any_row = True
                        self._ragged(line, cells)
                    line = reader.line_num + 1
                break
            except TableError as error:
                raise TableError(self.path.name, [*self._faults.found, *error.faults]) from error
            except csv.Error as error:
                any_row = True
                if not self._unsplit(line, str(error)):
                    break
        if not any_row:
            self._faults.add(2, "", "there are no rows under the header", "add the rows, or leave the file out")

    def _ragged(self, line: int, cells: list[str]) -> None:
        width = len(self._header)
        if len(cells) < width:
            column, wrong = self._header[len(cells)], f"the row has {len(cells)} cells, the header {width}"
            self._faults.add(line, column, wrong, "add the missing commas")
        else:
            wrong = f"the row has {len(cells)} cells, the header {width}; beyond the last is {cells[width][:40]!r}"
            self._faults.add(line, self._header[-1], wrong, "put a cell that holds a comma in double quotes")

    def _unsplit(self, line: int, error: str) -> bool:
        """Notes a row that csv cannot split; False when nothing after it can be trusted either."""
        if "unexpected end" in error or "field larger" in error:
            self._faults.add(
                line, "", "a quote is opened in this row and never closed", 'close it, or double it ("") if it is meant'
            )
            return False
        if "new-line character" in error:
            self._faults.add(
                line, "", "a lone carriage return stands in the row", "save the file with ordinary line ends"
            )
            return True
        self._faults.add(line, "", "text follows a closing quote", 'write a quote inside a quoted cell twice ("")')
        return True

    def _read_header(self) -> tuple[Layout, list[str]]:
        try:
            cells = next(self._reader)
        except StopIteration:
            raise TableError(
                self.path.name, [Fault("line 1", "", "the file is empty", "save it with its header")]
            ) from None
        except csv.Error as error:
            raise TableError(
                self.path.name,
                [Fault("line 1", "", f"the header cannot be read ({error})", "write the column names with commas")],
            ) from error
        header = [cell.strip() for cell in cells]
        faults = [*self._header_faults(header)]
        if faults:
            raise TableError(self.path.name, faults)
        return layout_for(header), header

    def _header_faults(self, header: list[str]) -> Iterator[Fault]:
        layout = layout_for(header)
        for mark, name in ((";", "semicolons"), ("\t", "tabs"), ("|", "bars")):
            if len(header) == 1 and mark in header[0]:
                yield Fault(
                    "line 1", "", f"the columns are parted by {name}", "save the table with commas between columns"
                )
                return
        if not set(header) & set(layout.columns):
            yield Fault(
                "line 1",
                header[0][:40],
                "there is no header",
                f"put the column names first: {', '.join(layout.columns)}",
            )
            return
        for number, name in enumerate(header, 1):
            if not name:
                yield Fault("line 1", f"column {number}", "the column has no name", "name it, or delete the column")
            elif name not in layout.whole:
                near = get_close_matches(name.casefold(), layout.columns, 1, 0.7)
                mend = f"did you mean {near[0]}?" if near else f"the columns are: {', '.join(layout.columns)}"
                yield Fault("line 1", name[:80], "there is no such column", mend)
            elif name in header[: number - 1]:
                yield Fault("line 1", name, "the column is there twice", "keep one of the two")
        for name in layout.required:
            if name not in header:
                yield Fault("line 1", name, "the column is missing", "add it")


def _picker(header: list[str], layout: Layout) -> Callable[[list[str]], Row]:
    # `rows` puts one empty cell after the last, for the columns that this file leaves out.
    blank = len(header)
    return itemgetter(*(header.index(name) if name in header else blank for name in layout.whole))
