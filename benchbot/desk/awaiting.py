"""What is written while an entry is awaited: the entry, or a question, which must not be swallowed by it."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.desk.bookwork.bookwork import ENTRIES as CURATORS
from benchbot.desk.bookwork.bookwork import Bookwork
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.jobwork import Jobwork
from benchbot.desk.jobwork.leaves import ENTRY as OF_A_JOB
from benchbot.desk.notes import WHAT as WORDS_OF_A_NOTE
from benchbot.desk.notes import Notes
from benchbot.desk.owning import Owning
from benchbot.desk.questions import Questions
from benchbot.desk.standing import Standing
from benchbot.outcomes import Answer, Calculation, Choose, Gap
from benchbot.records import cards, expected
from benchbot.records.cards import Card
from benchbot.records.expected import Expected


@dataclass(frozen=True, slots=True)
class Awaiting:
    """Words to a note, the name of a location, what a curator enters, what is entered in a job."""

    conversation: Conversation
    notes: Notes
    owning: Owning
    questions: Questions
    standing: Standing
    bookwork: Bookwork
    jobwork: Jobwork

    def awaited(self, handling: Handling, text: str) -> Expected | None:
        """The entry that the text is; None when none is awaited, or it is a question: then it is awaited on.

        In a group only a reply to the message that asks for the entry is one, as nothing else of it need reach us.
        """
        entry = expected.one(handling.record, handling.chat, handling.asker.person, handling.now)
        if entry is None or not text.strip() or self._replies(handling, entry):
            return entry if text.strip() else None
        if not handling.incoming.private:
            return None
        asks = entry.what == WORDS_OF_A_NOTE and _names_vehicle_and_part(self._alone(handling, text))
        return None if asks else entry

    def written(self, handling: Handling, entry: Expected, text: str) -> None:
        """A name that reads as a question is taken only once they say that it is one."""
        if entry.what == WORDS_OF_A_NOTE:
            self.notes.written(handling, entry, text)
        elif entry.what == OF_A_JOB:
            self.jobwork.written(handling, entry, text)
        elif entry.what in CURATORS:
            self.bookwork.written(handling, entry, text)
        elif _reads_as_a_question(self._alone(handling, text)):
            self.owning.ask_whether(handling, entry, text)
        else:
            self.owning.written(handling, entry, text)

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """Whether a name that reads as a question is a name: `yes`, or `no`, upon which the question is answered."""
        text, message = card.body["said"], card.body["message"]
        if code == "yes":
            self.owning.written(handling, Expected(card.body["what"], card.body["about"]), text, card)
        elif code != "no":
            handling.refuse(handling.words.pressed_old)
        elif handling.asker.standing is None:
            self.standing.wait_on(handling, card, text, message)
        else:
            handling.notice()
            self.questions.answer_on(handling, card, text, message)

    def _replies(self, handling: Handling, entry: Expected) -> bool:
        incoming = handling.incoming
        card = cards.one(handling.record, entry.body["card"]) if "card" in entry.body else None
        # a message of ours of which nobody told us yet that it arrived has no number to compare
        return incoming.answers_us and card is not None and card.message in ("", incoming.answers)

    def _alone(self, handling: Handling, text: str) -> Turn:
        """The text by itself: what it says, and not what the chat would add to it."""
        return self.conversation.consider(text, None, handling.asker.manner)


def _names_vehicle_and_part(turn: Turn) -> bool:
    reading = turn.reading
    vehicle = reading.vehicle.state != "none" or bool(reading.years and reading.asks)
    return reading.kind == "question" and vehicle and isinstance(turn.outcome, (Answer, Choose, Gap))


def _reads_as_a_question(turn: Turn) -> bool:
    asks = turn.reading.kind == "question" and bool(turn.reading.asks)
    return asks or _names_vehicle_and_part(turn) or isinstance(turn.outcome, Calculation)
