"""The button "Done already" of whoever needs no answer to their question any more."""

from __future__ import annotations

from dataclasses import replace

from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import Wording
from benchbot.records.cards import Card
from benchbot.records.meanings import stop_waiting

DONE = "done"


def with_done(sheet: Sheet, gap: int | None, words: Wording) -> Sheet:
    """The sheet, with the button when there is a gap that somebody waits for."""
    return sheet if gap is None else replace(sheet, buttons=(*sheet.buttons, Button(words.done_already, DONE)))


def press(handling: Handling, card: Card) -> None:
    """They are not told when the book holds it; told already, the curator sees that it came too late."""
    gap = card.body.get("gap")
    if gap is None:
        handling.refuse(handling.words.pressed_old)
        return
    with handling.writing():
        waited = stop_waiting(handling.record, int(gap), handling.asker.person)
        handling.notice(handling.words.done_noted if waited else handling.words.done_before)
