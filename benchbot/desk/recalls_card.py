"""The message that a value shown before is another one now, and the button that confirms it."""

from __future__ import annotations

from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.sheets import Sheet
from benchbot.records import cards, recalls
from benchbot.records.cards import Card
from benchbot.reply.reply import Block

KIND, SEEN = "recall", "seen"


def press(handling: Handling, card: Card, code: str) -> None:
    """The card's body: `notice` its number on record, `sheet` what stands on the card."""
    words = handling.words
    if code != SEEN:
        handling.refuse(words.pressed_old)
        return
    with handling.writing() as store:
        if not recalls.seen(store, card.body["notice"], handling.asker.person, handling.now):
            handling.notice(words.recall_before)
            return
        handling.notice(words.recall_thanks)
        line = Block("note", words.recall_seen.format(date=f"{handling.now:%Y-%m-%d %H:%M} UTC"))
        shown = Sheet((*Sheet.from_plain(card.body["sheet"]).blocks, line))
        body = card.body | {"sheet": shown.to_plain()}
        cards.change(handling.record, card.number, KIND, body, handling.now + CARD_KEPT)
        handling.change(shown, card.number, handling.incoming.message)
