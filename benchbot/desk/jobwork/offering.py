"""What was measured and is in no job yet: each line that it can be of, as a button that puts it there."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from benchbot.conversation.conversation import Turn
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.line_words import want_words
from benchbot.desk.jobwork.typed_figures import Figures
from benchbot.desk.jobwork.wording import JobWording
from benchbot.desk.sheets import Button
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState
from benchbot.lookup.matching import axle_of
from benchbot.measuring.saying import said_measurement
from benchbot.outcomes import Answer, Finding
from benchbot.vocabulary.letters import fold

PUT = "mp"
_AT_MOST = 8
_SIDES = frozenset({"left", "right"})
_SIDE_SAID = re.compile(r"\b(?:left|lh|izquierd[oa]s?|right|rh|derech[oa]s?)\b")


def offered(state: JobState, step: str, puts: Sequence[tuple[Figures, int]], words: JobWording) -> Leaf:
    """puts: the figures, and the number of the line among those that the job measures. step: where the person is."""
    shown = list(puts)[:_AT_MOST]
    many = len({figures.figures for figures, _ in shown}) > 1
    buttons = []
    for at, (figures, number) in enumerate(shown):
        label = words.put_in.format(line=want_words(state.sheet.measures[number], words.language))
        buttons.append(Button(f"{told(figures)}: {label}" if many else label, f"{PUT}.{at}", wide=True))
    buttons.append(Button(words.to_the_step, "s"))
    held = [
        {"figures": list(figures.figures), "unit": figures.unit, "when": figures.when, "want": number}
        for figures, number in shown
    ]
    said = "; ".join(dict.fromkeys(told(figures) for figures, _ in shown))
    text = words.not_in_job.format(job=state.number, figures=said)
    body: dict[str, Any] = {"job": state.number, "step": step, "puts": held}
    return Leaf((line(text, "question"),), tuple(buttons), body)


def told(figures: Figures) -> str:
    return f"{' '.join(figures.figures)} {figures.unit}".strip()


def lines_of(state: JobState, step: str, figures: Figures) -> list[tuple[Figures, int]]:
    """The lines that a step measures and that nobody has entered; all of them once all are there."""
    wants = [(number, one) for number, one in enumerate(state.sheet.measures) if one.step == step]
    missing = {one.key for one in state.missing_lines(step)}
    open_ones = [number for number, one in wants if one.key in missing]
    return [(figures, number) for number in open_ones or [number for number, _ in wants]]


def lines_for(state: JobState, turn: Turn, text: str, is_name: Callable[[str], bool]) -> list[tuple[Figures, int]]:
    """The lines of the job that a message in between may have measured; none where it is about anything else."""
    said = said_measurement(text, is_name)
    if said is None or not isinstance(turn.outcome, Answer):
        return []
    findings = [one for one in turn.outcome.findings if _of_the_vehicle(one, state)]
    puts: dict[tuple[tuple[str, ...], int], tuple[Figures, int]] = {}
    for (axle, where), measures in said.measured.places().items():
        units = {one.unit for one in measures}
        figures = Figures(tuple(one.text for one in measures), units.pop() if len(units) == 1 else "")
        sides = {word for word in where.split() if word in _SIDES} or _sides(text)
        for number, want in enumerate(state.sheet.measures):
            if any(_is_of(want, finding, axle) for finding in findings) and _is_on(want, sides):
                puts.setdefault((figures.figures, number), (figures, number))
    return list(puts.values())


def _of_the_vehicle(finding: Finding, state: JobState) -> bool:
    subject, vehicle = finding.subject, state.vehicle
    same = (subject.make, subject.model) == (vehicle.make, vehicle.model)
    return same and (vehicle.year is None or vehicle.year in subject.years or not subject.years)


def _is_of(want: Want, finding: Finding, axle: str) -> bool:
    row = finding.row
    on = axle_of(row)
    on_axle = all(not one or not want.wheel or want.wheel.startswith(one) for one in (on, axle))
    return (row.component, row.property) == (want.component, want.name) and on_axle


def _is_on(want: Want, sides: set[str]) -> bool:
    return not sides or not want.wheel or want.wheel.partition(" ")[2] in sides


def _sides(text: str) -> set[str]:
    """The side, where the message names one and not the other; any other way of saying it leaves both on offer."""
    found = {"left" if said[0].startswith(("l", "i")) else "right" for said in _SIDE_SAID.finditer(fold(text))}
    return found if len(found) == 1 else set()


def figures_of(put: Mapping[str, Any]) -> Figures:
    return Figures(tuple(str(one) for one in put["figures"]), str(put["unit"]))
