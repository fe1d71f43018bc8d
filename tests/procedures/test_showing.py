"""A step is shown with what is unsafe first, its value left to the book, the shop's word beside it."""

from __future__ import annotations

from benchbot.procedures.showing import LEAD_TECH, axle_of, show
from benchbot.procedures.steps import Procedures


def test_cautions_and_stops_come_before_the_shops_own_word(procedures: Procedures) -> None:
    step = procedures.steps["disc-brake-front/push-pistons-back"]
    kinds = [block.kind for block in show(step, "front", shop_says="Use the blue press.")]
    assert kinds == ["caution", "stop", "shop", "title", "do", "because", "check"]


def test_a_fastener_is_named_with_the_axle_of_the_job(procedures: Procedures) -> None:
    step = procedures.steps["common/fit-bracket"]
    front = next(block for block in show(step, "front") if block.kind == "tighten")
    assert (front.component, front.place, front.property) == ("caliper bracket bolt", ("front",), "torque")
    assert "front caliper bracket bolt" in front.fallback and "do not guess" in front.fallback
    unknown = next(block for block in show(step) if block.kind == "tighten")
    assert unknown.place == ()


def test_a_rule_says_who_decides(procedures: Procedures) -> None:
    boot = show(procedures.steps["common/check-slide-pin-boots"])
    assert boot[-1].kind == "judge" and boot[-1].then == LEAD_TECH
    washer = next(b for b in show(procedures.steps["common/new-crush-washers"]) if b.kind == "judge")
    assert washer.then == ""


def test_the_axle_is_that_of_the_job_then_that_said(procedures: Procedures) -> None:
    key = "common/fit-bracket"
    assert axle_of(procedures, key, ("rear",), in_hand="disc-brake-front") == "front"
    assert axle_of(procedures, key, ("rear",)) == "rear"
    assert axle_of(procedures, key) == "any"
    assert axle_of(procedures, "disc-brake-rear/wind-piston-in") == "rear"
