"""What the checks of a single row say of the rows of a whole table: told as notes, which keep nothing out.

Rows that say the same of a part are judged once, by the first of them, so that a large table is not held up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from benchbot.checking import Found, RowToCheck
from benchbot.checking.bolt_load import bolt_load
from benchbot.checking.outliers import outlier
from benchbot.checking.rows import Components, HeldRow
from benchbot.checking.scopes import scope_sanity
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow
from benchbot.vocabulary.terms import Vocabulary

MOST_TOLD = 50
# A shop's own table has fewer; of more, the first tell whether whole columns went wrong.
MOST_LOOKED_AT = 10_000
# The middle and the spread of so many vehicles do not move any more.
_BESIDE = 40
_AT = {name: number for number, name in enumerate(CHECKED_COLUMNS)}
_PART, _PLACE, _NAME, _STATUS = (_AT[name] for name in ("component_read", "position_read", "property", "status"))
_SAID = slice(_AT["year_from"], _AT["condition"] + 1)
_LOAD, _YEARS, _VALUE = slice(_AT["component_read"], _AT["condition"] + 1), slice(3, 5), _AT["value"]
Group = tuple[str, str, str]


class TableFindings:
    """Looks at the rows of one table as they go by; `notes` judges them afterwards."""

    def __init__(self, vocabulary: Vocabulary, today: date) -> None:
        self._components = Components(vocabulary)
        self._today = today
        self._different: dict[CheckedRow, CheckedRow] = {}
        self._beside: dict[Group, dict[str, CheckedRow]] = {}
        self._looked_at = 0

    def watched(self, rows: Iterable[CheckedRow]) -> Iterator[CheckedRow]:
        """The same rows."""
        different, through = self._different, iter(rows)
        for number, row in enumerate(through, 1):
            yield row
            self._looked_at = number
            if number == MOST_LOOKED_AT:
                break
            if row[_STATUS] == "withdrawn":
                continue
            # the vehicle tells nothing, and neither do caution, source and checker
            different.setdefault(row[_SAID], row)
            vehicles = self._beside.setdefault((row[_PART], row[_PLACE], row[_NAME]), {})
            if len(vehicles) < _BESIDE:
                vehicles.setdefault(f"{row[1]} {row[2]}", row)
        yield from through

    def notes(self, lines: Mapping[str, int]) -> list[str]:
        """A line for each finding that is a warning or more. lines: of each id in the table."""
        told: list[str] = []
        for row, found in self._found():
            if found.level == "passed":
                continue
            if len(told) == MOST_TOLD:
                return [*told, "more findings are left out"]
            at = f"{row[0]} (line {lines[row[0]]})" if row[0] in lines else str(row[0])
            told.append(f"{at}: {found.concern}: {found.told}; {found.mend}")
        if self._looked_at == MOST_LOOKED_AT:
            told.append(f"findings are told of the first {MOST_LOOKED_AT:,} rows only")
        return told

    def _found(self) -> Iterator[tuple[CheckedRow, Found]]:
        groups = {group: [_held(row) for row in rows.values()] for group, rows in self._beside.items()}
        loads, sizes, scopes = set(), set(), set()
        for row in self._different.values():
            held, group = _held(row), (row[_PART], row[_PLACE], row[_NAME])
            if row[_NAME] == "torque" and held.thread and (load := row[_LOAD]) not in loads:
                loads.add(load)
                if (found := bolt_load(held, row[_PART])) is not None:
                    yield row, found
            if (size := (group, row[_VALUE])) not in sizes:
                sizes.add(size)
                if (found := outlier(held, groups[group], self._components)) is not None:
                    yield row, found
            if (scope := (*row[_YEARS], *group)) not in scopes:
                scopes.add(scope)
                for one in scope_sanity(RowToCheck.of(_cells(row), row[0]), (), self._components, self._today):
                    yield row, one


def _held(row: CheckedRow) -> HeldRow:
    return HeldRow.of(_cells(row), row[0])


def _cells(row: CheckedRow) -> dict[str, str]:
    """Part and place by their readings, which are not read again then."""
    cells = {name: str(cell) for name, cell in zip(CHECKED_COLUMNS, row, strict=True)}
    return cells | {"component": cells["component_read"], "position": cells["position_read"]}
