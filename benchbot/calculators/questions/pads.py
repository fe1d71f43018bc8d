"""Asked: what a difference between inner and outer pad, or between the ends of one pad, points to."""

from __future__ import annotations

from decimal import Decimal

from benchbot.calculators import asking_back as back
from benchbot.calculators.factors import in_unit, plain, rounded
from benchbot.calculators.pads import difference, of_ends, of_pair
from benchbot.calculators.roles import assign
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.words import GLUE
from benchbot.outcomes import Calculation, Choose, Sentence

_PAIR = {"inner": frozenset({"inner"}), "outer": frozenset({"outer"})}
_ENDS = (
    {"one": frozenset({"top", "upper"}), "other": frozenset({"bottom", "lower"})},
    {"one": frozenset({"leading"}), "other": frozenset({"trailing"})},
    {"one": frozenset({"oneend"}), "other": frozenset({"otherend"})},
)
_END_WORDS = frozenset().union(*(words for pair in _ENDS for words in pair.values()))
WORDS = _END_WORDS | frozenset(
    {"inner", "outer", "pad", "taper", "wear", "worn", "thickness", "measures", "measured", "edge", "point", "points",
     "cause", "causes", "why", "lopsided", "wearing", "friction", "thick", "thinner", "thicker", "caliper", "remaining",
     "single", "same", "wheel", "axle", "unevenly"}
)  # fmt: skip
_KNOWN = WORDS | GLUE


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """The difference and what it points to; None when the message asks for anything else."""
    pair = message.says("inner") and message.says("outer")
    ends = message.says("taper") or (message.says(*_END_WORDS) and message.says("pad"))
    if message.says("inner", "outer") and not pair:
        return None
    if not (pair or ends) or not message.is_made_of(_KNOWN) or message.of("thread") or message.of("grade"):
        return None
    figures = message.figures()
    if len(figures) != 2 or any(f.measures not in ("length", "") or f.number < 0 for f in figures):
        return None
    found = assign(message, figures, _PAIR) if pair else _ends(message, figures)
    if found is None:
        return back.missing(back.PAD_ENDS, message) if pair else None
    bare = [f for f in figures if not f.unit]
    if bare:
        return back.which_gauge(message, bare)
    return _of_pair(found["inner"], found["outer"]) if pair else _of_ends(found["one"], found["other"])


def _ends(message: Message, figures: list[Piece]) -> dict[str, Piece] | None:
    for roles in _ENDS:
        if all(message.says(*words) for words in roles.values()):
            return assign(message, figures, roles)
    # "tapered 6 mm to 3 mm": which end is which makes no difference
    return {"one": figures[0], "other": figures[1]} if message.says("taper") else None


def _difference(one: Piece, other: Piece) -> tuple[str, str, Decimal, Decimal]:
    """The difference as shown, the formula, and both figures in one unit."""
    unit = one.unit
    first, second = one.number, in_unit(other.number, other.unit, unit)
    places = {"in": "0.001", "thou": "1"}.get(unit, "0.01")
    shown = f"{plain(Decimal(rounded(difference(first, second), places)))} {unit}"
    high, low = (plain(n.quantize(Decimal("0.0001"))) for n in (max(first, second), min(first, second)))
    return shown, f"{high} - {low} = {shown}", first, second


def _of_pair(inner: Piece, outer: Piece) -> Calculation:
    shown, formula, first, second = _difference(inner, outer)
    sign = of_pair(first, second)
    if sign == "even":
        return Calculation(f"{inner.shown()}, {outer.shown()}", shown, formula, Sentence("pads even"))
    lines = (Sentence(f"{sign} points to"), Sentence("find the cause"), Sentence("thinner pad counts"))
    return Calculation(f"{inner.shown()}, {outer.shown()}", shown, formula, Sentence.of(sign, difference=shown), lines)


def _of_ends(one: Piece, other: Piece) -> Calculation:
    shown, formula, first, second = _difference(one, other)
    given = f"{one.shown()}, {other.shown()}"
    if of_ends(first, second) == "even":
        return Calculation(given, shown, formula, Sentence("pad even"))
    lines = (Sentence("taper points to"), Sentence("find the cause"), Sentence("thinner end counts"))
    return Calculation(given, shown, formula, Sentence.of("taper", difference=shown), lines)
