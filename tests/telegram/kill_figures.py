"""What a run of kills comes to, in numbers."""

from __future__ import annotations

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Figures:
    """kills, doubled: by the kind of moment; doubled counts messages that stand twice, once for each time too many.

    at_once: the most of them after one kill. repeated: sendings that a killed process had in hand, sent again.
    windows: seconds from the request at the server to the mark on record, without its commit.
    """

    seconds: float
    kills: dict[str, int]
    questions: int
    presses: int
    gaps: int
    notes: int
    messages: int
    doubled: dict[str, int]
    at_once: int
    repeated: int
    windows: tuple[float, ...]

    def __str__(self) -> str:
        ordered = sorted(1000 * one for one in self.windows)
        return "\n".join((
            f"kills: {_sum(self.kills)}, in {self.seconds:.0f} s",
            f"questions: {self.questions}, all answered; presses of a choice: {self.presses}; gaps: {self.gaps}",
            f"answers marked as not right: {self.notes}, each told to a curator and an owner",
            f"messages sent: {self.messages}; sendings repeated: {self.repeated}",
            f"standing twice: {_sum(self.doubled)}, at most {self.at_once} after one kill",
            f"from the request to its record: mean {statistics.mean(ordered):.1f} ms, median "
            f"{statistics.median(ordered):.1f} ms, p99 {ordered[len(ordered) * 99 // 100]:.1f} ms",
        ))  # fmt: skip


def kill_between(kills: Sequence[tuple[str, float]], first: float, second: float) -> int:
    """Which kill made a message be sent twice, at those times; nothing else may."""
    found = [number for number, (_, at) in enumerate(kills) if first < at < second]
    assert found, f"sent twice {second - first:.3f} s apart, and no kill was between"
    return found[0]


def windows(taken: Mapping[Key, float], recorded: Mapping[Key, float], copies: set[Key]) -> tuple[float, ...]:
    """Of a copy that was never put on record only later changes are, so it has no window."""
    return tuple(recorded[one] - at for one, at in taken.items() if one not in copies)


def _sum(counts: Mapping[str, int]) -> str:
    parts = ", ".join(f"{count} {when}" for when, count in sorted(counts.items()))
    return f"{sum(counts.values())} ({parts})" if parts else "0"
