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


def unsafe_blocks(unsafe: tuple[Sentence, ...], wording: Wording) -> list[Block]:
    """A line for each thing that must be known before anything is asked or found missing."""
    return [Block("verdict", wording.judging[one.name].format(**dict(one.values))) for one in unsafe]


def advice_blocks(advice: tuple[Sentence, ...], wording: Wording, part: int = 0) -> list[Block]:
    """A line for each sentence; the component that it names is worded as everywhere."""
    lines = []
    for one in advice:
        values = {name: _value_words(name, text, wording) for name, text in one.values}
        # what a difference points to is worded as it is where no vehicle is named
        said = wording.judging[one.name] if one.name in wording.judging else wording.sums[one.name]
        lines.append(Block("before", said.format(**values), part))
    return lines


def _value_words(name: str, text: str, wording: Wording) -> str:
    if name == "part":
        return component_words(text, wording)
    return wording.judging.get(f"where {text}", text).upper() if name in ("one", "other") else text


def verdict_line(judged: Judged, wording: Wording) -> str:
    """Examples: "LEFT: DO NOT USE: 21.6 mm is ...", "LEFT brake pad: USABLE: 5 mm is ..."."""
    said = wording.judging[judged.said.name].format(**dict(judged.said.values))
    if judged.also is not None:
        said = f"{said} {wording.judging[judged.also.name].format(**dict(judged.also.values))}"
    where = " ".join(wording.judging[f"where {word}"] for word in judged.where.split()).upper()
    part = component_words(judged.part, wording) if judged.part else ""
    thing = " ".join(word for word in (where, part) if word)
    return f"{thing}: {said}" if thing else said
