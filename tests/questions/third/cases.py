"""Builds slots for every kind of question and renders them; what each should lead to is the oracle's to say."""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

from bay_terms import DOUBTFUL, DOUBTFUL_PARTS, PART, PARTS, UNKNOWN_PARTS, VAGUE
from invented_fleet import Names, SpecRow, Vehicle
from oracle import Ask, Model, Wanted
from slips import distance, slip
from wording import KNOWN, QUALIFIER_SAID, Wording

# Qualifier wordings that state a value no row of such a split carries.
FOREIGN = {
    "1.6": ("engine", ("2.7", "3.0")), "2.0D": ("engine", ("2.7", "3.0")), "1.4T": ("engine", ("2.7", "3.0")),
    "2WD": ("drive", ("awd", "all wheel drive")), "AWD": ("drive", ("4wd", "4x4", "rwd")),
    "15 in": ("brakes", ("19in brakes", "19 inch brakes")), "300 mm": ("brakes", ("360mm brakes",)),
}  # fmt: skip
# Wordings that state a part of a value, and the values they can mean.
PARTIAL = {
    "2.2T": ("turbo", "2.2"), "2.0D": ("diesel", "2.0"), "3.5 V6": ("v6", "3.5"), "1.4T": ("turbo", "1.4"),
    "2.8D": ("diesel", "2.8"),
}  # fmt: skip
EXTRAS = ("1.6", "2.2T", "4WD", "AWD", "15 in", "heavy duty")


@dataclass(frozen=True, slots=True)
class Said:
    """A question as slots and as text: the vehicle's words and the thing's words apart."""

    ask: Ask
    vehicle: str
    thing: str
    why: str


class Cases:
    """Draws questions of one kind at a time; a draw that cannot be made gives None."""

    def __init__(self, rng: Random, fleet: list[Vehicle], rows: list[SpecRow], names: Names, wording: Wording) -> None:
        self.rng, self.rows, self.names, self.wording = rng, rows, names, wording
        self.checked = [row for row in rows if not row.draft]
        self.models: dict[Model, list[Vehicle]] = {}
        for vehicle in fleet:
            self.models.setdefault((vehicle.make, vehicle.model), []).append(vehicle)
        self._words = {w for make, model in self.models for w in f"{make} {model}".lower().split()} | KNOWN

    def row(self, **cells: str) -> SpecRow | None:
        """A verified row with these cells (component, property, position)."""
        fit = [r for r in self.checked if all(getattr(r, k) == v for k, v in cells.items())]
        return self.rng.choice(fit) if fit else None

    def plain(self, row: SpecRow, *, year: bool = True, axle: bool = True, qualifier: bool = True) -> Said:
        """Everything stated, less what is switched off."""
        vehicle = self.vehicle(row, year=year, qualifier=qualifier)
        wanted, thing = self.thing(row, axle=axle)
        return replace(vehicle, ask=replace(vehicle.ask, wanted=(wanted,)), thing=thing)

    def vehicle(self, row: SpecRow, *, year: bool = True, qualifier: bool = True) -> Said:
        """The vehicle of a row alone; asks for nothing."""
        rng, v = self.rng, row.vehicle
        when = rng.randint(v.year_from, v.year_to) if year else None
        stated: tuple[tuple[str, tuple[str, ...]], ...] = ()
        said: list[str] = []
        if row.only and qualifier:
            stated = ((row.only[0], (row.only[1],)),)
            said = [rng.choice(QUALIFIER_SAID[row.only[1]])]
        model = (v.make, v.model)
        text = self.wording.vehicle(model, when, said, self.misspelt(v.model))
        return Said(Ask((model,), when, stated, ()), text, "", "")

    def thing(self, row: SpecRow, *, axle: bool = True, bare: bool = True) -> tuple[Wanted, str]:
        """A component, its position and a property, as slots and as text; bare = a default may be left out."""
        rng, part = self.rng, PART[row.component]
        prop = row.property
        default = bare and prop == part.default and rng.random() < 0.4
        asked = "" if default else self.wording.property(prop, part.name)
        said = axle and row.position and (part.axles == "both" or rng.random() < 0.5)
        positions = (row.position,) if said else ()
        return Wanted((part.name,), positions, (prop,)), self.wording.part(
            part.name, row.position if said else "", asked
        )

    def misspelt(self, model: str) -> str:
        """The model's name, seldom with a slip that leaves no other name near."""
        first, *rest = model.split()
        if len(first) < 5 or not first.isalpha() or self.rng.random() > 0.12:
            return model
        typed = slip(self.rng, first.lower())
        others = self._words - {first.lower()}
        near = any(distance(typed, other) < 3 for other in others) or typed == first.lower()
        return model if near else " ".join([typed, *rest])

    def anywhere(self) -> Said | None:
        """Any slot that a vehicle could hold: the row may be missing or a draft."""
        rng = self.rng
        part = rng.choice(PARTS)
        prop = rng.choice(list(part.held))
        position = (
            rng.choice(("front", "rear")) if part.axles == "both" and part.name != "shock bolt" else part.held[prop][0]
        )
        seen = rng.choice(self.rows)
        return self.plain(replace(seen, component=part.name, position=position, property=prop))

    def draft(self) -> Said | None:
        drafts = [row for row in self.rows if row.draft]
        return replace(self.plain(self.rng.choice(drafts)), why="draft") if drafts else None

    def wrong_year(self, row: SpecRow) -> Said | None:
        said = self.plain(row)
        spans = self.models[said.ask.models[0]]
        outside = [y for y in range(2008, 2025) if not any(v.year_from <= y <= v.year_to for v in spans)]
        if not outside:
            return None
        year = self.rng.choice(
            sorted(outside, key=lambda y: min(abs(y - v.year_from) + abs(y - v.year_to) for v in spans))[:4]
        )
        quals = [self.rng.choice(QUALIFIER_SAID[row.only[1]])] if row.only else []
        text = self.wording.vehicle(said.ask.models[0], year, quals, row.vehicle.model)
        return Said(replace(said.ask, year=year), text, said.thing, "year outside every range")

    def requalified(self, row: SpecRow, kind: str) -> Said | None:
        """A qualifier that no row covers ("foreign"), stated in part ("partial"), or that no row asks for ("extra")."""
        rng, said, v = self.rng, self.plain(row), row.vehicle
        whole = kind != "partial"
        values: tuple[str, ...] = ()
        if kind == "extra" and v.split is None:
            value = rng.choice(EXTRAS)
            key = {"1.6": "engine", "2.2T": "engine", "4WD": "drive", "AWD": "drive"}.get(value, "brakes")
            word, values = rng.choice(QUALIFIER_SAID[value]), (value,)
        elif kind == "foreign" and v.split and v.split[1][0] in FOREIGN:
            key, words = FOREIGN[v.split[1][0]]
            word = rng.choice(words)
        elif kind == "partial" and row.only and row.only[1] in PARTIAL:
            key, word = row.only[0], rng.choice(PARTIAL[row.only[1]])
            values = tuple(value for value in (v.split or ("", ()))[1] if word in PARTIAL.get(value, ()))
        else:
            return None
        text = self.wording.vehicle(said.ask.models[0], said.ask.year, [word], v.model)
        return Said(replace(said.ask, stated=((key, values),), whole=whole), text, said.thing, f"{kind} qualifier")

    def vague(self) -> Said | None:
        name = self.rng.choice(list(VAGUE))
        phrase, props = self.rng.choice(list(VAGUE[name].items()))
        row = self.row(component=name)
        if row is None:
            return None
        said = self.vehicle(row)
        wanted = Wanted((name,), (row.position,) if row.position else (), props, vague=True)
        thing = self.wording.part(name, row.position, phrase)
        return Said(replace(said.ask, wanted=(wanted,)), said.vehicle, thing, "property vague or unstated")

    def doubtful(self) -> Said | None:
        row = self.row(component=self.rng.choice(DOUBTFUL_PARTS), property="torque")
        if row is None:
            return None
        said, word = self.vehicle(row), self.rng.choice(DOUBTFUL)
        asked = "" if word.endswith("torque") else self.rng.choice(("", " torque", " tq"))
        wanted = Wanted(DOUBTFUL_PARTS, (row.position,), ("torque",))
        return Said(
            replace(said.ask, wanted=(wanted,)), said.vehicle, f"{row.position} {word}{asked}", "word with two meanings"
        )

    def unknown_part(self, row: SpecRow) -> Said:
        said = self.vehicle(row)
        thing = self.rng.choice(UNKNOWN_PARTS) + self.rng.choice(("", " torque", " tq"))
        return Said(replace(said.ask, wanted=(Wanted((), (), ("torque",)),)), said.vehicle, thing, "unknown component")

    def unknown_vehicle(self, row: SpecRow) -> Said:
        said, name = self.plain(row), self.names.fresh()
        make = row.vehicle.make if self.rng.random() < 0.5 else self.names.fresh()
        text = f"{self.rng.randint(2011, 2022)} {make} {name}"
        text = text.lower() if self.rng.random() < 0.7 else text
        return Said(replace(said.ask, known=False), text, said.thing, "unknown vehicle")

    def several_models(self, row: SpecRow, kind: str) -> Said | None:
        """A make alone, the first word of a series, or a spelling as near to one sibling as to the other."""
        v, rng, said = row.vehicle, self.rng, self.plain(row, qualifier=False)
        first = v.model.split()[0]
        models = [m for m in self.models if m[0] == v.make]
        text = v.make.lower()
        if kind == "series":
            models = [m for m in models if m[1].split()[0] == first]
            text = first.lower()
            if (v.make, first) in self.models:
                return None
        elif kind == "sibling":
            if not v.model.isalpha():
                return None
            models = [m for m in models if m[1].isalpha() and distance(m[1].lower(), v.model.lower()) <= 1]
            text = slip(rng, v.model.lower())
            others = self._words - {m[1].lower() for m in models}
            near = {distance(text, m[1].lower()) for m in models}
            if near != {1} or any(distance(text, other) < 3 for other in others):
                return None
        if len(models) < 2:
            return None
        text = f"{said.ask.year} {text}" if rng.random() < 0.6 else f"{text} {said.ask.year}"
        return Said(
            replace(said.ask, models=tuple(models)), text, said.thing, {"make": "make alone"}.get(kind, kind + " name")
        )

    def two_properties(self) -> Said | None:
        name, pair = self.rng.choice((
            ("caliper bracket bolt", ("torque", "socket")), ("caliper slide pin bolt", ("torque", "socket")),
            ("wheel nut", ("torque", "socket")), ("brake rotor", ("minimum thickness", "maximum runout")),
            ("brake rotor", ("nominal thickness", "minimum thickness")),
        ))  # fmt: skip
        row = self.row(component=name)
        if row is None:
            return None
        said = self.vehicle(row)
        asked = self.rng.choice((" and ", " + ", " & ")).join(self.wording.property(p, name) for p in pair)
        wanted = Wanted((name,), (row.position,) if row.position else (), pair)
        return Said(
            replace(said.ask, wanted=(wanted,)),
            said.vehicle,
            self.wording.part(name, row.position, asked),
            "two properties",
        )

    def both_axles(self) -> Said | None:
        row = self.rng.choice(self.rows)
        if row.position not in ("front", "rear") or PART[row.component].axles != "both":
            return None
        said = self.vehicle(row)
        wanted, thing = self.thing(row, axle=False)
        both = self.rng.choice(("front and rear", "front n rear", "front & rear"))
        ask = replace(said.ask, wanted=(replace(wanted, positions=("front", "rear")),))
        text = f"{thing} {both}" if thing.startswith("whats") else f"{both} {thing}"
        return Said(ask, said.vehicle, text, "both axles asked")

    def two_parts(self, row: SpecRow) -> Said | None:
        said = self.vehicle(row)
        other = self.rng.choice([r for r in self.rows if r.vehicle == row.vehicle and r.only == row.only])
        if other.component == row.component:
            return None
        # Both properties are said: a bare part beside a socket could mean its socket too.
        (one, first), (two, second) = self.thing(row, bare=False), self.thing(other, bare=False)
        return Said(replace(said.ask, wanted=(one, two)), said.vehicle, f"{first} and {second}", "two parts")
