"""What the shipped procedures must say, and what they must never say."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

from benchbot.places import knowledge_folder
from benchbot.procedures.steps import Procedures, Step
from benchbot.vocabulary.terms import Vocabulary

WANTED = {
    "disc-brake-front", "disc-brake-rear", "drum-brake", "caliper-and-hose", "brake-fluid-exchange", "hub-bearing-unit",
    "wheel-fitting", "bedding-and-road-test", "stabilizer-link", "outer-tie-rod", "ball-joint", "strut",
}  # fmt: skip
FILES = sorted((knowledge_folder() / "procedures").glob("*.yaml"))


def said_by(step: Step) -> str:
    parts = [step.title, step.do, step.because]
    parts += [word for check in step.checks for word in (check.look, check.good, check.bad, check.then)]
    parts += [step.stop.when, step.stop.do] if step.stop else []
    parts += [step.judge.rule] if step.judge else []
    return " ".join(parts)


def test_every_procedure_of_the_trade_is_there(procedures: Procedures) -> None:
    assert set(procedures.procedures) == WANTED


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_file_names_a_torque(path: Path) -> None:
    # a second, cruder look than that of the loader: any digit before a unit of torque, wherever it stands
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"(?i)\d\s*-?\s*(nm\b|n·m|newton|(ft|in|foot|inch)[ -]?(lb|pound)|kgf|deg|°)", text)


def test_a_part_whose_spring_is_loaded_stops_and_defers(procedures: Procedures) -> None:
    first = procedures.steps_of("strut")[0]
    assert first.key == "strut/spring-stays-compressed"
    assert first.stop and first.judge and first.judge.decides == "lead tech"
    assert "spring energy" in first.cautions
    assert all(one.component != "strut rod nut" for step in procedures.steps_of("strut") for one in step.tighten)
    ball = [step.key for step in procedures.steps_of("ball-joint")]
    assert ball.index("ball-joint/hold-the-spring") < ball.index("common/free-the-taper")


def test_an_electric_parking_brake_is_in_service_mode_before_its_piston_moves(procedures: Procedures) -> None:
    keys = [step.key for step in procedures.steps_of("disc-brake-rear", frozenset({"electric parking brake"}))]
    order = ["service-mode-in", "push-piston-in-electric", "service-mode-out"]
    places = [keys.index(f"disc-brake-rear/{name}") for name in order]
    assert places == sorted(places)
    assert "disc-brake-rear/wind-piston-in" not in keys
    assert procedures.variants("disc-brake-rear") == (
        "cable parking brake", "electric parking brake", "parking brake shoes in the rotor",
    )  # fmt: skip


def test_the_pedal_is_firm_before_any_brake_job_moves(procedures: Procedures) -> None:
    for name in ("disc-brake-front", "disc-brake-rear", "drum-brake", "caliper-and-hose", "brake-fluid-exchange"):
        keys = procedures.procedures[name].steps
        assert keys.index("common/firm-pedal-first") < keys.index("common/low-speed-check"), name
        assert "pedal first" in procedures.procedures[name].cautions, name


def test_opening_the_hydraulics_brings_the_warning_about_fluid(procedures: Procedures) -> None:
    for procedure in procedures.procedures.values():
        if "common/bleed-a-wheel" in procedure.steps:
            assert "brake fluid" in procedure.cautions, procedure.id


def test_a_fastener_that_is_tightened_brings_its_own_first_cautions(
    procedures: Procedures, vocabulary: Vocabulary
) -> None:
    for procedure in procedures.procedures.values():
        for step in procedures.steps_of(procedure.id):
            for one in step.tighten:
                first = {n for n in vocabulary.components[one.component].cautions if vocabulary.cautions[n].first}
                first -= {"electric parking brake"} if step.only_if == "electric parking brake" else set()
                assert first <= {*step.cautions, *procedure.cautions}, (step.key, one.component)


def test_damage_is_never_blessed(procedures: Procedures) -> None:
    blessing = re.compile(
        r"(?i)\b(is|are) (fine|ok|okay|acceptable|harmless|safe to)\b|can be (driven|reused)|will be fine"
    )
    for step in procedures.steps.values():
        assert not blessing.search(said_by(step).replace("calls it fine", "")), step.key
        for check in step.checks:
            assert check.then.strip() and check.bad.strip() and check.good != check.bad, step.key


def test_every_step_is_short_enough_for_a_phone(procedures: Procedures) -> None:
    # common practice, no source: two or three sentences a step
    for step in procedures.steps.values():
        assert len(step.do) <= 320, (step.key, len(step.do))
        assert len(step.because) <= 200, (step.key, len(step.because))


def test_the_wheel_orders_go_across(procedures: Procedures) -> None:
    # re-derived: each stud once, and with five or more the next stud is never the neighbour of the one before
    text = procedures.steps["common/tighten-wheel-in-order"].do
    orders = {int(n): [int(s) for s in o.split("-")] for n, o in re.findall(r"(\d) studs (\d(?:-\d)+)", text)}
    assert set(orders) == {4, 5, 6, 8}
    for studs, order in orders.items():
        assert sorted(order) == list(range(1, studs + 1))
        if studs > 4:
            assert all((a - b) % studs not in (1, studs - 1) for a, b in pairwise(order)), studs


def test_every_common_step_is_reached_by_a_procedure(procedures: Procedures) -> None:
    anywhere = {"common/fastener-went-soft"}
    lonely = {key for key in procedures.steps if not procedures.holding(key)}
    assert lonely == anywhere
