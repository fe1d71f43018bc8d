"""Which side each figure was taken at: "left 22.4 right 22.1", "22.4 l, 22.1 r", "lf 22.4 rf 22.3"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from benchbot.measuring.figures import Figure
from benchbot.measuring.words import OTHER_SIDE, SHORT, SIDES

_TOUCHES = re.compile(
    r"^[ ,:=-]*(?:(?:at|is|are|was|one|rotor|rotors|disc|pad|pads|measured|measures|reads) *)*[:=]? *$"
)


_CORNERS = {"fl": {"fr", "rl", "rr"}, "fr": {"fl"}, "rl": {"rr", "fl"}}


@dataclass(frozen=True, slots=True)
class _Label:
    start: int
    end: int
    word: str
    where: str
    axle: str


@dataclass(slots=True)
class Sides:
    """id of a figure -> where it was taken and on which axle; the stretches of the message that say so."""

    measures: dict[int, tuple[str, str]] = field(default_factory=dict)
    spans: list[tuple[int, int]] = field(default_factory=list)
    axles: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.measures)

    def of(self, figure: Figure) -> dict[str, str]:
        where, axle = self.measures.get(id(figure), ("", ""))
        return {"where": where, "axle": axle if len(self.axles) > 1 else ""}


def labelled(message: str, figures: Sequence[Figure]) -> Sides:
    """The sides of a message; empty unless two figures stand at sides that go together."""
    labels = _labels(message)
    first = figures[0] if figures else None
    led = first is not None and bool(_run_before(message, first, [one for one in labels if one.end <= first.start]))
    for ways in (_before, _behind) if led else (_behind, _before):
        found = ways(message, figures, labels)
        wheres = {where for where, _ in found.measures.values()}
        halves = {half for where in wheres for half in where.split()}
        axles = {axle for _, axle in found.measures.values()} - {""}
        if any(OTHER_SIDE[half] in halves for half in halves) or len(axles) > 1:
            found.axles = tuple(sorted(axles))
            return found
    return Sides()


def _labels(message: str) -> list[_Label]:
    found = [
        _Label(*match.span(), match[0], where, axle)
        for pattern, where, axle in SIDES
        for match in pattern.finditer(message)
    ]
    words = {one.word.replace("/", "") for one in found}
    corners = bool(words & {"lf", "rf", "lr", "fl", "rl"})
    kept = []
    for one in sorted(found, key=lambda one: one.start):
        word = one.word.replace("/", "")
        if word == "rr" and not corners:
            one = _Label(one.start, one.end, word, "", "rear")
        if word in ("fl", "fr", "rl") and not words & _CORNERS[word]:
            # "fr" by itself is the front
            continue
        if word in SHORT and one.where and not any(other.where == OTHER_SIDE[one.where] for other in found):
            continue
        kept.append(one)
    return kept


def _before(message: str, figures: Sequence[Figure], labels: list[_Label]) -> Sides:
    """Each figure has the labels before it; a figure with none goes on with those of the figure before."""
    sides, at, now = Sides(), 0, ("", "")
    for figure in figures:
        run = _run_before(message, figure, [one for one in labels if at <= one.start and one.end <= figure.start])
        where, axle = _told(run)
        if not where and now[0]:
            # "left 22.4 right 22.1 front": the axle of both, behind them
            run = []
        if run:
            # "left inner 3 outer 5": the side goes on, the depth is new
            side = next((half for half in now[0].split() if half not in ("inner", "outer")), "")
            if where in ("inner", "outer") and side:
                where = f"{side} {where}"
            now = (where, axle or now[1])
            sides.spans += [(one.start, one.end) for one in run]
        elif (not now[0] and not now[1]) or not re.fullmatch(r"[ ,;/&]*(?:and)?[ ]*", message[at : figure.start]):
            continue
        sides.measures[id(figure)] = now
        at = figure.end
    return sides


def _run_before(message: str, figure: Figure, labels: list[_Label]) -> list[_Label]:
    run: list[_Label] = []
    start = figure.start
    for one in reversed(labels):
        if not _TOUCHES.match(message[one.end : start]):
            break
        run.insert(0, one)
        start = one.start
    return run


def _behind(message: str, figures: Sequence[Figure], labels: list[_Label]) -> Sides:
    """Each figure has the labels right behind it."""
    sides = Sides()
    for n, figure in enumerate(figures):
        end = figures[n + 1].start if n + 1 < len(figures) else len(message)
        run: list[_Label] = []
        at = figure.end
        for one in labels:
            if at <= one.start and one.end <= end and re.fullmatch(r" *(?:on |on the |the )?", message[at : one.start]):
                run.append(one)
                at = one.end
        if run:
            sides.measures[id(figure)] = _told(run)
            sides.spans += [(one.start, one.end) for one in run]
    return sides


def _told(run: list[_Label]) -> tuple[str, str]:
    where = " ".join(dict.fromkeys(one.where for one in run if one.where))
    return where, next((one.axle for one in run if one.axle), "")
