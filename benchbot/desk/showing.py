"""Lays a turn out on a sheet: the reply with its choices, or an answer with what can be done with it."""

from __future__ import annotations

from typing import Literal

from benchbot.conversation.conversation import Turn
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import Wording
from benchbot.outcomes import Answer
from benchbot.reply.figures import first_conversions, presented
from benchbot.reply.reply import Block
from benchbot.reply.why import why

View = Literal["main", "more", "why"]
CHOICES_AT_MOST = 8


def choices_sheet(turn: Turn, step: int, extra: tuple[Block, ...] = ()) -> Sheet:
    """A reply with its choices as buttons. step: counts up, so that a button of an earlier question is no choice."""
    reply = turn.reply
    choices = reply.choices[:CHOICES_AT_MOST]
    buttons = tuple(Button(choice.label, f"c{step}.{number}") for number, choice in enumerate(choices, 1))
    return Sheet((*reply.blocks, *extra, *reply.below), buttons)


def answer_sheet(
    turn: Turn, words: Wording, language: str, view: View = "main", unit: int = 0, extra: tuple[Block, ...] = ()
) -> Sheet:
    """An answer in one of its views. unit: which of `further_units` comes first; 0 for the usual ones."""
    reply = turn.reply
    blocks = reply.blocks
    if view == "more":
        blocks = (*blocks, *reply.more)
    elif view == "why":
        blocks = (*blocks, *(Block("note", line) for line in why(turn.reading, language).splitlines()))
    buttons = []
    if further_units(turn):
        buttons.append(Button(words.other_unit, f"u{unit + 1}"))
    if view != "main":
        buttons.append(Button(words.less, "main"))
    elif reply.more:
        buttons.append(Button(words.more, "more"))
    if view != "why":
        buttons.append(Button(words.how_read, "why"))
    buttons.append(Button(words.not_right, "wrong"))
    return Sheet((*blocks, *extra, *reply.below), tuple(buttons))


def further_units(turn: Turn) -> tuple[str, ...]:
    """The units that the values of an answer can be shown in and that are not on its first line."""
    if not isinstance(turn.outcome, Answer):
        return ()
    units: dict[str, None] = {}
    for finding in turn.outcome.findings:
        shown = presented(finding.row)
        first = {*first_conversions(shown, turn.outcome.units_first), shown.second, shown.source}
        units |= dict.fromkeys(unit for unit, text in shown.converted.items() if text not in first)
    return tuple(units)
