"""The button "Picture" below what a picture shows better, and those that say how many studs there are."""

from __future__ import annotations

from dataclasses import replace

from benchbot.desk.drawing import is_open
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import Wording
from benchbot.outcomes import Outcome, picture_of
from benchbot.pictures.tightening import STUDS
from benchbot.reply.reply import Block

PICTURE = "pic"


def is_picture(code: str) -> bool:
    return code.partition(".")[0] == PICTURE


def with_picture(sheet: Sheet, outcome: Outcome, step: int, counts: bool, words: Wording) -> Sheet:
    """The sheet, with what asks for the picture of the outcome where it has one.

    step: that of the card, so that the button of what stood there before asks for nothing. counts: the numbers of studs
    stand in place of the button.
    """
    picture = picture_of(outcome)
    if picture is None:
        return sheet
    if not (counts and is_open(picture, 0)):
        return replace(sheet, buttons=(*sheet.buttons, Button(words.picture, f"{PICTURE}.{step}")))
    numbers = (Button(str(studs), f"{PICTURE}.{step}.{studs}") for studs in STUDS)
    blocks = (*sheet.blocks, Block("question", words.picture_studs))
    return Sheet(blocks, (*sheet.buttons, *numbers))
