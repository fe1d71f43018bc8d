"""Finds the vehicle that a message names: by full name, by a part of it, by its make, or misspelt."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from rapidfuzz.distance import OSA

from benchbot.understanding.lexicon import LONGEST_WORD, NameHit
from benchbot.understanding.reading import VehicleRead, VehicleState
from benchbot.understanding.work import Work
from benchbot.vocabulary.letters import deletions, slips_allowed

_MOST_CANDIDATES = 400
_POINTS_AT = frozenset({"for", "the", "a", "an", "this", "that", "my", "another"})
_WHERE_THINGS_STAND = frozenset(
    {"lift", "bay", "bays", "stall", "rack", "station", "unit", "shop", "store", "location", "job", "room", "truck"}
    | {"code", "row", "lot", "box", "route", "line", "page"}
)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in the message where a word of a vehicle name stands."""

    places: tuple[int, ...]
    word: str
    slips: int = 0
    weak: bool = False


@dataclass(slots=True)
class Found:
    """A make or vehicle with the spots that name it."""

    of: str
    id: int
    form: int
    words: int
    spots: dict[str, Spot] = field(default_factory=dict)

    @property
    def full(self) -> bool:
        return len(self.spots) >= self.words

    @property
    def places(self) -> frozenset[int]:
        return frozenset(at for spot in self.spots.values() for at in spot.places)

    @property
    def slips(self) -> int:
        return sum(spot.slips for spot in self.spots.values())

    @property
    def weak(self) -> bool:
        return all(spot.weak for spot in self.spots.values())

    @property
    def numeric(self) -> bool:
        return all(spot.word.isdigit() for spot in self.spots.values())


def read_vehicle(work: Work) -> VehicleRead:
    """The vehicles that the message can mean; the words that name them are taken."""
    exact = list(_exact_spots(work))
    read = _choose(work, exact, full_only=True)
    rescued = [spot for at in range(len(work.tokens)) if _unknown(work, at) for spot in _near_spots(work, at)]
    if rescued and (read is None or _extends(work, read, rescued)):
        read = _choose(work, exact + rescued, full_only=True) or read
    if read is None:
        everyday = [spot for at in range(len(work.tokens)) if _beside_name(work, at) for spot in _near_spots(work, at)]
        read = _choose(work, exact + rescued + everyday, full_only=True) if everyday else None
    read = read or _choose(work, exact, full_only=True, lone=True)
    read = read or _choose(work, exact, full_only=False)
    if read is None or (read[0].state == "make" and rescued):
        read = _choose(work, exact + rescued, full_only=False) or read
    if read is None:
        return VehicleRead()
    vehicle, places, how = read
    doubted = _near_a_longer_name(work, vehicle, places)
    if doubted is not None:
        work.take([doubted], "left over", "may be a longer model's name misspelt")
    places = places | _said_again(work, vehicle, places)
    if how == "" and vehicle.state == "named":
        places = places | _misspelt_make(work, vehicle, rescued)
    work.take(sorted(places), "vehicle", vehicle.said, how)
    return vehicle


def _near_a_longer_name(work: Work, vehicle: VehicleRead, places: frozenset[int]) -> int | None:
    """The everyday word right behind the model that a slip may have made of a longer model's name ("... spot")."""
    if vehicle.state != "named" or not places:
        return None
    after = max(places) + 1
    typed = work.text(after)
    if not work.free(after) or not work.is_word(after) or not 2 < len(typed) <= LONGEST_WORD or not typed.isalpha():
        return None
    if work.lexicon.is_trade(typed) and not work.lexicon.qualifier_phrases.get((typed,)):
        return None
    here = {hit.id for at in places for hit in work.names.words(work.text(at)) if hit.of == "vehicle"}
    for word in work.names.near_words(sorted(deletions(typed, 1))):
        if OSA.distance(typed, word) == 1 and any(h.of == "vehicle" and h.id in here for h in work.names.words(word)):
            return after
    return None


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
    """Where the make of the vehicle stands misspelt beside the model's full name ("mirefeild solena")."""
    makes = {work.names.make_of(one) for one in vehicle.ids}
    return frozenset(
        at
        for spot in rescued
        for at in spot.places
        if any(hit.of == "make" and hit.id in makes for hit in work.names.words(spot.word))
    )


_Choice = tuple[VehicleRead, frozenset[int], str]


def _exact_spots(work: Work) -> Iterable[Spot]:
    for at, token in enumerate(work.tokens):
        if not work.free(at) or token.kind == "code" or token.short_year:
            continue
        if work.names.words(token.text):
            yield Spot((at,), token.text, weak=_everyday_or_trade(work, token.text))
        for value in _other_names(work, token.text):
            yield Spot((at,), value, weak=True)
        after = work.next_at(at)
        if not work.free(after) or after - at > 2 or (after - at == 2 and work.text(at + 1) not in "-."):
            continue
        joined = token.text + work.text(after)
        if len(joined) > 1 and not joined.isdigit() and work.names.words(joined):
            yield Spot((at, after), joined)


def _other_names(work: Work, word: str) -> Iterable[str]:
    """The word that a body or trim word is short for, where a model is named so: "spt" for sport, "wgn" for wagon."""
    for one in work.lexicon.qualifier_phrases.get((word,), ()):
        value = one.value.casefold()
        letters = iter(value)
        short = value[:1] == word[:1] and len(word) < len(value) and all(letter in letters for letter in word)
        if one.key in ("body", "trim") and short and work.names.words(value):
            yield value


def _everyday_or_trade(work: Work, word: str) -> bool:
    return not word.isdigit() and work.lexicon.is_known(word)


def _unknown(work: Work, at: int) -> bool:
    if not work.free(at) or not work.is_word(at):
        return False
    # a trim word may be meant for a part of a model's name ("merrit sprt")
    trim = work.lexicon.qualifier_phrases.get((work.text(at),), ())
    return not work.lexicon.is_known(work.text(at)) or (bool(trim) and all(one.key == "trim" for one in trim))


def _beside_name(work: Work, at: int) -> bool:
    """An everyday word that autocorrect may have put in place of a name: next to a number, with five letters."""
    if not work.free(at) or not work.is_word(at) or len(work.text(at)) < 5 or work.lexicon.is_trade(work.text(at)):
        return False
    beside = (work.next_at(at), work.next_at(at, -1))
    return any(work.is_number(n) or (work.is_word(n) and work.names.words(work.text(n))) for n in beside)


def _near_spots(work: Work, at: int) -> Iterable[Spot]:
    """The name words nearest to a misspelt word: the best, and those hardly farther."""
    typed = work.text(at)
    if not 2 < len(typed) <= LONGEST_WORD or not typed.isalpha():
        return
    allowed = max(1, slips_allowed(typed))
    near: dict[str, int] = {}
    for word in work.names.near_words(sorted(deletions(typed, allowed))):
        slips = OSA.distance(typed, word)
        if slips <= max(slips_allowed(word), 1 if len(word) > 3 else 0):
            near[word] = slips
    if not near:
        return
    best = min(near.values())
    for word, slips in sorted(near.items()):
        if slips <= best + 1:
            yield Spot((at,), word, slips)


def _gather(work: Work, spots: Iterable[Spot]) -> list[Found]:
    found: dict[tuple[str, int, int], Found] = {}
    for spot in spots:
        for hit in work.names.words(spot.word):
            one = found.setdefault((hit.of, hit.id, hit.form), Found(hit.of, hit.id, hit.form, hit.words))
            there = one.spots.get(spot.word)
            if there is None or _closer(work, one, spot, there):
                one.spots[spot.word] = spot
    return list(found.values())


def _closer(work: Work, one: Found, spot: Spot, there: Spot) -> bool:
    """Of two places with the same word, the one that stands next to the rest of the name."""
    others = [at for word, other in one.spots.items() if word != spot.word for at in other.places]
    if not others:
        return False
    return min(abs(at - spot.places[0]) for at in others) < min(abs(at - there.places[0]) for at in others)


def lengthened(work: Work, vehicle: VehicleRead, at: int) -> bool:
    """Whether the word at `at` could make another model's name of this one's: "hd" behind a number, a body, a trim."""
    word = work.text(at)
    stated = work.lexicon.qualifier_phrases.get((word,), ())
    if word in ("hd", "ld"):
        before, after = work.text(work.next_at(at, -1)), work.text(work.next_at(at))
        return before.isdigit() and after not in ("brake", "brakes")
    if not stated or not all(one.part and one.key in ("trim", "body") for one in stated):
        return False
    if any(one.key == "trim" for one in stated):
        return True
    values = {one.value.casefold() for one in stated} | {word}
    makes = {work.names.make_of(one) for one in vehicle.ids}
    longer = {hit.id for value in values for hit in work.names.words(value) if hit.of == "vehicle"}
    return any(work.names.make_of(one) in makes for one in longer)


def _choose(work: Work, spots: list[Spot], full_only: bool, lone: bool = False) -> _Choice | None:
    """The best choice among these spots; `lone` takes names of numbers or everyday words without their make."""
    found = _gather(work, spots)
    makes = [one for one in found if one.of == "make" and (one.full or not one.weak) and not (one.weak and one.numeric)]
    make_ids = {one.id for one in makes if one.slips == min(m.slips for m in makes)}
    make_places = frozenset(at for one in makes if one.id in make_ids for at in one.places)
    vehicles = [one for one in found if one.of == "vehicle" and not _is_number_of_something(work, one)]
    full = [
        one for one in vehicles if one.full and _holds_together(work, one) and _stands(work, one, make_places, lone)
    ]
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
        return _named(work, _adjacent_first(work, ours, make_places), make_ids, make_places)
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
    """ "and the wagon": in a chat about one model the body or trim word names its sibling."""
    body = {stated.key for stated in work.lexicon.qualifier_phrases.get((spot.word,), ())} & {"body", "trim"}
    return bool(body) and work.chat_make is not None and work.names.make_of(one.id) == work.chat_make


def _is_number_of_something(work: Work, one: Found) -> bool:
    """A number in the name stands where numbers mean something else: after "RO", before "miles"."""
    for spot in one.spots.values():
        if spot.word.isdigit() and (names_a_thing(work, spot.places[0]) or counts_something(work, spot.places[-1])):
            return True
    return False


def _holds_together(work: Work, one: Found) -> bool:
    """Whether short numbers and everyday words of the name stand beside its rest: "..., 6 bolts" is no model 6."""
    for word, spot in one.spots.items():
        loose = spot.weak or (word.isdigit() and len(word) < 3)
        others = {at for other, there in one.spots.items() if other != word for at in there.places}
        if loose and others and not any(_next_to(work, at, frozenset(others)) for at in spot.places):
            return False
    return True


def may_lengthen(work: Work, words: tuple[str, ...]) -> bool:
    """Whether a qualifier's words belong to a model's name that the message holds whole ("... 4x4" as a model)."""
    texts = {token.text for token in work.tokens}
    shared = set.intersection(*({_form(hit) for hit in work.names.words(word)} for word in words))
    return any(
        hit.words > len(words) and _words_here(work, hit, texts) >= hit.words
        for hit in work.names.words(words[0])
        if hit.of == "vehicle" and _form(hit) in shared
    )


def _form(hit: NameHit) -> tuple[str, int, int]:
    return hit.of, hit.id, hit.form


def _words_here(work: Work, hit: NameHit, texts: set[str]) -> int:
    return sum(any(_form(other) == _form(hit) for other in work.names.words(text)) for text in texts)


def names_a_thing(work: Work, at: int) -> bool:
    """Whether the number follows a word that makes it the number of an order, a bay, a phone ..."""
    before = at - 1
    while before >= 0 and (work.text(before) in "#:-." or work.text(before) in ("no", "is", "was", "its")):
        if work.text(before) == "#":
            return True
        before -= 1
    starts = range(max(0, before - 2), before + 1)
    if before < 0 or not any(work.in_list(start, "identifier_before") == before - start + 1 for start in starts):
        return False
    if work.text(before) not in _WHERE_THINGS_STAND:
        return True
    # "bay 6" is a place; "on the lift 15 solen" and "lift 2014 ..." are not
    after = work.next_at(at)
    return len(work.text(at)) != 4 and not (work.is_word(after) and bool(work.names.words(work.text(after))))


def counts_something(work: Work, at: int) -> bool:
    """Whether the number is followed by miles, hours, dollars ..."""
    after = work.next_at(at)
    return after < len(work.tokens) and work.in_list(after, "unit_after") > 0


def _stands(work: Work, one: Found, make_places: frozenset[int], lone: bool) -> bool:
    """Names made of everyday words or of numbers alone count only in company."""
    if not one.weak and not one.numeric:
        return True
    if make_places:
        if not one.numeric:
            return True
        return any(_next_to(work, at, make_places) or _alternative(work, at, make_places) for at in one.places)
    if one.numeric and work.names.make_of(one.id) == work.chat_make:
        return any(work.text(at - 1) in _POINTS_AT for at in one.places if at)
    if one.numeric and any(work.in_list(work.next_at(at), "counted") for at in one.places):
        return False
    if one.numeric and not all(_stands_alone(work, at) for at in one.places):
        return False
    return lone and any(_beside_year(work, at) or _plain_model_number(work, at) for at in one.places)


def _next_to(work: Work, at: int, places: frozenset[int]) -> bool:
    return work.next_at(at) in places or work.next_at(at, -1) in places


def _stands_alone(work: Work, at: int) -> bool:
    """Whether no word that nobody knows, and no glued letter, stands before the number: "v90" is another."""
    before = at - 1
    if before < 0 or work.tokens[before].kind == "mark":
        return True
    if work.tokens[at].glued or (at + 1 < len(work.tokens) and work.tokens[at + 1].glued and work.is_word(at + 1)):
        return False
    return not work.is_word(before) or work.lexicon.is_known(work.text(before))


def _plain_model_number(work: Work, at: int) -> bool:
    """A number of three digits or more that can be no year ("274 fwd 2019")."""
    text = work.text(at)
    return text.isdigit() and len(text) >= 3 and not (len(text) == 4 and text[:2] in ("19", "20"))


def _alternative(work: Work, at: int, make_places: frozenset[int]) -> bool:
    """ "juntara 6 or 62": a second number joined to the one beside the make."""
    before = at - 1
    if work.text(before) not in ("or", "and", "&", "/", ",", "vs", "n"):
        return False
    return work.is_number(before - 1) and _next_to(work, before - 1, make_places)


def _beside_year(work: Work, at: int) -> bool:
    for near in (work.next_at(at), work.next_at(at, -1)):
        if work.is_number(near) and work.text(near).isdigit():
            number = work.text(near)
            if (len(number) == 4 and number[:2] in ("19", "20")) or work.tokens[near].short_year:
                return True
            if len(number) == 2 and work.is_word(at):
                return True
    return False


def _adjacent_first(work: Work, full: list[Found], make_places: frozenset[int]) -> list[Found]:
    """Of numeric models, the one that directly follows the make; else all."""
    numeric = [one for one in full if one.numeric and one.words == 1]
    if any(_alternative(work, at, make_places) for one in numeric for at in one.places):
        return full
    if len({one.places for one in numeric}) < 2 or not make_places:
        return full
    after = [one for one in numeric if work.next_at(min(one.places), -1) in make_places]
    return [one for one in full if not one.numeric] + (after or numeric)


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
    """Whether a misspelt word lengthens the name that was found ("merrit sprt")."""
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
