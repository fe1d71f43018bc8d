"""Counts the pairs of questions that grouping joined rightly, joined wrongly, and kept apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gaps_asking import Question


@dataclass(frozen=True, slots=True)
class Placed:
    """A question and the groups that it stands in."""

    question: Question
    groups: frozenset[int]


def pairs_of(placed: Sequence[Placed]) -> dict[str, float | int]:
    """Pairwise precision and recall. Two questions are joined when they share a group."""
    classes = Counter((one.question.meant, one.groups) for one in placed)
    by_group: dict[int, list[tuple[object, frozenset[int]]]] = {}
    by_meant: dict[object, list[tuple[object, frozenset[int]]]] = {}
    for each in classes:
        by_meant.setdefault(each[0], []).append(each)
        for number in each[1]:
            by_group.setdefault(number, []).append(each)
    joined = right = meant = 0
    seen = set()
    for held in by_group.values():
        for at, one in enumerate(held):
            for other in held[at:]:
                if frozenset((one, other)) in seen:
                    continue
                seen.add(frozenset((one, other)))
                pairs = _pairs(classes, one, other)
                joined += pairs
                right += pairs if one[0] == other[0] else 0
    for held in by_meant.values():
        meant += sum(_pairs(classes, one, other) for at, one in enumerate(held) for other in held[at:])
    return {
        "pairs_joined": joined,
        "pairs_meant": meant,
        "precision": right / joined if joined else 1.0,
        "recall": right / meant if meant else 1.0,
    }


def _pairs(classes: Counter[tuple[object, frozenset[int]]], one: object, other: object) -> int:
    count = classes[one]  # type: ignore[index]
    return count * (count - 1) // 2 if one == other else count * classes[other]  # type: ignore[index]


def wrong_pairs(placed: Sequence[Placed], most: int) -> Iterator[str]:
    """Examples of both mistakes, one for each two groups or things meant."""
    joined: dict[int, Placed] = {}
    apart: dict[object, Placed] = {}
    told = Counter[str]()
    for one in placed:
        for number in one.groups:
            other = joined.setdefault(number, one)
            if other.question.meant != one.question.meant and told["joined"] < most:
                told["joined"] += 1
                yield f"joined: {other.question.text!r} | {one.question.text!r} ({one.question.meant})"
        other = apart.setdefault(one.question.meant, one)
        if not other.groups & one.groups and told["apart"] < most:
            told["apart"] += 1
            yield f"apart: {other.question.text!r} | {one.question.text!r} ({one.question.meant})"
