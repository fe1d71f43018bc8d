"""Renders slots as a tech would type them: any order, abbreviations, number words, noise, slips."""

from __future__ import annotations

import re
from random import Random

from bay_terms import AFTER, AXLE_SAID, BEFORE, OTHER, PART, PARTS, PROPERTY_SAID
from oracle import Model
from slips import trade_slip

_TENS = ("", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
QUALIFIER_SAID = {
    "1.6": ("1.6", "1.6L"), "2.2T": ("2.2T", "2.2t", "2.2 turbo"), "2.0D": ("2.0D", "2.0d", "2.0 diesel"),
    "3.5 V6": ("3.5 V6", "3.5v6"), "1.4T": ("1.4T", "1.4 turbo"), "2.8D": ("2.8D", "2.8 diesel"),
    "2WD": ("2wd", "4x2", "two wheel drive"), "4WD": ("4wd", "4x4", "four wheel drive"),
    "AWD": ("awd", "all wheel drive"),
    "FWD": ("fwd", "front wheel drive"), "15 in": ("15in brakes", "15 inch brakes", 'w/ 15" brakes'),
    "17 in": ("17in brakes", "17 inch brakes", 'w/ 17" brakes'), "300 mm": ("300mm brakes", "with the 300 mm brakes"),
    "335 mm": ("335mm brakes", "with the 335 mm brakes"), "standard": ("standard brakes", "std brakes"),
    "heavy duty": ("heavy duty brakes", "hd brakes"), "SRW": ("srw", "single rear wheel"), "DRW": ("drw", "dually"),
}  # fmt: skip
KNOWN = frozenset(
    word
    for wordings in (
        *(part.said for part in PARTS),
        *PROPERTY_SAID.values(),
        *AXLE_SAID.values(),
        *QUALIFIER_SAID.values(),
    )
    for wording in wordings
    for word in re.findall(r"[a-z]+", wording.lower())
)


class Wording:
    """One source of wordings; `slipped` says how often words are misspelt."""

    def __init__(self, rng: Random, slipped: float) -> None:
        self._rng = rng
        self._slipped = slipped

    def year(self, year: int, model: str) -> str:
        two = f"{year % 100:02d}"
        said = [str(year)] * 3 + ["'" + two] * 2 + [two] * 2
        if year >= 2010 and not any(c.isdigit() for c in model):
            said.append("twenty " + _ONES[year % 100] if year < 2020 else f"twenty {_below_hundred(year % 100)}")
        return self._rng.choice(said)

    def model(self, model: Model, name: str) -> str:
        """A make and model; `name` is the model as spelt. Numbers need their make beside them."""
        rng, make = self._rng, model[0]
        bare = name.lower() if rng.random() < 0.85 else name
        words = bare.split()
        if words[-1].isdigit() and rng.random() < 0.2:
            number = int(words[-1])
            bare = " ".join([*words[:-1], _number(number)])
        elif len(words) == 2 and words[1].isdigit() and rng.random() < 0.15:
            bare = "".join(words)
        elif "-" in bare and rng.random() < 0.7:
            bare = bare.replace("-", rng.choice(("", " ")))
        if not name[0].isalpha() or "-" in name or rng.random() < 0.35:
            return f"{make.lower() if rng.random() < 0.7 else make} {bare}"
        return bare

    def vehicle(self, model: Model, year: int | None, qualifiers: list[str], name: str) -> str:
        """Year, model and qualifiers in an order of the bay."""
        rng = self._rng
        said, quals = self.model(model, name), " ".join(qualifiers)
        if year is None:
            return f"{said} {quals}".strip()
        when = self.year(year, model[1])
        number_ends = said.split()[-1] in (*_ONES, *_TENS, "hundred")
        orders = [f"{when} {said} {quals}"] * 3
        if not number_ends:
            full = when if len(when) == 4 or " " in when or not quals else str(year)
            orders += [f"{said} {full} {quals}", f"{said} {quals} {full}"]
        if quals and not quals.startswith(("w", "with")):
            orders.append(f"{when} {quals} {said}" if len(when) == 4 else f"{quals} {year} {said}")
        text = " ".join(rng.choice(orders).split())
        if rng.random() < 0.04 and re.match(r"20\d\d [a-z]{4}", text):
            return text.replace(" ", "", 1)
        return text

    def part(self, name: str, position: str, asked: str) -> str:
        """A component with its position and what is asked of it ("" = nothing)."""
        rng = self._rng
        thing = self.slip_words(self.plural(rng.choice(PART[name].said)))
        place = " ".join(rng.choice(AXLE_SAID.get(word, (word,))) for word in position.split())
        orders = [f"{place} {thing} {asked}", f"{thing} {place} {asked}", f"{asked} {place} {thing}"]
        if asked and place not in ("frt", "frnt", "rr"):
            on = f"{place} {thing}".strip()
            orders += [f"{asked} on the {on}", f"{asked} for {on}", f"whats the {asked} on {on}"]
        if asked in ("spec", "type", "min", "max", "minimum", "discard", "limit"):
            orders = orders[:2]
        return " ".join(rng.choice(orders).split())

    def plural(self, thing: str) -> str:
        single = thing.startswith(("engine oil", "brake fluid", "coolant", "oil", "sump")) or self._rng.random() < 0.5
        return thing if single or thing.endswith("s") else thing + "s"

    def property(self, name: str, part: str) -> str:
        choices = PROPERTY_SAID[name]
        if part == "brake rotor":
            choices = tuple(c for c in choices if c != "max")
        elif name == "nominal thickness" or part in ("brake pad", "brake shoe"):
            choices = tuple(c for c in choices if c != "discard")
        return self._rng.choice(choices)

    def slip_words(self, text: str) -> str:
        words = text.split()
        long = [n for n, word in enumerate(words) if len(word) >= 5 and word.isalpha()]
        if long and self._rng.random() < self._slipped:
            at = self._rng.choice(long)
            words[at] = trade_slip(self._rng, words[at], KNOWN)
        return " ".join(words)

    def joined(self, vehicle: str, thing: str) -> str:
        """Vehicle and thing in either order, with noise around them."""
        rng = self._rng
        text = rng.choice(
            (f"{vehicle} {thing}", f"{vehicle}, {thing}", f"{thing} {vehicle}", f"{thing} on a {vehicle}")
        )
        return self.noise(text)

    def noise(self, text: str) -> str:
        rng = self._rng
        before = rng.choice(BEFORE) if rng.random() < 0.25 else ""
        after = rng.choice(AFTER) if rng.random() < 0.25 else ""
        text = self._filled(before) + text + self._filled(after)
        return text.upper() if rng.random() < 0.03 else text

    def chatter(self) -> str:
        rng = self._rng
        text = self._filled(rng.choice(OTHER))
        return text + rng.choice(("", "", " lol", " mate", " haha"))

    def _filled(self, text: str) -> str:
        rng = self._rng
        return text.format(
            o=rng.randint(20000, 98999), p=rng.randint(10, 99), k=rng.randint(31, 199), n=rng.randint(1, 12),
            s=rng.choice((13, 14, 17, 19)), y=rng.randint(10, 23),
        )  # fmt: skip


def _below_hundred(number: int) -> str:
    if number < 20:
        return _ONES[number]
    return _TENS[number // 10] + (f" {_ONES[number % 10]}" if number % 10 else "")


def _number(number: int) -> str:
    """A model number as it is dictated: 1600 = sixteen hundred, 47 = forty seven."""
    return f"{_below_hundred(number // 100)} hundred" if number >= 100 else _below_hundred(number)
