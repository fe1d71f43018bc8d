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
    assert message.labels[-1] == "Not right?"


MARK = "You marked this as not right. Do not use it before the curator has looked."
VALUE = ["12 ondrel", "how do the front bracket bolts go back"]
NOTED = "SELECT answer_spec.spec, answer_spec.revision, note.said FROM note JOIN answer_spec USING (answer)"


def test_a_value_of_a_step_is_disputed_and_the_note_is_on_its_row(bay: Bay) -> None:
    north = bay.location("North bay")
    ana, lead = bay.phone("Ana", technician=north), bay.phone("Lead", curator=north)
    message = [ana.say(text) for text in VALUE][-1]
    ana.press("Not right?", message)
    lines = message.text.splitlines()
    assert lines[lines.index(MARK) + 1] == "Tighten the FRONT caliper bracket bolt to:"
    assert "Not right?" not in message.labels and "Next step" in message.labels
    assert lead.last.text.splitlines() == [
        "Ana (North bay) marked an answer as not right, note 1:",
        "Tighten the FRONT caliper bracket bolt to:",
        "50 lb-ft = 68 N·m (converted)",
        "2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque",
    ]
    ana.say("the sheet in my box says 58")
    assert bay.record.rows(NOTED, {}) == [("D0001", 1, "the sheet in my box says 58")]
    # whoever asks for it next is told, as a value or in the step
    for text in ("12 ondrel front bracket bolt torque", VALUE[1]):
        assert "Questioned on 2026-11-25, check before use." in lead.say(text).text


def test_a_marked_step_keeps_its_mark_and_the_next_one_has_none(ana: Phone) -> None:
    message = [ana.say(text) for text in VALUE][-1]
    old_copy = message.button("Not right?").code
    ana.press("Not right?", message)
    for view in ("How I read that", "Less"):
        ana.press(view, message)
        assert MARK in message.text and "Not right?" not in message.labels
    ana.press_code(message, old_copy)
    assert ana.notice == "You marked that already."
    ana.press("Next step", message)
    assert MARK not in message.text
    ana.press_code(message, old_copy)
    assert ana.notice.startswith("That")
    assert ana.bay.record.rows("SELECT count(*) FROM note", {}) == [(1,)]


def test_a_step_without_a_value_has_nothing_to_dispute(ana: Phone) -> None:
    message = ana.say("how do the front bracket bolts go back")
    assert "Not right?" not in message.labels
    ana.press_code(message, f"wrong.{message.button('Next step').code[1]}")
    assert ana.bay.record.rows("SELECT count(*) FROM note", {}) == [(0,)]


def test_in_spanish(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("Sur", "es"))
    message = [ana.say(text) for text in VALUE][-1]
    ana.press("¿Está mal?", message)
    assert "50 lb-ft" in message.text and "¿Está mal?" not in message.labels
    assert bay.record.rows(NOTED, {}) == [("D0001", 1, "")]
