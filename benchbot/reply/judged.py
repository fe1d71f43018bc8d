"""Puts the verdict on what was measured above the rows of the book that it rests on."""

from __future__ import annotations

from benchbot.outcomes import Answer, Judged
from benchbot.reply.reply import Block
from benchbot.reply.wording import Wording


def verdict_blocks(answer: Answer, wording: Wording) -> list[Block]:
    """A line for each place, the worst first, then what follows; empty where nothing was measured."""
    blocks = [Block("verdict", verdict_line(one, wording), 1) for one in answer.judged]
    return blocks + [Block("before", wording.judging[one.name].format(**dict(one.values)), 1) for one in answer.advice]


def verdict_line(judged: Judged, wording: Wording) -> str:
    """Example: "LEFT: DO NOT USE: 21.6 mm is ..."."""
    said = wording.judging[judged.said.name].format(**dict(judged.said.values))
    where = " ".join(wording.judging[f"where {word}"] for word in judged.where.split())
    return f"{where.upper()}: {said}" if where else said
