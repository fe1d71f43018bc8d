"""How like a question is to those that people ask for each step: weights learned from knowledge/asked, read here."""

from __future__ import annotations

import json
import zlib
from array import array
from base64 import b64decode, b64encode
from collections.abc import Sequence
from dataclasses import dataclass

from benchbot.procedures.features import groups_of, weighed

NO_STEP = "none"
LAYOUT = 1


@dataclass(frozen=True, slots=True)
class Weights:
    """What was learned, as it is kept.

    digest: SHA-256 of the files it was learned from; steps: their keys, and `NO_STEP` for what no step answers;
    start: what each step has before a word is read; features: the words, pairs and pieces known; rarity: of each;
    strange: that of an unknown word; ends: where the weights of each feature end; of_step, weight: whose and how much,
    in units of `unit`.
    """

    digest: str
    steps: tuple[str, ...]
    start: tuple[float, ...]
    features: tuple[str, ...]
    rarity: tuple[float, ...]
    strange: float
    unit: float
    ends: array[int]
    of_step: bytes
    weight: array[int]

    def to_text(self) -> str:
        """All of it as one line of ASCII."""
        plain = {
            "layout": LAYOUT,
            "digest": self.digest,
            "steps": self.steps,
            "start": self.start,
            "features": self.features,
            "rarity": self.rarity,
            "strange": self.strange,
            "unit": self.unit,
            "ends": self.ends.tolist(),
            "of_step": b64encode(self.of_step).decode(),
            "weight": b64encode(self.weight.tobytes()).decode(),
        }
        return b64encode(zlib.compress(json.dumps(plain).encode(), 9)).decode()

    @classmethod
    def from_text(cls, text: str) -> Weights:
        """The inverse. ValueError: it is damaged, or of a layout that this reader does not know."""
        try:
            plain = json.loads(zlib.decompress(b64decode(text.strip(), validate=True)))
        except (zlib.error, ValueError) as error:
            raise ValueError("it is damaged") from error
        if plain.get("layout") != LAYOUT:
            raise ValueError(f"its layout is {plain.get('layout')}, this reader knows {LAYOUT}")
        return cls(
            digest=plain["digest"],
            steps=tuple(plain["steps"]),
            start=tuple(plain["start"]),
            features=tuple(plain["features"]),
            rarity=tuple(plain["rarity"]),
            strange=plain["strange"],
            unit=plain["unit"],
            ends=array("l", plain["ends"]),
            of_step=b64decode(plain["of_step"]),
            weight=array("b", b64decode(plain["weight"])),
        )


class Likeness:
    """Made once from the weights; holds no state of any question."""

    def __init__(self, weights: Weights) -> None:
        self._weights = weights
        self._at = {feature: n for n, feature in enumerate(weights.features)}
        self._rarity = dict(zip(weights.features, weights.rarity, strict=True))

    def of(self, words: Sequence[str]) -> dict[str, float]:
        """Step -> likeness, most of them below 0 and one that is meant mostly above; `NO_STEP` is among them.

        words: as `wording.words_of` gives them, without those that name the vehicle.
        """
        held = self._weights
        sums = [0.0] * len(held.steps)
        for feature, share in weighed(groups_of(words), self._rarity, held.strange).items():
            at = self._at[feature]
            for n in range(held.ends[at - 1] if at else 0, held.ends[at]):
                sums[held.of_step[n]] += share * held.weight[n]
        return {
            step: start + total * held.unit for step, start, total in zip(held.steps, held.start, sums, strict=True)
        }
