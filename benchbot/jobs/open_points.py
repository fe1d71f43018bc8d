"""What keeps a job from being finished, until it is done or somebody says why not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from benchbot.jobs.state import JobState, differs
from benchbot.records.jobs import JobEvent

PointKind = Literal["step", "measurement", "fastener", "bad", "no value", "differs", "second person"]

# Such a point stays open by somebody's decision: a part that was condemned, a value that is not the book's.
DECIDED: frozenset[PointKind] = frozenset({"bad", "no value", "differs"})


@dataclass(frozen=True, slots=True)
class Point:
    """key: what it is called, the same as long as it is open. values: what it is about, for whoever words it anew."""

    key: str
    kind: PointKind
    step: str
    text: str
    values: tuple[tuple[str, str], ...]


def open_points(state: JobState) -> tuple[Point, ...]:
    """Those that nobody has explained; what is unsafe first."""
    return tuple(point for point in all_points(state) if point.key not in state.explained)


def all_points(state: JobState) -> tuple[Point, ...]:
    """The explained ones too."""
    return (*_bad(state), *_no_value(state), *_differs(state), *_second_person(state), *_lines(state), *_steps(state))


def _bad(state: JobState) -> Iterator[Point]:
    for line in state.measured:
        if line.body["judged"] == "bad" and not any(_follows(later, line) for later in state.measured):
            figure = f"{line.body['value']} {line.body['unit']}"
            named = _named(line.body["component"], line.body["wheel"])
            told = f": {line.body['verdict']}" if line.body["verdict"] else ""
            text = (
                f"{named}, {line.body['property']}: {figure} was judged bad, and nothing good was measured since{told}"
            )
            yield _point("bad", line, text, named=named, property=line.body["property"], figure=figure)


def _follows(later: JobEvent, line: JobEvent) -> bool:
    same = all(later.body[key] == line.body[key] for key in ("component", "property", "wheel"))
    return same and later.entry > line.entry and later.body["judged"] == "good"


def _no_value(state: JobState) -> Iterator[Point]:
    for line in state.tightened:
        if line.body["target"] is None:
            named = _named(line.body["component"], line.body["wheel"], line.body["which"])
            text = f"{named}: tightened to {line.body['set_to']}, and the book holds no value; say where it came from"
            yield _point("no value", line, text, named=named, set_to=line.body["set_to"])


def differs_text(line: JobEvent) -> str:
    """A fastener that was set to anything else than the book says."""
    body = line.body
    named = _named(body["component"], body["wheel"], body["which"])
    return f"{named}: set to {body['set_to']} where the book says {body['target']['text']}"


def _differs(state: JobState) -> Iterator[Point]:
    # the right value set later does not undo what was too much before
    for line in state.tightened:
        if differs(line):
            body = line.body
            named = _named(body["component"], body["wheel"], body["which"])
            text = f"{differs_text(line)}; strike it out, or say why, such as an adapter"
            yield _point("differs", line, text, named=named, set_to=body["set_to"], target=body["target"]["text"])


def _second_person(state: JobState) -> Iterator[Point]:
    if state.second_person:
        for line in state.unconfirmed():
            named = _named(line.body["component"], line.body["wheel"], line.body["which"])
            text = f"{named}: no second person has confirmed it (tightened by {line.name})"
            yield _point("second person", line, text, named=named, name=line.name)


def _lines(state: JobState) -> Iterator[Point]:
    for want in state.missing_lines():
        if want.where:
            named = _named(want.component, want.wheel)
            values = (("named", named), ("property", want.name))
            yield Point(
                f"measurement {want.key}", "measurement", want.step, f"{named}: no {want.name} measured", values
            )
        else:
            named = _named(want.component, want.wheel, want.name)
            text = f"{named}: nobody has entered what it was tightened to"
            yield Point(f"fastener {want.key}", "fastener", want.step, text, (("named", named),))


def _steps(state: JobState) -> Iterator[Point]:
    for number, step in enumerate(state.sheet.steps, 1):
        if step.key not in state.settled:
            values = (("number", str(number)), ("title", step.title))
            yield Point(f"step {step.key}", "step", step.key, f"step {number}, {step.title}: not done", values)


def _named(component: str, wheel: str, which: str = "") -> str:
    whole = f"{which} {component}" if which else component
    return f"{whole}, {wheel}" if wheel else whole


def _point(kind: PointKind, line: JobEvent, text: str, **values: str) -> Point:
    return Point(f"{kind} {line.entry}", kind, line.step, text, tuple(values.items()))
