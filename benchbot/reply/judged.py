"""Puts the verdict on what was measured above the rows of the book that it rests on."""

from __future__ import annotations

from benchbot.outcomes import Answer, Judged, Sentence
from benchbot.reply.reply import Block
from benchbot.reply.subjects import component_words
from benchbot.reply.wording import Wording


def verdict_blocks(answer: Answer, wording: Wording) -> list[Block]:
    """A line for each place, the worst first, then what follows; empty where nothing was measured."""
    blocks = [Block("verdict", verdict_line(one, wording), 1) for one in answer.judged]
    return blocks + advice_blocks(answer.advice, wording, 1)


def advice_blocks(advice: tuple[Sentence, ...], wording: Wording, part: int = 0) -> list[Block]:
    """A line for each sentence; the component that it names is worded as everywhere."""
    lines = []
    for one in advice:
        values = {name: component_words(text, wording) if name == "part" else text for name, text in one.values}
        lines.append(Block("before", wording.judging[one.name].format(**values), part))
    return lines


def verdict_line(judged: Judged, wording: Wording) -> str:
    """Examples: "LEFT: DO NOT USE: 21.6 mm is ...", "LEFT brake pad: USABLE: 5 mm is ..."."""
    said = wording.judging[judged.said.name].format(**dict(judged.said.values))
    where = " ".join(wording.judging[f"where {word}"] for word in judged.where.split()).upper()
    part = component_words(judged.part, wording) if judged.part else ""
    thing = " ".join(word for word in (where, part) if word)
    return f"{thing}: {said}" if thing else said
