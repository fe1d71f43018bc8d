"""A press on "Picture" below a step or a sum: the picture follows, once, or it is asked how many studs there are."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchbot.conversation.conversation import Turn
from benchbot.desk.codes import number_in
from benchbot.desk.drawing import drawn, is_open
from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.picture_files import keep_picture
from benchbot.desk.questions import Questions
from benchbot.desk.sheets import Sheet
from benchbot.errors import SettingError
from benchbot.outcomes import picture_of
from benchbot.pictures.tightening import STUDS
from benchbot.places import Home
from benchbot.records import cards
from benchbot.records.cards import Card
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class Picturing:
    """A card's body: `counts` once the numbers of studs stand below it; `pictured` what was sent of it, each by its
    number of studs, 0 for any other picture.
    """

    questions: Questions
    home: Home

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """The button of what the card shows now; that of a step which stood there before sends nothing."""
        words = handling.words
        _, _, rest = code.partition(".")
        before, behind, chosen = rest.partition(".")
        step, studs = number_in(before), number_in(chosen) if behind else 0
        if step is None or step != card.body.get("step") or studs is None or (behind and studs not in STUDS):
            handling.refuse(words.pressed_old)
            return
        turn = self.questions.considered(handling, card)
        picture = None if turn is None else picture_of(turn.outcome)
        if turn is None or picture is None:
            handling.refuse(words.book_changed)
            return
        if is_open(picture, studs):
            self._ask(handling, card, turn)
            return
        sent = list(card.body.get("pictured", ()))
        count = studs or picture.studs
        if count in sent:
            handling.refuse(words.picture_sent)
            return
        try:
            made = drawn(picture, count, words)
        except SettingError:
            handling.refuse(words.picture_none)
            return
        kept = keep_picture(self.home, made.name, made.content)
        with handling.writing():
            handling.notice()
            self._keep(handling, card, pictured=[*sent, count])
            handling.picture(Sheet((Block("note", made.caption),)), None, kept, twice=True)

    def _ask(self, handling: Handling, card: Card, turn: Turn) -> None:
        if card.body.get("counts"):
            handling.refuse(handling.words.pressed_done)
            return
        with handling.writing():
            handling.notice()
            open_ = self._keep(handling, card, counts=True)
            handling.change(self.questions.sheet_on(handling, open_, turn), card.number, handling.incoming.message)

    def _keep(self, handling: Handling, card: Card, **more: object) -> Card:
        """The card as it is from now on."""
        body = card.body | more
        cards.change(handling.record, card.number, card.kind, body, handling.now + CARD_KEPT, card.state)
        return replace(card, body=body)
