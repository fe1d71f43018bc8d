"""A number that is a figure because of what stands beside it: a limit, a unit that it shares, a fraction of an inch."""

from __future__ import annotations

from benchbot.quantities.units import SPELLINGS, UNITS
from benchbot.understanding.figures import unit_after
from benchbot.understanding.work import Work

_LIMITS = frozenset(
    {"min", "mins", "minimum", "max", "maximum", "limit", "limits", "discard", "stamped", "stamp", "cast", "marked"}
    | {"minimo", "minima", "maximo", "maxima", "limite", "marcado", "estampado", "spec", "specs", "nominal"}
)
# These are of a figure alone; behind or before the others a vehicle's year stands as well ("min 12 ondrel").
_OF_A_FIGURE = frozenset({"limit", "limits", "stamped", "stamp", "cast", "marked", "limite", "marcado", "estampado"})
_TO_A_FIGURE = frozenset({"is", "of", "at", "the", "a", "was", "says", "it", "its", "thickness", "thick", "diameter"})
_JOINERS = frozenset({"and", "or", "to", "n", "y", "o", "a", "vs", "then", "&", "+", "/", "-", ",", "thru", "now", "x"})
_WHERE = frozenset(
    {"left", "right", "inner", "outer", "inside", "outside", "front", "rear", "lf", "rf", "lr", "rr", "new", "old"}
    | {"now", "was", "were", "before", "izquierda", "derecha", "izq", "der", "lh", "rh", "in", "out", "top", "bottom"}
)
_TOOLS = frozenset({"hex", "head", "torx", "allen"})
# Threads per inch of the usual sizes: ASME B1.1, the UNC and UNF series (values from memory).
_PER_INCH = {
    "1/4": (20, 28), "5/16": (18, 24), "3/8": (16, 24), "7/16": (14, 20), "1/2": (13, 20), "9/16": (12, 18),
    "5/8": (11, 18), "3/4": (10, 16), "7/8": (9, 14),
}  # fmt: skip
_FARTHEST = 5


def is_a_figure(work: Work, at: int) -> bool:
    """Whether the number says how large something is, whatever else it could be by itself."""
    told = (_of_a_limit, _shares_a_unit, _goes_on, _of_a_tool, _of_an_inch_thread)
    return any(tells(work, at) for tells in told)


def _is_beside_the_vehicle(work: Work, at: int) -> bool:
    return "vehicle" in (work.role(work.next_at(at)), work.role(work.next_at(at, -1)))


def _of_a_limit(work: Work, at: int) -> bool:
    """Example: "min 19", "stamped min is 19", "19 max", "was 20"."""
    if work.text(work.next_at(at, -1)) in ("was", "were", "now") and not _is_beside_the_vehicle(work, at):
        return True
    near = {*_before(work, at), *_after(work, at)}
    return bool(near & _OF_A_FIGURE) or (bool(near & _LIMITS) and not _is_beside_the_vehicle(work, at))


def _before(work: Work, at: int) -> list[str]:
    """The limit words before a number, past words such as "is" and "thickness"."""
    found: list[str] = []
    here = work.next_at(at, -1)
    while here >= 0 and work.text(here) in _LIMITS | _TO_A_FIGURE:
        found.append(work.text(here))
        here = work.next_at(here, -1)
    return found


def _after(work: Work, at: int) -> list[str]:
    here = work.next_at(at)
    while work.text(here) in ("is", "the", "for", "as", "a"):
        here = work.next_at(here)
    return [work.text(here)]


def _shares_a_unit(work: Work, at: int) -> bool:
    """Example: "17 and 19 mm", "17, 18, 19 mm", "17 left 19 mm right": the unit at the end is that of all."""
    beside = _is_beside_the_vehicle(work, at)
    here, joined = at, False
    for _ in range(_FARTHEST):
        here += 1
        while here < len(work.tokens) and (work.text(here) in _JOINERS | _WHERE) and not work.is_number(here):
            joined = joined or work.is_word(here) or work.text(here) in "/-+&"
            here += 1
        if not work.is_number(here) or work.role(here) in ("vehicle", "year"):
            return False
        if _measures_a_length(work, here):
            # "ondrel 12, 19 mm socket": behind the vehicle a comma parts the year from what follows
            return joined or not beside
        if unit_after(work, here):
            return False
    return False


def _measures_a_length(work: Work, at: int) -> bool:
    length = unit_after(work, at)
    said = " ".join(work.text(i) for i in range(at + 1, at + length + 1) if work.text(i) not in "-.")
    return said == '"' or (said in SPELLINGS and UNITS[SPELLINGS[said]].dimension == "length")


def _of_a_tool(work: Work, at: int) -> bool:
    return work.text(work.next_at(at)) in _TOOLS and not _is_beside_the_vehicle(work, at)


def _of_an_inch_thread(work: Work, at: int) -> bool:
    """Example: "1/2 20 stud": the threads per inch behind a diameter."""
    before = work.next_at(at, -1)
    if work.text(before) in ("in", "inch", "by"):
        before = work.next_at(before, -1)
    return work.text(at).isdigit() and int(work.text(at)) in _PER_INCH.get(work.text(before), ())


def _goes_on(work: Work, at: int) -> bool:
    """Whether "and", "to" ... ends the message behind the number: the figure that it goes on to was read by itself."""
    here = at + 1
    while work.text(here) in _JOINERS | _WHERE or (work.is_number(here) and work.free(here)):
        here += 1
    ends = work.text(len(work.tokens) - 1) in _JOINERS | _WHERE
    return ends and at + 1 < here >= len(work.tokens) and not _is_beside_the_vehicle(work, at)
