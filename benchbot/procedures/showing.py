"""A step as plain blocks in the order they are read: what is unsafe first, the shop's own word never in its place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from benchbot.procedures.steps import Procedures, Step, Tighten

BlockKind = Literal["caution", "stop", "shop", "title", "do", "because", "tighten", "measure", "check", "judge"]
LEAD_TECH = "Show your lead tech before you go on."


@dataclass(frozen=True, slots=True)
class Block:
    """One piece of a step.

    kind "caution": text is the name of a caution, worded by the vocabulary. "stop": text = when, then = what to do.
    "shop": text = the shop's own wording. "tighten": text = the component, place = its position; whoever shows it
    puts the book's value there, or says that none is held and logs the gap. "measure": text = where, component and
    property. "check": text = look, good, bad, then. "judge": text = the rule, then = who decides ("" = the rule does).
    """

    kind: BlockKind
    text: str
    then: str = ""
    good: str = ""
    bad: str = ""
    component: str = ""
    property: str = ""
    place: tuple[str, ...] = ()
    fallback: str = ""


def not_held(tighten: Tighten, axle: str) -> str:
    """What a step says where the book has no value for its fastener."""
    named = " ".join((*tighten.position(axle), tighten.component))
    return (
        f"The book holds no torque for the {named} of this vehicle: do not guess one. "
        "It is logged for the lead tech; get the maker's value before you tighten it."
    )


def show(step: Step, axle: str = "any", shop_says: str = "") -> tuple[Block, ...]:
    """The blocks of a step; axle: that of the procedure or of the question, "any" when it is not known.

    shop_says: the shop's own wording for this step at this location, shown above the step and labelled by the reply.
    """
    blocks = [Block("caution", name) for name in step.cautions]
    if step.stop:
        blocks.append(Block("stop", step.stop.when, then=step.stop.do))
    if shop_says:
        blocks.append(Block("shop", shop_says))
    blocks += [Block("title", step.title), Block("do", step.do), Block("because", step.because)]
    for one in step.tighten:
        blocks.append(
            Block(
                "tighten",
                one.component,
                component=one.component,
                property="torque",
                place=one.position(axle),
                fallback=not_held(one, axle),
            )
        )
    for measure in step.measure:
        blocks.append(Block("measure", measure.where, component=measure.component, property=measure.property))
    for check in step.checks:
        blocks.append(Block("check", check.look, then=check.then, good=check.good, bad=check.bad))
    if step.judge:
        blocks.append(Block("judge", step.judge.rule, then=LEAD_TECH if step.judge.decides == "lead tech" else ""))
    return tuple(blocks)


def axle_of(procedures: Procedures, key: str, axles: tuple[str, ...] = (), in_hand: str = "") -> str:
    """The axle a step is shown for: that of the procedure in hand, else the one said, else the only one it can be."""
    if in_hand and procedures.procedures[in_hand].axle != "any":
        return procedures.procedures[in_hand].axle
    if len(axles) == 1:
        return axles[0]
    possible = {procedures.procedures[name].axle for name in procedures.holding(key)}
    return possible.pop() if len(possible) == 1 else "any"
