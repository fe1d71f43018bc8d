"""A step as it is read at the vehicle: what is unsafe first, the shop's word labelled, then what is done, and why."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchbot.conversation.conversation import Turn
from benchbot.desk.jobwork.leaves import line
from benchbot.desk.jobwork.line_words import line_words, named, wants_words
from benchbot.desk.jobwork.wording import JobWording
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState
from benchbot.jobs.walking import Place
from benchbot.outcomes import Answer
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.vocabulary.terms import Vocabulary


def step_blocks(
    state: JobState, place: Place, values: list[tuple[Want, Turn]], vocabulary: Vocabulary, words: JobWording
) -> list[Block]:
    """values: what the book says of each line that the step wants, alike ones once."""
    step, plain = place.step, place.step.plain
    head = words.step_head.format(job=state.number, vehicle=state.vehicle.said, number=place.number, count=place.count)
    blocks = [line(head, "echo"), *_settled(state, place, words)]
    blocks += cautions(plain.get("cautions", ()), vocabulary, words.language)
    if plain["stop"]:
        blocks.append(line(words.stop.format(when=plain["stop"]["when"], do=plain["stop"]["do"]), "condition"))
    if step.shop_says:
        blocks.append(line(words.shop_says.format(text=step.shop_says), "before"))
    blocks += [line(step.title, "question"), line(step.do)]
    blocks.append(line(words.because.format(text=plain["because"])))
    for want, turn in values:
        blocks += value_blocks(want, turn, words)
    blocks += _looks(plain, words)
    blocks += entered(state, step.key, words)
    if place.missing:
        blocks.append(line(words.still_wanted.format(names=wants_words(place.missing, words.language))))
    return _once(blocks)


def _once(blocks: list[Block]) -> list[Block]:
    """Without the cautions that stand above already: those of a step and of its fastener are often the same."""
    above: set[str] = set()
    kept = []
    for block in blocks:
        if block.kind != "caution" or block.text not in above:
            kept.append(block)
        if block.kind == "caution":
            above.add(block.text)
    return kept


def cautions(names: Any, vocabulary: Vocabulary, language: str) -> list[Block]:
    """In the words of the shop's language where they have some."""
    form = wording_of(language).caution
    held = [vocabulary.cautions[name] for name in names if name in vocabulary.cautions]
    return [line(form.format(text=one.text_in(language) or one.text), "caution") for one in held]


def value_blocks(want: Want, turn: Turn, words: JobWording) -> Iterator[Block]:
    """The line wanted, and the book's whole answer to it: with its cautions, its source, or that it is missing."""
    what = named(want.component, "", "" if want.where else want.name, words.language)
    if want.where:
        yield line(words.measure.format(named=what, where=want.where))
    else:
        yield line(words.tighten.format(named=what))
    yield from turn.reply.blocks
    if not want.where and not isinstance(turn.outcome, Answer) and not turn.reply.choices:
        yield line(words.not_held, "condition")


def entered(state: JobState, step: str, words: JobWording) -> list[Block]:
    """What stands on record of a step."""
    lines = [line(line_words(state, one, words)) for one in state.lines if one.step == step]
    return [line(words.entered), *lines] if lines else []


def _settled(state: JobState, place: Place, words: JobWording) -> list[Block]:
    event = state.settled.get(place.step.key)
    if event is None:
        return []
    if event.what == "skipped":
        return [line(words.step_skipped.format(name=event.name, reason=event.body["reason"]), "before")]
    return [line(words.step_done.format(name=event.name), "before")]


def _looks(plain: Any, words: JobWording) -> Iterator[Block]:
    for check in plain["checks"]:
        yield line(words.check.format(look=check["look"]))
        yield line(words.check_good.format(text=check["good"]))
        yield line(words.check_bad.format(text=check["bad"]))
        yield line(words.check_then.format(text=check["then"]))
    if plain["judge"]:
        yield line(words.judge.format(rule=plain["judge"]["rule"]))
        if plain["judge"]["decides"] == "lead tech":
            yield line(words.show_lead, "condition")
