"""Decides what each number of a message is: a year, an engine, a brake size, or something that is no slot at all."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from itertools import pairwise

from benchbot.quantities.units import SPELLINGS, UNITS
from benchbot.understanding.vehicles import counts_something, names_a_thing
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
_BRAKE_WORDS |= {"drum", "drums", "package", "pkg", "brembos"}
_WHEEL_WORDS = {"wheel", "wheels", "rim", "rims", "tire", "tires", "tyre", "tyres", "alloy", "alloys", "steelies"}
_BUILT_WORDS = {"built", "build", "production", "produced", "mfd", "mfg", "manufactured", "prod"}
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_ARTICLES = {"a", "an", "the", "its", "my", "this", "year", "yr", "model"}
_LONGEST_UNIT = 3
_MONEY = {"$", "\u00a3", "\u20ac"}
_NUMBERED = {"grade", "size", "figure", "version", "m", "class", "step", "qty", "times", "x", "fig", "page", "type"}
_BETWEEN_YEARS = {"or", "-", "and", "&", ",", "/", "maybe", "i", "mean", "meant", "sorry", "no", "wait", "to", "n"}


@dataclass(slots=True)
class Numbers:
    """What the numbers said. `years` holds every year the message can mean; several = it must be asked."""

    years: list[int] = field(default_factory=list)
    stated: list[Stated] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    left_over: list[int] = field(default_factory=list)
    excluded: list[Stated] = field(default_factory=list)
    unsure: set[str] = field(default_factory=set)
    said_units: set[str] = field(default_factory=set)
    threads: list[str] = field(default_factory=list)


def read_numbers(work: Work, today: date) -> Numbers:
    """Reads the numbers that the vehicle's name has not taken, and takes them with their units."""
    found = Numbers()
    short: list[int] = []
    _read_built(work, found)
    for at, token in enumerate(work.tokens):
        if token.kind == "code" and work.free(at):
            work.take([at], "noise", "a phone number, date or thread")
            if token.text[0] == "m":
                found.threads.append(token.text)
        if token.kind != "number" or not work.free(at):
            continue
        if _read_axle(work, found, at):
            continue
        if names_a_thing(work, at) or _goes_on(work, at):
            work.take([at], "noise", "the number of an order, bay, phone ...")
        elif counts_something(work, at):
            after = work.next_at(at)
            length = work.in_list(after, "unit_after")
            work.take([at, *range(after, after + length)], "noise", "a mileage, time or price")
        elif work.text(at - 1) in _MONEY and at:
            work.take([at], "noise", "a price")
        elif token.short_year:
            _take_year(work, found, at, _full_year(int(token.text), today))
        elif _read_size(work, found, at) or _read_engine(work, found, at) or _read_amount(work, found, at):
            continue
        elif _is_year(token.text, today) and not _follows(work, at, _BUILT_WORDS):
            _take_year(work, found, at, int(token.text))
        elif _could_be_year(token.text, today):
            short.append(at)
        else:
            _read_other(work, found, at)
    _read_short_years(work, found, short, today)
    built = [int(one.value[:4]) for one in found.stated if one.key == "build"]
    if any(abs(one - year) > 1 for one in built for year in found.years):
        found.unsure.add("build")
    if "year" in found.unsure:
        found.years.clear()
    return found


def _goes_on(work: Work, at: int) -> bool:
    """Whether the number is one more group of a phone or order number ("0412 555 019")."""
    before = work.notes[at - 1] if at else None
    if before is None or before.role != "noise" or work.tokens[at - 1].kind != "number":
        return False
    return len(work.text(at)) in (3, 4) and not _is_year(work.text(at), date.max)


def _add_year(found: Numbers, year: int) -> None:
    if year not in found.years:
        found.years.append(year)


def _take_year(work: Work, found: Numbers, at: int, year: int) -> None:
    """A model year; or only a bound or a guess ("older than 2019"), or the year of something else ("done in 2018")."""
    if _of_something_else(work, at):
        work.take([at], "noise", "the year of something else")
        return
    if _is_unsure(work, at):
        found.unsure.add("year")
        work.take([at], "noise", "a bound or a guess, not the model year")
        return
    _add_year(found, year)
    work.take([at], "year", str(year))


def _phrase_before(work: Work, at: int, name: str) -> bool:
    return any(start + length == at for start in range(max(0, at - 5), at) if (length := work.in_list(start, name)))


def _is_unsure(work: Work, at: int) -> bool:
    if _phrase_before(work, at, "year_unsure_before"):
        return True
    after = at + 1
    if work.text(after) in ("+", "-") and not work.is_number(after + 1):
        return work.text(after) == "+" and not (work.is_word(after + 1) and work.tokens[after + 1].glued)
    return after < len(work.tokens) and work.in_list(after, "year_unsure_after") > 0


def _of_something_else(work: Work, at: int) -> bool:
    """ "in 2018 we did the fronts"; "in 2018 harbor" is the vehicle's year all the same."""
    return work.role(work.next_at(at)) != "vehicle" and _phrase_before(work, at, "year_of_else")


def _is_year(text: str, today: date) -> bool:
    return len(text) == 4 and text.isdigit() and 1950 <= int(text) <= min(today.year + 2, 2100)


def _could_be_year(text: str, today: date) -> bool:
    if not text.isdigit() or len(text) != 2:
        return False
    return int(text) <= today.year % 100 + 1 or int(text) >= 60


def _full_year(short: int, today: date) -> int:
    return 2000 + short if short <= today.year % 100 + 2 else 1900 + short


def _follows(work: Work, at: int, words: set[str]) -> bool:
    before = work.next_at(at, -1)
    if work.text(before) in ("in", "on", "is", "date", "around"):
        before = work.next_at(before, -1)
    return work.text(before) in words


def _read_built(work: Work, found: Numbers) -> None:
    """A build month: "built 11/16", "build date 2016-05", "built may 2016"."""
    for at, token in enumerate(work.tokens):
        if token.text not in _BUILT_WORDS or not work.free(at):
            continue
        here = work.next_at(at)
        while work.text(here) in ("in", "on", "is", "date", "around", "was"):
            here = work.next_at(here)
        month, year, places = _month_at(work, here)
        if month is None or year is None:
            continue
        after = work.next_at(places[-1])
        if _negated(work, at) or work.text(after) in ("or", "and", "to") or "/" in work.text(after):
            found.unsure.add("build")
        if work.text(here).count("/") == 2 or (work.is_word(here) and len(work.text(places[-1])) == 2):
            # 07/06 may be June or July, "may 12" a day
            found.unsure.add("build")
        found.stated.append(Stated("build", f"{year:04d}-{month:02d}", False))
        work.take([at, *places], "qualifier", f"built {year:04d}-{month:02d}")


def _month_at(work: Work, at: int) -> tuple[int | None, int | None, list[int]]:
    text = work.text(at)
    if "/" in text:
        month, _, year = text.partition("/")
        year = year.rpartition("/")[2]
        if 1 <= int(month) <= 12 and len(year) in (2, 4):
            return int(month), int(year) if len(year) == 4 else 2000 + int(year), [at]
    name = text[:3]
    if name in _MONTHS and work.is_number(after := work.next_at(at)):
        year = work.text(after)
        if len(year) == 4 or len(year) == 2:
            return _MONTHS.index(name) + 1, int(year) if len(year) == 4 else 2000 + int(year), [at, after]
    if len(text) == 4 and text.isdigit() and work.text(at + 1) in "-/." and work.is_number(at + 2):
        month = work.text(at + 2)
        if month.isdigit() and 1 <= int(month) <= 12:
            return int(month), int(text), [at, at + 2]
    return None, None, []


def _read_axle(work: Work, found: Numbers, at: int) -> bool:
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


def _read_size(work: Work, found: Numbers, at: int) -> bool:
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
    if (inch and certain and 10 <= whole <= 24) or (metric and 200 <= whole <= 460 and not _is_measured(work, at)):
        _state_size(work, found, at, size)
        work.take([at, unit], "qualifier", f"brakes {size}")
        return True
    return False


def _state_size(work: Work, found: Numbers, at: int, size: str) -> None:
    """A brake size: stated, said not to be so, or one of two ("16 or 17 in brakes")."""
    if _negated(work, at):
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


def _negated(work: Work, at: int) -> bool:
    before = work.next_at(at, -1)
    while work.text(before) in ("the", "a", "an", "with", "w"):
        before = work.next_at(before, -1)
    return before >= 0 and work.in_list(before, "negation") > 0


def _thing_asked_for(work: Work, at: int) -> bool:
    """Whether the rotor word itself is what is asked for: no other component word stands in the message."""
    for other, token in enumerate(work.tokens):
        if other == at or token.kind != "word" or not work.free(other):
            continue
        if any(c.word not in ("rotor", "disc", "brake") for c in work.lexicon.canonical(token.text)):
            return False
    return True


def _read_engine(work: Work, found: Numbers, at: int) -> bool:
    """A displacement with what follows it: 1.8t, 2.0 turbo diesel, 5.3L, 2 litre."""
    text = work.text(at)
    after = work.next_at(at)
    litre = work.text(after) in _LITRE and (after == at + 1 or work.text(at + 1) == "-")
    one_decimal = len(text.partition(".")[2]) == 1 and text[0] != "."
    if not (one_decimal or (litre and text.isdigit())) or not 0.6 <= float(text) <= 9.9:
        return False
    if _is_measured(work, at) or (litre and _of_a_fluid(work, after)):
        return False
    if not litre and _unit_after(work, at) and work.text(after) not in _ENGINE_AFTER:
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
    if _negated(work, at):
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
    """ "takes 5 liters of oil" is an amount, not an engine."""
    return work.text(work.next_at(unit_at)) in ("of", "right", "correct", "oil", "total")


def _is_measured(work: Work, at: int) -> bool:
    """Whether the number follows "reading", "im at", "stamped" ...; it was read off the part, it is no slot."""
    if "vehicle" in (work.role(work.next_at(at)), work.role(work.next_at(at, -1))):
        return False
    before = at - 1
    while before >= 0 and work.tokens[before].kind == "mark":
        before -= 1
    for start in range(max(0, before - 2), before + 1):
        length = work.in_list(start, "measured")
        if length and start + length == before + 1:
            return True
    return False


def _unit_after(work: Work, at: int) -> int:
    """How many tokens after the number make a unit, 0 when none does."""
    words: list[str] = []
    best = 0
    here = at + 1
    while here < len(work.tokens) and len(words) < _LONGEST_UNIT:
        if work.tokens[here].kind == "mark":
            if work.text(here) in ('"', "%") and not words:
                return 1
            if work.text(here) not in "-.·*/":
                break
        elif not work.free(here):
            break
        else:
            words.append(work.text(here))
            if " ".join(words) in SPELLINGS or "".join(words) in SPELLINGS:
                best = here - at
        here += 1
    if best == 1 and work.text(at + 1) == "in" and not work.tokens[at + 1].glued:
        return 0
    return best


def _read_amount(work: Work, found: Numbers, at: int) -> bool:
    """A number with a unit, or one that was read off something: a value the technician states, never a slot."""
    length = _unit_after(work, at)
    text = work.text(at)
    plain_year = len(text) == 4 and text.isdigit()
    if not length and plain_year:
        return False
    if not length and not _is_measured(work, at) and "." not in text and "/" not in text:
        return False
    places = range(at, at + length + 1)
    found.said.append(" ".join(work.text(i) for i in places))
    if length:
        said = " ".join(work.text(i) for i in range(at + 1, at + length + 1) if work.tokens[i].kind == "word")
        found.said_units.add(UNITS[SPELLINGS[said]].dimension if said in SPELLINGS else "")
    work.take(places, "number", "a value you state")
    return True


def _read_other(work: Work, found: Numbers, at: int) -> None:
    """A number that is no year: a count of bolts, or a bare figure."""
    after = work.next_at(at)
    beside = (work.role(after), work.role(work.next_at(at, -1)))
    if work.in_list(after, "counted") and len(work.text(at)) <= 2:
        work.take([at], "noise", "a count")
    elif "vehicle" in beside and len(work.text(at)) < 5 and not _one_of_two(work, at):
        found.left_over.append(at)
        work.take([at], "left over", "a number beside the vehicle")
    else:
        found.said.append(work.text(at))
        work.take([at], "number", "a figure that fills no slot")


def _one_of_two(work: Work, at: int) -> bool:
    """ "35 or 36": two sizes put up for choice."""
    after, before = work.next_at(at), work.next_at(at, -1)
    return (work.text(after) == "or" and work.is_number(work.next_at(after))) or (
        work.text(before) == "or" and work.is_number(work.next_at(before, -1))
    )


def _read_short_years(work: Work, found: Numbers, short: list[int], today: date) -> None:
    """Two-digit numbers that can be years, once everything else has had its turn."""
    taken: list[int] = []
    for at in list(short):
        full = _full_year(int(work.text(at)), today)
        if found.years and full in found.years:
            work.take([at], "year", str(full))
        elif found.years and (
            _beside_vehicle(work, at) or any(_joined_years(work, year, at) for year in _years_at(work))
        ):
            _take_year(work, found, at, full)
        elif (
            found.years
            or _said_value(work, at)
            or _of_no_year(work, at)
            or (int(work.text(at)) >= 60 and not _beside_vehicle_or_start(work, at))
        ):
            _read_other(work, found, at)
        else:
            taken.append(at)
    if len({work.text(at) for at in taken}) > 1:
        beside = [at for at in taken if _beside_vehicle_or_start(work, at)]
        counted = [at for at in taken if work.in_list(work.next_at(at), "counted") and int(work.text(at)) <= 10]
        keep = [at for at in taken if at not in counted] or taken
        apart = not any(_joined_years(work, a, b) for a, b in pairwise(taken))
        if apart and len({work.text(at) for at in beside}) == 1 and all(at in beside or at in counted for at in taken):
            keep = beside
        for at in taken:
            if at not in keep:
                _read_other(work, found, at)
        taken = keep
    for at in taken:
        _take_year(work, found, at, _full_year(int(work.text(at)), today))


def _of_no_year(work: Work, at: int) -> bool:
    """ "grade 10", "10 of them", "M 10": the number of a thing, unless the vehicle stands beside it."""
    if _beside_vehicle(work, at):
        return False
    before, after = work.text(work.next_at(at, -1)), work.text(work.next_at(at))
    return (
        before in _NUMBERED or after in ("of", "bolt", "bolts", "x", "times", "each") or work.text(at - 1) in ("~", "#")
    )


def _years_at(work: Work) -> list[int]:
    return [at for at in range(len(work.tokens)) if work.role(at) == "year"]


def _joined_years(work: Work, one: int, other: int) -> bool:
    """ "18 or 19", "18-19", "18 i mean 19": two years of which neither may be picked."""
    low, high = min(one, other), max(one, other)
    between = [work.text(i) for i in range(low + 1, high)]
    return bool(between) and len(between) <= 4 and all(text in _BETWEEN_YEARS for text in between)


def _said_value(work: Work, at: int) -> bool:
    """A figure put up for confirmation: "lugs 80 right?", "19 is the socket"."""
    after = work.next_at(at)
    following = range(after + 1, min(after + 4, len(work.tokens)))
    if work.text(after) in ("is", "was") and any(work.lexicon.names_property(work.text(i)) for i in following):
        return True
    confirmed = after < len(work.tokens) and work.in_list(after, "confirm") > 0
    return confirmed and not _beside_vehicle_or_start(work, at)


def _beside_vehicle(work: Work, at: int) -> bool:
    before, after = work.next_at(at, -1), work.next_at(at)
    counted = after < len(work.tokens) and work.in_list(after, "counted") > 0 and int(work.text(at)) <= 10
    return not counted and bool({work.role(before), work.role(after)} & {"vehicle", "qualifier"})


def _beside_vehicle_or_start(work: Work, at: int) -> bool:
    before, after = work.next_at(at, -1), work.next_at(at)
    if before < 0 or work.text(before) in _ARTICLES:
        return True
    return work.role(before) == "vehicle" or work.role(after) == "vehicle"
