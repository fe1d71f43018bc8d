"""The closed table of units, every spelling that stands for one, and how a spelling is recognised.

Nothing outside this table is a unit. A spelling is compared whole after folding; it is never corrected.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from itertools import product
from typing import Literal

from benchbot.errors import UnitError

Dimension = Literal["torque", "length", "volume", "angle", "pressure", "temperature"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: the symbol shown to people, its dimension, the spellings read as it.

    most: beyond this many of the unit a figure is refused as a slip of the pen.
    """

    symbol: str
    dimension: Dimension
    most: Decimal
    spellings: tuple[str, ...]


class BareUnitError(UnitError):
    """A figure without a unit, or with a word such as "lbs" that is not one until foot or inch is said.

    number: the figure, or None when it could not be told. said: the word written in the unit's place, or "".
    choices: symbols of the units to ask between.
    """

    def __init__(self, number: Decimal | None, said: str, choices: tuple[str, ...], message: str) -> None:
        self.number = number
        self.said = said
        self.choices = choices
        super().__init__(message)


_SAME_SIGN = str.maketrans(
    {
        **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\t\r\n", " "),
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
        **dict.fromkeys("\u22c5\u2219\u2022\u30fb\u00d7\u2715", "\u00b7"),
        **dict.fromkeys("\u201c\u201d\u2033\uff02", '"'),
        **dict.fromkeys("\u02da\u00ba", "\u00b0"),
        **dict.fromkeys("\u2044\u2215", "/"),
        "\u2103": "\u00b0C",
        "\u2109": "\u00b0F",
        "\u2026": "..",
        "\u00bd": " 1/2",
        "\u00bc": " 1/4",
        "\u00be": " 3/4",
        "\u215b": " 1/8",
        "\u215c": " 3/8",
        "\u215d": " 5/8",
        "\u215e": " 7/8",
    }
)

_SPELLING_PART = re.compile(r"32nds?|[a-z]+[0-9\u00b2\u00b3]?|[\"\u00b0/%#]")
_BETWEEN_PARTS = re.compile(r"[ .*\u00b7-]*")


def tidy_signs(text: str) -> str:
    """The text with look-alike dashes, dots, quotes, spaces and fraction signs made one; letters and digits stay."""
    return text.translate(_SAME_SIGN).replace("''", '"').strip()


def fold_spelling(text: str) -> str | None:
    """The form that spellings are compared in: lower case, parts parted by one space ("Ft-Lbs." -> "ft lbs").

    None when the text holds a sign that no spelling holds, or a sign before or after its parts other than one full
    stop at the end: "95 - N·m" is half a range and no 95 N·m.
    """
    folded = tidy_signs(text).casefold()
    parts: list[str] = []
    at = end = 0
    while at < len(folded):
        part = _SPELLING_PART.match(folded, at)
        if part is None:
            return None
        parts.append(part[0].replace("\u00b2", "2").replace("\u00b3", "3"))
        end = part.end()
        between = _BETWEEN_PARTS.match(folded, end)
        at = between.end() if between else end
    if folded[end:] not in ("", "."):
        return None
    return " ".join(parts) or None


def _joined(first: tuple[str, ...], second: tuple[str, ...], between: tuple[str, ...] = (" ", "")) -> tuple[str, ...]:
    """Each first word beside each second word: "ft lb", "ftlb", ..."""
    return tuple(f"{one}{gap}{two}" for one, two, gap in product(first, second, between))


_FOOT = ("ft", "foot", "feet")
_INCH = ("in", "inch", "inches")
_POUND = ("lb", "lbs", "lbf", "pound", "pounds", "lb f", "lbs f", "pound force", "pounds force")
_METRE = ("m", "meter", "meters", "metre", "metres")
_CENTIMETRE = ("cm", "centimeter", "centimeters", "centimetre", "centimetres")
_KILOGRAM = ("kg", "kgs", "kgf", "kg f", "kilogram", "kilograms", "kilogram force")
_IMPERIAL = ("imp", "imperial", "uk")
_US = ("us", "u s")
_LITRE = ("liter", "liters", "litre", "litres")
_QUART = ("qt", "qts", "quart", "quarts")
_PINT = ("pt", "pts", "pint", "pints")
_GALLON = ("gal", "gals", "gallon", "gallons")
_OUNCE = ("fl oz", "floz", "fluid oz", "fluid ounce", "fluid ounces")
_DEGREE = ("deg", "degs", "degree", "degrees", "\u00b0")


def _pounds_on(lever: tuple[str, ...], short: tuple[str, ...]) -> tuple[str, ...]:
    with_slash = _joined(short, ("lb", "lbs", "lbf"), (" / ",)) + _joined(("lb", "lbs", "lbf"), short, (" / ",))
    return _joined(lever, _POUND) + _joined(_POUND, lever) + with_slash


_TABLE: tuple[Unit, ...] = (
    Unit("N\u00b7m", "torque", Decimal(5000), _joined(("n", "newton", "newtons"), _METRE)),
    Unit("lb-ft", "torque", Decimal(3700), _pounds_on(_FOOT, ("ft",))),
    Unit("lb-in", "torque", Decimal(44000), _pounds_on(_INCH, ("in",))),
    Unit("kgf\u00b7m", "torque", Decimal(510), (*_joined(_KILOGRAM, _METRE), "mkg", "m kg", "mkgf", "m kgf")),
    Unit("kgf\u00b7cm", "torque", Decimal(51000), (*_joined(_KILOGRAM, _CENTIMETRE), "cm kg", "cmkg")),
    Unit("mm", "length", Decimal(10000), ("mm", "mms", *_joined(("milli",), _METRE[1:], ("",)))),
    Unit("cm", "length", Decimal(1000), _CENTIMETRE),
    Unit("in", "length", Decimal(400), (*_INCH, '"')),
    Unit("thou", "length", Decimal(400000), ("thou", "thous", "mil", "mils", "thousandths", "thousandths of an inch")),
    Unit("32nds", "length", Decimal(12800), ("32nd", "32nds", "32nds of an inch", "32nds in", "32nds inch")),
    Unit("L", "volume", Decimal(1000), ("l", "lt", "ltr", "ltrs", *_LITRE)),
    Unit(
        "mL",
        "volume",
        Decimal(1000000),
        (
            "ml",
            "mls",
            *_joined(("milli",), _LITRE, ("",)),
            "cc",
            "ccs",
            "cm3",
            *_joined(("cubic",), _CENTIMETRE, (" ",)),
        ),
    ),
    Unit("qt", "volume", Decimal(1000), (*_QUART, *_joined(_US, _QUART, (" ",)))),
    Unit("pt", "volume", Decimal(2000), (*_PINT, *_joined(_US, _PINT, (" ",)))),
    Unit("gal", "volume", Decimal(250), (*_GALLON, *_joined(_US, _GALLON, (" ",)))),
    Unit("fl oz", "volume", Decimal(32000), (*_OUNCE, *_joined(_US, _OUNCE, (" ",)))),
    Unit("imp qt", "volume", Decimal(900), _joined(_IMPERIAL, _QUART, (" ",))),
    Unit("imp pt", "volume", Decimal(1800), _joined(_IMPERIAL, _PINT, (" ",))),
    Unit("imp gal", "volume", Decimal(220), _joined(_IMPERIAL, _GALLON, (" ",))),
    Unit("imp fl oz", "volume", Decimal(36000), _joined(_IMPERIAL, _OUNCE, (" ",))),
    Unit("deg", "angle", Decimal(3600), _DEGREE),
    Unit("turns", "angle", Decimal(100), ("turn", "turns")),
    Unit("kPa", "pressure", Decimal(100000), ("kpa", "kilopascal", "kilopascals")),
    Unit("MPa", "pressure", Decimal(100), ("mpa", "megapascal", "megapascals")),
    Unit("psi", "pressure", Decimal(15000), ("psi", "psig", "pounds per square inch")),
    Unit("bar", "pressure", Decimal(1000), ("bar", "bars")),
    Unit("kgf/cm\u00b2", "pressure", Decimal(1000), _joined(("kgf", "kg"), ("cm2",), (" / ",))),
    Unit(
        "\u00b0C", "temperature", Decimal(2000), ("c", "celsius", "degc", *_joined(_DEGREE, ("c", "celsius"), (" ",)))
    ),
    Unit(
        "\u00b0F",
        "temperature",
        Decimal(3600),
        ("f", "fahrenheit", "degf", *_joined(_DEGREE, ("f", "fahrenheit"), (" ",))),
    ),
)

UNITS: dict[str, Unit] = {unit.symbol: unit for unit in _TABLE}

SPELLINGS: dict[str, str] = {spelling: unit.symbol for unit in _TABLE for spelling in unit.spellings}
"""Folded spelling (one or several words) -> symbol of the unit."""

BARE: frozenset[str] = frozenset({"lb", "lbs", "pound", "pounds", "#"})
"""Words written in a unit's place that are no unit until foot or inch is said."""

ALSO_WORDS: frozenset[str] = frozenset(
    {"in", "c", "f", "l", "lt", "turn", "turns", "mil", "bar", "bars", "pt", "pts", "32nd"}
)
"""Spellings that mean something else in a message unless a figure stands straight before them."""

LONGEST_SPELLING: int = max(len(spelling.split()) for spelling in SPELLINGS)
"""How many words the longest spelling has."""


def read_unit(text: str) -> Unit | None:
    """The unit that the whole text spells, or None."""
    folded = fold_spelling(text)
    symbol = None if folded is None else SPELLINGS.get(folded)
    return None if symbol is None else UNITS[symbol]


def units_of(dimension: Dimension) -> tuple[str, ...]:
    """The symbols of every unit of a dimension, in the order of the table."""
    return tuple(unit.symbol for unit in _TABLE if unit.dimension == dimension)


def unit_named(symbol: str) -> Unit:
    """The unit with this symbol; UnitError when there is none."""
    unit = UNITS.get(symbol)
    if unit is None:
        raise UnitError(f"{symbol!r} is no unit of ours; use one of {', '.join(UNITS)}")
    return unit
