"""Lays out a step of a procedure: what is unsafe first, what to do and why, the book's values, what good looks like."""

from __future__ import annotations

from dataclasses import replace

from benchbot.outcomes import Answer, Gap, Procedure, Pulled
from benchbot.procedures import showing
from benchbot.reply.answers import answer_blocks
from benchbot.reply.reply import Block
from benchbot.reply.subjects import component_words, position_words, property_words, thing_words
from benchbot.reply.wording import Wording
from benchbot.vocabulary.terms import Vocabulary


def step_blocks(step: Procedure, not_held: list[Block], vocabulary: Vocabulary, wording: Wording) -> list[Block]:
    """The blocks in the order they are read, or the list of all steps.

    not_held: what is said of everything that the book does not hold for this step; empty where nothing is missing.
    """
    if step.listed:
        lines = (Block("note", f"{number}. {title}") for number, title in enumerate(step.listed, 1))
        return [Block("question", step.title), *lines]
    blocks: list[Block] = []
    pulled = iter(step.pulled)
    part = 0
    # sorted only, so that what stops the work is read before the cautions
    for shown in sorted(showing.show(step.step, step.axle, step.shop_says), key=lambda block: block.kind != "stop"):
        if shown.kind == "tighten":
            one = next(pulled)
            found = _pulled(one, shown, part, vocabulary, wording)
            part = max((part, *(block.part for block in found)))
            blocks += found
        else:
            blocks += _block(shown, step, vocabulary, wording)
    return [*_each_caution_once(blocks), *not_held]


def step_short(step: Procedure, wording: Wording) -> str:
    """The gist on one line; what is unsafe goes before."""
    if step.step.stop is not None and not step.listed:
        return _stop(step.step.stop.when, step.step.stop.do, wording)
    return step.title if step.listed else f"{step.step.title}: {step.step.do}"


def _block(shown: showing.Block, step: Procedure, vocabulary: Vocabulary, wording: Wording) -> list[Block]:
    said = wording.steps
    if shown.kind == "caution":
        caution = vocabulary.cautions.get(shown.text)
        text = shown.text if caution is None else caution.text_in(wording.language) or caution.text
        form = wording.first_caution if caution is not None and caution.first else wording.caution
        return [Block("caution", form.format(text=text))]
    if shown.kind == "stop":
        return [Block("condition", _stop(shown.text, shown.then, wording))]
    if shown.kind == "shop":
        return [Block("note", said["shop"].format(text=shown.text))]
    if shown.kind == "title":
        return [Block("question", shown.text), *_where(step, wording)]
    if shown.kind == "because":
        return [Block("note", said["because"].format(text=shown.text))]
    if shown.kind == "measure":
        what = f"{component_words(shown.component, wording)}, {property_words(shown.property, wording)}"
        return [Block("note", said["measure"].format(what=what, where=shown.text))]
    if shown.kind == "check":
        parts = {"look": shown.text, "good": shown.good, "bad": shown.bad, "then": shown.then}
        return [Block("note", said[name].format(text=text)) for name, text in parts.items()]
    if shown.kind == "judge":
        rule = [Block("note", said["rule"].format(text=shown.text))]
        return [*rule, Block("before", said["lead tech"])] if shown.then else rule
    return [Block("note", shown.text)]


def _each_caution_once(blocks: list[Block]) -> list[Block]:
    """Without a caution of the step that stands at one of its values as well."""
    at_values = {block.text for block in blocks if block.part}
    return [block for block in blocks if block.part or block.kind != "caution" or block.text not in at_values]


def _stop(when: str, do: str, wording: Wording) -> str:
    return wording.steps["stop"].format(when=when, do=do)


def _where(step: Procedure, wording: Wording) -> list[Block]:
    lines = []
    if step.title:
        lines.append(wording.steps["where"].format(title=step.title, number=step.number, of=step.of))
    if step.step.only_if:
        lines.append(wording.steps["only if"].format(fitted=step.step.only_if))
    return [Block("subject", line) for line in lines]


def _pulled(pulled: Pulled, shown: showing.Block, part: int, vocabulary: Vocabulary, wording: Wording) -> list[Block]:
    """The fastener's value with all that belongs to it, or why none is shown and how to ask."""
    position = position_words(" ".join(shown.place), wording).upper() if shown.place else ""
    thing = wording.thing.format(position=position, component=component_words(shown.component, wording)).strip()
    found = pulled.found
    if isinstance(found, Answer):
        lines = answer_blocks(found, vocabulary, wording)
        own = [replace(block, part=block.part + part) for block in lines]
        head = wording.steps["from the book"].format(thing=_things(found, wording) or thing)
        return [Block("label", head, part + 1), *own]
    if isinstance(found, Gap):
        fallback = shown.fallback if wording.is_the_books else wording.steps["not held"].format(thing=thing)
        return [Block("missing", fallback)]
    asked = " ".join((*shown.place, shown.component)) if wording.is_the_books else thing
    return [Block("note", wording.steps["no vehicle" if found is None else "open"].format(thing=thing, asked=asked))]


def _things(found: Answer, wording: Wording) -> str:
    return wording.both.join(dict.fromkeys(thing_words(one.subject, wording) for one in found.findings))
