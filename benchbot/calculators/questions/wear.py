"""Asked: what is left of a pad or a rotor, and how long it lasts at the wear seen so far."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from itertools import pairwise

from benchbot.calculators import asking_back as back
from benchbot.calculators.factors import in_unit, plain, rounded
from benchbot.calculators.roles import assign
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.wear import Lasting, Reading, lasts, left, share_left
from benchbot.calculators.words import GLUE
from benchbot.outcomes import Calculation, Choose, Picture, Sentence

_WAS = frozenset({"new", "was", "were", "started", "start", "original", "originally", "fresh", "fitted", "from"})
_NOW = frozenset({"now", "today", "measures", "measured", "measure"})
_MIN = frozenset({"min", "limit", "discard", "until", "till", "replace", "minimum", "scrap", "stamped"})
# Beside these a thickness is the present one, unless the message then reads in two ways.
_PLAINLY_NOW = frozenset(
    {"thickness", "pad", "rotor", "thats", "got", "have", "has", "reads", "with", "im", "is", "are", "its", "down"}
)
_ROLES = {"was": _WAS, "now": _NOW, "limit": _MIN}
_PARTS = frozenset({"pad", "rotor", "thickness", "friction", "material"})
_LIFE = frozenset({"howlong", "last", "lasts", "life", "lasting", "remain", "remains", "wear", "wearing"})
_LEFT = frozenset({"left", "remaining", "remain", "remains"})
WORDS = _PARTS | _LIFE | _LEFT | _WAS | _NOW | _MIN | frozenset(
    {"miles", "km", "months", "years", "thick", "worn", "mileage", "driven", "drove", "run", "ran", "wore", "meat",
     "k", "gone", "is", "are", "at", "its", "down", "percent", "%", "rate", "went", "more", "per", "service", "ago",
     "inner", "outer", "hit", "hits", "replacing", "replaced"}
)  # fmt: skip
_KNOWN = WORDS | GLUE
_RAN = ("distance", "time")
_ROUND = Decimal(1000)
# A drum or a rotor measured across is no thickness.
_THICKEST = Decimal(80)


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """What is left, or how long it lasts; None when the message asks for anything else."""
    if not message.says(*_PARTS) or not message.is_made_of(_KNOWN) or message.of("thread") or message.of("grade"):
        return None
    figures = message.figures()
    if any(f.measures not in ("length", "", *_RAN) or f.number < 0 for f in figures):
        return None
    ran = [f for f in figures if f.measures in _RAN]
    far = [f for f in figures if f.measures == "" and f.number >= _ROUND]
    sizes = [f for f in figures if f.measures in ("length", "") and f not in far]
    if len(ran) + len(far) > 1 or len(sizes) > 3 or not _says_enough(message, sizes, figures):
        return None
    thick = [f for f in sizes if f.unit and in_unit(f.number, f.unit, "mm") > _THICKEST]
    if thick and all(f.unit == "in" for f in thick):
        title = Sentence.of("no such thickness", figure=thick[0].shown())
        formula = f"{thick[0].shown()} > {_THICKEST} mm"
        return Calculation(thick[0].shown(), "", formula, title, (Sentence("measure again"),), refused=True)
    if thick:
        return None
    if far:
        return back.which_unit(message, far, back.DISTANCES)
    return _asked(message, sizes, ran[0] if ran else None, message.says(*_LIFE) or bool(ran))


def _says_enough(message: Message, sizes: list[Piece], figures: list[Piece]) -> bool:
    """Whether it can be no question for the book, such as "1500 rear pads min, 140k miles on it"."""
    if message.says("last", "lasts", "lasting") and message.says("howlong") and (len(sizes) >= 2 or not figures):
        return True
    measured = [f for f in sizes if f.unit]
    if len(sizes) == len(_ROLES) and measured and all(message.says(*words) for words in _ROLES.values()):
        return True
    if message.says(*_LEFT, *_LIFE) and len(measured) >= 2:
        return True
    return len(sizes) >= 2 and len(figures) > len(sizes) and (bool(measured) or message.says("new", "was", "were"))


def _asked(message: Message, sizes: list[Piece], ran: Piece | None, life: bool) -> Calculation | Choose | None:
    if message.says("inner") and message.says("outer"):
        return None
    if not sizes and ran is None:
        return back.missing(back.WEAR_ALL, message) if life and message.says("howlong") else None
    message = _left_behind_a_figure(message)
    found = assign(message, sizes, _ROLES)
    if found is None:
        found = assign(message, sizes, _ROLES | {"now": _NOW | _PLAINLY_NOW})
    if found is None:
        # with neither a run nor three figures it may be a question for the book
        return back.missing(back.WEAR_ROLES, message) if ran and len(sizes) > 1 else None
    bare = [f for f in sizes if not f.unit]
    if bare:
        return back.which_gauge(message, bare)
    now, limit, was = found.get("now"), found.get("limit"), found.get("was")
    if now is None:
        return back.missing(back.WEAR_ROLES, message) if ran else None
    if limit is None:
        return back.missing(back.WEAR_LIMIT, message, "limit") if was is not None else None
    if was is None:
        return back.missing(back.WEAR_WAS, message) if ran or life else _what_is_left(now, limit)
    highest = in_unit(was.number, was.unit, now.unit)
    if highest < now.number or highest <= in_unit(limit.number, limit.unit, now.unit):
        # nothing grows by wear: the figures went to the wrong words
        return back.missing(back.WEAR_ROLES, message)
    if ran is None:
        if life:
            return back.missing(back.WEAR_RAN, message)
        return replace(_what_is_left(now, limit, was), picture=_picture(message, was, now, limit))
    return replace(_how_long(was, now, limit, ran), picture=_picture(message, was, now, limit, ran))


def _picture(message: Message, was: Piece, now: Piece, limit: Piece, ran: Piece | None = None) -> Picture:
    """Both readings and the limit, in the unit of the present one; a reading's place is what it ran until then."""
    start, end = (_drawn(in_unit(one.number, one.unit, now.unit)) for one in (was, limit))
    parts = [part for part, word in (("lining", "pad"), ("rotor", "rotor")) if message.says(word)]
    places = ("", "") if ran is None else ("0", ran.shown())
    readings = ((places[0], start), (places[1], _drawn(now.number)))
    return Picture("wear", part=parts[0] if len(parts) == 1 else "", unit=now.unit, readings=readings, limit=end)


def _drawn(size: Decimal) -> str:
    return plain(size.quantize(Decimal("0.0001")))


def _left_behind_a_figure(message: Message) -> Message:
    """The message with "5 mm left" said as "5 mm now"; "how much is left" says nothing of a figure."""
    pieces = [
        replace(piece, word="now") if piece.word in _LEFT and before.measures == "length" else piece
        for before, piece in pairwise((Piece("mark", ""), *message.pieces))
    ]
    return Message(tuple(pieces))


def _steps(unit: str) -> str:
    return {"in": "0.001", "thou": "1"}.get(unit, "0.01")


def _what_is_left(now: Piece, limit: Piece, was: Piece | None = None) -> Calculation:
    unit = now.unit
    end = in_unit(limit.number, limit.unit, unit)
    rest = left(now.number, end)
    shown = f"{plain(Decimal(rounded(rest, _steps(unit))))} {unit}"
    formula = f"{plain(now.number)} - {plain(end.quantize(Decimal('0.0001')))} = {shown}"
    given = f"{now.shown()}, {limit.shown()}"
    if rest == 0:
        title = Sentence.of("nothing left", limit=limit.shown())
        formula = f"{plain(now.number)} ≤ {plain(end)}"
        return Calculation(given, shown, formula, title, cautions=(Sentence("at the limit"),))
    lines = [Sentence("thinnest place counts")]
    if was is not None and in_unit(was.number, was.unit, unit) > end:
        whole = in_unit(was.number, was.unit, unit)
        share = rounded(share_left(whole, now.number, end), "1")
        lines.insert(0, Sentence.of("share left", share=share, was=was.shown()))
    return Calculation(given, shown, formula, Sentence.of("left", left=shown), tuple(lines))


def _how_long(was: Piece, now: Piece, limit: Piece, ran: Piece) -> Calculation:
    unit = now.unit
    start, end = in_unit(was.number, was.unit, unit), in_unit(limit.number, limit.unit, unit)
    given = f"{was.shown()} → {now.shown()}, {ran.shown()}; {limit.shown()}"
    if now.number <= end:
        return _what_is_left(now, limit, was)
    first = Reading(start, in_unit(was.off, was.unit, unit))
    lasting = lasts(first, Reading(now.number, now.off), end, ran.number)
    if lasting is None:
        return Calculation(given, "", f"{plain(start)} - {plain(now.number)} ≤ 0", Sentence("no wear seen"),
                           (Sentence("measure again"),), refused=True)  # fmt: skip
    places = Decimal("0.0001")
    figures = [plain(n.quantize(places)) for n in (now.number, end, start)]
    shown = f"{_far(lasting.likely, ran.unit)} {ran.unit}"
    if lasting.most is None:
        # the readings allow that hardly anything wore, so that no likely figure can be named
        least = f"{_far(lasting.least, ran.unit, ROUND_FLOOR)} {ran.unit}"
        low, high = plain(now.number - now.off), plain(start + first.off)
        formula = f"({low} - {figures[1]}) / ({high} - {low}) × {plain(ran.number)}"
        title = Sentence.of("lasts at least", least=least)
        return Calculation(given, f"≥ {least}", f"{formula} = {least}", title, (Sentence("measure again"),))
    formula = f"({figures[0]} - {figures[1]}) / ({figures[2]} - {figures[0]}) × {plain(ran.number)} = {shown}"
    lines = [_range(lasting, ran.unit), Sentence("wear goes on as before"), Sentence("thinnest place counts")]
    return Calculation(given, shown, formula, Sentence.of("lasts", far=shown), tuple(lines))


def _range(lasting: Lasting, unit: str) -> Sentence:
    assert lasting.most is not None, "where there is no most, at least is all that is said"
    least, most = _far(lasting.least, unit, ROUND_FLOOR), _far(lasting.most, unit, ROUND_CEILING)
    return Sentence.of("lasts between", least=f"{least} {unit}", most=f"{most} {unit}")


def _far(far: Decimal, unit: str, way: str | None = None) -> str:
    """To a hundred from 1000 up, to a tenth of a month or year, else to one."""
    step = Decimal("0.1") if unit in ("months", "years", "weeks") else Decimal(100) if far >= _ROUND else Decimal(1)
    if way is None:
        return plain((far / step).quantize(Decimal(1)) * step)
    return plain((far / step).to_integral_value(rounding=way) * step)
