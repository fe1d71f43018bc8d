"""The vehicle on the lift: shown, changed to one of the last, cleared."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchbot.conversation.conversation import Conversation
from benchbot.conversation.lift import Lift
from benchbot.conversation.past import Past
from benchbot.desk.codes import number_in
from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.questions import Questions
from benchbot.desk.sheets import Button, Sheet
from benchbot.records import cards, lifts
from benchbot.records.cards import Card
from benchbot.reply.reply import Block

CLEAR = "clear"


@dataclass(frozen=True, slots=True)
class Lifting:
    """`/vehicle`, and the buttons below what it shows."""

    conversation: Conversation
    questions: Questions

    def show(self, handling: Handling, text: str) -> None:
        """With words behind the command they are read as any message; else what is on the lift is shown."""
        if text:
            self.questions.ask(handling, text)
            return
        now = self._on_lift(handling)
        with handling.writing():
            others = [one for one in self.conversation.lifts(handling.chat) if now is None or one != now]
            card = handling.card("lift", {"lifts": [one.to_text() for one in others]}, handling.incoming.message)
            handling.post(self._sheet(handling, now, others), card)

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """`clear`, or the number of one of the last vehicles."""
        held = [Lift.from_text(one) for one in card.body["lifts"]]
        chosen: Lift | None = None
        if code != CLEAR:
            number = number_in(code, "v") or 0
            if not 1 <= number <= len(held):
                handling.refuse(handling.words.pressed_old)
                return
            chosen = held[number - 1]
            if self.conversation.book.find_vehicle(chosen.make, chosen.model) is None:
                handling.refuse(handling.words.book_changed)
                return
        with handling.writing():
            handling.notice()
            self._put(handling, chosen)
            others = [one for one in self.conversation.lifts(handling.chat) if one != chosen]
            body = {"lifts": [one.to_text() for one in others]}
            cards.change(handling.record, card.number, "lift", body, handling.now + CARD_KEPT)
            handling.change(self._sheet(handling, chosen, others), card.number, handling.incoming.message)

    def _on_lift(self, handling: Handling) -> Lift | None:
        stored = handling.record.chat_state(handling.chat, handling.now)
        return Lift.of(Past.from_text(stored)) if stored else None

    def _put(self, handling: Handling, lift: Lift | None) -> None:
        """The chat's memory is that vehicle and nothing else; what was pending is dropped with the other one."""
        past = Past() if lift is None else lift.to_past()
        until = handling.now + handling.asker.manner.kept
        handling.record.put_chat_state(handling.chat, past.to_text(), handling.now, until)
        if lift is not None:
            lifts.put(handling.record, handling.chat, lift.to_text(), handling.now)

    def _sheet(self, handling: Handling, now: Lift | None, others: list[Lift]) -> Sheet:
        words = handling.words
        line = words.lift_none if now is None else words.lift_now.format(vehicle=now.label)
        hours = int(handling.asker.manner.kept.total_seconds() // 3600)
        blocks = [Block("question", line), Block("note", words.lift_asked_again.format(hours=hours))]
        buttons = [replace(Button(one.label, f"v{number}"), wide=True) for number, one in enumerate(others, 1)]
        if others:
            blocks.append(Block("note", words.lift_change))
        if now is not None:
            buttons.append(Button(words.lift_clear, CLEAR))
        return Sheet(tuple(blocks), tuple(buttons))
