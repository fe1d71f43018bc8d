"""Which figure of a message is a limit stamped or cast on the part, and which was measured."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from benchbot.measuring.figures import Figure
from benchbot.measuring.words import FILL, PART, TAKEN

_LIMIT = r"min(?:imum)?|minimo|max(?:imum)?|maximo|limit|limite|discard|wear|th|thickness|espesor|dia|diameter|diametro"
_THING = r"rotors?|drums?|discs?|disks?|hat|edge|face|part|discos?|tambor(?:es)?|pieza|campana"
_STAMP = (
    r"stamp(?:ed|ing|t)?|cast(?: ?(?:in|on|into))?|engraved|etched|embossed|marked|marking|printed|grabad[oa]|"
    r"estampad[oa]|marcad[oa]|troquelad[oa]"
)
_GLUE = (
    rf"{_LIMIT}|{_THING}|on|it|the|its|it's|is|are|at|as|to|of|but|and|with|a|says|has|y|el|la|en|es|de|pero|que|con"
)
_STAMPS = re.compile(
    rf"(?P<before>(?:[ ,:;=]*(?<![\w'])(?:{_GLUE})(?![\w']))*[ ,:;=]*)"
    rf"(?P<stamp>(?<![\w'])(?:{_STAMP}|(?:{_LIMIT})(?: (?:th|thickness|dia|diameter))? (?:says )?on "
    rf"(?:the |its? ?)?(?:{_THING}|it)|(?:{_THING}) (?:says|has|reads|is marked|dice) (?:a )?(?:{_LIMIT}))(?![\w']))"
    rf"(?P<after>(?:[ ,:;=]*(?<![\w'])(?:{_GLUE})(?![\w']))*[ ,:;=]*)"
)
_PARTED = re.compile(r"[,;]|\b(?:but|and|y|pero|with|con)\b")
_POINTS = re.compile(rf"\b(?:{_LIMIT}|is|at|as|es|to|says)\b|[:=]")


_NEXT = re.compile(r"^ *(?:at |is |it |= ?|: ?)*[0-9.]")


@dataclass(frozen=True, slots=True)
class Stamp:
    """The figure that is a limit on the part; None: the message leaves open which one is. spans: what says so."""

    figure: Figure | None
    spans: tuple[tuple[int, int], ...]


def stamp_in(message: str, figures: Sequence[Figure]) -> Stamp | None:
    """What a folded message says of a limit on the part; None where it says nothing of one, or of nothing besides."""
    match = _STAMPS.search(message)
    if match is None or len(figures) < 2:
        return None
    at, end = match.span()
    before = next((one for one in figures if one.end <= at and not message[one.end : at].strip()), None)
    after = next((one for one in figures if one.start >= end and not message[end : one.start].strip()), None)
    if before is None and after is None:
        return None
    spans = _without_parts(message, at, end)
    near: list[Figure] = []
    if before is not None and not _PARTED.search(match["before"]) and not _taken(message, before):
        near.append(before)
    if after is not None and not _PARTED.search(match["after"]) and not _taken(message, after):
        near.append(after)
    if len(near) > 1 and _POINTS.search(match["after"]):
        near = near[1:]
    if len(near) > 1 and _POINTS.search(match["before"]) and not _POINTS.search(match["after"]):
        near = near[1:]
    return Stamp(near[0] if len(near) == 1 else None, spans)


def _taken(message: str, figure: Figure) -> bool:
    """Whether a word of measuring stands right at the figure."""
    behind = TAKEN.match(message[figure.end :].lstrip(" "))
    if behind is not None and _NEXT.match(message[figure.end :].lstrip(" ")[behind.end() :]):
        # "19 mm measures 18.5": it is of the next figure
        behind = None
    ahead = [one for one in TAKEN.finditer(message, 0, figure.start) if FILL.match(message[one.end() : figure.start])]
    return behind is not None or bool(ahead)


def _without_parts(message: str, start: int, end: int) -> tuple[tuple[int, int], ...]:
    """The stretch without the names of parts in it: they say what was measured."""
    spans, at = [], start
    for part in PART.finditer(message, start, end):
        spans.append((at, part.start()))
        at = part.end()
    return (*spans, (at, end))
