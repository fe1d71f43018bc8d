"""What the checks of a single row say of the rows of a whole table.

Rows that say the same of a part come to the same, so that it is found out once for all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import Any

from benchbot.checking import Found, RowToCheck
from benchbot.checking.bolt_load import bolt_load
from benchbot.checking.outliers import Size, outlier_among, sizes_of
from benchbot.checking.rows import Components, HeldRow
from benchbot.checking.scopes import scope_sanity
from benchbot.specs.check import CHECKED_COLUMNS, CheckedRow
from benchbot.vocabulary.terms import Vocabulary

# The middle and the spread of so many vehicles do not move any more.
_BESIDE = 40
# Beyond it they would cost more memory than they save time.
_MOST_KNOWN = 200_000
_AT = {name: number for number, name in enumerate(CHECKED_COLUMNS)}
_PART, _PLACE, _NAME, _STATUS = (_AT[name] for name in ("component_read", "position_read", "property", "status"))
_LOAD, _YEARS, _VALUE = slice(_AT["component_read"], _AT["condition"] + 1), slice(3, 5), _AT["value"]
_THREAD = _AT["thread"]
Group = tuple[str, str, str]


class TableFindings:
    """Looks at the rows of one table as they go by; each can be judged afterwards."""

    def __init__(self, vocabulary: Vocabulary, today: date) -> None:
        self._components = Components(vocabulary)
        self._today = today
        self._beside: dict[Group, dict[tuple[str, str], CheckedRow]] = {}
        self._sizes: dict[Group, list[Size]] = {}
        self._known: dict[tuple[Any, ...], tuple[Found, ...]] = {}

    def watched(self, rows: Iterable[CheckedRow]) -> Iterator[CheckedRow]:
        """The same rows."""
        for row in rows:
            if row[_STATUS] != "withdrawn":
                vehicles = self._beside.setdefault((row[_PART], row[_PLACE], row[_NAME]), {})
                if len(vehicles) < _BESIDE:
                    vehicles.setdefault((row[1], row[2]), row)
            yield row

    def of(self, row: CheckedRow) -> tuple[Found, ...]:
        """Every finding that is a warning or more; none of a row that is withdrawn."""
        return () if row[_STATUS] == "withdrawn" else self._load(row) + self._scope(row) + self._outlier(row)

    def refused(self, row: CheckedRow) -> Found | None:
        """The finding that keeps the row from answering, if there is one: what is far off is never refused for it."""
        return next((one for one in (*self._load(row), *self._scope(row)) if one.level == "refused"), None)

    def _load(self, row: CheckedRow) -> tuple[Found, ...]:
        if row[_NAME] != "torque" or not row[_THREAD]:
            return ()
        key = row[_LOAD]
        known = self._known.get(key)
        if known is None:
            known = self._keep(key, [bolt_load(_held(row), row[_PART])])
        return known

    def _scope(self, row: CheckedRow) -> tuple[Found, ...]:
        key = (*row[_YEARS], row[_PART], row[_PLACE])
        known = self._known.get(key)
        if known is None:
            to_check = RowToCheck.of(_cells(row), row[0])
            known = self._keep(key, scope_sanity(to_check, (), self._components, self._today))
        return known

    def _outlier(self, row: CheckedRow) -> tuple[Found, ...]:
        group, vehicle = (row[_PART], row[_PLACE], row[_NAME]), (row[1], row[2])
        beside = self._beside.get(group, {})
        key = (group, row[_VALUE], vehicle if vehicle in beside else None)
        known = self._known.get(key)
        if known is None:
            sizes = self._sizes.get(group)
            if sizes is None:
                sizes = self._sizes[group] = sizes_of(map(_held, beside.values()))
            held = _held(row)
            known = self._keep(key, [outlier_among(held, self._components.name(held.component), sizes)])
        return known

    def _keep(self, key: tuple[Any, ...], found: Iterable[Found | None]) -> tuple[Found, ...]:
        if len(self._known) >= _MOST_KNOWN:
            self._known.clear()
        known = tuple(one for one in found if one is not None and one.level != "passed")
        self._known[key] = known
        return known


def _held(row: CheckedRow) -> HeldRow:
    return HeldRow.of(_cells(row), row[0])


def _cells(row: CheckedRow) -> dict[str, str]:
    """Part and place by their readings, which are not read again then."""
    cells = {name: str(cell) for name, cell in zip(CHECKED_COLUMNS, row, strict=True)}
    return cells | {"component": cells["component_read"], "position": cells["position_read"]}
