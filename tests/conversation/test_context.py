"""What a chat carries from one message to the next, and what it lets go."""

from __future__ import annotations

from datetime import timedelta

import pytest
from desk import NOW, Desk, brief, labels, shown

from benchbot.conversation.conversation import VEHICLE_KEPT
from benchbot.outcomes import Answer, Other

Chat = list[tuple[str, str]]

CARRIED: dict[str, Chat] = {
    "the vehicle and its year": [
        ("12 ondrel", "other vehicle set"),
        ("front bracket bolt", "answer D0001"),
        ("tie rod end nut", "answer D0036"),
        ("spark plug gap", "answer D0043"),
    ],
    "the engine": [
        ("18 ondrel 2.0t", "other vehicle set"),
        ("drain plug", "answer D0114"),
        ("oil capacity", "answer D0115"),
        ("plug gap", "answer D0118"),
    ],
    "two qualifiers": [
        ("20 thresher 1750 4wd 18 in brakes front rotor min", "answer D0545"),
        ("front bracket bolt", "answer D0539"),
    ],
    "the component and the axle, when only a figure is asked": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("socket?", "answer D0002"),
        ("torque", "answer D0001"),
    ],
    "the figure, when only the axle is asked": [
        ("18 ondrel 2.0t front bracket bolt socket", "answer D0058"),
        ("rear", "answer D0074"),
        ("front?", "answer D0058"),
    ],
    "the component and the axle to another figure and back": [
        ("18 ondrel 2.0t front rotor min", "answer D0061"),
        ("max runout", "answer D0063"),
        ("rear", "answer D0081"),
        ("min", "answer D0079"),
    ],
    "everything, when a unit is asked": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("in nm?", "answer D0001"),
        ("inch pounds", "answer D0001"),
    ],
    "everything over small talk and sums": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("thanks", "other small talk"),
        ("108 nm to ft lbs", "calculation"),
        ("socket?", "answer D0002"),
    ],
    "the other side of the same axle": [
        ("12 ondrel rf bracket bolt", "answer D0001"),
        ("other side same?", "answer D0001"),
    ],
    "all that an open question knows, when its answer is typed": [
        ("ondrel bracket bolt torque", "choose year"),
        ("front", "choose year"),
        ("12", "answer D0001"),
    ],
    "the figure asked for, through an open question about the part": [
        ("12 ondrel front caliper bolt torque", "choose component"),
        ("the slide pin one", "answer D0003"),
    ],
    "a vehicle of the same name, when it is named again": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("ondrel front slide pin bolt", "answer D0003"),
    ],
}

CHANGED: dict[str, Chat] = {
    "another component drops the axle": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("slide pin bolt", "choose axle"),
        ("front", "answer D0003"),
    ],
    "another component drops the figure": [
        ("18 ondrel 2.0t front pads min", "answer D0065"),
        ("rotor front", "choose property"),
    ],
    "a component that knows no axle needs none": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("drain plug", "answer D0039"),
    ],
    "another year of the same vehicle": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("2016", "choose qualifier engine"),
        ("1.6", "answer D0045"),
        ("2012", "answer D0001"),
    ],
    "another engine of the same vehicle": [
        ("18 ondrel 1.6 front slide pin bolt", "answer D0047"),
        ("2.0t", "answer D0059"),
        ("1.6", "answer D0047"),
    ],
    "one of two qualifiers, the other stays": [
        ("20 thresher 1750 4wd 18 in brakes rear rotor min", "answer D0574"),
        ("16 in brakes", "answer D0564"),
    ],
    "another vehicle takes neither year nor engine over": [
        ("18 ondrel 2.0t front slide pin bolt", "answer D0059"),
        ("wendle front slide pin bolt", "choose year"),
        ("16", "choose qualifier engine"),
        ("1.2", "answer D0787"),
    ],
    "a sibling takes no year over": [
        ("16 ondrel 2.0t front slide pin bolt", "answer D0059"),
        ("ondrel sport front slide pin bolt", "choose year"),
        ("2016", "answer D0123"),
    ],
    "another vehicle, nothing asked of it": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("16 wendla", "other vehicle set"),
        ("front bracket bolt", "answer D0898"),
    ],
    "the same thing on another vehicle": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("same thing on a 16 wendla", "answer D0898"),
    ],
    "what about another vehicle": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("what about the 16 wendla", "answer D0898"),
    ],
    "and another vehicle": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("and a 16 wendla?", "answer D0898"),
    ],
    "the same thing on a vehicle that splits by engine": [
        ("12 ondrel front slide pin bolt", "answer D0003"),
        ("same thing on a 16 wendle", "choose qualifier engine"),
        ("1.4t", "answer D0799"),
    ],
    "another vehicle with a figure": [
        ("18 ondrel 2.0t front slide pin bolt", "answer D0059"),
        ("16 ondrel sport torque", "choose axle"),
        ("front", "answer D0123"),
    ],
    "another vehicle with an axle": [
        ("18 ondrel 2.0t front slide pin bolt", "answer D0059"),
        ("16 ondrel sport rear", "answer D0134"),
    ],
    "the same thing for another drive": [
        ("16 thresher 1750 4wd front bracket bolt", "answer D0450"),
        ("same for 2wd", "answer D0438"),
    ],
    "the next car with its question": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("next car 16 wendla front bracket bolt", "answer D0898"),
    ],
    "the next car, the question without its name": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("next car front bracket bolt", "choose vehicle"),
    ],
    "a vehicle that nobody knows is no gap of the old one": [
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("13 zorblax front bracket bolt", "gap unknown vehicle"),
    ],
    "a gap keeps the vehicle": [
        ("12 ondrel head bolts", "gap component not held"),
        ("front bracket bolt", "answer D0001"),
    ],
}

# What comes in between is of no account; the question after it must not be answered of the vehicle before.
GONE: dict[str, str] = {
    "the next car, announced alone": "thx next car",
    "the next one, announced alone": "ok next one",
    "a different truck, announced alone": "different truck",
    "the next car, with its year": "next car 2016",
    "a vehicle that nobody knows": "13 zorblax front bracket bolt",
    "a vehicle that nobody knows, nothing asked of it": "16 zorblax",
    "the vehicle that was said not to be it": "not the ondrel",
}

# A sibling model named by the one word or number that sets it apart.
SIBLINGS: dict[str, Chat] = {
    "the sport": [("16 wendle 1.2 front bracket bolt", "answer D0786"), ("same for the sport?", "answer D0862")],
    "sport": [("16 wendle 1.2 front bracket bolt", "answer D0786"), ("sport?", "answer D0862")],
    "same for 72": [("14 quillane 27 lug torque", "answer D0310"), ("same for 72", "answer D0347")],
    "274": [("18 quillane 72 lug torque", "answer D0347"), ("274", "answer D0405")],
}  # fmt: skip


def play(desk: Desk, chat: Chat) -> None:
    there = desk.chat()
    for text, expected in chat:
        found = brief(there.say(text))
        assert not expected or found == expected, text


@pytest.mark.parametrize("name", CARRIED)
def test_carried_over(desk: Desk, name: str) -> None:
    play(desk, CARRIED[name])


@pytest.mark.parametrize("name", CHANGED)
def test_let_go(desk: Desk, name: str) -> None:
    play(desk, CHANGED[name])


@pytest.mark.parametrize("name", GONE)
def test_a_vehicle_that_is_no_longer_meant(desk: Desk, name: str) -> None:
    chat = desk.chat()
    assert shown(chat.say("12 ondrel front bracket bolt")) == ["D0001"]
    chat.say(GONE[name])
    assert shown(chat.say("front slide pin bolt")) == []


@pytest.mark.parametrize("name", SIBLINGS)
def test_a_sibling_named_in_short_is_never_answered_from_the_model_before(desk: Desk, name: str) -> None:
    """Asking which is meant would do; the figure of the model before must not come again."""
    (first, before), (then, right) = SIBLINGS[name]
    chat = desk.chat()
    assert brief(chat.say(first)) == before
    found = brief(chat.say(then))
    assert found == right or not found.startswith("answer")


def test_two_vehicles_in_one_message_are_asked(desk: Desk) -> None:
    turn = desk.ask("12 ondrel front bracket bolt", "16 wendle sport and 16 wendla lugs")
    assert brief(turn) == "choose vehicle"
    assert labels(turn) == ["Pelbrook Wendle Sport", "Pelbrook Wendla"]


def test_the_vehicle_is_kept_for_four_hours_and_no_longer(desk: Desk) -> None:
    assert timedelta(hours=4) == VEHICLE_KEPT
    chat = desk.chat()
    assert shown(chat.say("12 ondrel front bracket bolt")) == ["D0001"]
    desk.clock.moment = NOW + VEHICLE_KEPT - timedelta(seconds=1)
    assert shown(chat.say("socket?")) == ["D0002"]


@pytest.mark.parametrize("text", ["socket?", "front bracket bolt", "rear?", "in nm?"])
def test_after_four_hours_the_vehicle_is_asked_again(desk: Desk, text: str) -> None:
    chat = desk.chat()
    assert shown(chat.say("12 ondrel front bracket bolt")) == ["D0001"]
    desk.clock.moment = NOW + VEHICLE_KEPT
    turn = chat.say(text)
    assert shown(turn) == []
    assert not isinstance(turn.outcome, Answer)


def test_every_turn_starts_the_four_hours_anew(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel front bracket bolt")
    for hours in (3, 6, 9):
        desk.clock.moment = NOW + timedelta(hours=hours)
        assert shown(chat.say("socket?")) == ["D0002"]


def test_chats_share_nothing(desk: Desk) -> None:
    one, other = desk.chat(), desk.chat()
    one.say("12 ondrel front bracket bolt")
    other.say("16 wendla front bracket bolt")
    assert shown(one.say("socket?")) == ["D0002"]
    assert brief(other.say("torque?")) == "answer D0898"
    assert brief(desk.ask("socket?")) == "choose component"


def test_the_maker_comes_first_once_a_chat(desk: Desk) -> None:
    chat = desk.chat()
    maker = "The vehicle maker's current service information, local codes and licensed practice come first."
    assert [chat.say(text).reply.text().count(maker) for text in ("12 ondrel", "front bracket bolt", "socket?")] == [
        1,
        0,
        0,
    ]
    desk.clock.moment = NOW + VEHICLE_KEPT
    assert chat.say("12 ondrel front bracket bolt").reply.text().count(maker) == 1


def test_a_vehicle_set_tells_what_is_held_of_it(desk: Desk) -> None:
    turn = desk.ask("12 ondrel")
    assert isinstance(turn.outcome, Other)
    assert turn.outcome.held[:3] == ("caliper bracket bolt", "caliper slide pin bolt", "brake rotor")
    assert (turn.outcome.subject.make, turn.outcome.subject.model, turn.outcome.subject.years) == (
        "Brackwell",
        "Ondrel",
        (2012,),
    )
