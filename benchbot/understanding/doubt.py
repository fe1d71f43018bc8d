"""Finds what was said in doubt or denied: a qualifier or an axle that is not sure must be asked, never taken."""

from __future__ import annotations

from benchbot.understanding.positions import Position
from benchbot.understanding.reading import WordNote
from benchbot.understanding.work import Work

_PASSED = frozenset({"the", "a", "an", "its", "it", "is", "has", "have", "my", "this", "was"})
_LONGEST = 4


def doubted_keys(work: Work) -> set[str]:
    """The qualifier keys of which something was stated in doubt ("not sure if 4wd", "4wd deleted")."""
    found: set[str] = set()
    for at, note in enumerate(work.notes):
        pairs = keys_of(note)
        if pairs and _in_doubt(work, at, past_qualifiers=True):
            found.update(key for key, _ in pairs)
    return found


def keys_of(note: WordNote | None) -> list[tuple[str, str]]:
    """The qualifiers that a word was read as, each by key and value; none where it is no qualifier."""
    if note is None or note.role != "qualifier":
        return []
    parts = (part.partition(" ") for part in note.read_as.split(" or ") if part)
    return [("build" if key == "built" else key, value) for key, _, value in parts]


def sure_positions(work: Work, positions: list[Position]) -> list[Position]:
    """The positions without those in doubt ("non-front", "not the front", "front missing")."""
    return [p for p in positions if not _in_doubt(work, p.at) and not _one_of_two(work, p.at)]


def _one_of_two(work: Work, at: int) -> bool:
    """Example: "front or rear": neither is stated."""
    return "or" in (work.text(at - 1) if at else "", work.text(at + 1))


def _in_doubt(work: Work, at: int, past_qualifiers: bool = False) -> bool:
    before = at - 1
    while before >= 0 and (
        (work.tokens[before].kind == "mark" and work.text(before) in "-:") or _passed(work, before, past_qualifiers)
    ):
        if _ends_here(work, before):
            return True
        before -= 1
    if before >= 0 and _ends_here(work, before):
        return True
    after = at + 1
    while after < len(work.tokens) and (work.text(after) in ("-", ":") or work.role(after) == "qualifier"):
        after += 1
    return after < len(work.tokens) and work.in_list(after, "doubt_after") > 0


def _passed(work: Work, at: int, past_qualifiers: bool) -> bool:
    return work.text(at) in _PASSED or (past_qualifiers and work.role(at) == "qualifier")


def _ends_here(work: Work, end: int) -> bool:
    """Whether a phrase of doubt ends at this place."""
    return any(
        start + length == end + 1
        for start in range(max(0, end - _LONGEST), end + 1)
        if (length := work.in_list(start, "doubt_before"))
    )
