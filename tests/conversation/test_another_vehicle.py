"""What a chat carries when another vehicle is named: every slot, for each way of naming it and of going on."""

from __future__ import annotations

from datetime import timedelta

import pytest
from desk import NOW, Chat, Desk, brief, shown

from benchbot.conversation.context import in_context
from benchbot.conversation.conversation import VEHICLE_KEPT
from benchbot.conversation.lift import Lift
from benchbot.conversation.past import Past
from benchbot.understanding.reading import Reading, VehicleRead
from benchbot.vocabulary.terms import Stated

BEFORE = "18 ondrel 2.0t rear rotor min"

# way of naming it -> what goes with nothing asked, with a figure, with the part
NAMED: dict[str, tuple[str, str, str]] = {
    "in full": ("2016 wendla", "2016 wendla runout", "2016 wendla rotor"),
    "by model": ("wendla", "wendla runout", "wendla rotor"),
    "a sibling": ("ondrel sport", "ondrel sport runout", "ondrel sport rotor"),
    "another year": ("2016", "2016 runout", "2016 rotor"),
    "the model and another year": ("2016 ondrel", "2016 ondrel runout", "2016 ondrel rotor"),
    "next car": ("next car", "next car runout", "next car rotor"),
    "next car, in full": ("next car 2016 wendla", "next car 2016 wendla runout", "next car: 2016 wendla rotor"),
    "next car, the same model": ("next car another ondrel", "next car ondrel runout", "next car ondrel rotor"),
    "same thing on": ("same thing on a wendla", "same runout on a wendla", "same rotor on a wendla"),
    "same thing on another year": ("same on a 2016", "same runout on a 2016", "same rotor on a 2016"),
    "what about": ("what about the wendla", "what about runout on the wendla", "what about the wendla rotor"),
    "and": ("and on the wendla?", "and wendla runout", "and the wendla rotor"),
    "corrected": ("sorry i mean the wendla", "i mean the wendla runout", "i mean the wendla rotor"),
}
PART, FIGURE, AXLE = "part", "figure", "axle"
WHOLE = {PART, FIGURE, AXLE}

# what is carried of the question before; of the vehicle before (year, engine) nothing ever is
CARRIED: dict[str, tuple[set[str], set[str], set[str]]] = {
    "in full": (set(), {PART}, set()),
    "by model": (set(), {PART}, set()),
    "a sibling": (set(), {PART}, set()),
    "another year": (WHOLE, {PART}, set()),
    "the model and another year": (set(), {PART}, set()),
    "next car": (set(), set(), set()),
    "next car, in full": (set(), set(), set()),
    "next car, the same model": (set(), set(), set()),
    "same thing on": (WHOLE, {PART, AXLE}, set()),
    "same thing on another year": (WHOLE, {PART, AXLE}, set()),
    "what about": (WHOLE, {PART, AXLE}, set()),
    "and": (WHOLE, {PART}, set()),
    "corrected": (WHOLE, {PART, AXLE}, set()),
}
HOW = ("nothing asked", "a figure asked", "the part asked")
TABLE = [(way, n) for way in NAMED for n in range(len(HOW))]
IDS = [f"{way}, {HOW[n]}" for way, n in TABLE]


def carried(chat: Chat, text: str) -> set[str]:
    """Slots of the question before that the message is completed with, those of the vehicle among them."""
    reading = chat.say(text).reading
    found: set[str] = set()
    if 2018 in reading.years:
        found.add("year")
    if reading.stated or reading.excluded:
        found.add("engine")
    for ask in reading.asks:
        if ask.components == ("brake rotor",) and "rotor" not in text:
            found.add(PART)
        if "minimum thickness" in ask.properties and not ask.vague:
            found.add(FIGURE)
        if ask.place:
            found.add(AXLE)
    return found


@pytest.mark.parametrize(("way", "n"), TABLE, ids=IDS)
def test_what_is_carried_to_another_vehicle(desk: Desk, way: str, n: int) -> None:
    chat = desk.chat()
    assert shown(chat.say(BEFORE)) == ["D0079"]
    assert carried(chat, NAMED[way][n]) == CARRIED[way][n]


@pytest.mark.parametrize(("way", "n"), TABLE, ids=IDS)
def test_an_open_question_hands_on_no_more_to_another_vehicle(desk: Desk, way: str, n: int) -> None:
    """While its question is open the part and its figure go on to a vehicle named by itself; the axle never does."""
    chat = desk.chat()
    assert brief(chat.say("18 ondrel rear rotor min")) == "choose qualifier engine"
    assert carried(chat, NAMED[way][n]) <= CARRIED[way][n] | ({PART, FIGURE} if n == 0 else set())


@pytest.mark.parametrize("text", [texts[2] for texts in NAMED.values()])
def test_the_part_asked_of_another_vehicle_shows_no_value_without_its_axle(desk: Desk, text: str) -> None:
    assert shown(desk.ask(BEFORE, f"{text} min")) == []


@pytest.mark.parametrize("text", ["runout", "rotor runout", "front?", "min?"])
def test_the_same_vehicle_keeps_all_of_it(desk: Desk, text: str) -> None:
    reading = desk.ask(BEFORE, text).reading
    assert (reading.years, [one.value for one in reading.stated]) == ((2018,), ["2.0T"])
    assert len(reading.asks[0].place.axles) == 1


@pytest.mark.parametrize("text", ["same truck, runout", "same car rotor runout", "next the runout, same truck"])
def test_the_same_truck_is_no_other_one(desk: Desk, text: str) -> None:
    assert shown(desk.ask(BEFORE, text)) == ["D0081"]


def test_a_corrected_year_leaves_the_vehicle_what_it_was(desk: Desk) -> None:
    assert shown(desk.ask(BEFORE, "oops 2019 rotor min")) == ["D0079"]


def test_next_car_same_thing_asks_for_the_car(desk: Desk) -> None:
    assert brief(desk.ask(BEFORE, "next car same thing")) == "choose vehicle"


@pytest.mark.parametrize("text", ["2016 wendla same customer", "2016 wendla, same bay", "also got a 2016 wendla"])
def test_a_vehicle_announced_asks_nothing(desk: Desk, text: str) -> None:
    assert brief(desk.ask(BEFORE, text)) == "other vehicle set"


def test_a_sibling_set_of_places_is_not_carried(sibling_desk: Desk) -> None:
    """Side and height were said of the other vehicle, too."""
    for before, after in (
        ("2016 hedrun rf sway bar link nut torque", "2016 saltrin sway bar link nut torque"),
        ("2016 hedrun front upper bracket bolt torque", "2016 saltren bracket bolt torque"),
    ):
        chat = sibling_desk.chat()
        assert len(shown(chat.say(before))) == 1
        turn = chat.say(after)
        assert shown(turn) == []
        assert not any(ask.place for ask in turn.reading.asks)


def test_a_vehicle_put_on_the_lift_by_a_button_brings_its_own_and_no_question(desk: Desk) -> None:
    """The memory that the button leaves: the vehicle's year and engine, nothing of what was asked before."""
    lift = Lift("Pelbrook", "Wendle", (2016,), stated=(Stated("engine", "1.2", False),))
    past = lift.to_past()
    assert (past.years, past.stated, past.asks, past.only_rows, past.left_over) == ((2016,), lift.stated, (), (), ())
    _, completed = desk.conversation.read("rotor min", past, NOW)
    assert (completed[0].years, completed[0].stated) == ((2016,), lift.stated)
    assert not completed[0].asks[0].place


def test_the_lift_chosen_from_those_before_takes_nothing_of_the_one_between(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel front bracket bolt")
    desk.clock.moment = NOW + timedelta(minutes=1)
    chat.say(BEFORE)
    desk.clock.moment += VEHICLE_KEPT
    turn = chat.say("rotor min")
    assert brief(turn) == "choose vehicle"
    chosen = chat.press(2)
    assert (chosen.reading.years, chosen.reading.stated) == ((2012,), ())
    assert brief(chosen) == "choose axle"


@pytest.mark.parametrize("text", ["runout", "rotor runout", "wendla rotor", "2016 ondrel rotor", "front?"])
def test_after_its_time_nothing_is_carried(desk: Desk, text: str) -> None:
    chat = desk.chat()
    chat.say(BEFORE)
    desk.clock.moment = NOW + VEHICLE_KEPT
    assert carried(chat, text) - ({AXLE} if text == "front?" else set()) == set()


def test_a_vehicle_that_the_book_has_lost_hands_nothing_on(desk: Desk) -> None:
    past = Past((("Brackwell", "Gone"),), "named", "gone", (2018,), stated=(Stated("engine", "2.0T", False),))
    for new in (VehicleRead(), VehicleRead("named", (1,), None, "ondrel")):
        whole = in_context(Reading(kind="question", vehicle=new), past, VehicleRead(), desk.conversation.lexicon)
        assert (whole.years, whole.stated) == ((), ())
