"""Invented questions that a book cannot answer, written as many people would, each with what was meant by it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from rapidfuzz.distance import OSA

from benchbot.understanding.lexicon import Lexicon
from benchbot.vocabulary.letters import name_words

SEED = "benchbot gaps 1"
PLACES = 2
PEOPLE = 14
_KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
_ONSETS = ("b", "br", "d", "dr", "f", "g", "gr", "k", "kl", "m", "n", "p", "pl", "t", "tr", "v", "z")
_VOWELS = ("a", "e", "i", "o", "u", "ei", "ou")
_CODAS = ("l", "n", "x", "th", "nd", "sk", "m", "rv")
_HEADS = ("bolt", "nut", "screw", "bracket", "clip bolt", "retainer bolt")
_SHORT = {"torque": ("tq", "trq"), "bolt": ("blt",), "bolts": ("blts",), "front": ("frt",), "rear": ("rr",)}
_PLACES = frozenset({"upper", "lower", "inner", "outer", "left", "right", "front", "rear"})
_BEFORE = ("", "", "", "", "whats the ", "need ", "hey need ", "looking for ", "anyone got ", "quick one ")
_AFTER = ("", "", "", "", "", " pls", " please", " thanks", "?", "??", " for this")


@dataclass(frozen=True, slots=True)
class Vehicle:
    """A vehicle of the book: its years, and the components that it has rows of."""

    make: str
    model: str
    first: int
    last: int
    held: frozenset[str]


@dataclass(frozen=True, slots=True)
class Meant:
    """What is missing. kind: "row", "other year", "word", "vehicle". part: the component, or the unknown words.

    vehicle: make and model; of a word, None: it may be asked of any vehicle. year: None of words and vehicles.
    """

    kind: str
    part: str
    axle: str = ""
    vehicle: tuple[str, str] | None = None
    year: int | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """before: what the person wrote first, "" for nothing. slip: whether a finger slipped somewhere."""

    meant: Meant
    person: int
    before: str
    text: str
    slip: bool

    @property
    def place(self) -> int:
        return self.person % PLACES


class Asking:
    """Draws what is meant, and the ways to write it; a slip never makes another known word or name."""

    def __init__(self, vehicles: Sequence[Vehicle], lexicon: Lexicon, seed: str = "") -> None:
        self._chance = Random(f"{SEED}|{seed}")
        self._vehicles = vehicles
        self._lexicon = lexicon
        self._names = {word for one in vehicles for word in (*name_words(one.make), *name_words(one.model))}
        self._years = range(2000, 2027)
        # only words that mean one part, and say nothing of where it sits, tell what was meant
        self._wordings: dict[str, list[tuple[str, ...]]] = {}
        for phrase in lexicon.vocabulary.component_phrases:
            if len(phrase.means) == 1 and not phrase.always and not _PLACES & set(phrase.words):
                self._wordings.setdefault(phrase.means[0], []).append(phrase.words)
        self._parts = [
            one
            for one in lexicon.vocabulary.components.values()
            if one.default == "torque"
            and one.kind == "fastener"
            and frozenset(one.name.split()) in {frozenset(words) for words in self._wordings.get(one.name, ())}
        ]
        self._invented: set[str] = set()

    def questions(self, count: int) -> Iterator[Question]:
        """`count` questions about a sixteenth as many things, a few of which are asked over and over."""
        meant = [self._meant(number) for number in range(max(12, count // 16))]
        weights = [1 / (place + 3) for place in range(len(meant))]
        for one in self._chance.choices(meant, weights, k=count):
            yield self._question(one)

    def _meant(self, number: int) -> Meant:
        chance, vehicle = self._chance, self._chance.choice(self._vehicles)
        draw = number % 20
        if draw < 3:
            return Meant("word", self._word(sibling=draw == 2))
        if draw < 6:
            make = chance.choice(self._vehicles).make if draw < 5 else self._invent(6).capitalize()
            model = self._invent(5, sibling=draw == 4).capitalize() + (f" {chance.randint(2, 9)}" if draw == 3 else "")
            part = chance.choice(self._parts)
            return Meant("vehicle", part.name, self._axle(part.name), (make, model))
        part = chance.choice(self._parts)
        year = chance.randint(vehicle.first, vehicle.last)
        kind = "row"
        if draw < 10:
            kind = "other year"
            held = [one for one in self._parts if one.name in vehicle.held]
            part = chance.choice(held or [part])
            year = chance.choice([year for year in self._years if not vehicle.first <= year <= vehicle.last])
        while kind == "row" and part.name in vehicle.held:
            part = chance.choice(self._parts)
        return Meant(kind, part.name, self._axle(part.name), (vehicle.make, vehicle.model), year)

    def _question(self, meant: Meant) -> Question:
        chance = self._chance
        vehicle = meant.vehicle
        year = meant.year or chance.randint(2006, 2020)
        if vehicle is None:
            one = chance.choice(self._vehicles)
            vehicle, year = (one.make, one.model), chance.randint(one.first, one.last)
        name = f"{vehicle[0]} {vehicle[1]}" if chance.random() < 0.5 or vehicle[1].isdigit() else vehicle[1]
        said_year = str(year) if chance.random() < 0.5 else f"{year % 100:02d}"
        part, axle = self._part(meant), meant.axle
        torque = chance.choice(("torque", "torque", "tq", "trq", "torque spec"))
        before = ""
        if meant.kind != "vehicle" and chance.random() < 0.12:
            before, pieces = f"{said_year} {name}".lower(), [f"{axle} {part}".strip(), torque]
        else:
            pieces = [f"{said_year} {name}", f"{axle} {part}".strip(), torque]
            if chance.random() < 0.35:
                chance.shuffle(pieces)
        text = " ".join(pieces)
        slip = chance.random() < 0.25
        if slip:
            text = self._slipped(text)
        text = f"{chance.choice(_BEFORE)}{text}{chance.choice(_AFTER)}"
        return Question(meant, chance.randrange(PEOPLE), before, text.lower() if chance.random() < 0.7 else text, slip)

    def _part(self, meant: Meant) -> str:
        """The part as it may be said: by its name or another wording, the words turned round, in the plural, short."""
        chance = self._chance
        words = list(meant.part.split())
        if meant.kind != "word" and chance.random() < 0.4:
            words = list(chance.choice(self._wordings.get(meant.part, [tuple(words)])))
        if chance.random() < 0.5 and words[-1] in ("bolt", "nut", "screw", "bracket"):
            words[-1] += "s"
        if len(words) == 2 and chance.random() < 0.1:
            words.reverse()
        return " ".join(chance.choice(_SHORT[w]) if w in _SHORT and chance.random() < 0.15 else w for w in words)

    def _axle(self, part: str) -> str:
        both = self._lexicon.component(part).axles == "both"
        return self._chance.choice(("front", "rear")) if both else ""

    def _word(self, sibling: bool) -> str:
        return f"{self._invent(5, sibling)} {self._chance.choice(_HEADS)}"

    def _invent(self, least: int, sibling: bool = False) -> str:
        """A word that nobody knows, far from all that are known; a sibling is a slip away from one invented before."""
        chance = self._chance
        while True:
            if sibling and self._invented:
                old = chance.choice(sorted(self._invented))
                at = chance.randrange(1, len(old))
                word = old[:at] + chance.choice("aeioulnr") + old[at + 1 :]
                near = False
            else:
                word = "".join(chance.choice(_ONSETS) + chance.choice(_VOWELS) for _ in range(2)) + chance.choice(
                    _CODAS
                )
                near = any(OSA.distance(word, old, score_cutoff=2) <= 2 for old in self._invented)
            if len(word) >= least and not near and word not in self._invented and not self._is_near_known(word):
                self._invented.add(word)
                return word

    def _is_near_known(self, word: str) -> bool:
        known = self._lexicon.is_known(word) or self._lexicon.rescued(word) or self._lexicon.near_noise(word)
        return bool(known) or any(OSA.distance(word, name, score_cutoff=2) <= 2 for name in self._names)

    def _slipped(self, text: str) -> str:
        """One slip in one longer word; none where every try makes another word."""
        words = text.split()
        for _ in range(8):
            at = self._chance.randrange(len(words))
            slipped = self._slip(words[at].lower())
            if self._is_fair(words[at].lower(), slipped):
                return " ".join([*words[:at], slipped, *words[at + 1 :]])
        return text

    def _is_fair(self, word: str, slipped: str) -> bool:
        if len(word) < 5 or not word.isalpha() or slipped == word or self._lexicon.is_known(slipped):
            return False
        others = (self._names | self._invented) - {word}
        return all(OSA.distance(slipped, other, score_cutoff=1) > 1 for other in others)

    def _slip(self, word: str) -> str:
        """The word with one letter dropped, doubled, swapped with the next, or hit on the key beside it."""
        chance = self._chance
        if len(word) < 3:
            return word
        at = chance.randrange(1, len(word) - 1)
        kind = chance.choice(("drop", "double", "swap", "beside"))
        if kind == "drop":
            return word[:at] + word[at + 1 :]
        if kind == "double":
            return word[:at] + word[at] + word[at:]
        if kind == "swap":
            return word[:at] + word[at + 1] + word[at] + word[at + 2 :]
        keys = next((row for row in _KEYS if word[at] in row), word[at])
        place = keys.index(word[at])
        return word[:at] + (keys[place - 1] if place else keys[min(1, len(keys) - 1)]) + word[at + 1 :]
