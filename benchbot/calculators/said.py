"""A message cut into what calculators read: figures with their units, threads, fluid grades, and words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from benchbot.calculators.factors import KINDS
from benchbot.calculators.words import meant, together
from benchbot.errors import QuantityError
from benchbot.quantities.numbers import NUMBER, last_digit, read_number
from benchbot.quantities.units import BARE, LONGEST_SPELLING, SPELLINGS, fold_spelling, tidy_signs
from benchbot.vocabulary.letters import fold

_MOST_LETTERS = 240
_ALSO_UNITS = {
    "km": "km", "kms": "km", "kilometer": "km", "kilometers": "km", "kilometre": "km", "kilometres": "km", "k km": "km",
    "mile": "miles", "miles": "miles", "mi": "miles", "week": "weeks", "weeks": "weeks", "month": "months",
    "months": "months", "year": "years", "years": "years", "yrs": "years", "anos": "years", "meses": "months",
    "millas": "miles", "%": "%", "percent": "%", "pct": "%",
}  # fmt: skip
# Behind a figure these make "in" the little word: "set 80 in the truck"; a unit behind it does so too.
_AFTER_THE_WORD_IN = frozenset({"a", "an", "the", "my", "our", "this", "that", "it", "both", "total"})
# Nobody drives 30.000 km to a metre: before these a comma parts thousands.
_A_DISTANCE = re.compile(r" ?(?:km|kms|kilomet|mi\b|miles?\b|millas)")
_THOUSANDS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+")

_TOKEN = re.compile(
    r"(?P<grade>\bdot[ -]?(?P<dot>5[.,]1|[345])(?![0-9])(?![.,][0-9]))"
    r"|(?P<thread>\bm ?[0-9]{1,2}(?: ?[x\u00b7*-] ?[0-9](?:[.,][0-9]{1,2})?)?(?![0-9.])(?: fine\b)?"
    r"|\b[0-9]{1,2}/[0-9]{1,2}-[0-9]{2}\b)"
    r"|(?P<drive>(?:1/4|3/8|1/2|3/4|\b1)(?: ?(?:\"|in(?:ch)?\b))?[ -]?(?:drive|dr\b|sq\b|square\b|ratchet))"
    r"|(?P<strength>\b(?:class|grade|grado|gr|cl|clase|property class)[ .]?(?P<class>[0-9]{1,2}(?:\.[0-9])?)(?![0-9]))"
    r"|(?P<gauged>32nds?\b)"
    rf"|(?P<figure>{NUMBER.removeprefix('[+-]?')})(?P<thousand>k(?![a-z]))?"
    r"|(?P<word>[a-z]+[0-9\u00b2\u00b3]?|[\"\u00b0/%])"
    r"|(?P<mark>[,;.!?:=&()]+)"
)

Kind = Literal["figure", "word", "thread", "grade", "strength", "mark"]


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a message.

    word: what a word means; the name of a thread ("M12x1.5"), the grade of a fluid ("5.1"), a strength ("10.9").
    number, unit, text of a figure: unit is a symbol, "" where none was said; bare is a word in its place ("lbs").
    raw: as it was written.
    """

    kind: Kind
    raw: str
    word: str = ""
    number: Decimal = Decimal(0)
    unit: str = ""
    text: str = ""
    bare: str = ""

    @property
    def measures(self) -> str:
        """What the unit of a figure measures; "" without a unit, or with one that no calculator knows."""
        return KINDS.get(self.unit, "")

    @property
    def step(self) -> Decimal:
        """What one step of the last place written is worth, in the figure's unit."""
        return last_digit(self.text)

    @property
    def off(self) -> Decimal:
        """How far off a figure can be that was read to its last place: half of that place."""
        return self.step / 2

    def shown(self) -> str:
        return f"{self.text} {self.unit}" if self.unit else self.text


@dataclass(frozen=True, slots=True)
class Message:
    """The pieces of a message in order; words come as they are meant."""

    pieces: tuple[Piece, ...]

    @property
    def words(self) -> frozenset[str]:
        return frozenset(piece.word for piece in self.pieces if piece.kind == "word")

    def of(self, kind: Kind) -> list[Piece]:
        return [piece for piece in self.pieces if piece.kind == kind]

    def figures(self, measures: str | None = None) -> list[Piece]:
        """All figures, or those that measure something ("" = those without a unit)."""
        return [piece for piece in self.of("figure") if measures is None or piece.measures == measures]

    def says(self, *words: str) -> bool:
        return not self.words.isdisjoint(words)

    def is_made_of(self, words: frozenset[str]) -> bool:
        """Whether every word is one of these."""
        return self.words <= words

    def with_unit(self, unit: str, *figures: Piece) -> str:
        """The message written anew, these figures with a unit."""
        named = {id(figure) for figure in figures}
        return " ".join(
            f"{piece.text} {unit}" if id(piece) in named else piece.raw for piece in self.pieces if piece.raw != "."
        )


def cut(text: str, known: frozenset[str]) -> Message | None:
    """The pieces of a message; known: words that stand for something, toward which a slip may be put right.

    None when it is too long, holds a sign that nothing here reads, or a figure that is none ("1,500").
    """
    if len(text) > _MOST_LETTERS:
        return None
    tidied = re.sub(r"(?<=[a-z])['\u2019\u00b4`](?=[a-z])", "", fold(tidy_signs(text)))
    try:
        return Message(tuple(_with_units(list(_pieces(together(tidied), known)))))
    except QuantityError:
        return None


def _pieces(text: str, known: frozenset[str]) -> Iterator[Piece]:
    at, sign = 0, ""
    while at < len(text):
        letter = text[at]
        if letter in "+-" and not sign:
            before, behind = text[at - 1 : at], text[at + 1 : at + 2]
            if (behind.isdigit() or behind == ".") and (not before or before.isspace() or before in "(,/"):
                sign = letter
            elif (before.isalnum() and (behind.isdigit() or behind == ".")) or before == behind == " ":
                yield Piece("word", "to", "to")
            at += 1
            continue
        if letter.isspace() or letter in "*\u00b7_-'~":
            at += 1
            continue
        match = _TOKEN.match(text, at)
        if match is None:
            raise QuantityError(f"{letter!r} is nothing that a calculator reads")
        yield from _piece(match, sign, known)
        at, sign = match.end(), ""


def _piece(match: re.Match[str], sign: str, known: frozenset[str]) -> Iterator[Piece]:
    raw = match[0]
    if match["grade"]:
        yield Piece("grade", raw, match["dot"].replace(",", "."))
    elif match["thread"]:
        fine = raw.endswith(" fine")
        name = raw.removesuffix(" fine").replace(" ", "").replace("\u00b7", "x").replace("*", "x")
        metric = name.startswith("m")
        yield Piece("thread", raw, name.replace("-", "x", 1).replace("m", "M") if metric else name)
        if fine:
            yield Piece("word", "fine", "fine")
    elif match["drive"]:
        yield Piece("word", raw, "drive")
    elif match["strength"]:
        yield Piece("strength", raw, match["class"])
    elif match["figure"]:
        yield _figure(match, sign)
    elif match["gauged"]:
        yield Piece("word", raw, raw)
    elif match["word"]:
        yield Piece("word", raw, raw if raw in '"\u00b0/%' else meant(raw, known))
    else:
        yield Piece("mark", raw[0])


def _figure(match: re.Match[str], sign: str) -> Piece:
    text = match["figure"]
    if _THOUSANDS.fullmatch(text) and _A_DISTANCE.match(match.string, match.end()):
        text = text.replace(",", "")
    number = read_number(text)
    if match["thousand"]:
        number *= 1000
        text = f"{number:f}"
    text = text if sign != "-" else f"-{text}"
    number = number.copy_negate() if sign == "-" else number
    return Piece("figure", f"{sign}{match[0]}", number=number, text=text, unit="in" if "/" in text else "")


def _with_units(pieces: list[Piece]) -> Iterator[Piece]:
    """Takes the words of a unit into the figure before them."""
    at = 0
    while at < len(pieces):
        piece = pieces[at]
        at += 1
        if piece.kind != "figure":
            # a stroke that belongs to no unit parts two figures
            yield Piece("mark", "/") if piece.word == "/" else piece
            continue
        words = [p.raw for p in _run_of_words(pieces, at)]
        length, unit, bare = _unit_in(words)
        raw = " ".join([piece.raw, *words[:length]])
        number, text = piece.number, piece.text
        if unit == "32nds" and "/" in text:
            number, text = number * 32, text.partition("/")[0]
        if length:
            piece = replace(piece, raw=raw, unit=unit, bare=bare, number=number, text=text)
        yield piece
        at += length


def _run_of_words(pieces: list[Piece], start: int) -> Iterator[Piece]:
    for piece in pieces[start : start + LONGEST_SPELLING + 1]:
        if piece.kind != "word":
            return
        yield piece


def _unit_in(words: list[str]) -> tuple[int, str, str]:
    """How many words the unit at the start takes, its symbol, and the word in its place that is none."""
    for length in range(min(len(words), LONGEST_SPELLING), 0, -1):
        spelling = fold_spelling(" ".join(words[:length])) or " ".join(words[:length])
        unit = SPELLINGS.get(spelling) or _ALSO_UNITS.get(spelling)
        if unit is not None and spelling == "in":
            inner = _unit_in(words[1:])
            if (inner[1] and KINDS.get(inner[1]) != "length") or inner[1] == "mm":
                return inner[0] + 1, inner[1], inner[2]
            if len(words) > 1 and words[1] in _AFTER_THE_WORD_IN:
                return 0, "", ""
        if unit is not None:
            return length, unit, ""
        if spelling in BARE:
            return length, "", spelling
    return 0, "", ""
