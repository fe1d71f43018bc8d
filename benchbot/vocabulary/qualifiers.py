"""Compares what was said of engine, drive, brakes ... with what a spec row is limited to."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from benchbot.vocabulary.letters import fold

KEYS = ("engine", "drive", "brakes", "body", "trim", "axle", "transmission", "market", "build")

Match = Literal["same", "part", "more", "unclear", "other"]

_PIECE = re.compile(r"\d+(?:\.\d+)?|\.\d+|[^\W\d_]+")
_MONTH = re.compile(r"(\d{4})-(\d{2})")
_SAME_WORD = {
    "turbo": "t", "turbocharged": "t", "diesel": "d", "petrol": "gas", "gasoline": "gas", "ev": "electric",
    "inch": "in", "inches": "in", "millimeter": "mm", "millimetre": "mm", "millimeters": "mm", "millimetres": "mm",
    "auto": "automatic", "stick": "manual", "hd": "heavyduty",
}  # fmt: skip
# Of each kind an engine has one: a diesel is no petrol engine, a V8 no V6.
_KINDS = (
    frozenset({"d", "gas", "hybrid", "electric", "cng"}),
    frozenset({"v6", "v8", "v10", "v12", "i3", "i4", "i5", "i6", "l4", "l6", "boxer"}),
)
_LITRES = {"l", "lt", "ltr", "liter", "litre", "liters", "litres", "ltrs"}
_SAID_FOR_NOTHING = {"engine", "motor", "brake", "brakes", "rotor", "rotors", "disc", "discs", "package", "the", "with"}


@lru_cache(maxsize=4096)
def value_words(key: str, value: str) -> frozenset[str]:
    """The words of a qualifier's value in one plain form: engine "1.8 Turbo" -> {"1.8", "t"}."""
    text = fold(value).replace('"', " in ").replace("heavy duty", "heavyduty").replace("heavy-duty", "heavyduty")
    text = re.sub(r"\b([vil])[- ]?(\d{1,2})\b(?!\.)", r"\1_\2", text) if key == "engine" else text
    words: set[str] = set()
    for piece in re.findall(r"[vil]_\d+|\dx\d|\dwd", text):
        words.add(piece.replace("_", ""))
    text = re.sub(r"[vil]_\d+|\dx\d|\dwd", " ", text)
    for piece in _PIECE.findall(text):
        if piece[0].isdigit() or piece[0] == ".":
            number = Decimal(piece).normalize()
            words.add(format(number, "f"))
        elif piece in _SAID_FOR_NOTHING or (key == "engine" and piece in _LITRES):
            continue
        else:
            words.add(_SAME_WORD.get(piece, piece))
    return frozenset(words)


@lru_cache(maxsize=16384)
def compare(key: str, said: frozenset[str], row_value: str) -> Match:
    """How the words said of one key stand to a row's value.

    same: all of it was said; part: only a part of it; more: all of it and more ("1.5 turbo" against "1.5"); other: it
    is another one; unclear: the two cannot be told apart nor matched ("V6" against "3.5").
    """
    held = value_words(key, row_value)
    if said == held:
        return "same"
    if said < held:
        return "part"
    if key == "engine" and any(said & kind and held & kind and not said & held & kind for kind in _KINDS):
        return "other"
    said_numbers, held_numbers = _numbers(said), _numbers(held)
    if said_numbers and held_numbers:
        if said_numbers != held_numbers:
            return "other"
        if key == "engine" and said > held and said - held <= _KINDS[1]:
            # "3.6 V6" is the 3.6: the number says it all
            return "same"
        return ("more" if said > held else "unclear") if key == "engine" else "other"
    if key in ("drive", "axle", "transmission", "market"):
        return "other"
    if not said & held and said_numbers == held_numbers == frozenset():
        return "other"
    return "unclear"


def _numbers(words: frozenset[str]) -> frozenset[str]:
    return frozenset(word for word in words if word[0].isdigit() and word[-1].isdigit())


def built_within(built: date, row_value: str) -> bool:
    """Whether a build month lies in a row's range "..2016-05", "2016-06..", "2016-06..2017-01"; both ends belong."""
    low, _, high = row_value.partition("..")
    month = (built.year, built.month)
    return (not low or month >= _month(low)) and (not high or month <= _month(high))


def _month(text: str) -> tuple[int, int]:
    match = _MONTH.match(text.strip())
    if match is None:
        raise ValueError(f"{text!r} is no month such as 2016-05")
    return int(match[1]), int(match[2])
