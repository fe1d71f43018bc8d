"""What technicians say about answers that look wrong to them, on record."""

from __future__ import annotations

from datetime import datetime

from benchbot.records.entry import moment
from benchbot.records.record import Record, number_of

PUT = """
INSERT INTO note (answer, person, location, said, state, at)
VALUES (:answer, :person, :location, '', 'open', :at) RETURNING note
"""

SAY = "UPDATE note SET said = :said WHERE note = :note"

OF_ANSWER = "SELECT note FROM note WHERE answer = :answer AND person = :person"

ALL = (PUT, SAY, OF_ANSWER)


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
