"""Reads axle, side, upper or lower, inner or outer, and which component each belongs to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from benchbot.understanding.reading import Place
from benchbot.understanding.work import Work

_AXLES = ("front", "rear")
_SIDES = ("left", "right", "side")
_HEIGHTS = ("upper", "lower")
_DEPTHS = ("inner", "outer")
_KINDS = (_AXLES, _HEIGHTS, _DEPTHS)


@dataclass(frozen=True, slots=True)
class Position:
    """A position word in the message, and what it says."""

    at: int
    says: tuple[str, ...]


def read_positions(work: Work) -> list[Position]:
    """Every position word that no component has taken, in order."""
    found: list[Position] = []
    at = 0
    while at < len(work.tokens):
        length = work.match(at, work.lexicon.position_phrases, free_only=True) if work.free(at) else 0
        if length and all(work.free(i) or work.tokens[i].kind == "mark" for i in range(at, at + length)):
            words = work.matched(at, length)
            says = work.lexicon.position_phrases.get(words)
            if says is None:
                says = work.lexicon.position_phrases[(words[0][:-1],)]
            if _belongs_to_no_axle(work, at, words):
                at += length
                continue
            found.append(Position(at, says))
            work.take(range(at, at + length), "position", " ".join(says))
            at += length
            continue
        rescued = _rescued(work, at)
        if rescued:
            found.append(Position(at, rescued))
            work.take([at], "position", " ".join(rescued), "spelling")
        at += 1
    return found


def _belongs_to_no_axle(work: Work, at: int, words: tuple[str, ...]) -> bool:
    """Example: "back" in "get back to me" and "right" in "right?" say nothing of the vehicle."""
    if words == ("back",):
        before, after = work.text(work.next_at(at, -1)), work.next_at(at)
        if before in (
            "get",
            "got",
            "getting",
            "come",
            "came",
            "be",
            "go",
            "call",
            "went",
            "put",
            "going",
            "coming",
            "im",
        ):
            return True
        return work.text(after) in (
            "of",
            "to",
            "in",
            "on",
            "together",
            "from",
            "up",
            "off",
            "at",
            "here",
            "there",
            "with",
        )
    if words == ("right",):
        after = at + 1
        talk = ("?", "now", "then", "so", "away", "quick", "!")
        return after >= len(work.tokens) or work.text(after) in talk or work.role(after) == "property"
    return False


def _rescued(work: Work, at: int) -> tuple[str, ...]:
    """A misspelt axle or side word: letters swapped, doubled or dropped, and no other known word as near."""
    if not work.free(at) or not work.is_word(at) or work.lexicon.is_known(work.text(at)):
        return ()
    typed = work.text(at)
    near = [c.word for c in work.lexicon.rescued(typed)]
    if not near or not all((word,) in work.lexicon.position_phrases for word in near):
        return ()
    meanings = {work.lexicon.position_phrases[(word,)] for word in near}
    if len(meanings) != 1 or not any(work.lexicon.slip_forgiven_in_position(typed, word) for word in near):
        return ()
    return next(iter(meanings))


def place_of(work: Work, positions: list[Position]) -> Place:
    """The place that the positions state together.

    Front and rear are both meant only where they are joined ("front and rear", "f/r"); otherwise `several` stays
    false and the two axles contradict each other, so that the axle is asked.
    """
    axles = _unique(word for p in positions for word in p.says if word in _AXLES)
    sides = _unique(word for p in positions for word in p.says if word in _SIDES)
    heights = _unique(word for p in positions for word in p.says if word in _HEIGHTS)
    depths = _unique(word for p in positions for word in p.says if word in _DEPTHS)
    several = any(len([w for w in p.says if w in kind]) > 1 for p in positions for kind in _KINDS) or any(
        _joined(work, a.at, b.at) for a, b in pairwise(positions)
    )
    return Place(axles, sides, heights, depths, several)


def _joined(work: Work, left: int, right: int) -> bool:
    between = [work.text(i) for i in range(left + 1, right)]
    if not between:
        return False
    joiners = {"and", "n", "&", "+", "/", "y", "plus", "also"}
    return any(word in joiners for word in between) and all(
        word in joiners or word in work.lexicon.function for word in between
    )


def _unique(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))
