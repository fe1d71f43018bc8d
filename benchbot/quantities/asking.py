"""Plain conversion questions ("108 nm to ft lbs"): a whole message that holds a figure, units, and nothing else.

Any word beyond a closed set leaves the message to the rest of the bot, so a question about a vehicle never ends here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from benchbot.errors import QuantityError
from benchbot.quantities.amounts import Amount, Single
from benchbot.quantities.numbers import NUMBER
from benchbot.quantities.reading import read_plain
from benchbot.quantities.reckoning import ConvertedTo, reckon
from benchbot.quantities.units import BARE, LONGEST_SPELLING, SPELLINGS, UNITS, Dimension, fold_spelling, tidy_signs

_PREPOSITIONS = frozenset({"in", "to", "into", "as"})
_TARGET_AHEAD = frozenset({"many", "much", "what", "whats"})
_GLUE = _PREPOSITIONS | {
    *("what", "whats", "is", "are", "how", "many", "much", "convert", "converted", "conversion", "change"),
    *("=", "equals", "equal", "please", "pls", "plz", "hey", "hi", "ok", "thanks", "thx"),
    *("a", "an", "the", "do", "does", "you", "can", "u", "me", "give", "tell"),
}
_MEASURED_THINGS = (("pads", "at"), ("pad", "at"))

_MOST_LETTERS = 120
_PIECE = re.compile(rf"(?P<unit>32nds?\b)|(?P<figure>{NUMBER})|(?P<word>[a-z]+[0-9\u00b2\u00b3]?|[\"\u00b0/%#=])")
_SKIPPED = re.compile(r"[\s.,;:!?*\u00b7-]")
_32NDS_SUFFIX = re.compile(r"(/ ?32)\s?nds?\b")
# In a message these are other things as often as they are units: an engine, a rotor, an axle, a socket.
_OFFERED_WITHOUT_TARGET = frozenset({"torque", "pressure", "temperature"})
_TOO_SHORT_WITHOUT_TARGET = frozenset({"c", "f", "bar", "bars"})

_OFFERS: dict[str, tuple[str, ...]] = {
    "torque": ("N\u00b7m", "lb-ft", "lb-in", "kgf\u00b7m"),
    "pressure": ("kPa", "psi", "bar"),
    "temperature": ("\u00b0C", "\u00b0F"),
    "length": ("mm", "in"),
    "volume": ("L", "qt"),
    "angle": ("deg", "turns"),
}
_POUNDS_MEAN: dict[str, tuple[str, ...]] = {"torque": ("lb-ft", "lb-in"), "pressure": ("psi",)}


@dataclass(frozen=True, slots=True)
class Conversion:
    """An answered conversion. target is the unit asked for, or None; then results holds the usual other units."""

    source: Amount
    target: str | None
    results: tuple[ConvertedTo, ...]


@dataclass(frozen=True, slots=True)
class BareUnitQuestion:
    """A conversion that cannot be made before a unit is named.

    number: the figure as written. said: the word in the unit's place ("lbs"), or "". missing: whether the unit of the
    figure or the one to convert to must be named. known: symbol of the other one. choices: symbols to
    ask between.
    """

    number: str
    said: str
    missing: Literal["source", "target"]
    known: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Reading:
    """One way to read the message; each unit is a folded spelling, or "" where none was said."""

    source: str
    target: str


def asked_conversion(text: str) -> Conversion | BareUnitQuestion | None:
    """The conversion that the whole message asks for.

    None when the message is anything else, or when its figure cannot be read or held. When the message can be read in
    two ways that differ ("108 nm in lbs"), a BareUnitQuestion asks.
    """
    pieces = _pieces(text)
    if pieces is None:
        return None
    before, figure, after = pieces
    readings = set(_readings(before, after))
    whole = {r for r in readings if r.target and r.source and _fits(r)}
    if whole:
        return _answer_or_ask(figure, whole)
    offers = {r for r in readings if r.source and not r.target}
    if offers:
        return _offer(figure, offers)
    targets = {r.target for r in readings if not r.source and r.target}
    if len(targets) == 1 and not targets & BARE:
        return _without_source(figure, targets.pop())
    return None


def answered(question: BareUnitQuestion, choice: str) -> Conversion | None:
    """The conversion once one of the question's choices is picked; None when its figure cannot be held."""
    if question.missing == "source":
        return _converted(question.number, choice, (question.known,), question.known)
    return _converted(question.number, question.known, (choice,), choice)


def _pieces(text: str) -> tuple[list[str], str, list[str]] | None:
    """The words before the figure, the figure, and the words after it; None unless there is just one figure."""
    if len(text) > _MOST_LETTERS or not any(letter.isdigit() for letter in text):
        return None
    plain = _32NDS_SUFFIX.sub(r"\1", tidy_signs(text).casefold().replace("'", "").replace("\u2019", ""))
    words: list[str] = []
    figures: list[tuple[int, str]] = []
    at = 0
    while at < len(plain):
        piece = _PIECE.match(plain, at)
        if piece is None:
            if not _SKIPPED.match(plain, at):
                return None
            at += 1
        elif piece["figure"]:
            figures.append((len(words), piece["figure"]))
            at = piece.end()
        else:
            words.append(fold_spelling(piece[0]) or piece[0])
            at = piece.end()
    if len(figures) != 1:
        return None
    place, figure = figures[0]
    before, after = words[:place], words[place:]
    if tuple(before[:2]) in _MEASURED_THINGS:
        before = before[2:]
    return before, figure, after


def _readings(before: list[str], after: list[str]) -> Iterator[_Reading]:
    ahead = {""} if _is_glue(before) else set()
    for start, end, spelling in _spellings_in(before):
        if _is_glue(before[:start]) and _TARGET_AHEAD & set(before[:start]) and _is_glue(before[end:]):
            ahead.add(spelling)
    for length in range(min(len(after), LONGEST_SPELLING) + 1):
        source = " ".join(after[:length])
        if source and source not in SPELLINGS and source not in BARE:
            continue
        rest = after[length:]
        behind = {""} if _is_glue(rest) else set()
        for start, end, spelling in _spellings_in(rest):
            if _is_glue(rest[:start]) and _is_glue(rest[end:]):
                behind.add(spelling)
        for one in ahead:
            for other in behind:
                if not (one and other):
                    yield _Reading(source, one or other)


def _spellings_in(words: list[str]) -> Iterator[tuple[int, int, str]]:
    for start in range(len(words)):
        for end in range(start + 1, min(len(words), start + LONGEST_SPELLING) + 1):
            spelling = " ".join(words[start:end])
            if spelling in SPELLINGS or spelling in BARE:
                yield start, end, spelling


def _is_glue(words: list[str]) -> bool:
    """Whether the words carry nothing; two prepositions in a row are no English ("to in lbs" means inch pounds)."""
    if any(word not in _GLUE for word in words):
        return False
    return not any(one in _PREPOSITIONS and other in _PREPOSITIONS for one, other in pairwise(words))


def _dimension(spelling: str) -> Dimension:
    return UNITS[SPELLINGS[spelling]].dimension


def _fits(reading: _Reading) -> bool:
    """Whether source and target can measure the same thing."""
    source, target = reading.source, reading.target
    if source in BARE:
        return target not in BARE and _dimension(target) in _POUNDS_MEAN
    if target in BARE:
        return _dimension(source) in _POUNDS_MEAN
    return _dimension(source) == _dimension(target)


def _answer_or_ask(figure: str, readings: set[_Reading]) -> Conversion | BareUnitQuestion | None:
    bare = sorted((r for r in readings if r.source in BARE or r.target in BARE), key=lambda r: (r.source, r.target))
    if bare:
        reading = bare[0]
        if reading.source in BARE:
            target = SPELLINGS[reading.target]
            return BareUnitQuestion(figure, reading.source, "source", target, _POUNDS_MEAN[UNITS[target].dimension])
        source = SPELLINGS[reading.source]
        return BareUnitQuestion(figure, reading.target, "target", source, _POUNDS_MEAN[UNITS[source].dimension])
    pairs = sorted({(SPELLINGS[r.source], SPELLINGS[r.target]) for r in readings})
    if len(pairs) > 1:
        # No message is known to reach this; should one, it is no plain question and must not be guessed at.
        return None
    return _converted(figure, pairs[0][0], (pairs[0][1],), pairs[0][1])


def _offer(figure: str, readings: set[_Reading]) -> Conversion | BareUnitQuestion | None:
    spellings = {r.source for r in readings}
    if len(spellings) > 1 or spellings & BARE or spellings & _TOO_SHORT_WITHOUT_TARGET:
        return None
    source = SPELLINGS[spellings.pop()]
    dimension = UNITS[source].dimension
    if dimension not in _OFFERED_WITHOUT_TARGET:
        return None
    return _converted(figure, source, tuple(unit for unit in _OFFERS[dimension] if unit != source), None)


def _without_source(figure: str, target: str) -> Conversion | BareUnitQuestion | None:
    symbol = SPELLINGS[target]
    dimension = UNITS[symbol].dimension
    if dimension == "length" and "/" in figure:
        # Nobody writes fractions of a millimetre: a bare fraction is one of an inch.
        return _converted(figure, "in", (symbol,), symbol)
    choices = tuple(unit for unit in _OFFERS[dimension] if unit != symbol)
    return BareUnitQuestion(figure, "", "source", symbol, choices)


def _converted(figure: str, source: str, targets: tuple[str, ...], target: str | None) -> Conversion | None:
    dimension = UNITS[source].dimension
    try:
        read = read_plain(dimension, f"{figure} {source}")
    except QuantityError:
        # Not a figure we can hold ("1,500", "0 N·m"): then it is no conversion question, and the rest of the bot asks.
        return None
    if not isinstance(read, Single):
        return None
    amount = Amount(read.amount.number, read.amount.unit, figure)
    return Conversion(amount, target, tuple(reckon(amount, unit) for unit in targets))
