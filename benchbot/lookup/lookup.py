"""Readings and book make an outcome: a value only where every reading leads to the same rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from benchbot.book.reader import Book, SpecRow
from benchbot.lookup.facets import (
    Facet,
    axle_facet,
    component_facet,
    component_options,
    leftover_facet,
    place_facets,
    property_facet,
    qualifier_facets,
    vehicle_facet,
    year_facet,
)
from benchbot.lookup.fastener_threads import has_thread, lacks_thread
from benchbot.lookup.matching import (
    Said,
    axle_of,
    conditions,
    height_of,
    place_agrees,
    qualifiers_agree,
    rule_out,
    said_by_key,
    year_agrees,
)
from benchbot.outcomes import Answer, Choose, Finding, Gap, Missing, Option, Outcome, Reason, Subject
from benchbot.understanding.reading import Ask, Reading
from benchbot.understanding.threads import threads_in
from benchbot.vocabulary.qualifiers import value_words
from benchbot.vocabulary.terms import Vocabulary

RANGE_CHOSEN = "year range"


@dataclass(frozen=True, slots=True)
class Result:
    """What one thing asked for came to: rows that answer, things missing, or facets that are open.

    beside: all rows of these components for the vehicle, year and engine; one of them may tell the thread.
    """

    ask: Ask
    rows: tuple[SpecRow, ...] = ()
    missing: tuple[Missing, ...] = ()
    facets: tuple[Facet, ...] = ()
    beside: tuple[SpecRow, ...] = ()

    def strange_to(self, thread: str) -> bool:
        """Whether any of the rows is not known to be of a fastener with that thread."""
        return any(not has_thread(row, thread, self.beside) for row in self.rows)


def look_up(readings: Sequence[Reading], book: Book, vocabulary: Vocabulary, today: date) -> Outcome:
    """The outcome of a question. Where its readings disagree, the components of all of them are asked about."""
    outcomes = [_one(reading, book, vocabulary, today) for reading in readings]
    first = outcomes[0]
    if len(outcomes) == 1 or all(_same(first, other) for other in outcomes[1:]):
        return first
    components = tuple(dict.fromkeys(c for r in readings for ask in r.asks for c in ask.components))
    properties = tuple(dict.fromkeys(p for r in readings for ask in r.asks for p in ask.properties))
    asks = [ask for r in readings for ask in r.asks]
    vague = any(ask.vague for ask in asks) or len({ask.properties for ask in asks}) > 1
    place = readings[0].asks[0].place if readings[0].asks else readings[0].place
    ask = Ask(components, True, "", properties, vague, place)
    return _one(replace(readings[0], asks=(ask,), unknown_part=""), book, vocabulary, today)


def _same(one: Outcome, other: Outcome) -> bool:
    if isinstance(one, Answer) and isinstance(other, Answer):
        return {f.row.spec for f in one.findings} == {f.row.spec for f in other.findings} and not (
            {m.subject for m in one.missing} ^ {m.subject for m in other.missing}
        )
    if isinstance(one, Choose) and isinstance(other, Choose):
        return _offered(one) == _offered(other)
    return isinstance(one, Gap) and isinstance(other, Gap)


def _offered(choose: Choose) -> set[str]:
    return {spec for option in choose.options for spec in option.specs}


def _one(reading: Reading, book: Book, vocabulary: Vocabulary, today: date) -> Outcome:
    subject = _subject(reading, book)
    if reading.vehicle.state == "unknown":
        return Gap((Missing("unknown vehicle", " ".join(reading.left_over), subject),))
    if reading.unknown_part and not reading.asks:
        return Gap((Missing("unknown component", reading.unknown_part, subject),))
    if reading.vehicle.state == "none":
        return Choose("vehicle", "", "", (), subject)
    if not reading.asks:
        return _ask_component(reading, book, subject, today)
    results = [_result(reading, ask, book, vocabulary, subject, today) for ask in reading.asks]
    facets = [facet for result in results for facet in result.facets]
    threads = threads_in(reading.left_over)
    left = [word for word in reading.left_over if word not in threads]
    left += [reading.unknown_part] if reading.unknown_part else []
    rows = tuple(dict.fromkeys(row for result in results for row in result.rows))
    left += [said for said in reading.conditions if not all(said in row.condition.casefold() for row in rows)]
    strange = [said for said in threads if any(result.strange_to(said) for result in results)]
    if (left or strange) and rows:
        facets.append(leftover_facet((*left, *strange), rows, may_be_ignored=not strange))
    if facets:
        return _choose(results, facets, rows, subject)
    missing = tuple(one for result in results for one in result.missing)
    if not rows:
        return Gap(missing)
    silent = [row for row in rows if not (row.reuse or row.condition)]
    if "handling" in reading.signs and silent and not any(ask.named for ask in reading.asks):
        # "reuse?", "loctite?": a torque is no answer where the row says nothing of it
        about = [replace(_echo(subject, row, book), property="reuse or thread treatment") for row in silent]
        return Gap(tuple(Missing("property not held", "", one) for one in about))
    findings = tuple(Finding(row, _echo(subject, row, book)) for row in rows)
    return Answer(findings, missing, reading.unit, reading.said_values)


def _subject(reading: Reading, book: Book) -> Subject:
    make = model = ""
    if reading.vehicle.state == "named" and len(reading.vehicle.ids) == 1:
        name = book.vehicle(reading.vehicle.ids[0])
        make, model = name.make, name.model
    elif reading.vehicle.make is not None:
        make = book.make(reading.vehicle.make)
    only_if = tuple((one.key, one.value) for one in reading.stated)
    return Subject(make, model or reading.vehicle.said, reading.years, only_if)


def _echo(subject: Subject, row: SpecRow, book: Book) -> Subject:
    name = book.vehicle(row.vehicle)
    return replace(
        subject,
        make=name.make,
        model=name.model,
        only_if=conditions(row.only_if),
        component=row.component,
        position=row.position,
        property=row.property,
    )


def _ask_component(reading: Reading, book: Book, subject: Subject, today: date) -> Outcome:
    """A property without a component ("torque?"): what it is wanted of is asked, among what the vehicle holds."""
    ids = reading.vehicle.ids if len(reading.vehicle.ids) <= 8 else ()
    rows = [row for row in book.specs_of(ids, today) if year_agrees(row, reading.years)]
    rows = [row for row in rows if place_agrees(row, reading.place)]
    wanted = [row for row in rows if not reading.properties or row.property in reading.properties]
    threads = threads_in(reading.left_over)
    wanted = [row for row in wanted if not any(lacks_thread(row, said, rows) for said in threads)]
    if not wanted:
        return Choose("component", "", "", (), subject)
    return Choose("component", "", "", component_options(wanted), subject, ("component",))


def _result(reading: Reading, ask: Ask, book: Book, vocabulary: Vocabulary, subject: Subject, today: date) -> Result:
    held = book.specs(reading.vehicle.ids, ask.components, today)
    said = said_by_key(reading.stated, reading.unsure)
    in_year = [row for row in held if year_agrees(row, reading.years)]
    # what was said of the engine is weighed over all rows of the component, so that a row of another engine never
    # stands in where the exact one lacks this place or property
    agreeing = [row for row in in_year if qualifiers_agree(row, said, reading.excluded)]
    out = _ruled_out(reading, said, agreeing, book, today)
    qualified = [row for row in agreeing if not out & set(conditions(row.only_if))]
    in_place = [row for row in qualified if place_agrees(row, ask.place) and _can_sit(vocabulary, row, ask)]
    wanted = [row for row in in_place if not ask.properties or row.property in ask.properties]
    if reading.only_rows:
        wanted = [row for row in wanted if row.spec in reading.only_rows]
    about = replace(
        subject,
        component=" or ".join(ask.components),
        position=_place_text(ask),
        property=" or ".join(ask.properties),
    )
    if not wanted:
        return Result(ask, missing=(_missing(held, in_year, qualified, in_place, about),))
    for thread in threads_in(reading.left_over):
        # the book may tell which of several bolts has the thread that was said
        wanted = [row for row in wanted if not lacks_thread(row, thread, qualified)] or wanted
    components = {row.component for row in wanted}
    scope = [row for row in qualified if row.component in components]
    facets = [
        facet
        for facet in (
            vehicle_facet(book, reading.vehicle, wanted),
            year_facet(reading.years, RANGE_CHOSEN in reading.signs, wanted),
            component_facet(ask, wanted),
            axle_facet(vocabulary, ask, wanted),
            property_facet(ask, wanted),
            *place_facets(ask, wanted),
            *qualifier_facets(said, scope, wanted),
        )
        if facet is not None
    ]
    if facets:
        return Result(ask, tuple(wanted), (), tuple(facets), tuple(qualified))
    return replace(_settled(ask, wanted, about), beside=tuple(qualified))


def _can_sit(vocabulary: Vocabulary, row: SpecRow, ask: Ask) -> bool:
    """Whether the component can sit on the axle that was said, where the row itself leaves it blank."""
    by_nature = vocabulary.components[row.component].axles
    return by_nature not in ("front", "rear") or not ask.place.axles or by_nature in ask.place.axles


def _ruled_out(
    reading: Reading, said: dict[str, Said], rows: Sequence[SpecRow], book: Book, today: date
) -> set[tuple[str, str]]:
    """Values that the vehicle's other rows show to be another engine, drive ... than the one said."""
    carried = {pair for row in rows for pair in conditions(row.only_if)}
    if not any(key in said and said[key].words != value_words(key, value) for key, value in carried):
        return set()
    held = [row for row in book.specs_of(reading.vehicle.ids[:8], today) if year_agrees(row, reading.years)]
    return rule_out(said, {pair for row in held for pair in conditions(row.only_if)})


def _settled(ask: Ask, wanted: list[SpecRow], about: Subject) -> Result:
    """Nothing is open: one row for each property and place asked for, or that one is missing."""
    rows: list[SpecRow] = []
    missing: list[Missing] = []
    facets: list[Facet] = []
    axles = ask.place.axles if ask.place.several else ("",)
    heights = ask.place.heights if ask.place.several and len(ask.place.heights) > 1 else ("",)
    for prop in ask.properties:
        for axle in axles:
            for height in heights:
                fits = [
                    row
                    for row in wanted
                    if row.property == prop
                    and (not axle or axle_of(row) in (axle, ""))
                    and (not height or height_of(row) in (height, ""))
                ]
                if not fits:
                    where = " ".join(w for w in (axle, height) if w) or about.position
                    reason: Reason = "position not held" if axle or height else "property not held"
                    missing.append(Missing(reason, "", replace(about, position=where, property=prop)))
                elif len(fits) > 1:
                    facets.append(_rows_facet(fits))
                rows.extend(row for row in fits if row not in rows)
    return Result(ask, tuple(rows), tuple(missing), tuple(facets))


def _rows_facet(rows: list[SpecRow]) -> Facet:
    """Rows that nothing said keeps apart: a row for all and one for some, or two that lie at unlike places."""
    options = tuple(
        Option(
            ", ".join(filter(None, (row.position, row.only_if, f"{row.year_from}-{row.year_to}"))),
            {"row": row.spec},
            (row.spec,),
        )
        for row in rows
    )
    return Facet("row", "", options[:8])


def _missing(
    held: Sequence[SpecRow],
    in_year: Sequence[SpecRow],
    qualified: Sequence[SpecRow],
    in_place: Sequence[SpecRow],
    about: Subject,
) -> Missing:
    """Why nothing answers: the first thing stated that no row agrees with."""
    if not held:
        reason: Reason = "component not held"
    elif not in_year:
        reason = "year not covered"
    elif not qualified:
        reason = "qualifier not held"
    elif not in_place:
        reason = "position not held"
    else:
        reason = "property not held"
    return Missing(reason, "", about)


def _place_text(ask: Ask) -> str:
    place = ask.place
    return " ".join((*place.axles, *place.heights, *place.depths, *(s for s in place.sides if s != "side")))


def _choose(results: Sequence[Result], facets: list[Facet], rows: Sequence[SpecRow], subject: Subject) -> Choose:
    """The most telling open question; its options hold every row that is still possible behind each."""
    first = min(facets, key=lambda facet: facet.rank)
    same = [facet for facet in facets if facet.about == first.about and facet.key == first.key]
    options: dict[str, Option] = {}
    for facet in same:
        for option in facet.options:
            there = options.get(option.label)
            specs = tuple(dict.fromkeys((*(there.specs if there else ()), *option.specs)))
            options[option.label] = replace(option, specs=specs)
    asked = next((r.ask for r in results if first in r.facets), results[0].ask)
    others = tuple(
        row.spec for result in results if first not in result.facets and not any(f in same for f in result.facets)
        for row in result.rows
    )  # fmt: skip
    shown = [replace(o, specs=tuple(dict.fromkeys((*o.specs, *others)))) for o in options.values()]
    question = asked.question if first.about == "component" else ""
    component = " or ".join(asked.components) if len(asked.components) <= 2 else ""
    about = replace(subject, component=component, position=_place_text(asked), property=" or ".join(asked.properties))
    open_facets = tuple(dict.fromkeys(f"{f.about} {f.key}".strip() for f in facets))
    return Choose(first.about, first.key, question, tuple(shown[:8]), about, open_facets)
