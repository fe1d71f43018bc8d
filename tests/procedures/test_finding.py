"""Questions in everyday words find their step, ask where two differ, and leave figures and talk alone."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchbot.procedures.finding import Finder, Found
from benchbot.procedures.wording import words_of

HERE = Path(__file__).parent
QUESTIONS = [json.loads(line) for line in (HERE / "questions.jsonl").read_text(encoding="utf-8").splitlines()]
PISTONS = {
    "disc-brake-front/push-pistons-back",
    "disc-brake-rear/wind-piston-in",
    "disc-brake-rear/push-piston-in-electric",
    "disc-brake-rear/push-piston-in-plain",
}


def ask(finder: Finder, text: str, in_hand: str | None = None, fitted: tuple[str, ...] = ()) -> Found:
    words = words_of(text)
    return finder.find(words, axles=[a for a in ("front", "rear") if a in words], in_hand=in_hand, fitted=fitted)


def is_right(question: dict[str, object], found: Found) -> bool:
    keys = [hit.step.key for hit in found.hits]
    if question["expect"] != found.verdict:
        return False
    steps = question.get("steps")
    if not isinstance(steps, list):
        return True
    return set(keys) == set(steps) if found.verdict == "ask" else keys[0] in steps


def test_there_are_questions_enough() -> None:
    assert len(QUESTIONS) >= 160
    assert len({question["q"] for question in QUESTIONS}) == len(QUESTIONS)


@pytest.mark.parametrize("half", sorted({question["half"] for question in QUESTIONS}))
def test_questions_find_their_step(finder: Finder, half: str) -> None:
    of = [question for question in QUESTIONS if question["half"] == half]
    wrong = [question["q"] for question in of if not is_right(question, ask(finder, str(question["q"])))]
    assert len(wrong) <= 0.07 * len(of), wrong


def test_every_expected_step_exists(finder: Finder) -> None:
    assert {key for question in QUESTIONS for key in question.get("steps", ())} <= set(finder.procedures.steps)


@pytest.mark.parametrize(
    "text",
    [
        "front caliper bracket torque 19",
        "lower ball joint nut",
        "thanks",
        "lunch?",
        "anyone seen the wind back tool",
        "",
    ],
)
def test_figures_and_talk_lead_nowhere(finder: Finder, text: str) -> None:
    assert ask(finder, text) == Found("none")


def test_pistons_are_asked_about_where_they_go_back_in_different_ways(finder: Finder) -> None:
    found = ask(finder, "how do i push the pistons back")
    assert found.verdict == "ask" and {hit.step.key for hit in found.hits} == PISTONS
    assert len(set(found.differ)) == len(found.hits)
    assert any("electric parking brake" in label for label in found.differ)


def test_the_axle_said_settles_it(finder: Finder) -> None:
    found = ask(finder, "how do i push the front pistons back")
    assert found.verdict == "sure" and found.hits[0].step.key == "disc-brake-front/push-pistons-back"
    rear = ask(finder, "how do i push the rear pistons back")
    assert rear.verdict == "ask" and all(hit.step.only_if for hit in rear.hits)


def test_the_job_in_hand_settles_it_and_what_is_fitted(finder: Finder) -> None:
    front = ask(finder, "how do i push the pistons back", in_hand="disc-brake-front")
    assert front.verdict == "sure" and front.hits[0].step.key == "disc-brake-front/push-pistons-back"
    rear = ask(finder, "how do i push the pistons back", in_hand="disc-brake-rear")
    assert rear.verdict == "ask"
    cable = ask(finder, "how do i push the pistons back", in_hand="disc-brake-rear", fitted=("cable parking brake",))
    assert cable.verdict == "sure" and cable.hits[0].step.key == "disc-brake-rear/wind-piston-in"


@pytest.mark.parametrize(
    "text", ["how do i push the piston back", "como meto el piston", "como regreso los pistones", "piston goes in how"]
)
def test_however_it_is_worded_what_is_fitted_is_asked(finder: Finder, text: str) -> None:
    """A piston of an electric or cable caliper is ruined by pressing it (common practice, no source)."""
    found = ask(finder, text)
    assert found.verdict == "ask" and {hit.step.key for hit in found.hits} == PISTONS


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("wind the piston in, which way", "disc-brake-rear/wind-piston-in"),
        ("piston back in with the epb in service mode, just press it", "disc-brake-rear/push-piston-in-electric"),
        ("how do i set the little parking shoes in the rotor hat", "disc-brake-rear/adjust-shoes-in-rotor"),
    ],
)
def test_what_was_said_of_it_settles_it(finder: Finder, text: str, key: str) -> None:
    found = ask(finder, text)
    assert found.verdict == "sure" and found.hits[0].step.key == key


def test_the_parking_brake_is_set_in_several_ways(finder: Finder) -> None:
    found = ask(finder, "parking brake adjust")
    assert found.verdict == "ask" and {hit.step.way_of for hit in found.hits} == {"parking brake set"}
    shoes = ("parking brake shoes in the rotor",)
    at_the_job = ask(finder, "parking brake adjust", in_hand="disc-brake-rear", fitted=shoes)
    assert at_the_job.verdict == "sure" and at_the_job.hits[0].step.key == "disc-brake-rear/adjust-shoes-in-rotor"


def test_a_question_about_another_job_is_still_answered(finder: Finder) -> None:
    found = ask(finder, "which shoe goes to the front", in_hand="disc-brake-front")
    assert found.verdict == "sure" and found.hits[0].step.key == "drum-brake/fit-shoes"


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("do the slide pins get graese", "common/grease-slide-pins"),
        ("rotr stuck on the hub", "common/remove-rotor"),
        ("blede order", "common/bleed-order"),
        ("bleeder broek off", "common/stuck-bleeder"),
    ],
)
def test_slips_are_forgiven_toward_one_word(finder: Finder, typed: str, key: str) -> None:
    found = ask(finder, typed)
    assert found.hits and found.hits[0].step.key == key


def test_a_slip_that_fits_two_words_is_not_forgiven(finder: Finder) -> None:
    # one letter from "link" and from "line"
    assert ask(finder, "lino is bad").verdict == "none"
