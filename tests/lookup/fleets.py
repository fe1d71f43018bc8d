"""Random small fleets, each behind a conversation that runs in memory; a fleet is made from its number alone."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from itertools import count
from random import Random
from typing import Any

from memory_book import MemoryBook, MemoryRecord

from benchbot.book.rows import SpecRow
from benchbot.conversation.conversation import Conversation, Turn
from benchbot.outcomes import Answer, Choose
from benchbot.places import knowledge_folder
from benchbot.quantities.presentation import present
from benchbot.specs.figure import read_figure
from benchbot.understanding.lexicon import Lexicon
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)
VEHICLES = 7
# Component: its axles as rows carry them, and what is held of it. Common practice, no source.
HELD: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "caliper bracket bolt": (("front", "rear"), ("torque", "socket")),
    "caliper slide pin bolt": (("front", "rear"), ("torque", "socket")),
    "brake rotor": (("front", "rear"), ("minimum thickness", "nominal thickness", "maximum runout")),
    "brake pad": (("front", "rear"), ("minimum thickness", "nominal thickness")),
    "brake drum": (("rear",), ("maximum diameter",)),
    "axle nut": (("front", "rear"), ("torque", "socket")),
    "stabilizer link nut": (("front", "rear"), ("torque", "socket")),
    "wheel speed sensor bolt": (("front", "rear"), ("torque",)),
    "lower ball joint nut": (("front",), ("torque", "socket")),
    "wheel nut": (("",), ("torque", "socket")),
    "engine oil drain plug": (("",), ("torque", "socket")),
    "spark plug": (("",), ("torque", "gap")),
}
# How each value of a qualifier is said in a message. Common practice, no source.
SPLITS: dict[str, dict[str, tuple[str, ...]]] = {
    "engine": {
        "1.8T": ("1.8t", "1.8 turbo"),
        "2.4": ("2.4", "2.4l"),
        "3.0 V6": ("3.0 v6", "v6 3.0"),
        "2.2 diesel": ("2.2 diesel", "2.2l diesel"),
    },
    "drive": {
        "4WD": ("4wd", "4x4", "four wheel drive"),
        "2WD": ("2wd", "two wheel drive"),
        "AWD": ("awd", "all wheel drive"),
        "FWD": ("fwd", "front wheel drive"),
        "RWD": ("rwd", "rear wheel drive"),
    },
    "brakes": {"heavy duty": ("heavy duty", "hd"), "standard": ("standard brakes",), "13 in": ("13 in brakes",)},
}
_STARTS = (
    "b",
    "br",
    "d",
    "dr",
    "f",
    "fl",
    "g",
    "k",
    "kl",
    "l",
    "m",
    "n",
    "p",
    "r",
    "s",
    "st",
    "t",
    "tr",
    "v",
    "vr",
    "z",
)
_ENDS = tuple("bdfgklmnprstvz")
_NUMBERS = (("6", "62"), ("1500", "2500"), ("20", "200"), ("3", "33"), ("14", "140"), ("2020", "2008"))


@lru_cache(maxsize=1)
def vocabulary() -> Vocabulary:
    return load_vocabulary(knowledge_folder())


@lru_cache(maxsize=1)
def lexicon() -> Lexicon:
    return Lexicon(vocabulary())


@dataclass(frozen=True, slots=True)
class Shop:
    """A fleet and the conversation that answers from it. Vehicles are numbered from 1, in the order of `named`."""

    named: list[tuple[str, str]]
    rows: list[SpecRow]
    conversation: Conversation


_chats = count()


def say(there: Shop, *texts: str) -> Turn:
    """The last turn of a chat of its own."""
    chat = f"c{next(_chats)}"
    turns = [there.conversation.say(chat, "test", text) for text in texts]
    return turns[-1]


def shown(turn: Turn) -> set[str]:
    """The specs whose values an answer shows."""
    return {finding.row.spec for finding in turn.outcome.findings} if isinstance(turn.outcome, Answer) else set()


def offered(turn: Turn) -> set[str]:
    """The specs behind the choices of a question back."""
    options = turn.outcome.options if isinstance(turn.outcome, Choose) else ()
    return {spec for option in options for spec in option.specs}


@lru_cache(maxsize=512)
def shop(number: int) -> Shop:
    """The shop of that number, always the same."""
    rng = Random(number)
    named = _names(rng)
    rows: list[SpecRow] = []
    for vehicle in range(1, len(named) + 1):
        rows.extend(_rows(rng, vehicle, len(rows)))
    book: Any = MemoryBook(rows, named)
    record: Any = MemoryRecord()
    return Shop(named, rows, Conversation(book, vocabulary(), record, clock=lambda: NOW))


def _name(rng: Random) -> str:
    while True:
        syllables = "".join(rng.choice(_STARTS) + rng.choice("aeiou") for _ in range(rng.randint(1, 2)))
        name = syllables + rng.choice(_ENDS)
        if not any(lexicon().is_known(word) for word in (name, *(name + letter for letter in "aeiou"))):
            return name.title()


def _names(rng: Random) -> list[tuple[str, str]]:
    """Makes with models that are easily taken for one another; no two models of a fleet share a name.

    None is by chance a word that the vocabulary knows.
    """
    makes = [_name(rng) for _ in range(rng.randint(2, 3))]
    found: dict[str, str] = {}
    while len(found) < VEHICLES:
        base = _name(rng)
        last = rng.choice("aeiou")
        other = rng.choice([letter for letter in "aeiou" if letter != last])
        pair = rng.choice(
            [
                (base, base + last),
                (base + last, base + other),
                (base, f"{base} {rng.choice(('Sport', 'XL', 'GT', 'Plus', 'Limited'))}"),
                (f"{base} {rng.choice('5678')}", f"{base} {rng.choice(('50', '60'))}"),
                (f"{base[:2].upper()}{rng.choice('5678')}", f"{base[:2].upper()}{rng.choice('5678')}0"),
                (f"{base} Mor{last}", f"{base} Mor{other}"),
                rng.choice(_NUMBERS),
            ]
        )
        for model in pair:
            found.setdefault(model, rng.choice(makes) if rng.random() < 0.4 else makes[0])
    return [(make, model) for model, make in found.items()][:VEHICLES]


def _rows(rng: Random, vehicle: int, before: int) -> list[SpecRow]:
    first = rng.randint(2003, 2014)
    spans = [(first, first + rng.randint(1, 5))]
    if rng.random() < 0.5:
        start = spans[0][1] + rng.choice((1, 1, 2))
        spans.append((start, start + rng.randint(0, 4)))
    found: list[SpecRow] = []
    for span in spans:
        key = rng.choice((None, "engine", "drive", "brakes"))
        values = rng.sample(sorted(SPLITS[key]), rng.randint(1, 2)) if key else []
        for component, (axles, properties) in HELD.items():
            split = [f"{key}={value}" for value in values] if key and rng.random() < 0.7 else [""]
            for axle in axles:
                for only_if in split if axle != "rear" or rng.random() < 0.8 else [""]:
                    for name in properties:
                        if rng.random() < 0.75:
                            found.append(spec_row(before + len(found), vehicle, span, only_if, component, axle, name))
    return found


def spec_row(
    n: int, vehicle: int, span: tuple[int, int], only_if: str, component: str, position: str, name: str
) -> SpecRow:
    """An invented row; its id and figures come from its number `n`."""
    kind = {"torque": f"{30 + n} N·m", "socket": f"{8 + n % 20} mm"}
    value = kind.get(name, f"{1 + n / 10:.1f} mm")
    reading = read_figure(name, value, "")
    shown = json.dumps(present(reading.value, reading.second).to_plain(), ensure_ascii=False)
    told = (value, "", shown, "", "", "", "", "", (), "Invented sheet", f"p. {n}", "test", "2026-01-15", "")
    return SpecRow(f"R{n:04}", 1, vehicle, *span, only_if, component, position, name, *told)
