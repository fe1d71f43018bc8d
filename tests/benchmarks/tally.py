"""Counts what came of the questions, and sums up how long they took."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from questions import ANSWERABLE, NOT_ANSWERABLE

Counts = dict[str, dict[str, int]]


@dataclass(slots=True)
class Tally:
    """right: the row that answers was shown, or nothing where none may. asked: the choice was given back, or the
    answer was asked for by name. missed: nothing was found. wrong: another row was shown."""

    by_kind: dict[str, Counter[str]] = field(default_factory=dict)
    not_right: list[tuple[str, str, str]] = field(default_factory=list)

    def add(self, kind: str, text: str, expected: str, shown: Sequence[str], asked: bool) -> None:
        """`shown`: the rows whose values were shown; `asked`: a question came back."""
        if not expected:
            came = "wrong" if shown else "right"
        elif shown:
            came = "right" if set(shown) == {expected} else "wrong"
        else:
            came = "asked" if asked else "missed"
        self.by_kind.setdefault(kind, Counter())[came] += 1
        if came != "right":
            self.not_right.append((came, kind, text))

    def counts(self) -> Counts:
        """Kind of question -> what came of it -> how many; "answerable" and "not answerable" hold the sums."""
        counts = {kind: dict(self.by_kind[kind]) for kind in (*ANSWERABLE, *NOT_ANSWERABLE) if kind in self.by_kind}
        for name, kinds in (("answerable", ANSWERABLE), ("not answerable", NOT_ANSWERABLE)):
            counts[name] = dict(sum((self.by_kind.get(kind, Counter()) for kind in kinds), Counter()))
        return counts


def milliseconds(nanoseconds: Sequence[int]) -> dict[str, float]:
    """p50, p99 and the longest, in ms; of fewer than 100 times p99 is the longest."""
    ordered = sorted(nanoseconds)
    return {
        "p50": ordered[len(ordered) // 2] / 1e6,
        "p99": ordered[min(len(ordered) - 1, len(ordered) * 99 // 100)] / 1e6,
        "longest": ordered[-1] / 1e6,
    }
