"""What technicians say about answers that look wrong to them, on record, and what a curator found about it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Literal

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

# right: the value stands.
Did = Literal["right", "corrected", "withdrawn"]

PUT = """
INSERT INTO note (answer, person, location, said, state, at)
VALUES (:answer, :person, :location, '', 'open', :at) RETURNING note
"""

SAY = "UPDATE note SET said = :said WHERE note = :note"

OF_ANSWER = "SELECT note FROM note WHERE answer = :answer AND person = :person"

# Few notes are open at a time, while a row may have been shown any number of times: CROSS JOIN has SQLite begin with
# the notes.
_SPECS_AT_A_TIME = 8
_SPECS = ", ".join(f":spec{number}" for number in range(_SPECS_AT_A_TIME))
# The last column is the revision that mended what was questioned, or NULL while nobody has settled it.
QUESTIONED = f"""
SELECT answer_spec.spec, answer_spec.revision, note.at,
CASE note.state WHEN 'open' THEN NULL ELSE coalesce((
SELECT max(spec_revision.revision) FROM note_end, spec_revision, change
WHERE note_end.note = note.note AND spec_revision.spec = answer_spec.spec AND spec_revision.status <> 'draft'
AND change.change = spec_revision.change AND change.at <= note_end.at), 0) END
FROM note CROSS JOIN answer_spec
WHERE note.state IN ('open', 'mended') AND answer_spec.answer = note.answer AND answer_spec.spec IN ({_SPECS})
"""

OPEN = """
SELECT note.note, note.answer, answer_spec.spec, answer_spec.revision, note.said, note.person, note.location, note.at,
answer.asked
FROM note CROSS JOIN answer_spec CROSS JOIN answer
WHERE note.state = 'open' AND answer_spec.answer = note.answer AND answer.answer = note.answer
ORDER BY note.note, answer_spec.spec
"""

OPEN_OF_SPEC = """
SELECT DISTINCT note.note FROM note CROSS JOIN answer_spec
WHERE note.state = 'open' AND answer_spec.answer = note.answer AND answer_spec.spec = :spec ORDER BY note.note
"""

SHOWN = """
SELECT answer_spec.spec, answer_spec.revision FROM note CROSS JOIN answer_spec
WHERE note.note = :note AND answer_spec.answer = note.answer ORDER BY answer_spec.spec
"""

# Of two who settle a note at once, one gets its number.
END = "UPDATE note SET state = :state WHERE note = :note AND state = 'open' RETURNING note"

PUT_END = "INSERT INTO note_end (note, did, said, person, at) VALUES (:note, :did, :said, :person, :at)"

ALL = (PUT, SAY, OF_ANSWER, QUESTIONED, OPEN, OPEN_OF_SPEC, SHOWN, END, PUT_END)


@dataclass(frozen=True, slots=True)
class OpenNote:
    """A note that nobody has settled, with one of the rows that its answer showed; asked: the question."""

    note: int
    answer: int
    spec: str
    revision: int
    said: str
    person: str
    location: int | None
    at: str
    asked: str


def put(record: Record, answer: int, person: str, location: int | None, now: datetime) -> tuple[int, bool]:
    """The number of the person's note on an answer, and whether it is new; one person has one note on one answer."""
    with record.writing() as store:
        before = store.row(OF_ANSWER, {"answer": answer, "person": person})
        if before is not None:
            return int(before[0]), False
        values = {"answer": answer, "person": person, "location": location, "at": moment(now)}
        return number_of(store.row(PUT, values)), True


def say(record: Record, note: int, said: str) -> None:
    """The words to a note."""
    with record.writing() as store:
        store.run(SAY, {"note": note, "said": said})


def questioned(record: Record, specs: Sequence[tuple[str, int]]) -> dict[str, date]:
    """Since when rows are questioned, by id; specs: (id, revision) as they are shown.

    Until its note is settled, a row is questioned in the revision that was shown and in every later one. Corrected or
    withdrawn, it is questioned for as long as a revision is shown that came before that.
    """
    found: dict[str, date] = {}
    ids = list(dict.fromkeys(spec for spec, _ in specs))
    shown = dict(specs)
    for at in range(0, len(ids), _SPECS_AT_A_TIME):
        some = ids[at : at + _SPECS_AT_A_TIME]
        values = {f"spec{number}": some[number] if number < len(some) else "" for number in range(_SPECS_AT_A_TIME)}
        for spec, revision, since, mended in record.rows(QUESTIONED, values):
            day = datetime.fromisoformat(since).date()
            if revision <= shown[spec] and (mended is None or shown[spec] < mended) and day <= found.get(spec, day):
                found[spec] = day
    return found


def open_notes(record: Record) -> list[OpenNote]:
    """Every note that waits for a curator, oldest first; one of an answer of several rows is there for each."""
    return [_open(row) for row in record.rows(OPEN, {})]


def open_on(record: Record, spec: str) -> tuple[int, ...]:
    """The numbers of the notes that wait and are about that row."""
    return tuple(int(row[0]) for row in record.rows(OPEN_OF_SPEC, {"spec": spec}))


def shown(record: Record, note: int) -> list[tuple[str, int]]:
    """(id, revision) of the rows that the answer showed which the note is about."""
    return [(str(spec), int(revision)) for spec, revision in record.rows(SHOWN, {"note": note})]


def end(store: Store, note: int, did: Did, said: str, person: str, now: datetime) -> bool:
    """Settles a note; False when there is none of that number or it was settled before."""
    # What is corrected or withdrawn stays marked until the book in place holds that.
    if store.row(END, {"note": note, "state": "settled" if did == "right" else "mended"}) is None:
        return False
    store.run(PUT_END, {"note": note, "did": did, "said": said, "person": person, "at": moment(now)})
    return True


def _open(row: Sequence[Any]) -> OpenNote:
    note, answer, spec, revision, said, person, location, at, asked = row
    held = None if location is None else int(location)
    return OpenNote(int(note), int(answer), spec, int(revision), said, person, held, at, asked)
