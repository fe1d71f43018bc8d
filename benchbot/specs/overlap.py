"""Finds verified rows that state one thing of one vehicle twice: a fault when they differ, a note when they agree."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from dataclasses import dataclass

from benchbot.specs.scope import Scope

# No part of one vehicle is told apart in so many ways; beyond it the table is broken and pairs cost too much.
MOST_ROWS_OF_ONE_SUBJECT = 2_000


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

    def add(
        self, spec: str, line: int, subject: int, year_from: int, year_to: int, scope: int, figure: int
    ) -> Sequence[Overlap]:
        """Puts a verified row in and gives what it overlaps with. ValueError: the subject has too many rows to be true.

        line: in the file, 0 for a row that is on record already. subject, scope, figure: the numbers of its parts.
        """
        at = self._last.get(subject, -1)
        self._last[subject] = len(self._specs)
        self._specs.append(spec)
        self._lines.append(line)
        self._before.append(at)
        self._from.append(year_from)
        self._to.append(year_to)
        self._scope.append(scope)
        self._figure.append(figure)
        if at < 0:
            return ()
        met: list[Overlap] = []
        steps = 0
        while at >= 0:
            if self._from[at] <= year_to and self._to[at] >= year_from and self._meet(self._scope[at], scope):
                met.append(Overlap(spec, line, self._specs[at], self._lines[at], self._figure[at] != figure))
            at = self._before[at]
            steps += 1
            if steps > MOST_ROWS_OF_ONE_SUBJECT:
                raise ValueError(f"over {MOST_ROWS_OF_ONE_SUBJECT:,} rows state this of one vehicle")
        return met

    def _meet(self, one: int, other: int) -> bool:
        if one == other:
            return True
        pair = (one, other)
        known = self._meets.get(pair)
        if known is None:
            known = self._meets[pair] = self._scopes[one].compatible(self._scopes[other])
        return known
