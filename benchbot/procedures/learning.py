"""Learns from the questions of knowledge/asked which step is meant; done when they change, never while answering."""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Iterable
from math import log
from typing import Any

from scipy.sparse import csr_matrix
from sklearn.svm import LinearSVC

from benchbot.procedures.features import Groups, groups_of, weighed
from benchbot.procedures.likeness import Weights
from benchbot.procedures.wording import words_of

_SEEN_TWICE = 2
_STRICTNESS = 0.7
_LEAST = 0.08
_STEPS = 250


def learn(asked: Iterable[tuple[str, str]], digest: str) -> Weights:
    """The weights for questions with their steps, by a linear support vector machine (scikit-learn's LinearSVC).

    asked: (key of a step or `NO_STEP`, question); of one step and question several may be given.
    """
    asked = list(asked)
    taken = [groups_of(words_of(question)) for _, question in asked]
    rarity, strange = _rarities(taken)
    at = {feature: n for n, feature in enumerate(rarity)}
    rows, columns, shares = [], [], []
    for n, groups in enumerate(taken):
        for feature, share in weighed(groups, rarity, strange).items():
            rows.append(n)
            columns.append(at[feature])
            shares.append(share)
    matrix = csr_matrix((shares, (rows, columns)), shape=(len(taken), len(at)))
    machine = LinearSVC(C=_STRICTNESS, random_state=0).fit(matrix, [key for key, _ in asked])
    steps = tuple(str(one) for one in machine.classes_)
    if len(steps) > _STEPS:
        raise ValueError(f"{len(steps)} steps are more than the {_STEPS} that can be told apart by a byte")
    return _packed(machine.coef_, machine.intercept_, steps, rarity, strange, digest)


def _rarities(taken: list[Groups]) -> tuple[dict[str, float], float]:
    """Feature -> its rarity, of those that two questions have, and the rarity of a word that is in none."""
    counts = Counter(feature for groups in taken for group in groups for feature in group)
    rarity = {one: log((1 + len(taken)) / (1 + n)) + 1 for one, n in sorted(counts.items()) if n >= _SEEN_TWICE}
    return rarity, log(1 + len(taken)) + 1


def _packed(
    table: Any, start: Any, steps: tuple[str, ...], rarity: dict[str, float], strange: float, digest: str
) -> Weights:
    unit = float(abs(table).max()) / 127
    small = (table / unit).round().astype("int8")
    ends, of_step, weight = array("l"), bytearray(), array("b")
    for column in small.T:
        kept = [(n, int(value)) for n, value in enumerate(column) if abs(value) * unit >= _LEAST]
        of_step.extend(n for n, _ in kept)
        weight.extend(value for _, value in kept)
        ends.append(len(weight))
    return Weights(
        digest=digest,
        steps=steps,
        start=tuple(round(float(one), 4) for one in start),
        features=tuple(rarity),
        rarity=tuple(round(one, 3) for one in rarity.values()),
        strange=round(strange, 3),
        unit=unit,
        ends=ends,
        of_step=bytes(of_step),
        weight=weight,
    )
