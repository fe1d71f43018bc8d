"""What can decide between spec rows and must be stated, and the options to ask it with."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.book.reader import Book, SpecRow
from benchbot.lookup.matching import (
    Said,
    axle_of,
    conditions,
    depth_of,
    height_of,
    settled,
    side_of,
)
from benchbot.outcomes import About, Option
from benchbot.understanding.reading import Ask, VehicleRead
from benchbot.vocabulary.qualifiers import compare
from benchbot.vocabulary.terms import Vocabulary

MOST_OPTIONS = 8

# Asked first where two questions tell equally much.
_ORDER = (
    "left over", "vehicle", "model", "year", "component", "axle", "qualifier", "property",
    "height", "depth", "side", "row",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Facet:
    """One thing that is open, with its options; `key` is the qualifier key or ""."""

    about: About
    key: str
    options: tuple[Option, ...]

    @property
    def telling(self) -> float:
        """How many rows are left on the average once this is answered: less is more telling."""
        counts = [len(option.specs) for option in self.options]
        total = sum(counts)
        return sum(n * n for n in counts) / total if total else 0.0

    @property
    def rank(self) -> tuple[bool, float, int]:
        decides_others = self.about in ("left over", "vehicle", "model")
        return (not decides_others, self.telling, _ORDER.index(self.about))


def _specs(rows: Iterable[SpecRow]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.spec for row in rows))


def vehicle_facet(book: Book, read: VehicleRead, rows: Sequence[SpecRow]) -> Facet | None:
    """Which vehicle, unless one was named in full."""
    if read.state == "named" and len(read.ids) == 1:
        return None
    held = {row.vehicle for row in rows}
    ids = [one for one in read.ids if one in held]
    options = [
        Option(
            f"{name.make} {name.model}",
            {"vehicle": [name.make, name.model]},
            _specs(row for row in rows if row.vehicle == one),
        )
        for one in ids
        for name in (book.vehicle(one),)
    ]
    return Facet("model" if read.state in ("part", "make") else "vehicle", "", shortened(options))


def shortened(options: list[Option]) -> tuple[Option, ...]:
    """At most eight options; where there are more, the last stands for the rest and asks for it to be typed."""
    if len(options) <= MOST_OPTIONS:
        return tuple(options)
    rest = options[MOST_OPTIONS - 1 :]
    specs = tuple(dict.fromkeys(spec for option in rest for spec in option.specs))
    return (*options[: MOST_OPTIONS - 1], Option("another (type it)", {"typed": True}, specs))


def year_facet(years: Sequence[int], chosen_range: bool, rows: Sequence[SpecRow]) -> Facet | None:
    """Which model year, unless one was stated (or a range within which no row changes was chosen)."""
    if len(years) == 1:
        return None
    if chosen_range and years and all(row.year_from <= years[0] and years[-1] <= row.year_to for row in rows):
        return None
    low = min(row.year_from for row in rows)
    high = max(row.year_to for row in rows)
    wanted = [y for y in years if low <= y <= high] if years else list(range(low, high + 1))
    held = [(y, _specs(r for r in rows if r.year_from <= y <= r.year_to)) for y in wanted]
    held = [(y, specs) for y, specs in held if specs]
    if len(held) <= MOST_OPTIONS or (years and not chosen_range):
        return Facet("year", "", shortened([Option(str(y), {"years": [y]}, specs) for y, specs in held]))
    return Facet("year", "", shortened([_range_option(span, specs) for span, specs in _ranges(held)]))


def _ranges(held: list[tuple[int, tuple[str, ...]]]) -> list[tuple[list[int], tuple[str, ...]]]:
    """Runs of years in which the same rows hold; long lists of runs are put together two and two until they fit."""
    runs: list[tuple[list[int], tuple[str, ...]]] = []
    for year, specs in held:
        if runs and set(runs[-1][1]) == set(specs) and runs[-1][0][-1] == year - 1:
            runs[-1][0].append(year)
        else:
            runs.append(([year], specs))
    while len(runs) > MOST_OPTIONS:
        runs = [
            (
                [y for span, _ in runs[n : n + 2] for y in span],
                tuple(dict.fromkeys(spec for _, specs in runs[n : n + 2] for spec in specs)),
            )
            for n in range(0, len(runs), 2)
        ]
    return runs


def _range_option(span: list[int], specs: tuple[str, ...]) -> Option:
    label = str(span[0]) if len(span) == 1 else f"{span[0]}-{span[-1]}"
    return Option(label, {"years": [span[0]] if len(span) == 1 else [span[0], span[-1]]}, specs)


def component_facet(ask: Ask, rows: Sequence[SpecRow]) -> Facet | None:
    """Which component, where the words can mean more than one (or must always be asked)."""
    held = list(dict.fromkeys(row.component for row in rows))
    if len(ask.components) == 1 or (len(held) == 1 and not ask.always):
        return None
    return Facet("component", "", component_options(rows))


def component_options(rows: Sequence[SpecRow]) -> tuple[Option, ...]:
    """The components that the rows are about, in the book's order."""
    names = dict.fromkeys(row.component for row in rows)
    return shortened([Option(n, {"component": n}, _specs(r for r in rows if r.component == n)) for n in names])


def axle_facet(vocabulary: Vocabulary, ask: Ask, rows: Sequence[SpecRow]) -> Facet | None:
    """Front or rear: asked whenever the component can sit on both and the row says where, even if one alone is held."""
    stated = set(ask.place.axles)
    if len(stated) == 1 or (len(stated) > 1 and ask.place.several):
        return None
    at_axle = [row for row in rows if axle_of(row)]
    if not at_axle:
        return None
    held = {axle_of(row) for row in at_axle}
    both = any(vocabulary.components[row.component].axles == "both" for row in at_axle)
    if not both and len(held) == 1:
        return None
    options = [
        Option(axle, {"axle": axle}, _specs(row for row in rows if axle_of(row) in (axle, "")))
        for axle in ("front", "rear")
    ]
    return Facet("axle", "", tuple(options))


def place_facets(ask: Ask, rows: Sequence[SpecRow]) -> Iterable[Facet]:
    """Upper or lower, inner or outer, left or right, where the rows tell them apart."""
    place = ask.place
    for about, of, stated, both in (
        ("height", height_of, place.heights, ("upper", "lower")),
        ("depth", depth_of, place.depths, ("inner", "outer")),
        ("side", side_of, tuple(s for s in place.sides if s != "side"), ("left", "right")),
    ):
        facet = _place_facet(about, of, stated, both, place.several, rows)  # type: ignore[arg-type]
        if facet is not None:
            yield facet


def _place_facet(
    about: About,
    of: Callable[[SpecRow], str],
    stated: tuple[str, ...],
    both: tuple[str, str],
    several: bool,
    rows: Sequence[SpecRow],
) -> Facet | None:
    held = {of(row) for row in rows} - {""}
    if not held or len(stated) == 1 or (len(stated) > 1 and several):
        return None
    options = [Option(word, {about: word}, _specs(r for r in rows if of(r) in (word, ""))) for word in both]
    return Facet(about, "", tuple(option for option in options if option.specs))


def qualifier_facets(said: dict[str, Said], scope: Sequence[SpecRow], rows: Sequence[SpecRow]) -> Iterable[Facet]:
    """Engine, drive, brakes ...: each key that the component's rows carry must be stated whole.

    `scope` are the component's rows of that vehicle and year, whatever their place and property.
    """
    keys = dict.fromkeys(key for row in scope for key, _ in conditions(row.only_if))
    for key in keys:
        if settled(key, scope, said):
            continue
        one = said.get(key)
        values = dict.fromkeys(value for row in scope for k, value in conditions(row.only_if) if k == key)
        if one is not None and not one.clash and key != "build":
            values = {v: None for v in values if compare(key, one.words, v) != "other"}
        options = [
            Option(_qualifier_label(key, value), {"stated": [key, value]}, _specs(_with_value(rows, key, value)))
            for value in values
        ]
        yield Facet("qualifier", key, shortened(options))


def _with_value(rows: Sequence[SpecRow], key: str, value: str) -> list[SpecRow]:
    return [row for row in rows if dict(conditions(row.only_if)).get(key, value) == value]


def _qualifier_label(key: str, value: str) -> str:
    if key != "build":
        return value
    low, _, high = value.partition("..")
    if low and high:
        return f"built {low} to {high}"
    return f"built from {low}" if low else f"built up to {high}"


def property_facet(ask: Ask, rows: Sequence[SpecRow]) -> Facet | None:
    """Which figure of the component, where none was named or the word for it is vague."""
    if ask.properties and not ask.vague:
        return None
    held = list(dict.fromkeys(row.property for row in rows))
    options = [Option(name, {"property": name}, _specs(r for r in rows if r.property == name)) for name in held]
    return Facet("property", "", shortened(options))


def leftover_facet(words: Sequence[str], rows: Sequence[SpecRow], may_be_ignored: bool = True) -> Facet:
    """A word that could carry meaning: it can be left out of account by the technician, never by us.

    Not so a thread that the rows are not known to have: the value would be another bolt's.
    """
    states: dict[str, Any] = {"ignore": True}
    said = " ".join(words)
    options = (Option(f"leave out “{said}”", states, _specs(rows)),) if may_be_ignored else ()
    return Facet("left over", said, options)
