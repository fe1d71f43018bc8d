"""What every page of a job works with: the record, the book, the procedures, and who may do what to which job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from benchbot.book.reader import Book
from benchbot.conversation.conversation import Conversation
from benchbot.conversation.lift import Lift
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.wording import JobWording, jobwords_of
from benchbot.desk.sheets import Button
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import Refused, Vehicle, Who
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.people.terms import Decision
from benchbot.places import Home, knowledge_folder
from benchbot.procedures.steps import Procedures
from benchbot.records import lifts
from benchbot.records.record import Record
from benchbot.vocabulary.terms import Stated


@dataclass(slots=True)
class Shelf:
    """The procedures of the book, read when the first job is asked for; most desks of a shop answer without."""

    conversation: Conversation
    _book: Book | None = field(default=None, repr=False)
    _held: Procedures | None = field(default=None, repr=False)

    def procedures(self) -> Procedures:
        book = self.conversation.book
        if self._held is None or self._book is not book:
            self._book, self._held = book, book.procedures() or self._shipped()
        return self._held

    def _shipped(self) -> Procedures:
        """For a book that was made before books carried any."""
        from benchbot.procedures.loading import load_procedures

        return load_procedures(knowledge_folder(), self.conversation.lexicon.vocabulary)


@dataclass(frozen=True, slots=True)
class Bench:
    """A job belongs to a location; whoever has the right at that location may go on with it."""

    record: Record
    people: People
    conversation: Conversation
    home: Home
    shelf: Shelf

    def words(self, handling: Handling) -> JobWording:
        return jobwords_of(handling.asker.language)

    def who(self, handling: Handling) -> Who:
        return Who(handling.asker.person, handling.asker.name)

    def may(self, handling: Handling, location: int | None, action: Action = "job") -> Decision:
        """By the role at the location of the job; at that where they stand for one that belongs to none."""
        asker, private = handling.asker, handling.incoming.private
        if location is not None:
            return asker.may(action, location, private)
        if asker.standing is not None:
            return asker.may(action, asker.standing.location.number, private)
        return asker.may_anywhere(action, private)

    def job(self, handling: Handling, body: Mapping[str, Any]) -> JobState | Leaf:
        """The job of a page, or the page that says why it is not to be had."""
        state = job_state(self.record, int(body.get("job", 0)))
        if state is None:
            return self.told(handling, self.words(handling).job_gone)
        decision = self.may(handling, state.row.location)
        if not decision.allowed:
            return self.told(handling, handling.words.denied(decision))
        return state

    def told(self, handling: Handling, text: str, job: int = 0) -> Leaf:
        """A line alone, with the way to the step where there is a job."""
        words = self.words(handling)
        buttons = (Button(words.to_the_step, "s"),) if job else ()
        return Leaf((line(text, "question"),), buttons, {"job": job})

    def refused(self, handling: Handling, refused: Refused, job: int) -> Leaf:
        return self.told(handling, self.words(handling).refused(refused), job)

    def once(self, handling: Handling, what: str = "") -> str:
        """What must not be done twice: whatever this message or press does."""
        return f"{handling.incoming.bot} {handling.incoming.number} {what}".strip()

    def put_on_lift(self, handling: Handling, vehicle: Vehicle) -> None:
        """Questions in between are about the vehicle of the job."""
        if not vehicle.make or vehicle.year is None:
            return
        lift = lift_of(vehicle)
        until = handling.now + handling.asker.manner.kept
        handling.record.put_chat_state(handling.chat, lift.to_past().to_text(), handling.now, until)
        lifts.put(handling.record, handling.chat, lift.to_text(), handling.now)


def lift_of(vehicle: Vehicle) -> Lift:
    """The vehicle as the conversation has it; one that the book does not know goes by what was said of it."""
    stated = tuple(Stated(key, value, False) for key, value in vehicle.only_if)
    years = () if vehicle.year is None else (vehicle.year,)
    return Lift(vehicle.make, vehicle.model or vehicle.said, years, stated=stated)


def vehicle_of(lift: Lift) -> Vehicle:
    """As a job keeps it. A part of a value ("turbo") is left out: it is asked for where it decides."""
    only_if = tuple((one.key, one.value) for one in lift.stated if not one.part)
    named = " ".join((str(lift.years[0]), lift.make, lift.model, *(value for _, value in only_if)))
    return Vehicle(named, lift.make, lift.model, lift.years[0], only_if)
