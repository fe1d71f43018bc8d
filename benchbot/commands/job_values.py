"""What the book says for a job: asked like any question, so that it is on record and what is missing is logged."""

from __future__ import annotations

from types import TracebackType
from typing import Self

from benchbot.commands.asker import fresh_chat
from benchbot.conversation.conversation import Conversation, Turn
from benchbot.jobs.judged import shown, verdict_of
from benchbot.jobs.terms import NOT_JUDGED, Measured, Refused, Shown, Vehicle, Verdict, Who
from benchbot.outcomes import Answer, Gap, Other
from benchbot.places import Home, knowledge_folder
from benchbot.procedures.loading import load_procedures
from benchbot.procedures.steps import Procedures
from benchbot.vocabulary.terms import Vocabulary

_TOLD_AT_MOST = 300


class Bench:
    """One person's questions to the book, for one job."""

    def __init__(self, place: Home, who: Who) -> None:
        self._conversation = Conversation.open(place)
        self._who = who

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._conversation.close()

    @property
    def vocabulary(self) -> Vocabulary:
        return self._conversation.lexicon.vocabulary

    @property
    def book_version(self) -> int:
        return self._conversation.book.version

    def procedures(self) -> Procedures:
        """Those that the book carries; of a book that carries none, those that came with the program."""
        held = self._conversation.book.procedures()
        return load_procedures(knowledge_folder(), self.vocabulary) if held is None else held

    def vehicle(self, said: str) -> Vehicle | Refused:
        """As far as the book knows it; refused where it knows the vehicle and not the words beside it."""
        turn = self._conversation.consider(said, None)
        outcome, reading = turn.outcome, turn.reading
        beside = [word for word in (reading.unknown_part, *reading.left_over) if word]
        if reading.vehicle.state != "none" and beside:
            words = ", ".join(repr(word) for word in beside)
            return Refused(f"I cannot place {words}. Say year, make and model, and nothing else.", "customer")
        if not isinstance(outcome, Other) or outcome.what != "vehicle set" or not outcome.subject.make:
            return Vehicle(said)
        subject = outcome.subject
        year = subject.years[0] if len(subject.years) == 1 else None
        return Vehicle(said, subject.make, subject.model, year, subject.only_if)

    def target(self, vehicle: Vehicle, component: str, wheel: str, which: str) -> tuple[Shown, str] | None:
        """The torque of a fastener, and the same in one unit; None where the book has none, or more must be known."""
        words = (vehicle.said, self._axle(component, wheel), which, component, "torque")
        outcome = self._ask(" ".join(word for word in words if word)).outcome
        if not isinstance(outcome, Answer) or len(outcome.findings) != 1 or outcome.missing:
            return None
        row = outcome.findings[0].row
        return (shown(row), row.value) if (row.component, row.property) == (component, "torque") else None

    def verdict(self, vehicle: Vehicle, measured: Measured) -> tuple[Verdict, str]:
        """What the limits say about a measurement; where they say nothing, what the book says instead."""
        axle = self._axle(measured.component, measured.wheel)
        figures = f"measured {measured.value} {measured.unit}"
        name = "" if measured.property == "minimum thickness" else measured.property
        words = (vehicle.said, axle, measured.component, name, figures)
        turn = self._ask(" ".join(word for word in words if word))
        if isinstance(turn.outcome, Gap):
            return NOT_JUDGED, "the book holds no limit for it"
        if not isinstance(turn.outcome, Answer) or not turn.outcome.judged:
            return NOT_JUDGED, " ".join(block.text for block in turn.reply.blocks if block.kind != "echo")[
                :_TOLD_AT_MOST
            ]
        rows = [finding.row for finding in turn.outcome.findings]
        if any(row.component != measured.component for row in rows):
            return NOT_JUDGED, "the book holds limits of another part alone"
        text = " ".join(block.text for block in turn.reply.blocks if block.kind in ("verdict", "before"))
        return verdict_of(turn.outcome.judged, text, rows), ""

    def unknown(self, component: str, name: str) -> Refused | None:
        """A refusal where the book knows no such part, or no such figure of it."""
        held = self.vocabulary.components.get(component)
        if held is None:
            return Refused(f"There is no part {component!r}; name it as the step does.", "line")
        if name not in held.properties:
            known = tuple(held.properties)
            return Refused(f"{component} has no {name!r}; it has: {', '.join(known)}.", "line", known)
        return None

    def _axle(self, component: str, wheel: str) -> str:
        held = self.vocabulary.components.get(component)
        return wheel.partition(" ")[0] if held is None or held.axles == "both" else ""

    def _ask(self, text: str) -> Turn:
        return self._conversation.say(fresh_chat("job"), self._who.person, text)
