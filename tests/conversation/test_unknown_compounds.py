"""A part that nobody knows, named by a word that falls apart into known ones, never gets the last part's value."""

from __future__ import annotations

import pytest
from desk import Desk, brief, reasons

from benchbot.outcomes import Gap

ASKED = "12 brackwell ondrel front caliper bracket bolt torque"

# Each falls apart into a property, a gearbox, an engine, a body, a place, an idle word.
NAMES = (
    "wobblestick", "wobble-stick", "gapstick", "gap-stick", "torquestick", "frontstick", "rear-stick", "dieseltorq",
    "warpedturned", "petrolbolt", "passengersbolt", "xzn-brakes", "minivan-ounces", "brakesnumber", "outfronts",
    "wheelgap", "wheelstick", "sidestick", "manynonturbo", "autowobblestick",
)  # fmt: skip
FORMS = (
    "10 brackwell ondrel front {} torque", "12 brackwell ondrel {} torque", "{} torque", "torque for the {}",
    "front {} torque?", "and the {} torque",
)  # fmt: skip


@pytest.fixture
def remembered(desk: Desk) -> str:
    """What a chat remembers that has just been told the torque of a bracket bolt."""
    chat = desk.chat()
    assert brief(chat.say(ASKED)) == "answer D0001"
    found = desk.conversation.record.chat_state(chat.name, desk.clock())
    assert found is not None
    return found


@pytest.mark.parametrize("name", NAMES)
def test_no_form_of_asking_shows_the_last_value(desk: Desk, remembered: str, name: str) -> None:
    told = {form: desk.conversation.consider(form.format(name), remembered) for form in FORMS}
    assert {form: brief(turn) for form, turn in told.items() if brief(turn).startswith("answer")} == {}


@pytest.mark.parametrize("said", ["wobble stick", "turn-dial", "gap stick"])
def test_a_property_of_another_kind_of_part_beside_that_of_the_last(desk: Desk, remembered: str, said: str) -> None:
    for form in FORMS:
        assert not brief(desk.conversation.consider(form.format(said), remembered)).startswith("answer"), form


@pytest.mark.parametrize("name", ["wobblestick", "wobble-stick"])
def test_the_curator_is_told_the_whole_word(desk: Desk, name: str) -> None:
    turn = desk.ask(ASKED, f"10 brackwell ondrel front {name} torque")
    assert isinstance(turn.outcome, Gap)
    assert reasons(turn) == ["unknown component"]
    assert turn.outcome.missing[0].detail == name
    assert turn.reading.stated == ()
    assert turn.reading.properties == ("torque",)


@pytest.mark.parametrize(
    ("said", "comes_to"),
    [
        ("front-torque", "answer D0001"),
        ("torque front-left", "answer D0001"),
        ("frontleft torque", "answer D0001"),
        ("torque-and-socket", "answer D0001 D0002"),
        ("front-brake torque", "answer D0001"),
        ("how much torque", "answer D0001"),
    ],
)
def test_what_is_said_in_one_breath_still_goes_on(desk: Desk, remembered: str, said: str, comes_to: str) -> None:
    assert brief(desk.conversation.consider(said, remembered)) == comes_to


def test_a_part_that_is_named_is_read_as_before(desk: Desk) -> None:
    assert brief(desk.ask("12 ondrel front-wheel torque")) == "answer D0020"
    assert brief(desk.ask("12 ondrel wheeltorque")) == "answer D0020"
    assert brief(desk.ask("12 ondrel front caliperbracketbolt torque")) == "answer D0001"
    assert brief(desk.ask("12 ondrel frontbracketbolt torque-socket")) == "answer D0001 D0002"
