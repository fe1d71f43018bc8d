"""Taking a choice: by pressing it, by its number, by its label; and when there is none to take."""

from __future__ import annotations

from datetime import timedelta

import pytest
from desk import NOW, Desk, brief, labels, shown

from benchbot.conversation.conversation import VEHICLE_KEPT
from benchbot.outcomes import Calculation

ENGINES = ["1.6", "2.0T"]


def test_pressed(desk: Desk) -> None:
    chat = desk.chat()
    assert labels(chat.say("ondrel bracket bolt torque")) == ["2009-2013", "2014-2020"]
    assert labels(chat.press(2)) == ["front", "rear"]
    assert labels(chat.press(2)) == ENGINES
    assert shown(chat.press(2)) == ["D0073"]


@pytest.mark.parametrize(
    "typed", ["2", " 2 ", "2.", "2.0T", "2.0t", " 2.0T! ", "the 2.0t", "2.0 turbo", "its the 2.0t one"]
)
def test_typed(desk: Desk, typed: str) -> None:
    chat = desk.chat()
    assert labels(chat.say("18 ondrel front bracket bolt socket")) == ENGINES
    assert shown(chat.say(typed)) == ["D0058"]


@pytest.mark.parametrize(
    ("asked", "typed", "outcome"),
    [
        ("12 ondrel bracket bolt torque", "front", "answer D0001"),
        ("12 ondrel bracket bolt torque", "FRONT", "answer D0001"),
        ("12 ondrel bracket bolt torque", "frt", "answer D0001"),
        ("12 ondrel bracket bolt torque", "rear", "gap position not held"),
        ("12 ondrel front caliper bolt torque", "caliper slide pin bolt", "answer D0003"),
        ("12 ondrel front caliper bolt torque", "slide pin", "answer D0003"),
        ("12 ondrel front caliper bolt torque", "bracket", "answer D0001"),
        ("12 ondrel front rotor", "minimum thickness", "answer D0005"),
        ("12 ondrel front rotor", "min", "answer D0005"),
        ("wendla front bracket bolt torque", "2013-2019", "answer D0898"),
        ("wendla front bracket bolt torque", "2015", "answer D0898"),
        ("wendla front bracket bolt torque", "'15", "answer D0898"),
        ("quillane lug torque 2014", "Quillane 72", "answer D0347"),
        ("quillane lug torque 2014", "quillane 27", "answer D0310"),
        ("16 wendl front slide pin bolt", "wendla", "answer D0899"),
        ("18 ferryman drw front bracket bolt", "upper", "answer D0695"),
        ("20 vantry lug torque", "touring", "answer D1549"),
    ],
)
def test_a_label_or_what_says_the_same_is_typed(desk: Desk, asked: str, typed: str, outcome: str) -> None:
    chat = desk.chat()
    assert brief(chat.say(asked)).startswith("choose")
    assert brief(chat.say(typed)) == outcome


@pytest.mark.parametrize(("typed", "spec"), [("27", "D0310"), ("72", "D0347")])
def test_the_number_of_a_model_is_typed(desk: Desk, typed: str, spec: str) -> None:
    chat = desk.chat()
    assert labels(chat.say("quillane lug torque 2014")) == ["Quillane 27", "Quillane 72"]
    assert shown(chat.say(typed)) == [spec]


@pytest.mark.parametrize("number", [0, -1, 3, 9, 99])
def test_a_number_out_of_range_takes_nothing(desk: Desk, number: int) -> None:
    chat = desk.chat()
    chat.say("18 ondrel front bracket bolt socket")
    assert brief(chat.press(number)) == "other nothing asked"
    assert shown(chat.press(2)) == ["D0058"]


@pytest.mark.parametrize("typed", ["0", "3", "9", "33"])
def test_a_typed_number_out_of_range_answers_nothing(desk: Desk, typed: str) -> None:
    chat = desk.chat()
    chat.say("18 ondrel front bracket bolt socket")
    assert shown(chat.say(typed)) == []


def test_nothing_is_pending_at_first(desk: Desk) -> None:
    assert brief(desk.chat().press(1)) == "other nothing asked"
    assert shown(desk.ask("1")) == []


def test_a_choice_is_taken_once(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel bracket bolt torque")
    assert shown(chat.press(1)) == ["D0001"]
    for turn in (chat.press(1), chat.press(1)):
        assert brief(turn) == "other nothing asked"
    assert shown(chat.say("socket?")) == ["D0002"]


def test_a_new_question_takes_the_choices_of_the_old_one_away(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel bracket bolt torque")
    chat.say("16 wendla front bracket bolt")
    assert brief(chat.press(1)) == "other nothing asked"


def test_small_talk_leaves_the_choices_pending(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel bracket bolt torque")
    chat.say("hold on")
    assert shown(chat.press(1)) == ["D0001"]


def test_choices_expire_with_the_vehicle(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel bracket bolt torque")
    desk.clock.moment = NOW + VEHICLE_KEPT - timedelta(seconds=1)
    assert shown(chat.press(1)) == ["D0001"]
    chat.say("12 ondrel bracket bolt torque")
    desk.clock.moment += VEHICLE_KEPT
    assert brief(chat.press(1)) == "other nothing asked"


def test_choices_are_of_their_own_chat(desk: Desk) -> None:
    one, other = desk.chat(), desk.chat()
    one.say("12 ondrel bracket bolt torque")
    other.say("18 ondrel front bracket bolt socket")
    assert shown(other.press(1)) == ["D0046"]
    assert shown(one.press(1)) == ["D0001"]


def test_a_word_left_over_is_left_out_by_the_person(desk: Desk) -> None:
    chat = desk.chat()
    turn = chat.say("12 ondrel zugbar front bracket bolt torque")
    assert labels(turn) == ["leave out “zugbar”"]
    assert shown(chat.press(1)) == ["D0001"]


def test_the_unit_of_a_sum_is_chosen(desk: Desk) -> None:
    chat = desk.chat()
    turn = chat.say("80 lbs to nm")
    assert brief(turn) == "choose unit lbs"
    assert labels(turn)[:2] == ["lb-ft", "lb-in"]
    done = chat.press(1)
    assert isinstance(done.outcome, Calculation)
    assert "108" in done.reply.text()


def test_a_sum_does_not_take_the_vehicle_away(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel front bracket bolt torque")
    chat.say("80 lbs to nm")
    chat.press(1)
    assert shown(chat.say("socket?")) == ["D0002"]


@pytest.mark.parametrize(
    ("asked", "corrected", "spec"),
    [
        ("18 ondrel front bracket bolt socket", "no wait 2012", "D0002"),
        ("12 ondrel front caliper bolt", "rear bleeder screw torque", "D0017"),
        ("ondrel bracket bolt torque", "16 wendla front bracket bolt", "D0898"),
    ],
)
def test_a_question_may_be_answered_with_something_else(desk: Desk, asked: str, corrected: str, spec: str) -> None:
    chat = desk.chat()
    assert brief(chat.say(asked)).startswith("choose")
    assert shown(chat.say(corrected)) == [spec]
