"""Which figure of a message is which: each goes with the word for it that stands nearest, or it is left open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from benchbot.calculators.said import Message, Piece

_OVER_A_MARK = 3
_UNUSED = 8
_FARTHEST = 6
# These stand between a word and its figure and are not counted.
_LITTLE = frozenset({"a", "an", "the", "at", "of", "is", "are", "its", "about", "to", "my", "on"})


def assign(message: Message, figures: Sequence[Piece], roles: Mapping[str, frozenset[str]]) -> dict[str, Piece] | None:
    """Role -> its figure, for the one way to share out the roles in which words and figures stand closest.

    roles: role -> the words for it. None when two ways stand equally close, or a figure finds no role of its own.
    """
    if not figures or len(figures) > len(roles):
        return None
    near = [_near(message, figure, figures, roles) for figure in figures]
    if not all(near):
        return None
    told = {_role_of(word, roles) for word in message.words} - {""}
    costs: dict[tuple[str, ...], int] = {}
    for choice in product(*near):
        taken = tuple(one.role for one in choice)
        if len(set(taken)) != len(taken):
            continue
        # whoever says "new 12, now 8" seldom says "limit" behind its figure in the same breath
        turned = min(sum(one.before for one in choice), sum(not one.before for one in choice))
        cost = sum(one.far for one in choice) + turned + len(told - set(taken)) * _UNUSED
        costs[taken] = min(cost, costs.get(taken, cost))
    if not costs:
        return None
    best, *others = sorted(costs.items(), key=lambda pair: pair[1])
    return None if others and others[0][1] == best[1] else dict(zip(best[0], figures, strict=True))


@dataclass(frozen=True, slots=True)
class _Word:
    """The role of a word beside a figure, how far off it stands, and whether before it."""

    role: str
    far: int
    before: bool


def _near(
    message: Message, figure: Piece, figures: Sequence[Piece], roles: Mapping[str, frozenset[str]]
) -> list[_Word]:
    """The roles whose word stands next before or next behind a figure, with no other such figure between."""
    others = {id(other) for other in figures if other is not figure}
    place = next(n for n, piece in enumerate(message.pieces) if piece is figure)
    found: list[_Word] = []
    for step in (-1, 1):
        far, at = 0, place + step
        while 0 <= at < len(message.pieces) and id(message.pieces[at]) not in others and far < _FARTHEST:
            piece = message.pieces[at]
            role = _role_of(piece.word, roles) if piece.kind == "word" else ""
            far += _OVER_A_MARK if piece.kind == "mark" else 1 if role or piece.word not in _LITTLE else 0
            if role:
                found.append(_Word(role, far, step < 0))
                break
            at += step
    return found


def _role_of(word: str, roles: Mapping[str, frozenset[str]]) -> str:
    return next((role for role, words in roles.items() if word in words), "")
