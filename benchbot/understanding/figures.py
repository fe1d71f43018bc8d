"""Figures that fill no slot: a value that was read off a part or put up for confirmation, a count, a bare number."""

from __future__ import annotations

from dataclasses import dataclass, field

from benchbot.quantities.units import SPELLINGS, UNITS
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Stated

_LONGEST_UNIT = 3


@dataclass(slots=True)
class Numbers:
    """What the numbers said. `years` holds every year the message can mean; several = it must be asked."""

    years: list[int] = field(default_factory=list)
    stated: list[Stated] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    left_over: list[int] = field(default_factory=list)
    excluded: list[Stated] = field(default_factory=list)
    unsure: set[str] = field(default_factory=set)
    said_units: set[str] = field(default_factory=set)


def negated(work: Work, at: int) -> bool:
    before = work.next_at(at, -1)
    while work.text(before) in ("the", "a", "an", "with", "w"):
        before = work.next_at(before, -1)
    return before >= 0 and work.in_list(before, "negation") > 0


def is_measured(work: Work, at: int) -> bool:
    """Whether the number follows "reading", "im at", "stamped" ...; it was read off the part, it is no slot."""
    if "vehicle" in (work.role(work.next_at(at)), work.role(work.next_at(at, -1))):
        return False
    before = at - 1
    while before >= 0 and work.tokens[before].kind == "mark":
        before -= 1
    for start in range(max(0, before - 2), before + 1):
        length = work.in_list(start, "measured")
        if length and start + length == before + 1:
            return True
    return False


def unit_after(work: Work, at: int) -> int:
    """How many tokens after the number make a unit, 0 when none does."""
    words: list[str] = []
    best = 0
    here = at + 1
    while here < len(work.tokens) and len(words) < _LONGEST_UNIT:
        if work.tokens[here].kind == "mark":
            if work.text(here) in ('"', "%") and not words:
                return 1
            if work.text(here) not in "-.·*/":
                break
        elif not work.free(here):
            break
        else:
            words.append(work.text(here))
            if " ".join(words) in SPELLINGS or "".join(words) in SPELLINGS:
                best = here - at
        here += 1
    if best == 1 and work.text(at + 1) == "in" and not work.tokens[at + 1].glued:
        return 0
    return best


def read_amount(work: Work, found: Numbers, at: int) -> bool:
    """A number with a unit, or one that was read off something: a value the technician states, never a slot."""
    length = unit_after(work, at)
    text = work.text(at)
    plain_year = len(text) == 4 and text.isdigit()
    if not length and plain_year:
        return False
    if not length and not is_measured(work, at) and "." not in text and "/" not in text:
        return False
    places = range(at, at + length + 1)
    found.said.append(" ".join(work.text(i) for i in places))
    if length:
        said = " ".join(work.text(i) for i in range(at + 1, at + length + 1) if work.tokens[i].kind == "word")
        found.said_units.add(UNITS[SPELLINGS[said]].dimension if said in SPELLINGS else "")
    work.take(places, "number", "a value you state")
    return True


def read_other(work: Work, found: Numbers, at: int) -> None:
    """A number that is no year: a count of bolts, or a bare figure."""
    after = work.next_at(at)
    beside = (work.role(after), work.role(work.next_at(at, -1)))
    if work.in_list(after, "counted") and len(work.text(at)) <= 2:
        work.take([at], "noise", "a count")
    elif "vehicle" in beside and len(work.text(at)) < 5 and not _one_of_two(work, at):
        found.left_over.append(at)
        work.take([at], "left over", "a number beside the vehicle")
    else:
        found.said.append(work.text(at))
        work.take([at], "number", "a figure that fills no slot")


def _one_of_two(work: Work, at: int) -> bool:
    """Example: "35 or 36": two sizes put up for choice."""
    after, before = work.next_at(at), work.next_at(at, -1)
    return (work.text(after) == "or" and work.is_number(work.next_at(after))) or (
        work.text(before) == "or" and work.is_number(work.next_at(before, -1))
    )
