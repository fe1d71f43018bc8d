"""Finds verified rows that state one thing of one vehicle twice: a fault when they differ, a note when they agree."""

from __future__ import annotations

from array import array
from collections.abc import Iterator
from dataclasses import dataclass

from benchbot.specs.scope import Scope

# No part of one vehicle is told apart in so many ways; beyond it the table is broken and pairs cost too much.
MOST_ROWS_OF_ONE_SUBJECT = 2_000


@dataclass(frozen=True, slots=True)
class Stated:
    """One verified row, by numbers: subject (vehicle, component, position, property), years, scope and figure.

    line: its line in the file, 0 for a row that the record holds already.
    """

    spec: str
    line: int
    subject: int
    year_from: int
    year_to: int
    scope: int
    figure: int


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two rows that one vehicle of one year falls under; `differ` = they state different figures."""

    spec: str
    line: int
    other: str
    other_line: int
    differ: bool


class Overlaps:
    """Rows are put in one by one; arrays and not objects, because a table may hold a million of them."""

    def __init__(self, scopes: list[Scope]) -> None:
        self._scopes = scopes
        self._meets: dict[tuple[int, int], bool] = {}
        self._last: dict[int, int] = {}
        self._specs: list[str] = []
        self._lines, self._before = array("l"), array("l")
        self._from, self._to = array("H"), array("H")
        self._scope, self._figure = array("l"), array("l")

    def __contains__(self, subject: int) -> bool:
        """Whether any row of this subject was put in."""
        return subject in self._last

    def add(self, row: Stated) -> Iterator[Overlap]:
        """Puts a row in and gives what it overlaps with. ValueError: the subject has too many rows to be true."""
        at = self._last.get(row.subject, -1)
        self._last[row.subject] = len(self._specs)
        self._specs.append(row.spec)
        self._lines.append(row.line)
        self._before.append(at)
        self._from.append(row.year_from)
        self._to.append(row.year_to)
        self._scope.append(row.scope)
        self._figure.append(row.figure)
        return self._met(at, row) if at >= 0 else iter(())

    def _met(self, at: int, row: Stated) -> Iterator[Overlap]:
        steps = 0
        while at >= 0:
            if (
                self._from[at] <= row.year_to
                and self._to[at] >= row.year_from
                and self._meet(self._scope[at], row.scope)
            ):
                differ = self._figure[at] != row.figure
                yield Overlap(row.spec, row.line, self._specs[at], self._lines[at], differ)
            at = self._before[at]
            steps += 1
            if steps > MOST_ROWS_OF_ONE_SUBJECT:
                raise ValueError(f"over {MOST_ROWS_OF_ONE_SUBJECT:,} rows state this of one vehicle")

    def _meet(self, one: int, other: int) -> bool:
        if one == other:
            return True
        pair = (one, other)
        known = self._meets.get(pair)
        if known is None:
            known = self._meets[pair] = self._scopes[one].compatible(self._scopes[other])
        return known
