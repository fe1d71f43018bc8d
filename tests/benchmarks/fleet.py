"""An invented fleet of any size: makes and models of pronounceable syllables, with near names among them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from random import Random

from bay_parts import NOT_ON_SIBLINGS, PARTS, Part

SEED = "benchbot benchmark 1"
ROWS_A_MODEL = 50  # about: a sibling has fewer
_MODELS_A_MAKE = 100
_FEWEST_MAKES = 4
_ONSETS = ("b", "br", "c", "d", "dr", "f", "g", "gr", "h", "j", "k", "l", "m", "n", "p", "qu", "r", "s", "st", "t",
           "tr", "v", "w", "x", "z")  # fmt: skip
_VOWELS = ("a", "e", "i", "o", "u", "ae", "ia", "ey")
_CODAS = ("", "", "", "l", "n", "r", "s", "th", "rd", "x", "ll", "nd")
ENGINES = ("1.6", "2.0T")


@dataclass(frozen=True, slots=True)
class Model:
    """An invented model: two generations, `first` to `turn` - 1 and `turn` to `last`; sibling_of: the near name."""

    make: str
    name: str
    first: int
    turn: int
    last: int
    sibling_of: str = ""

    @property
    def spans(self) -> tuple[tuple[int, int], tuple[int, int]]:
        return (self.first, self.turn - 1), (self.turn, self.last)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the table, with the part that it is about."""

    spec: str
    model: Model
    year_from: int
    year_to: int
    only_if: str
    part: Part
    value: str


def models_of(rows: int, is_word: Callable[[str], bool]) -> list[Model]:
    """As many models as it takes for `rows` rows; `is_word` tells the words of the trade, which no name may be."""
    chance = Random(SEED)
    taken: set[str] = set()

    def fresh(least: int, most: int) -> str:
        while True:
            syllables = range(chance.randint(2, 3))
            name = "".join(chance.choice(_ONSETS) + chance.choice(_VOWELS) for _ in syllables) + chance.choice(_CODAS)
            if least <= len(name) <= most and name not in taken and not is_word(name):
                taken.add(name)
                return name.capitalize()

    makes = [fresh(5, 8) for _ in range(max(_FEWEST_MAKES, rows // (ROWS_A_MODEL * _MODELS_A_MAKE)))]
    models: list[Model] = []
    while rows > 0:
        first = chance.randint(2004, 2016)
        turn = first + chance.randint(3, 6)
        years = (first, turn, min(2025, turn + chance.randint(3, 7)))
        draw = chance.random()
        if models and draw < 0.12 and not models[-1].sibling_of and models[-1].name.isalpha():
            twin = models[-1]
            name = _near_name(twin.name, chance, taken, is_word)
            models.append(Model(twin.make, name, *years, sibling_of=twin.name))
        elif draw > 0.98:
            models.append(Model(chance.choice(makes), _number(chance, taken), *years))
        else:
            models.append(Model(chance.choice(makes), fresh(5, 10), *years))
        rows -= sum(1 for _ in _generations(models[-1]))
    return models


def _generations(model: Model) -> Iterator[tuple[int, int, str, Part]]:
    """(year_from, year_to, only_if, part) of every row of a model."""
    for newer, (year_from, year_to) in enumerate(model.spans):
        for part in PARTS:
            if model.sibling_of and part.component in NOT_ON_SIBLINGS:
                continue
            for only_if in [f"engine={engine}" for engine in ENGINES] if newer and part.split else [""]:
                yield year_from, year_to, only_if, part


def _near_name(name: str, chance: Random, taken: set[str], is_word: Callable[[str], bool]) -> str:
    """A name that differs by one letter, or by the word Sport."""
    for _ in range(20):
        at = chance.randrange(1, len(name))
        letter = chance.choice("aeiounrlst")
        near = chance.choice((name + letter, name[:at] + letter + name[at + 1 :]))
        if near.lower() != name.lower() and near.lower() not in taken and not is_word(near.lower()):
            if chance.random() < 0.4:
                break
            taken.add(near.lower())
            return near.capitalize()
    return f"{name} Sport"


def _number(chance: Random, taken: set[str]) -> str:
    while True:
        name = str(chance.randrange(200, 1_000) if chance.random() < 0.5 else chance.randrange(2_100, 10_000))
        if name not in taken or len(taken) > 6_000:
            taken.add(name)
            return name


def rows_of(models: list[Model], most: int) -> Iterator[Row]:
    """The rows of the models in order, `most` in all; each model's figures are drawn from its own seed."""
    number = 0
    for model in models:
        chance = Random(f"{SEED}|{model.make}|{model.name}")
        for year_from, year_to, only_if, part in _generations(model):
            if number == most:
                return
            number += 1
            value = f"{chance.uniform(part.low, part.high):.{part.digits}f} {part.unit}"
            yield Row(f"B{number:07d}", model, year_from, year_to, only_if, part, value)
