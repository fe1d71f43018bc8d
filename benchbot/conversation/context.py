"""Completes a message from what the chat remembers: vehicle, year, qualifiers, component, place, each by its rule."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from benchbot.conversation.past import Past
from benchbot.lookup.lookup import RANGE_CHOSEN
from benchbot.understanding.bolt_sizes import is_a_length
from benchbot.understanding.lexicon import Lexicon
from benchbot.understanding.reading import Ask, Place, Reading, VehicleRead
from benchbot.understanding.threads import threads_in
from benchbot.vocabulary.qualifiers import value_words
from benchbot.vocabulary.terms import Stated

_AND = frozenset({"and", "n", "&", "+", "plus", "y"})
_LEADS_ON = frozenset({"on", "for", "the", "a", "an", "my"})
# "also got a ...", "and now a ...": the vehicle is announced, nothing is asked of it yet
_ANNOUNCES = frozenset({"got", "have", "has", "now", "here", "next", "coming", "brought", "lift"})


def in_context(reading: Reading, past: Past, remembered: VehicleRead, lexicon: Lexicon) -> Reading:
    """The reading with what the chat already knows.

    `remembered` is the vehicle on the lift as the present book knows it. The vehicle, its year and its qualifiers
    carry over until another vehicle is named, and another model year is another vehicle; the axle carries over only
    while the component and the vehicle stay the same, or where the whole question is said to be the same.
    """
    vehicle, same = _vehicle(reading, past, remembered)
    years, ranged = reading.years, False
    if not years and same and "year" not in reading.unsure:
        years, ranged = past.years, past.year_range
    kept_stated = tuple(one for one in past.stated if one.key not in reading.unsure)
    stated = _stated(reading.stated, kept_stated) if same else reading.stated
    denied = {(one.key, value_words(one.key, one.value)) for one in reading.excluded}
    stated = tuple(one for one in stated if (one.key, value_words(one.key, one.value)) not in denied)
    restated = {one.key for one in reading.stated}
    kept = tuple(one for one in past.excluded if one.key not in restated)
    excluded = (*kept, *reading.excluded) if same else reading.excluded
    if "place" in reading.unsure:
        # an axle was said, and of another vehicle: neither it nor the one before is the one meant
        past = replace(past, asks=tuple(replace(ask, place=Place()) for ask in past.asks))
    asks = _asks(reading, past, same, lexicon)
    if same and not past.answered and asks and (past.choices or not reading.asks):
        # a thread that was said before the question back is the bolt's still
        threads = (word for word in threads_in(past.left_over) if word not in reading.left_over)
        reading = replace(reading, left_over=(*reading.left_over, *threads))
    signs = reading.signs | ({RANGE_CHOSEN} if ranged else set())
    only_rows = past.only_rows if same and not reading.asks and not reading.years and not reading.stated else ()
    only_rows = only_rows if not reading.place and not reading.properties else ()
    return replace(
        reading,
        vehicle=vehicle,
        years=years,
        stated=stated,
        excluded=tuple(dict.fromkeys(excluded)),
        asks=asks,
        signs=frozenset(signs),
        only_rows=only_rows,
    )


def _vehicle(reading: Reading, past: Past, remembered: VehicleRead) -> tuple[VehicleRead, bool]:
    """The vehicle meant, and whether it is the one of the chat."""
    new = reading.vehicle
    if "next_vehicle" in reading.signs and "same_vehicle" not in reading.signs:
        return new, False
    if remembered.state == "none":
        # a vehicle that the book has lost is no vehicle that was never said
        return new, not past.vehicles
    if new.state == "none":
        return remembered, not _another_year(reading, past)
    both = tuple(one for one in new.ids if one in remembered.ids)
    if new.state == "named" and set(new.ids) <= set(remembered.ids):
        return new, not _another_year(reading, past)
    unsettled = remembered.state != "named" or len(remembered.ids) > 1
    if new.state in ("part", "make") and unsettled and both and not past.answered:
        read = replace(new, state="named" if len(both) == 1 else "part", ids=both)
        return read, not _another_year(reading, past)
    return new, False


def _another_year(reading: Reading, past: Past) -> bool:
    """Another model year than the one on the lift, which the message does not call a correction."""
    new = set(reading.years)
    return bool(new and past.years) and not new <= set(past.years) and "correction" not in reading.signs


def _stated(new: tuple[Stated, ...], old: tuple[Stated, ...]) -> tuple[Stated, ...]:
    keys = {one.key for one in new}
    return (*(one for one in old if one.key not in keys), *new)


def _asks(reading: Reading, past: Past, same: bool, lexicon: Lexicon) -> tuple[Ask, ...]:
    if reading.asks:
        return tuple(_settling(ask, past) for ask in reading.asks) if same else reading.asks
    if reading.unknown_part or not past.asks or _names_a_size(reading, past):
        # "torque for the m10 bolt": a size tells no part, least of all the one that was asked for before
        return ()
    repeated = _repeats(reading)
    if not same and past.answered and not (repeated or reading.properties or reading.place):
        return ()
    if "next_vehicle" in reading.signs and not reading.signs & {"same", "same_vehicle"}:
        return ()
    if any(_asks_of_another(ask, reading, lexicon) for ask in past.asks):
        return ()
    asks = past.asks
    if not (same or repeated):
        # where the bolt sits was said of the other vehicle
        asks = tuple(replace(ask, place=Place()) for ask in asks)
    if reading.properties or reading.vague:
        asks = tuple(_with_property(ask, reading, lexicon) for ask in asks)
    if reading.place:
        asks = tuple(replace(ask, place=_overlaid(ask.place, reading.place)) for ask in asks)
    return tuple(dict.fromkeys(asks))


def _names_a_size(reading: Reading, past: Past) -> bool:
    """Whether a fastener is named by its size: "the m10 bolt"; "and the 19 mm?" where a torque is what is asked."""
    properties = reading.properties or tuple(p for ask in past.asks for p in ask.properties)
    lengths = set(properties) == {"torque"} and any(is_a_length(said) for said in reading.said_values)
    return bool(reading.sizes) or lengths


def _asks_of_another(ask: Ask, reading: Reading, lexicon: Lexicon) -> bool:
    """Whether the message names a property of the part beside one that no such part has: "wobble stick torque"."""
    held = {p for name in ask.components for p in lexicon.component(name).properties}
    return bool(held & set(reading.properties)) and not held >= set(reading.properties)


def _repeats(reading: Reading) -> bool:
    """A sign that the whole of the last question goes on: "same thing on ...", "what about ...", "and the 2016?"."""
    words = [note.word.casefold() for note in reading.notes if note.how != "a mark"]
    if reading.signs & {"same", "correction"} or "about" in words:
        return True
    if reading.properties or reading.vague or reading.place or _ANNOUNCES & set(words):
        return False
    if reading.vehicle.state == "none" and reading.years:
        return True
    if {"too", "also"} & set(words):
        return True
    led = words[:1] and words[0] in _AND
    rest = [note for note in reading.notes if note.how != "a mark"][1:]
    return bool(led) and all(
        note.role in ("vehicle", "year", "qualifier") or note.word.casefold() in _LEADS_ON for note in rest
    )


def _settling(ask: Ask, past: Past) -> Ask:
    """A component named again keeps its axle; while its own question is open, its property too."""
    for old in past.asks:
        if set(ask.components) == set(old.components):
            place = _overlaid(old.place, ask.place)
            if past.answered or ask.named:
                return replace(ask, place=place)
            return replace(ask, place=place, properties=old.properties, vague=old.vague, named=old.named)
        if not past.answered and set(ask.components) < set(old.components):
            ask = replace(ask, place=_overlaid(old.place, ask.place))
            if not ask.named and old.named:
                ask = replace(ask, properties=old.properties, vague=old.vague, named=True)
            return ask
    return ask


def _with_property(ask: Ask, reading: Reading, lexicon: Lexicon) -> Ask:
    held = {p for name in ask.components for p in lexicon.component(name).properties}
    if reading.properties:
        return replace(ask, properties=reading.properties, vague=False, named=True)
    meant = tuple(p for p in reading.vague_properties if p in held)
    if len(meant) == 1 and not reading.vague_always:
        return replace(ask, properties=meant, vague=False, named=True)
    return replace(ask, properties=meant, vague=True, named=True)


def _overlaid(old: Place, new: Place) -> Place:
    """The new place over the old: what it states replaces, what it leaves out stays."""
    if not new:
        return old
    return Place(
        new.axles or old.axles,
        new.sides or (() if new.axles else old.sides),
        new.heights or old.heights,
        new.depths or old.depths,
        new.several or (old.several and not new.axles),
    )


def as_remembered(past: Past, vehicle: VehicleRead) -> Reading:
    """The pending question of a chat as a reading; vehicle: the one on the lift, as the present book knows it."""
    return Reading(
        kind="question",
        vehicle=vehicle,
        years=past.years,
        stated=past.stated,
        excluded=past.excluded,
        asks=past.asks,
        left_over=past.left_over,
        only_rows=past.only_rows,
        signs=frozenset({RANGE_CHOSEN} if past.year_range else ()),
    )


def with_choice(reading: Reading, states: dict[str, object]) -> Reading:
    """The reading once a choice has stated what was open; the vehicle is set by the caller, who knows the book."""
    asks = reading.asks
    if "years" in states:
        span = [int(str(y)) for y in states["years"]]  # type: ignore[attr-defined]
        years = tuple(range(span[0], span[-1] + 1))
        signs = reading.signs | {RANGE_CHOSEN} if len(years) > 1 else reading.signs - {RANGE_CHOSEN}
        reading = replace(reading, years=years, signs=frozenset(signs))
    if "component" in states:
        name = str(states["component"])
        asks = tuple(
            replace(ask, components=(name,), always=False) if name in ask.components or len(asks) == 1 else ask
            for ask in asks
        )
    if "property" in states:
        name = str(states["property"])
        asks = tuple(replace(ask, properties=(name,), vague=False, named=True) if ask.vague else ask for ask in asks)
    for key, field in (("axle", "axles"), ("height", "heights"), ("depth", "depths"), ("side", "sides")):
        if key in states:
            word = str(states[key])
            asks = tuple(replace(ask, place=_placed(ask.place, field, word)) for ask in asks)
    if "stated" in states:
        key, value = _pair(states["stated"])
        reading = replace(reading, stated=_stated((Stated(key, value, False),), reading.stated))
    if "row" in states:
        reading = replace(reading, only_rows=(str(states["row"]),))
    if "ignore" in states:
        reading = replace(reading, left_over=threads_in(reading.left_over), unknown_part="")
    return replace(reading, asks=asks)


def _pair(value: object) -> tuple[str, str]:
    if not isinstance(value, (list, tuple)) or len(value) != 2:
        raise ValueError(f"a choice states {value!r} where a key and a value belong")
    return str(value[0]), str(value[1])


def _placed(place: Place, field: str, word: str) -> Place:
    stated: tuple[str, ...] = getattr(place, field)
    if place.several and len(stated) > 1:
        return place
    changed: dict[str, Any] = {field: (word,)}
    return replace(place, **changed)
