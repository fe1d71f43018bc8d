"""A message of which nobody knows whether it arrived: shown on the line that says so, when the person asks for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Parcel
from benchbot.records import cards, outbox


@dataclass(frozen=True, slots=True)
class Resending:
    """The button "Show it"; its code is `again.` and the number of what was sent."""

    def press(self, handling: Handling, code: str) -> None:
        incoming = handling.incoming
        number = number_in(code, "again.")
        held = None if number is None else outbox.unsure(handling.record, number)
        card = None if held is None or held.card is None else cards.one(handling.record, held.card)
        if held is None or held.chat != incoming.chat:
            handling.refuse(handling.words.again_gone)
            return
        if card is not None and card.keeper != handling.asker.person:
            handling.refuse(handling.words.pressed_foreign_unnamed)
            return
        if card is not None and outbox.newer(handling.record, card.number, held.number):
            # such as a question that arrived and was answered since: to show it would take its answer's place
            handling.refuse(handling.words.again_newer)
            return
        parcel = Parcel.from_text(held.body)
        # a picture cannot take the place of a line of text, so it is sent anew below it
        shown = parcel if parcel.do == "picture" else replace(parcel, do="change", message=incoming.message, quote="")
        with handling.writing() as store:
            outbox.again(store, held.number, shown.to_text())
            handling.notice()
