"""Answers that a technician questioned: what waits for a curator, and what a curator found."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, get_args

from benchbot.curation.two_people import name_of
from benchbot.records import notes, revisions
from benchbot.records.notes import Did, questioned
from benchbot.records.record import Record
from benchbot.specs.columns import SPECS

__all__ = ["DID", "Did", "NotSettled", "Questioned", "Settled", "open_notes", "questioned", "settle"]

DID: tuple[Did, ...] = get_args(Did)


@dataclass(frozen=True, slots=True)
class Questioned:
    """A note that nobody has settled, and one of the rows that its answer showed, as it was shown.

    said: the technician's words, "" when they wrote none. asked: the question. cells: of the shown revision, by column
    of the spec table. newest: the revision that answers by now, 0 for a row that never answered.
    """

    note: int
    answer: int
    spec: str
    revision: int
    said: str
    person: str
    name: str
    location: int | None
    at: str
    asked: str
    cells: dict[str, str]
    newest: int

    @property
    def vehicle(self) -> str:
        cells = self.cells
        only = f", {cells['only_if']}" if cells["only_if"] else ""
        return f"{cells['year_from']}-{cells['year_to']} {cells['make']} {cells['model']}{only}"

    @property
    def value(self) -> str:
        """What of which part, and the value that was shown."""
        cells = self.cells
        part = " ".join(filter(None, (cells["position"], cells["component"], cells["property"])))
        return f"{part}: {cells['value']}"


@dataclass(frozen=True, slots=True)
class Settled:
    note: int
    did: Did


@dataclass(frozen=True, slots=True)
class NotSettled:
    """Nothing was written; reason: in words for the person who tried."""

    reason: str
    about: Literal["no comment", "not open", "not mended"]
    spec: str = ""


def open_notes(record: Record) -> list[Questioned]:
    """Every questioned row, oldest note first; a note on an answer of several rows is there once for each."""
    found = []
    for one in notes.open_notes(record):
        steps = revisions.of_spec(record, one.spec)
        shown = next((step for step in steps if step.revision == one.revision), None)
        newest = max((step.revision for step in steps if step.status != "draft"), default=0)
        found.append(
            Questioned(
                one.note,
                one.answer,
                one.spec,
                one.revision,
                one.said,
                one.person,
                name_of(record, one.person) or one.person,
                one.location,
                one.at,
                one.asked,
                # A book may come from elsewhere, without its rows on record.
                shown.cells if shown else dict.fromkeys(SPECS.columns, ""),
                newest,
            )
        )
    return found


def settle(record: Record, note: int, did: Did, said: str, person: str, now: datetime) -> Settled | NotSettled:
    """Ends a note: its answer is shown without the mark again, unless another note is open on it.

    Corrected or withdrawn is only what has a later revision that says so, and the mark stays until the book in place
    holds that.
    """
    said = " ".join(said.split())
    if not said:
        return NotSettled("Say what you found.", "no comment")
    with record.writing() as store:
        rows = notes.shown(record, note)
        if did != "right" and rows and not any(_is_mended(record, spec, shown, did) for spec, shown in rows):
            spec, revision = rows[0]
            todo = "withdraw it" if did == "withdrawn" else "correct it and have that approved"
            reason = f"Row {spec} still says what was questioned (revision {revision}); {todo} first."
            return NotSettled(reason, "not mended", spec)
        if not notes.end(store, note, did, said, person, now):
            return NotSettled(f"There is no open note {note}.", "not open")
    return Settled(note, did)


def _is_mended(record: Record, spec: str, shown: int, did: Did) -> bool:
    answering = revisions.answering(record, spec)
    if answering is None or answering.revision <= shown:
        return False
    return (answering.status == "withdrawn") == (did == "withdrawn")
