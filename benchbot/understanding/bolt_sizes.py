"""The sizes by which a message names a fastener: threads, which are held against the book, and bare sizes."""

from __future__ import annotations

from benchbot.understanding.figures import unit_after
from benchbot.understanding.work import Work

_FASTENERS = frozenset({"bolt", "nut", "screw", "stud", "fastener", "capscrew"})
_LENGTHS = frozenset({"mm", "millimeter", "millimetre", "millimeters", "millimetres", "in", "inch", "inches", '"'})
_BETWEEN = frozenset({"head", "hex", "with", "de", "size", "sized", "a", "of", "the", "flange"})


def take_threads(work: Work) -> list[str]:
    """Takes the threads, so that no part of one is read as anything else; no choice may leave one out."""
    found: list[str] = []
    for at, token in enumerate(work.tokens):
        if token.kind == "thread" and work.free(at):
            found.append(token.text)
            work.take([at], "left over", "a thread")
    return found


def sizes_of_fasteners(work: Work) -> list[str]:
    """Sizes right beside a word such as bolt: "12mm bolt", "3/8 bolt", "bolt with 15 mm head"."""
    found: list[str] = []
    for at in range(len(work.tokens)):
        unit = at + _unit(work, at)
        if unit == at and "/" not in work.text(at):
            continue
        if work.is_number(at) and (_fastener(work, unit + 1, 1) or _fastener(work, at - 1, -1)):
            found.append(" ".join(work.text(i) for i in range(at, unit + 1) if work.text(i) != "-"))
    return found


def _unit(work: Work, at: int) -> int:
    """How many tokens behind the number make a unit of length."""
    if not work.is_number(at):
        return 0
    if work.text(at + 1) in _LENGTHS:
        return 1
    length = unit_after(work, at) if work.free(at + 1) else 0
    return length if length and work.text(at + length) in _LENGTHS else 0


def _fastener(work: Work, at: int, step: int) -> bool:
    """Whether a word that alone names no part, as bolt, stands there, past words such as "head"."""
    while work.text(at) in _BETWEEN:
        at += step
    if not work.is_word(at):
        return False
    named = {c.word for c in work.lexicon.canonical(work.text(at))}
    return bool(named & _FASTENERS) and named <= _FASTENERS | {"pin"}


def is_a_length(said: str) -> bool:
    """Whether a value that was said is a length: "19 mm", "3/8"; no torque is told so."""
    return "/" in said.split(" ")[0] or said.split(" ")[-1] in _LENGTHS
