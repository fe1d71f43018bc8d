"""Finds what is said of another vehicle than the one asked about: "dually next to it", "the other one is the 1.8"."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchbot.understanding.doubt import keys_of
from benchbot.understanding.positions import Position
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Stated

# What is said behind these words is of the vehicle asked about again.
_OWN = frozenset({"my", "mine", "this", "these", "our", "ours", "i", "im", "ive", "mi", "este", "esta"})
_TURNS = frozenset({"and", "but", "while", "so", "n", "&", "pero", "mientras"})
_ASKED = frozenset({"component", "property"})
# "lugs on the one next to it"; the bolt next to it is of this vehicle
_ON = frozenset({"on", "for", "of", "in", "car", "truck", "van", "suv", "vehicle"})


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Where words lie that tell of another vehicle.

    places: engines, years ... of it; axles: the axles, told only where the vehicle itself is pointed at.
    asked: the question itself is about the vehicle that is pointed at ("lugs on the one next to it").
    """

    places: frozenset[int] = frozenset()
    axles: frozenset[int] = frozenset()
    asked: bool = False

    def said_here(self, work: Work, stated: Iterable[Stated]) -> tuple[list[Stated], set[str]]:
        """What was stated without what belongs to the other vehicle, and the keys of which nothing sure is left.

        With "both" in the message neither vehicle's engine, drive ... is the one asked about.
        """
        there, here = _read_at(work, self.places), _read_at(work, set(range(len(work.tokens))) - self.places)
        kept = [one for one in stated if (one.key, one.value) not in there - here]
        sure = set() if "both" in (t.text for t in work.tokens) else {one.key for one in kept}
        return kept, {key for key, _ in there} - sure

    def years_here(self, work: Work, years: list[int]) -> list[int]:
        """The years without those of the other vehicle."""
        there = {work.notes[at].read_as for at in self.places if work.role(at) == "year"}  # type: ignore[union-attr]
        here = {
            note.read_as
            for at, note in enumerate(work.notes)
            if note is not None and note.role == "year" and at not in self.places
        }
        return [year for year in years if str(year) not in there - here]

    def positions_here(self, positions: list[Position]) -> list[Position]:
        return [one for one in positions if one.at not in self.axles]

    def leave_out(self, work: Work) -> None:
        """Notes the words of the other vehicle as no slots of this one."""
        for at in self.places | self.axles:
            of_year = work.role(at) == "year"
            work.take([at], "noise", "the year of something else" if of_year else f"said not to be so: {work.text(at)}")


def said_elsewhere(work: Work) -> Elsewhere:
    """Goes from each word that points at another vehicle to both sides, as far as the talk is still of that vehicle.

    It ends at a comma or the like, at a joining word, at the part asked for, and at a word for the own vehicle. Where
    it comes forward upon the vehicle's name, what lies between belongs to the name: "his 4wd wendle".
    """
    found: set[int] = set()
    axles: set[int] = set()
    asked = False
    at = 0
    while at < len(work.tokens):
        pointed = work.in_list(at, "another_vehicle") or _other_by_name(work, at)
        length = pointed or work.in_list(at, "another_owner")
        if length:
            before, after = _talk_beside(work, at - 1, -1), _talk_beside(work, at + length, 1)
            if not (_told(work, before) or _told(work, after)):
                # set apart by a comma, and still of it: "the other one, the 1.8", "the dually, next to it"
                after = _past_comma(work, at + length, 1) or after
                back = (pointed or work.text(at) == "not") and not _told(work, after)
                before = (back and _past_comma(work, at - 1, -1)) or before
            on_it = {work.text(i) for i in before.places} & _ON
            asked = asked or (bool(pointed) and before.ended in _ASKED and bool(on_it))
            found.update(_told(work, before), _told(work, after))
            for talk in (before, after):
                if pointed and talk.ended not in ("vehicle", "component"):
                    axles.update(i for i in talk.places if work.role(i) == "position")
        at += max(length, 1)
    return Elsewhere(frozenset(found), frozenset(axles), asked)


def _other_by_name(work: Work, at: int) -> int:
    """Example: "other truck"; "next car" is the vehicle asked about."""
    return work.in_list(at, "next_vehicle") if work.text(at) in ("other", "another", "otro", "otra") else 0


@dataclass(frozen=True, slots=True)
class _Talk:
    """The places on one side of a pointing word, and what ends them: a role, "own", or "" for a mark or a turn."""

    places: tuple[int, ...]
    ended: str = ""


def _talk_beside(work: Work, at: int, step: int) -> _Talk:
    found: list[int] = []
    while 0 <= at < len(work.tokens):
        role = work.role(at)
        if work.tokens[at].kind == "mark":
            if work.text(at) not in ("-", '"', "'"):
                break
        elif role == "vehicle" and step > 0:
            # what stands before the name belongs to the name
            return _Talk((), "vehicle")
        elif role == "vehicle" or role in _ASKED:
            return _Talk(tuple(found), str(role))
        elif work.text(at) in _OWN:
            return _Talk(tuple(found), "own")
        elif work.text(at) in _TURNS:
            break
        else:
            found.append(at)
        at += step
    return _Talk(tuple(found))


def _past_comma(work: Work, at: int, step: int) -> _Talk | None:
    if work.text(at) != ",":
        return None
    talk = _talk_beside(work, at + step, step)
    return talk if talk.ended != "own" else None


def _told(work: Work, talk: _Talk) -> list[int]:
    return [at for at in talk.places if work.role(at) in ("qualifier", "year")]


def _read_at(work: Work, places: Iterable[int]) -> set[tuple[str, str]]:
    """The qualifiers, as key and value, that were read at these places."""
    return {pair for at in places for pair in keys_of(work.notes[at])}
