"""A step on a phone: which way it is done, the next one and the whole list on buttons, the value of this vehicle."""

from __future__ import annotations

import pytest
from bay import Bay, Phone


@pytest.fixture
def ana(bay: Bay) -> Phone:
    return bay.phone("Ana", technician=bay.location("North bay"))


def test_a_step_and_its_buttons(ana: Phone) -> None:
    ana.say("12 ondrel")
    message = ana.say("front pistons wont go back")
    assert message.labels == ["Next step", "Whole list", "How I read that"]
    assert message.text.startswith("STOP if: ")
    first = message.button("Next step").code
    ana.press("How I read that", message)
    assert "a question about the work" in message.text and "STOP if: " in message.text
    ana.press("Less", message)
    ana.press("Next step", message)
    assert "Take the caliper off its bracket" in message.text
    after = message.sheet
    ana.press_code(message, first)
    assert message.sheet == after
    ana.press("Whole list", message)
    assert "1. Find out which brake is fitted" in message.text and message.labels == ["Next step", "How I read that"]
    ana.press("How I read that", message)
    assert "How I read that:" in message.text or "There were no words to read." in message.text


def test_which_way_it_is_done_is_chosen_by_a_tap(ana: Phone) -> None:
    message = ana.say("how do i push the pistons back")
    assert len(message.labels) == 4
    ana.press("Front disc brake service", message)
    assert "Two pistons go in together" in message.text and "Next step" in message.labels


def test_the_value_of_a_step_is_shown_with_its_source(ana: Phone) -> None:
    ana.say("12 ondrel")
    message = ana.say("how do the front bracket bolts go back")
    assert "50 lb-ft" in message.text and "checked by demo second lead" in message.text
