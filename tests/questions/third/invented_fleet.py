"""Invents a fleet: pronounceable names of no real maker, years, splits by qualifier, holes and drafts."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path
from random import Random

from bay_terms import PARTS, Part
from slips import distance

COLUMNS = (
    "id", "make", "model", "year_from", "year_to", "only_if", "component", "position", "property", "value", "thread",
    "condition", "reuse", "cautions", "source", "source_ref", "checked_by", "checked_on", "status",
)  # fmt: skip
SPLITS = (
    ("engine", ("1.6", "2.2T")), ("engine", ("2.0D", "3.5 V6")), ("engine", ("1.4T", "2.8D")),
    ("drive", ("2WD", "4WD")), ("drive", ("AWD", "FWD")), ("brakes", ("15 in", "17 in")),
    ("brakes", ("300 mm", "335 mm")), ("brakes", ("standard", "heavy duty")), ("axle", ("SRW", "DRW")),
)  # fmt: skip
KINDS = ("lone", "sibling", "number", "code", "series", "submodel")
ONSETS = ("b", "br", "d", "dr", "f", "g", "gr", "h", "k", "kl", "l", "m", "n", "p", "pr", "r", "s", "t", "tr", "v", "z")
VOWELS = ("a", "e", "i", "o", "u")
CODAS = ("", "l", "n", "r", "k", "x", "m", "nt", "sk")
# Words that a name must not come near: trade words, everyday words, and makes and models of the real world that
# these syllables could spell (from memory).
_NEAR_TRADE_OR_REAL = (
    "bolt brake rotor drum caliper bracket torque front rear lower upper plug gasket motor bearing wheel nut lug tire "
    "strut shock pilot toledo tundra tiguan duster logan sandero lada vesta niva polo golf fabia octavia superb kodiak "
    "karoq corsa astra vectra zafira mokka meriva dodge durango ram ford focus fiesta fusion ranger mazda toyota prius "
    "corolla camry honda accord pilot nissan sentra rogue altima titan subaru tribeca kia sorento optima rio soul "
    "hyundai elantra sonata tucson kona venue suzuki grand vitara lexus infiniti acura volvo saab rover mini tesla "
    "model morning please thanks socket seven eleven sport trail plus diesel turbo manual hundred fifty sixty number"
)
SHUNNED = frozenset(_NEAR_TRADE_OR_REAL.split())


@dataclass(frozen=True, slots=True)
class Vehicle:
    """One model over one span of model years; split is (key, values) or None."""

    make: str
    model: str
    year_from: int
    year_to: int
    split: tuple[str, tuple[str, ...]] | None


@dataclass(frozen=True, slots=True)
class SpecRow:
    """The cells of a spec row that decide what it answers, and its value."""

    id: str
    vehicle: Vehicle
    only: tuple[str, str] | None
    component: str
    position: str
    property: str
    value: str
    draft: bool


class Names:
    """Gives names that are far from one another (3 edits or more) and from the shunned words (2 or more)."""

    def __init__(self, rng: Random) -> None:
        self._rng = rng
        self.given: list[str] = []

    def fresh(self) -> str:
        rng = self._rng
        while True:
            syllables = [rng.choice(ONSETS) + rng.choice(VOWELS) for _ in range(rng.choice((2, 3)))]
            name = "".join(syllables) + rng.choice(CODAS)
            if len(name) < 6 or any(distance(name, word) < 3 for word in self.given):
                continue
            if all(distance(name, word) > 1 for word in SHUNNED):
                self.given.append(name)
                return name.capitalize()

    def sibling(self, name: str) -> str:
        """A name one letter away from `name`."""
        last = name[-1]
        changed = name + "a" if last not in VOWELS else name[:-1] + self._rng.choice([v for v in VOWELS if v != last])
        self.given.append(changed.lower())
        return changed


def invent(rng: Random, vehicles: int) -> tuple[list[Vehicle], list[SpecRow], Names]:
    """`vehicles` vehicles and their rows; the names are kept so that unknown vehicles can be named later."""
    names = Names(rng)
    fleet: list[Vehicle] = []
    for kind in cycle(rng.sample(KINDS, len(KINDS))):
        if len(fleet) >= vehicles:
            break
        make = f"{names.fresh()} {names.fresh()}" if rng.random() < 0.2 else names.fresh()
        for model in _models(rng, names, kind)[: vehicles - len(fleet)]:
            fleet.append(_vehicle(rng, make, model))
            last = fleet[-1]
            if len(fleet) < vehicles and rng.random() < 0.15:
                start = last.year_to + 1
                fleet.append(Vehicle(make, model, start, start + rng.randint(2, 4), rng.choice([None, last.split])))
    rows: list[SpecRow] = []
    for vehicle in fleet:
        rows += _rows_of(rng, vehicle, len(rows))
    return fleet, rows, names


def _models(rng: Random, names: Names, kind: str) -> list[str]:
    """The models of one make: lone names, siblings, numbers, letters with a number, series, sub-models."""
    name = names.fresh()
    if kind == "sibling":
        return [name, names.sibling(name)]
    if kind == "number":
        digit = rng.randint(3, 9)
        return [str(digit), f"{digit}{rng.randint(4, 9)}", name]
    if kind == "code":
        letters = "".join(rng.sample("KLTVXZ", 2))
        first, second = rng.sample(range(2, 10), 2)
        return [f"{letters}-{first}", f"{letters}-{second}", name]
    if kind == "series":
        return [f"{name} {hundreds}00" for hundreds in rng.choice(((16, 26), (15, 35), (17, 27)))]
    if kind == "submodel":
        return [name, f"{name} {rng.choice(('Sport', 'Trail', 'Plus'))}"]
    return [name]


def _vehicle(rng: Random, make: str, model: str) -> Vehicle:
    start = rng.randint(2010, 2014)
    return Vehicle(make, model, start, start + rng.randint(3, 6), rng.choice(SPLITS) if rng.random() < 0.5 else None)


def _rows_of(rng: Random, vehicle: Vehicle, so_far: int) -> list[SpecRow]:
    rows: list[SpecRow] = []
    drums = rng.random() < 0.35
    key, values = vehicle.split or ("", ("",))
    for value in values:
        for part in PARTS:
            if rng.random() < 0.12:
                continue
            for name, positions in part.held.items():
                for position in positions:
                    if rng.random() < 0.08 or _odd(part, position, drums):
                        continue
                    spec = f"U{so_far + len(rows) + 1:05d}"
                    only = (key, value) if key else None
                    figure = _figure(rng, part, name, position)
                    rows.append(SpecRow(spec, vehicle, only, part.name, position, name, figure, rng.random() < 0.04))
    return rows


def _odd(part: Part, position: str, drums: bool) -> bool:
    """A rear drum car has no rear rotor; a rear disc car has no drum."""
    disc = (
        part.name in ("caliper bracket bolt", "caliper slide pin bolt", "brake rotor", "brake pad")
        and position == "rear"
    )
    drum = part.name in ("brake drum", "brake shoe", "wheel cylinder bolt", "backing plate bolt")
    return disc if drums else drum


def _figure(rng: Random, part: Part, name: str, position: str) -> str:
    if name == "torque":
        small = part.name in ("bleeder screw", "wheel speed sensor bolt", "wheel cylinder bolt")
        newton_metres = rng.randint(7, 14) if small else rng.randint(22, 190)
        pounds = f"{round(newton_metres * 0.7376)} lb-ft"
        return pounds if newton_metres > 30 and rng.random() < 0.3 else f"{newton_metres} N·m"
    if name == "fluid":
        return rng.choice(("DOT 3", "DOT 4") if part.name == "brake fluid" else ("0W-20", "5W-30", "5W-40"))
    thick = 22 if position == "front" else 10
    return {
        "socket": f"{rng.choice((13, 14, 15, 17, 18, 19, 21))} mm",
        "nominal thickness": f"{thick + rng.randint(3, 8)}.0 mm",
        "minimum thickness": f"{thick + rng.randint(0, 2)}.0 mm"
        if part.name == "brake rotor"
        else f"{rng.choice((1.0, 1.5, 2.0))} mm",
        "maximum runout": f"0.0{rng.randint(3, 9)} mm",
        "maximum diameter": f"{rng.randint(200, 260)}.0 mm",
        "capacity": f"{rng.randint(38, 90) / 10} L",
        "gap": f"{rng.randint(7, 11) / 10} mm",
        "pressure": f"{rng.randint(30, 44)} psi",
    }[name]


def write_fleet(rows: list[SpecRow], path: Path) -> None:
    """The rows as a spec table."""
    with path.open("w", newline="", encoding="utf-8") as file:
        sheet = csv.writer(file, lineterminator="\n")
        sheet.writerow(COLUMNS)
        for n, row in enumerate(rows):
            v = row.vehicle
            only = f"{row.only[0]}={row.only[1]}" if row.only else ""
            checked = ("", "", "draft") if row.draft else ("lead", "2026-05-06", "verified")
            where = (row.id, v.make, v.model, v.year_from, v.year_to, only, row.component, row.position, row.property)
            sheet.writerow((*where, row.value, "", "", "", "", "Invented service sheet", f"p. {n % 390 + 5}", *checked))
