"""Engines, brake sizes and axles that are told by a number."""

from __future__ import annotations

from benchbot.understanding.figures import Numbers, is_measured, negated, unit_after
from benchbot.understanding.limits import is_a_figure
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Stated

_INCH = {"in", "inch", "inches", '"', "''"}


_LITRE = {"l", "lt", "ltr", "ltrs", "liter", "litre", "liters", "litres"}


_ENGINE_AFTER = {"t", "turbo", "turbocharged", "d", "td", "tdi", "diesel", "hybrid", "petrol", "gas", "v6", "v8", "i4"}


_BRAKE_WORDS = {
    "brake",
    "brakes",
    "break",
    "breaks",
    "rotor",
    "rotors",
    "disc",
    "discs",
    "disk",
    "disks",
    "brk",
    "brks",
}


_BRAKE_WORDS |= {"drum", "drums", "package", "pkg"}


_WHEEL_WORDS = {"wheel", "wheels", "rim", "rims", "tire", "tires", "tyre", "tyres", "alloy", "alloys", "steelies"}


def read_axle(work: Work, found: Numbers, at: int) -> bool:
    """The size of an axle: "8.8 in axle", "9.5 axle", unless a part of the axle is named with it."""
    unit = at + 1 if work.text(at + 1) in _INCH else at
    noun = work.next_at(unit)
    if work.text(noun) != "axle" or not work.free(noun) or "." not in work.text(at):
        return False
    after = {c.word for c in work.lexicon.canonical(work.text(work.next_at(noun)))}
    places = [at, unit] if after & {"nut", "bolt", "seal", "shaft", "bearing"} else [at, unit, noun]
    found.stated.append(Stated("axle", f"{work.text(at)} in", False))
    work.take(sorted(set(places)), "qualifier", f"axle {work.text(at)} in")
    return True


def read_size(work: Work, found: Numbers, at: int) -> bool:
    """Inches or millimetres beside a brake or wheel word: 17" brakes, 320 mm rotors, brakes 15 in."""
    unit = at + 1
    unit_text = work.text(unit)
    if unit_text == "-":
        unit += 1
        unit_text = work.text(unit)
    inch, metric = unit_text in _INCH, unit_text in ("mm", "millimeter", "millimetre", "millimeters")
    if not inch and not metric:
        return False
    beside = work.next_at(unit)
    before = work.next_at(at, -1)
    if work.text(before) in ("with", "w", "the", "has", "is", "are", "size"):
        before = work.next_at(before, -1)
    size = f"{work.text(at)} {'in' if inch else 'mm'}"
    if work.text(beside) in _WHEEL_WORDS:
        work.take([at, unit, beside], "noise", "a wheel size")
        return True
    # bare "in" after a number is a preposition unless a brake word follows or it is glued on
    certain = unit_text != "in" or work.tokens[unit].glued
    if work.text(beside) in _BRAKE_WORDS:
        _state_size(work, found, at, size)
        work.take([at, unit], "qualifier", f"brakes {size}")
        if work.text(beside) in ("brake", "brakes", "break", "breaks", "brk", "brks", "package", "pkg"):
            work.take([beside], "qualifier", f"brakes {size}")
            after = work.next_at(beside)
            if work.text(after) in ("package", "pkg", "setup", "option"):
                work.take([after], "qualifier", f"brakes {size}")
        elif not _thing_asked_for(work, beside):
            work.take([beside], "qualifier", f"brakes {size}")
        return True
    if work.text(before) in ("brakes", "brake", "breaks", "rotors", "discs") and certain:
        _state_size(work, found, at, size)
        work.take([at, unit], "qualifier", f"brakes {size}")
        if work.text(before) in ("brakes", "brake", "breaks") and work.free(before):
            work.take([before], "qualifier", f"brakes {size}")
        return True
    whole = int(work.text(at)) if work.text(at).isdigit() else 0
    if (inch and certain and 10 <= whole <= 24) or (metric and 200 <= whole <= 460 and not is_measured(work, at)):
        _state_size(work, found, at, size)
        work.take([at, unit], "qualifier", f"brakes {size}")
        return True
    return False


def _state_size(work: Work, found: Numbers, at: int, size: str) -> None:
    """A brake size: stated, said not to be so, or one of two ("16 or 17 in brakes")."""
    if negated(work, at):
        found.excluded.append(Stated("brakes", size, False))
        return
    found.stated.append(Stated("brakes", size, False))
    near = [work.text(work.next_at(at, -1))]
    if near[0] in ("or", "vs") or _or_number_after(work, at):
        found.unsure.add("brakes")


def _or_number_after(work: Work, at: int) -> bool:
    here = at + 1
    while here < len(work.tokens) and here <= at + 3 and work.text(here) != "or":
        here += 1
    return work.text(here) == "or" and work.is_number(here + 1)


def _thing_asked_for(work: Work, at: int) -> bool:
    """Whether the rotor word itself is what is asked for: no other component word stands in the message."""
    for other, token in enumerate(work.tokens):
        if other == at or token.kind != "word" or not work.free(other):
            continue
        if any(c.word not in ("rotor", "disc", "brake") for c in work.lexicon.canonical(token.text)):
            return False
    return True


def read_engine(work: Work, found: Numbers, at: int) -> bool:
    """A displacement with what follows it: 1.8t, 2.0 turbo diesel, 5.3L, 2 litre."""
    text = work.text(at)
    after = work.next_at(at)
    litre = work.text(after) in _LITRE and (after == at + 1 or work.text(at + 1) == "-")
    one_decimal = len(text.partition(".")[2]) == 1 and text[0] != "."
    if not (one_decimal or (litre and text.isdigit())) or not 0.6 <= float(text) <= 9.9:
        return False
    if is_measured(work, at) or (litre and _of_a_fluid(work, after)):
        return False
    if not litre and work.text(after) not in _ENGINE_AFTER and is_a_figure(work, at):
        return False
    if not litre and unit_after(work, at) and work.text(after) not in _ENGINE_AFTER:
        return False
    places = [at]
    words = [text]
    here = after
    if litre:
        places.append(after)
        here = work.next_at(after)
    while work.free(here) and work.text(here) in _ENGINE_AFTER and (len(work.text(here)) > 1 or _ends_word(work, here)):
        words.append(work.text(here))
        places.append(here)
        here = work.next_at(here)
    if work.text(here) in ("engine", "motor"):
        places.append(here)
    if negated(work, at):
        found.excluded.append(Stated("engine", " ".join(words), False))
    else:
        found.stated.append(Stated("engine", " ".join(words), False))
        if work.text(work.next_at(at, -1)) in ("or", "vs") or work.text(work.next_at(places[-1])) in ("or", "vs"):
            found.unsure.add("engine")
    work.take(places, "qualifier", "engine " + " ".join(words))
    return True


def _ends_word(work: Work, at: int) -> bool:
    return at + 1 >= len(work.tokens) or not work.tokens[at + 1].glued or work.tokens[at + 1].kind == "mark"


def _of_a_fluid(work: Work, unit_at: int) -> bool:
    """Example: "takes 5 liters of oil" is an amount, not an engine."""
    return work.text(work.next_at(unit_at)) in ("of", "right", "correct", "oil", "total")
