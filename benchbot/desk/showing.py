"""Lays a turn out on a sheet: the reply with its choices, or an answer with what can be done with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from benchbot.conversation.conversation import Turn
from benchbot.desk.one_message import answer_in_one
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.wording import Wording
from benchbot.outcomes import Answer, Subject, findings_of
from benchbot.reply.figures import first_conversions, more_lines, presented
from benchbot.reply.languages import wording_of as reply_wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import thing_words
from benchbot.reply.why import why

View = Literal["main", "more", "why"]
CHOICES_AT_MOST = 8
WRONG = "wrong"


def choices_sheet(turn: Turn, step: int, extra: tuple[Block, ...] = ()) -> Sheet:
    """A reply with its choices as buttons. step: counts up, so that a button of an earlier question is no choice."""
    reply = turn.reply
    choices = reply.choices[:CHOICES_AT_MOST]
    buttons = tuple(Button(choice.label, f"c{step}.{number}") for number, choice in enumerate(choices, 1))
    return Sheet((*reply.blocks, *extra, *reply.below), buttons)


def step_sheet(
    turn: Turn,
    step: int,
    words: Wording,
    language: str,
    view: View = "main",
    extra: tuple[Block, ...] = (),
    doubted: bool = False,
) -> Sheet:
    """A step of a procedure: how it can be gone on as buttons, how the question was read and what is not right behind
    two more. doubted: a value of it was marked as not right.
    """
    sheet = choices_sheet(turn, step, extra)
    blocks, buttons = sheet.blocks, sheet.buttons
    if doubted:
        blocks = _marked(blocks, words)
    if view == "why":
        blocks += tuple(Block("note", line) for line in why(turn.reading, language).splitlines())
        buttons += (Button(words.less, "main"),)
    else:
        buttons += (Button(words.how_read, "why"),)
    if findings_of(turn.outcome) and not doubted:
        buttons += (Button(words.not_right, wrong_step(step)),)
    return Sheet(blocks, buttons)


def wrong_step(step: int) -> str:
    """The code of "Not right?" on a step: its card may show the next step, with another value, a moment later."""
    return f"{WRONG}.{step}"


def _marked(blocks: tuple[Block, ...], words: Wording) -> tuple[Block, ...]:
    """With the mark above the first value, where it is never what a message has no room for."""
    at = next(number for number, block in enumerate(blocks) if block.part)
    return (*blocks[:at], Block("before", words.note_line, blocks[at].part), *blocks[at:])


def answer_sheet(
    turn: Turn,
    words: Wording,
    language: str,
    view: View = "main",
    unit: int = 0,
    extra: tuple[Block, ...] = (),
    doubted: bool = False,
) -> Sheet:
    """An answer in one of its views, as much of it as one message holds.

    unit: which of `further_units` comes first; 0 for the usual ones. doubted: it was marked as not right.
    """
    reply = turn.reply
    further: list[tuple[int, Block]] = []
    if view == "more":
        further = list(zip(_parts_of_more(turn, language), reply.more, strict=True))
    elif view == "why":
        further = [(0, Block("note", line)) for line in why(turn.reading, language).splitlines()]
    mark = (Block("before", words.note_line),) if doubted else ()
    foot = (*mark, *extra, *reply.below)
    blocks = answer_in_one(reply.blocks, further, foot, _names(turn, language), words)
    buttons = []
    if further_units(turn):
        buttons.append(Button(words.other_unit, f"u{unit + 1}"))
    if view != "main":
        buttons.append(Button(words.less, "main"))
    elif reply.more:
        buttons.append(Button(words.more, "more"))
    if view != "why":
        buttons.append(Button(words.how_read, "why"))
    if not doubted:
        buttons.append(Button(words.not_right, WRONG))
    return Sheet(blocks, tuple(buttons))


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


def _parts(turn: Turn) -> dict[Subject, int]:
    """The part of each subject, as the reply numbers them: findings that differ in the property alone are one part."""
    assert isinstance(turn.outcome, Answer)
    subjects = dict.fromkeys(replace(finding.subject, property="") for finding in turn.outcome.findings)
    return {subject: part for part, subject in enumerate(subjects, 1)}


def _names(turn: Turn, language: str) -> list[str]:
    wording = reply_wording_of(language)
    return [thing_words(subject, wording) for subject in _parts(turn)]


def _parts_of_more(turn: Turn, language: str) -> Iterator[int]:
    """The part that each line behind "more" is about."""
    assert isinstance(turn.outcome, Answer)
    parts, wording = _parts(turn), reply_wording_of(language)
    for finding in turn.outcome.findings:
        for _ in more_lines(finding.row, turn.outcome.units_first, "", wording):
            yield parts[replace(finding.subject, property="")]
