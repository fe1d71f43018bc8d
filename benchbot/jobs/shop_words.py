"""The shop's own word for a step at a location: looked at before it counts, shown above the step, never instead."""

from __future__ import annotations

from datetime import datetime

from benchbot.jobs.entries import read_text
from benchbot.jobs.terms import Refused
from benchbot.procedures.steps import Procedures
from benchbot.records import step_overrides
from benchbot.records.record import Record

TEXT_AT_MOST = 400


def say(
    record: Record,
    procedures: Procedures,
    location: int,
    procedure: str,
    step: str,
    text: str,
    author: str,
    now: datetime,
) -> str | Refused:
    """The text, which counts for jobs that begin from now on. Refused: it names a torque, which the book alone does."""
    refused = known(procedures, procedure, step)
    if refused is not None:
        return refused
    said = read_text(text, "what the shop says", TEXT_AT_MOST)
    if isinstance(said, Refused):
        return said
    # loads what checks the procedure files, which most do without
    from benchbot.procedures.crosschecks import has_fastener_figure

    if has_fastener_figure(said):
        return Refused(
            "That names a torque or an angle. Such figures come from the book alone; leave it out.", "figure"
        )
    step_overrides.put(record, location, procedure, step, said, author, now)
    return said


def known(procedures: Procedures, procedure: str, step: str) -> Refused | None:
    """Why nothing can be said of that step: there is no such procedure, or it has no such step."""
    held = procedures.procedures.get(procedure)
    if held is None:
        names = tuple(procedures.procedures)
        return Refused(f"There is no procedure {procedure!r}; there are: {', '.join(names)}.", "procedure", names)
    if step not in held.steps:
        return Refused(f"{procedure} has no step {step!r}; it has: {', '.join(held.steps)}.", "step", held.steps)
    return None
