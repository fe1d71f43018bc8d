"""A question about the work from somebody who has a job in hand is about that job, unless it says otherwise."""

from __future__ import annotations

import json

import pytest
from desk import Desk, brief, labels

from benchbot.conversation.conversation import Turn
from benchbot.conversation.manner import InHand, Manner
from benchbot.outcomes import Choose, Procedure

PISTONS, BRACKET, PINS = (
    "how do i push the pistons back",
    "how do i put the bracket back on",
    "do the slide pins get grease",
)
CABLE = InHand("disc-brake-rear", ("cable parking brake",), "Brackwell", "Ondrel", 2012)
FRONT = InHand("disc-brake-front", (), "Brackwell", "Ondrel", 2012)
WIND_IN, ELECTRIC = "procedure disc-brake-rear/wind-piston-in", "procedure disc-brake-rear/push-piston-in-electric"


def at(desk: Desk, job: InHand | None, *texts: str) -> Turn:
    """The last turn of a new chat of somebody with that job."""
    chat = desk.chat()
    return [desk.conversation.say(chat.name, "tester", text, None, Manner(in_hand=job)) for text in texts][-1]


def step_of(turn: Turn) -> Procedure:
    assert isinstance(turn.outcome, Procedure), turn.outcome
    return turn.outcome


@pytest.mark.parametrize("before", [(), ("12 ondrel",)])
def test_what_the_job_knows_is_not_asked_again(desk: Desk, before: tuple[str, ...]) -> None:
    assert brief(at(desk, None, *before, PISTONS)) == "choose step"
    assert brief(at(desk, CABLE, *before, PISTONS)) == WIND_IN
    assert brief(at(desk, FRONT, *before, PISTONS)) == "procedure disc-brake-front/push-pistons-back"


@pytest.mark.parametrize(
    "texts",
    [
        ("16 wendla", PISTONS), (PISTONS + " on a 16 wendla",), ("next car, " + PISTONS,),
        (PISTONS + " on the zorbit",),
        ("12 ondrel", "2016 " + PISTONS), ("12 ondrel", "16 wendla lug nut torque", PISTONS),
    ],
)  # fmt: skip
def test_what_is_fitted_to_one_vehicle_says_nothing_of_another(desk: Desk, texts: tuple[str, ...]) -> None:
    turn = at(desk, CABLE, *texts)
    assert brief(turn) == "choose step" and len(labels(turn)) == 4


@pytest.mark.parametrize(
    ("drive", "comes_to"), [("4WD", "procedure disc-brake-front/push-pistons-back"), ("2WD", "choose step")]
)
def test_nor_of_another_drive(desk: Desk, drive: str, comes_to: str) -> None:
    job = InHand("disc-brake-front", (), "Wexmoor", "Thresher 1750", 2020, (("drive", drive),))
    assert brief(at(desk, job, "20 thresher 1750 4wd", PISTONS)) == comes_to


def test_a_job_on_a_vehicle_that_the_book_has_not_is_no_job_on_the_one_on_the_lift(desk: Desk) -> None:
    job = InHand("disc-brake-rear", ("cable parking brake",))
    assert brief(at(desk, job, PISTONS)) == WIND_IN
    assert brief(at(desk, job, "12 ondrel", PISTONS)) == "choose step"


def test_the_message_says_otherwise(desk: Desk) -> None:
    assert (
        brief(at(desk, CABLE, "how do i push the front pistons back")) == "procedure disc-brake-front/push-pistons-back"
    )
    assert brief(at(desk, CABLE, "how do i push the electric parking brake pistons back")) == ELECTRIC
    rear = at(desk, FRONT, "how do i push the rear pistons back")
    assert labels(rear) and all(label.startswith("Rear disc brake service: ") for label in labels(rear))
    # what no step of the job is about is found where it is done
    assert brief(at(desk, FRONT, "how do i wind the piston in")) == WIND_IN


def test_no_other_question_is_touched(desk: Desk) -> None:
    for text in ("12 ondrel lug nut torque", "12 ondrel bracket bolt torque", "thanks", "12 ondrel head bolts"):
        assert brief(at(desk, CABLE, text)) == brief(at(desk, None, text))


def test_the_vehicle_of_the_job_is_not_put_in_the_place_of_one_that_nobody_said(desk: Desk) -> None:
    assert step_of(at(desk, FRONT, BRACKET)).pulled[0].found is None
    shown = step_of(at(desk, FRONT, "12 ondrel", BRACKET))
    assert [finding.row.spec for finding in shown.findings] == ["D0001"]


def test_a_procedure_that_the_book_has_no_more_is_no_job(desk: Desk) -> None:
    assert brief(at(desk, InHand("wheel-polishing", (), "Brackwell", "Ondrel", 2012), PISTONS)) == "choose step"


@pytest.mark.parametrize("text", [BRACKET, PINS, "what goes on the hub face"])
def test_the_job_settles_where_a_step_of_several_procedures_is_gone_on_from(desk: Desk, text: str) -> None:
    alone = step_of(at(desk, None, "12 ondrel", text))
    assert (alone.procedure, alone.number, alone.options) == ("", 0, ())
    shown = step_of(at(desk, FRONT, "12 ondrel", text))
    assert shown.procedure == "disc-brake-front" and shown.number > 0
    assert [option.label for option in shown.options][-2:] == ["Next step", "Whole list"]


def test_the_axle_that_the_chat_keeps_for_the_part_settles_it_too(desk: Desk) -> None:
    again = "how do the bracket bolts go back"
    shown = step_of(at(desk, None, "12 ondrel", "front bracket bolt torque", again))
    assert shown.procedure == "disc-brake-front" and [one.row.spec for one in shown.findings] == ["D0001"]
    assert [option.label for option in shown.options][-2:] == ["Next step", "Whole list"]
    # of another part, or another axle than the one before
    assert step_of(at(desk, None, "12 ondrel", "front bracket bolt torque", PINS)).procedure == ""
    rear = "how do the rear bracket bolts go back"
    assert step_of(at(desk, None, "12 ondrel", "front bracket bolt torque", rear)).procedure == "disc-brake-rear"


def test_going_on_leaves_out_what_is_not_fitted(desk: Desk) -> None:
    chat = desk.chat()
    manner = Manner(in_hand=CABLE)
    shown = step_of(desk.conversation.say(chat.name, "tester", PISTONS, None, manner))
    while "Next step" in [option.label for option in shown.options]:
        # the job is at its end by now, or at rest; the list stays that of its vehicle
        shown = step_of(desk.conversation.say(chat.name, "tester", "next step", None, Manner()))
        assert shown.step.only_if in ("", "cable parking brake")
    assert shown.number == shown.of
    listed = step_of(desk.conversation.say(chat.name, "tester", "whole list", None, Manner()))
    assert len(listed.listed) == shown.of and not any("electric" in title for title in listed.listed)


def test_seen_again_with_the_job_of_then_it_is_the_same(desk: Desk) -> None:
    turn = at(desk, CABLE, "12 ondrel", PISTONS)
    assert turn.in_hand == CABLE
    kept = InHand.from_plain(json.loads(json.dumps(CABLE.to_plain())))
    assert desk.conversation.consider(PISTONS, turn.before, Manner(in_hand=kept)).outcome == turn.outcome
    assert isinstance(desk.conversation.consider(PISTONS, turn.before).outcome, Choose)
