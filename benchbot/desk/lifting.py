"""The vehicle on the lift: shown, changed to one of the last, cleared."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchbot.conversation.conversation import Conversation
from benchbot.conversation.lift import OFFERED, Lift
from benchbot.conversation.past import Past
from benchbot.desk.codes import number_in
from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.sheets import Button, Sheet
from benchbot.records import cards, lifts
from benchbot.records.cards import Card
from benchbot.reply.reply import Block

CLEAR = "clear"
# enough for the last four cars, each of which may have been named with its engine, its drive and without them
LOOKED_THROUGH = 40


@dataclass(frozen=True, slots=True)
class Lifting:
    """`/vehicle`, and the buttons below what it shows."""

    conversation: Conversation

    def show(self, handling: Handling) -> None:
        """What is on the lift, and the last others."""
        now = self._on_lift(handling)
        with handling.writing():
            others = self._others(handling, now)
            body = {"lifts": [one.to_text() for one in others], "step": 1}
            card = handling.card("lift", body, handling.incoming.message)
            handling.post(self._sheet(handling, now, others, 1), card)

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """`clear` or `v`, and the step that the card was at; behind `v`, the number of one of the last vehicles.

        The numbers are those of one step alone: a second press must not put on the vehicle that has moved up.
        """
        before, _, behind = code.partition(".")
        clears = before == CLEAR
        number = 0 if clears else number_in(behind)
        step = number_in(behind) if clears else number_in(before, "v")
        held = [Lift.from_text(one) for one in card.body["lifts"]]
        now_at = card.body.get("step", 0)
        if step is None or step != now_at:
            handling.refuse(handling.words.pressed_done if step and step < now_at else handling.words.pressed_old)
            return
        if number is None or not (clears or 1 <= number <= len(held)):
            handling.refuse(handling.words.pressed_old)
            return
        chosen = None if clears else held[number - 1]
        if chosen is not None and self.conversation.book.find_vehicle(chosen.make, chosen.model) is None:
            handling.refuse(handling.words.book_changed)
            return
        with handling.writing():
            handling.notice()
            self._put(handling, chosen)
            others = self._others(handling, chosen)
            body = {"lifts": [one.to_text() for one in others], "step": step + 1}
            cards.change(handling.record, card.number, "lift", body, handling.now + CARD_KEPT)
            sheet = self._sheet(handling, chosen, others, step + 1)
            handling.change(sheet, card.number, handling.incoming.message)

    def _others(self, handling: Handling, now: Lift | None) -> list[Lift]:
        """The last vehicles beside the one on the lift, each once: as it was named last."""
        others: list[Lift] = []
        for lift in self.conversation.lifts(handling.chat, LOOKED_THROUGH):
            if not any(_same_car(lift, one) for one in (*others, *((now,) if now else ()))):
                others.append(lift)
        return others[:OFFERED]

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

    def _sheet(self, handling: Handling, now: Lift | None, others: list[Lift], step: int) -> Sheet:
        words = handling.words
        line = words.lift_none if now is None else words.lift_now.format(vehicle=now.label)
        hours = int(handling.asker.manner.kept.total_seconds() // 3600)
        blocks = [Block("question", line), Block("note", words.lift_asked_again.format(hours=hours))]
        buttons = [replace(Button(one.label, f"v{step}.{number}"), wide=True) for number, one in enumerate(others, 1)]
        if others:
            blocks.append(Block("note", words.lift_change))
        if now is not None:
            buttons.append(Button(words.lift_clear, f"{CLEAR}.{step}"))
        return Sheet(tuple(blocks), tuple(buttons))


def _same_car(one: Lift, other: Lift) -> bool:
    """Whether both can be one car: the same identity, and nothing stated of one that the other speaks against."""
    return one.identity == other.identity and not _against(one, other) and not _against(other, one)


def _against(one: Lift, other: Lift) -> bool:
    stated = {said.key: said.value for said in one.stated}
    differs = any(stated.get(said.key, said.value) != said.value for said in other.stated)
    return differs or any(stated.get(said.key) == said.value for said in other.excluded)
