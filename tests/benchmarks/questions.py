"""Questions on the invented fleet with the one row that answers each, and questions that no row may answer."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from random import Random

from bay_parts import NOT_ON_SIBLINGS, PARTS, SHORT_AXLE
from fleet import SEED, Model, Row
from rapidfuzz import process
from rapidfuzz.distance import OSA

ANSWERABLE = ("correct", "one typo", "shorthand")
NOT_ANSWERABLE = (
    "year left out",
    "axle left out",
    "engine left out",
    "year not held",
    "only a sibling's",
    "between two",
)
_ON_BOTH_AXLES = {(p.component, p.figure) for p in PARTS if p.axle == "front"} & {
    (p.component, p.figure) for p in PARTS if p.axle == "rear"
}
_AXLES = ("front", "rear")
_KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")


@dataclass(frozen=True, slots=True)
class Question:
    """kind: one of the kinds above; spec: the id of the row that answers, "" when none may."""

    kind: str
    text: str
    spec: str


class Asking:
    """Draws questions from the rows of a fleet; `is_word` tells the words of the trade, which no slip may hit."""

    def __init__(self, rows: Sequence[Row], models: Sequence[Model], is_word: Callable[[str], bool], seed: str) -> None:
        self._chance = Random(f"{SEED}|{seed}")
        self._rows = rows
        self._makes = {model.make.lower() for model in models}
        self._names = sorted({model.name.lower() for model in models} | self._makes)
        self._is_word = is_word
        self._of_model: dict[tuple[str, str], list[Row]] = {}
        for row in rows:
            self._of_model.setdefault((row.model.make, row.model.name), []).append(row)

    def questions(self, count: int) -> list[Question]:
        """`count` questions: three quarters can be answered, in equal shares of their kinds."""
        makers = {
            "correct": self._correct, "one typo": self._one_typo, "shorthand": self._shorthand,
            "year left out": self._no_year, "axle left out": self._no_axle, "engine left out": self._no_engine,
            "year not held": self._other_year, "only a sibling's": self._siblings, "between two": self._between,
        }  # fmt: skip
        made: list[Question] = []
        for number in range(count):
            kinds = ANSWERABLE if number % 4 else NOT_ANSWERABLE
            kind = kinds[(number - number // 4 - 1) % 3] if number % 4 else kinds[number // 4 % len(kinds)]
            made.append(makers[kind]())
        return made

    def _correct(self) -> Question:
        row = self._row()
        return Question("correct", self._plain(row, row.model.name), row.spec)

    def _one_typo(self) -> Question:
        """One slip, in the name (two in three) or in a word for the part; no other name is as near."""
        while True:
            row = self._row()
            name, part = row.model.name.lower(), self._part(row)
            in_name = self._chance.random() < 2 / 3
            word = name if in_name else self._chance.choice(part.split())
            slipped = self._slip(word)
            if len(word) < 5 or not word.isalpha() or slipped == word or self._is_word(slipped):
                continue
            if in_name and _near(slipped, self._names, 1) == [name]:
                return Question("one typo", self._plain(row, slipped, part), row.spec)
            if not in_name and word not in _AXLES and not _near(slipped, self._names, 1):
                return Question("one typo", self._plain(row, row.model.name, part.replace(word, slipped)), row.spec)

    def _shorthand(self) -> Question:
        """Abbreviated, two-digit year, and the pieces in any order."""
        row, chance = self._row(), self._chance
        short = chance.choice(row.part.short)
        if row.part.axle:
            short = f"{chance.choice(SHORT_AXLE[row.part.axle])} {short}"
        # a number as a name needs its year or its make beside it
        vehicle = f"{self._year(row) % 100:02d} {self._vehicle(row.model, row.model.name)}"
        pieces = [vehicle, short, *([row.only_if.partition("=")[2].lower()] if row.only_if else [])]
        chance.shuffle(pieces)
        return Question("shorthand", " ".join(pieces).lower(), row.spec)

    def _no_year(self) -> Question:
        row = self._row()
        text = f"{self._vehicle(row.model, row.model.name)} {self._part(row)}"
        return Question("year left out", f"{text} {row.only_if.partition('=')[2]}".strip(), "")

    def _no_axle(self) -> Question:
        row = self._row(lambda one: (one.part.component, one.part.figure) in _ON_BOTH_AXLES)
        text = f"{self._year(row)} {self._vehicle(row.model, row.model.name)} {self._chance.choice(row.part.full)}"
        return Question("axle left out", f"{text} {row.only_if.partition('=')[2]}".strip(), "")

    def _no_engine(self) -> Question:
        row = self._row(lambda one: bool(one.only_if))
        text = f"{self._year(row)} {self._vehicle(row.model, row.model.name)} {self._part(row)}"
        return Question("engine left out", text, "")

    def _other_year(self) -> Question:
        row = self._row()
        year = self._chance.choice((row.model.first - 1, row.model.last + 1))
        text = f"{year} {self._vehicle(row.model, row.model.name)} {self._part(row)}"
        return Question("year not held", f"{text} {row.only_if.partition('=')[2]}".strip(), "")

    def _siblings(self) -> Question:
        """A sibling is named, and only the vehicle with the near name has the part."""
        sibling = self._row(lambda one: bool(one.model.sibling_of)).model
        twins = self._of_model[sibling.make, sibling.sibling_of]
        row = self._chance.choice([one for one in twins if one.part.component in NOT_ON_SIBLINGS])
        return Question("only a sibling's", f"{row.year_from} {sibling.make} {sibling.name} {self._part(row)}", "")

    def _between(self) -> Question:
        """A slip that lies as near to one name as to another, without the make that could tell them apart."""
        while True:
            row = self._row(lambda one: bool(one.model.sibling_of) and one.model.name.isalpha())
            slipped = self._slip(row.model.name.lower())
            near = _near(slipped, self._names, 1)
            if len(near) > 1 and slipped not in near and not self._makes & {*near} and not self._is_word(slipped):
                engine = row.only_if.partition("=")[2]
                text = " ".join(filter(None, (str(self._year(row)), slipped, engine, self._part(row))))
                return Question("between two", text, "")

    def _row(self, wanted: Callable[[Row], bool] = lambda _: True) -> Row:
        while True:
            row = self._chance.choice(self._rows)
            if wanted(row):
                return row

    def _plain(self, row: Row, name: str, part: str = "") -> str:
        engine = row.only_if.partition("=")[2]
        vehicle = f"{self._year(row)} {self._vehicle(row.model, name)}"
        return " ".join(filter(None, (vehicle, engine, part or self._part(row))))

    def _part(self, row: Row) -> str:
        return f"{row.part.axle} {self._chance.choice(row.part.full)}".strip()

    def _year(self, row: Row) -> int:
        return self._chance.randint(row.year_from, row.year_to)

    def _vehicle(self, model: Model, name: str) -> str:
        # two makes may have a model of the same number
        return f"{model.make} {name}" if name.isdigit() or self._chance.random() < 0.5 else name

    def _slip(self, word: str) -> str:
        """The word with one letter dropped, doubled, swapped with the next, or hit on the key beside it."""
        chance = self._chance
        at = chance.randrange(1, len(word) - 1) if len(word) > 2 else 0
        kind = chance.choice(("drop", "double", "swap", "beside"))
        if kind == "drop":
            return word[:at] + word[at + 1 :]
        if kind == "double":
            return word[:at] + word[at] + word[at:]
        if kind == "swap":
            return word[:at] + word[at + 1] + word[at] + word[at + 2 :]
        keys = next((row for row in _KEYS if word[at] in row), word[at])
        place = keys.index(word[at])
        beside = keys[place - 1] if place else keys[min(1, len(keys) - 1)]
        return word[:at] + beside + word[at + 1 :]


def _near(slipped: str, names: Sequence[str], most: int) -> list[str]:
    """The names within so many slips."""
    found = process.extract(slipped, names, scorer=OSA.distance, score_cutoff=most, limit=None)
    return [name for name, _, _ in found]


def write_questions(path: Path, questions: Sequence[Question]) -> None:
    path.write_text("".join(json.dumps(asdict(one)) + "\n" for one in questions), encoding="utf-8")


def read_questions(path: Path) -> list[Question]:
    return [Question(**json.loads(line)) for line in path.read_text(encoding="utf-8").splitlines()]
