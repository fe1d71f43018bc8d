"""When a number or an everyday word may be (part of) a model's name, and when it is something else."""

from __future__ import annotations

from benchbot.understanding.name_spots import Found
from benchbot.understanding.work import Work

_POINTS_AT = frozenset({"for", "the", "a", "an", "this", "that", "my", "another"})


_WHERE_THINGS_STAND = frozenset(
    {"lift", "bay", "bays", "stall", "rack", "station", "unit", "shop", "store", "location", "job", "room", "truck"}
    | {"code", "row", "lot", "box", "route", "line", "page"}
)


def is_number_of_something(work: Work, one: Found) -> bool:
    """A number in the name stands where numbers mean something else: after "RO", before "miles"."""
    for spot in one.spots.values():
        if spot.word.isdigit() and (names_a_thing(work, spot.places[0]) or counts_something(work, spot.places[-1])):
            return True
    return False


def holds_together(work: Work, one: Found) -> bool:
    """Whether short numbers and everyday words of the name stand beside its rest: "..., 6 bolts" is no model 6."""
    for word, spot in one.spots.items():
        loose = spot.weak or (word.isdigit() and len(word) < 3)
        others = {at for other, there in one.spots.items() if other != word for at in there.places}
        if loose and others and not any(_next_to(work, at, frozenset(others)) for at in spot.places):
            return False
    return True


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
    # "bay 6" is a place; "on the lift 15 wendle" and "lift 2014 ..." are not
    after = work.next_at(at)
    return len(work.text(at)) != 4 and not (work.is_word(after) and bool(work.names.words(work.text(after))))


def counts_something(work: Work, at: int) -> bool:
    """Whether the number is followed by miles, hours, dollars ..."""
    after = work.next_at(at)
    return after < len(work.tokens) and work.in_list(after, "unit_after") > 0


def stands(work: Work, one: Found, make_places: frozenset[int], lone: bool) -> bool:
    """Names made of everyday words or of numbers alone count only in company."""
    if not one.weak and not one.numeric:
        return True
    if make_places:
        if not one.numeric:
            return True
        return any(_next_to(work, at, make_places) or _alternative(work, at, make_places) for at in one.places)
    if one.numeric and work.names.make_of(one.id) == work.chat_make:
        return any(work.text(at - 1) in _POINTS_AT for at in one.places if at)
    if one.numeric and any(_counts_parts(work, at) for at in one.places):
        return False
    if one.numeric and not all(_stands_alone(work, at) for at in one.places):
        return False
    return lone and any(_beside_year(work, at) or _plain_model_number(work, at) for at in one.places)


def _counts_parts(work: Work, at: int) -> bool:
    """Whether the number counts bolts, lugs ...; no wheel has more than ten."""
    few = work.text(at).isdigit() and int(work.text(at)) <= 10
    return few and work.in_list(work.next_at(at), "counted") > 0


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
    """Example: "quillane 27 or 72": a second number joined to the one beside the make."""
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


def adjacent_first(work: Work, full: list[Found], make_places: frozenset[int]) -> list[Found]:
    """Of numeric models, the one that directly follows the make; else all."""
    numeric = [one for one in full if one.numeric and one.words == 1]
    if any(_alternative(work, at, make_places) for one in numeric for at in one.places):
        return full
    if len({one.places for one in numeric}) < 2 or not make_places:
        return full
    after = [one for one in numeric if work.next_at(min(one.places), -1) in make_places]
    return [one for one in full if not one.numeric] + (after or numeric)
