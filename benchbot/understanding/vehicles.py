"""Finds the vehicle that a message names: by full name, by a part of it, by its make, or misspelt."""

from __future__ import annotations

from benchbot.understanding.longer_names import near_a_longer_name
from benchbot.understanding.name_numbers import adjacent_first, holds_together, is_number_of_something, stands
from benchbot.understanding.name_spots import Found, Spot, beside_name, exact_spots, gather, near_spots, unknown
from benchbot.understanding.reading import VehicleRead, VehicleState
from benchbot.understanding.work import Work

_MOST_CANDIDATES = 400


def read_vehicle(work: Work) -> VehicleRead:
    """The vehicles that the message can mean; the words that name them are taken."""
    exact = list(exact_spots(work))
    read = _choose(work, exact, full_only=True)
    rescued = [spot for at in range(len(work.tokens)) if unknown(work, at) for spot in near_spots(work, at)]
    if rescued and (read is None or _extends(work, read, rescued)):
        read = _choose(work, exact + rescued, full_only=True) or read
    if read is None:
        everyday = [spot for at in range(len(work.tokens)) if beside_name(work, at) for spot in near_spots(work, at)]
        read = _choose(work, exact + rescued + everyday, full_only=True) if everyday else None
    read = read or _choose(work, exact, full_only=True, lone=True)
    read = read or _choose(work, exact, full_only=False)
    if read is None or (read[0].state == "make" and rescued):
        read = _choose(work, exact + rescued, full_only=False) or read
    if read is None:
        return VehicleRead()
    vehicle, places, how = read
    doubted = near_a_longer_name(work, vehicle, places)
    if doubted is not None:
        work.take([doubted], "left over", "may be a longer model's name misspelt")
    places = places | _said_again(work, vehicle, places)
    if how == "" and vehicle.state == "named":
        places = places | _misspelt_make(work, vehicle, rescued)
    work.take(sorted(places), "vehicle", vehicle.said, how)
    return vehicle


def _said_again(work: Work, vehicle: VehicleRead, places: frozenset[int]) -> frozenset[int]:
    """Where a name of one word is said a second time, or a word of the name twice over beside it."""
    if vehicle.state != "named" or len(vehicle.ids) != 1:
        return frozenset()
    hits = {work.text(at): work.names.words(work.text(at)) for at in places}
    alone = {
        word
        for word, found in hits.items()
        if not word.isdigit() and any(h.of == "vehicle" and h.id in vehicle.ids and h.words == 1 for h in found)
    }
    beside = {at for here in places for at in (work.next_at(here), work.next_at(here, -1))}
    again = {at for at in beside if work.free(at) and work.text(at) in hits}
    alone |= {word for word, found in hits.items() if any(h.of == "make" and h.words == 1 for h in found)}
    return frozenset(again | {at for at in range(len(work.tokens)) if work.free(at) and work.text(at) in alone})


def _misspelt_make(work: Work, vehicle: VehicleRead, rescued: list[Spot]) -> frozenset[int]:
    """Where the make of the vehicle stands misspelt beside the model's full name ("pelbrok wendla")."""
    makes = {work.names.make_of(one) for one in vehicle.ids}
    return frozenset(
        at
        for spot in rescued
        for at in spot.places
        if any(hit.of == "make" and hit.id in makes for hit in work.names.words(spot.word))
    )


_Choice = tuple[VehicleRead, frozenset[int], str]


def _choose(work: Work, spots: list[Spot], full_only: bool, lone: bool = False) -> _Choice | None:
    """The best choice among these spots; `lone` takes names of numbers or everyday words without their make."""
    found = gather(work, spots)
    makes = [one for one in found if one.of == "make" and (one.full or not one.weak) and not (one.weak and one.numeric)]
    make_ids = {one.id for one in makes if one.slips == min(m.slips for m in makes)}
    make_places = frozenset(at for one in makes if one.id in make_ids for at in one.places)
    vehicles = [one for one in found if one.of == "vehicle" and not is_number_of_something(work, one)]
    full = [one for one in vehicles if one.full and holds_together(work, one) and stands(work, one, make_places, lone)]
    ours = [one for one in full if not make_ids or work.names.make_of(one.id) in make_ids]
    others = [one for one in full if one not in ours and not one.weak and not one.numeric and one.slips == 0]
    if ours:
        ours = [one for one in ours if not any(one.places < o.places for o in ours)]
        named = frozenset().union(*(one.places for one in ours), make_places)
        apart = [one for one in others if not one.places & named]
        if apart:
            places = named.union(*(one.places for one in apart))
            ids = tuple(sorted({one.id for one in (*ours, *apart)}))
            return VehicleRead("several", ids, None, _said(work, places)), places, ""
        return _named(work, adjacent_first(work, ours, make_places), make_ids, make_places)
    if others and make_ids:
        ids = tuple(sorted({one.id for one in others}))
        places = make_places.union(*(one.places for one in others))
        return VehicleRead("conflict", ids, None, _said(work, places)), places, ""
    if full_only:
        return None
    parts = [
        one
        for one in vehicles
        if not one.full
        and any(
            (not s.weak or _another_of_the_make(work, one, s)) and not (s.word.isdigit() and len(s.word) < 3)
            for s in one.spots.values()
        )
        and (not make_ids or work.names.make_of(one.id) in make_ids)
    ]
    if parts:
        return _part(work, parts, make_ids, make_places)
    if make_ids:
        ids = tuple(sorted(v for make in make_ids for v in work.names.vehicles_of_make(make, _MOST_CANDIDATES)))
        slips = any(one.slips for one in makes if one.id in make_ids)
        make = next(iter(make_ids)) if len(make_ids) == 1 else None
        read = VehicleRead("make", ids, make, _said(work, make_places), slips)
        return read, make_places, "spelling" if slips else ""
    return None


def _another_of_the_make(work: Work, one: Found, spot: Spot) -> bool:
    """Example: "and the wagon": in a chat about one model the body or trim word names its sibling."""
    body = {stated.key for stated in work.lexicon.qualifier_phrases.get((spot.word,), ())} & {"body", "trim"}
    return bool(body) and work.chat_make is not None and work.names.make_of(one.id) == work.chat_make


def _named(work: Work, full: list[Found], make_ids: set[int], make_places: frozenset[int]) -> _Choice:
    full = [one for one in full if not any(one.places < other.places for other in full)]
    strong = [one for one in full if not one.weak and not one.numeric]
    if strong and not make_places:
        full = strong
    best = {one.places: min(o.slips for o in full if o.places == one.places) for one in full}
    full = [one for one in full if one.slips == 0 or one.slips <= best[one.places] + 1]
    exact = [one for one in full if one.slips == 0]
    if exact and any(one.places & e.places for one in full for e in exact if one.slips):
        full = [one for one in full if one.slips == 0 or not any(one.places & e.places for e in exact)]
    places = frozenset().union(*(one.places for one in full), make_places)
    ids = tuple(sorted({one.id for one in full}))
    apart = [one.places for one in full]
    several = len(ids) > 1 and any(not a & b for a in apart for b in apart)
    slips = any(one.slips for one in full)
    make = next(iter(make_ids)) if len(make_ids) == 1 else None
    state: VehicleState = "several" if several else "named"
    return VehicleRead(state, ids, make, _said(work, places), slips), places, "spelling" if slips else ""


def _part(work: Work, parts: list[Found], make_ids: set[int], make_places: frozenset[int]) -> _Choice:
    least = min(one.slips for one in parts)
    parts = [one for one in parts if one.slips <= least]
    most = max(len(one.spots) for one in parts)
    parts = [one for one in parts if len(one.spots) == most]
    places = frozenset().union(*(one.places for one in parts), make_places)
    ids = tuple(sorted({one.id for one in parts})[:_MOST_CANDIDATES])
    make = next(iter(make_ids)) if len(make_ids) == 1 else None
    return VehicleRead("part", ids, make, _said(work, places), least > 0), places, "spelling" if least else ""


def _extends(work: Work, read: _Choice, rescued: list[Spot]) -> bool:
    """Whether a misspelt word lengthens the name that was found ("wendle sprt")."""
    taken = read[1]
    for spot in rescued:
        if set(spot.places) & taken:
            continue
        with_it = {(hit.of, hit.id) for hit in work.names.words(spot.word)}
        for at in taken:
            if with_it & {(hit.of, hit.id) for hit in work.names.words(work.text(at))}:
                return True
    return False


def _said(work: Work, places: frozenset[int]) -> str:
    return " ".join(work.tokens[at].raw for at in sorted(places))
