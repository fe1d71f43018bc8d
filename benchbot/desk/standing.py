"""Where a person of more than one location stands."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchbot.desk.asker import Asker, role_name
from benchbot.desk.codes import number_in
from benchbot.desk.handling import CARD_KEPT, Handling, plain
from benchbot.desk.listing import turned_to
from benchbot.desk.questions import Questions
from benchbot.desk.sheets import Button, Sheet
from benchbot.people.register import People
from benchbot.people.terms import Membership, Refused
from benchbot.records import cards
from benchbot.records.cards import Card
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class Standing:
    """`/location`, and the question that comes before the first question of somebody who belongs to several."""

    people: People
    questions: Questions

    def show(self, handling: Handling) -> None:
        """Says where they stand, and offers the other locations."""
        asker = handling.asker
        if len(asker.memberships) == 1:
            only = asker.memberships[0]
            handling.say(self._line(handling, only, handling.words.stand_only))
            return
        with handling.writing():
            card = handling.card("standing", {}, handling.incoming.message)
            handling.post(self._sheet(handling), card)

    def ask_first(self, handling: Handling, text: str) -> None:
        """A question has to wait until they have said where they stand."""
        with handling.writing():
            body = {"said": text, "message": handling.incoming.message}
            card = handling.card("standing", body, handling.incoming.message)
            handling.post(self._sheet(handling), card)

    def wait_on(self, handling: Handling, card: Card, text: str, message: str) -> None:
        """The same, on a message of ours that was pressed."""
        with handling.writing():
            handling.notice()
            body = {"said": text, "message": message}
            cards.change(handling.record, card.number, "standing", body, handling.now + CARD_KEPT)
            handling.change(self._sheet(handling), card.number, handling.incoming.message)

    def change(self, handling: Handling, card: Card, text: str) -> None:
        """The question that waits was changed: it is the new one that will be answered."""
        with handling.writing():
            body = card.body | {"said": text}
            cards.change(handling.record, card.number, "standing", body, handling.now + CARD_KEPT)

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """They stand there now; a question that waited is answered on the same message."""
        page = number_in(code, "p")
        if page is not None:
            with handling.writing():
                handling.notice()
                handling.change(self._sheet(handling, page), card.number, handling.incoming.message)
            return
        number = number_in(code, "s") or 0
        if "said" not in card.body and handling.asker.standing and number == handling.asker.standing.location.number:
            handling.refuse(handling.words.pressed_done)
            return
        chosen = next((one for one in handling.asker.memberships if one.location.number == number), None)
        if chosen is None or isinstance(self.people.stand(handling.asker.person, number), Refused):
            handling.refuse(handling.words.pressed_old)
            return
        spoken = handling.asker.language
        handling.asker = replace(handling.asker, standing=chosen)
        if handling.asker.language != spoken:
            handling.after_change(handling.asker.person, self.people)
        handling.notice()
        if "said" in card.body:
            self.questions.answer_on(handling, card, card.body["said"], card.body["message"])
            return
        with handling.writing():
            handling.change(self._sheet(handling), card.number, handling.incoming.message)

    def _line(self, handling: Handling, where: Membership, form: str) -> str:
        return form.format(location=where.location.name, role=role_name(where.role, handling.words))

    def _sheet(self, handling: Handling, page: int = 0) -> Sheet:
        asker, words = handling.asker, handling.words
        line = words.stand_which
        if asker.standing is not None:
            line = self._line(handling, asker.standing, words.stand_now)
        others = [one.location for one in asker.memberships if asker.standing is None or one != asker.standing]
        shown, turns = turned_to(others, page, "p", words)
        buttons = [Button(one.name, f"s{one.number}", wide=True) for one in shown]
        return Sheet((Block("question", line),), (*buttons, *turns))


def greeting(asker: Asker) -> Sheet:
    """What `/start` says to a member."""
    words = asker.words
    if asker.standing is None:
        head = words.greeting_which.format(name=asker.name, count=len(asker.memberships))
        return plain(head, words.maker_first)
    role = role_name(asker.standing.role, words)
    head = words.greeting.format(name=asker.name, location=asker.standing.location.name, role=role)
    return plain(head, words.ask_away, words.maker_first)
