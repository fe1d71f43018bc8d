"""A step asked for at a terminal: the value that it shows can be disputed there as on a phone, in both languages."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from sitting import Shop

from benchbot.people.register import People
from benchbot.pictures.tightening import tightening_picture
from benchbot.records.record import open_record

NOTED = "SELECT answer_spec.spec, answer_spec.revision, note.said FROM note JOIN answer_spec USING (answer)"


@pytest.mark.parametrize(
    ("language", "button", "marked"),
    [("en", "Not right?", "You marked this as not right."), ("es", "¿Está mal?", "Usted marcó esto como incorrecto.")],
)
def test_the_value_of_a_step_is_disputed(demo_terminals: Shop, language: str, button: str, marked: str) -> None:
    shop = demo_terminals
    shop.at_terminal("Ana", "technician")
    with open_record(shop.home) as record:
        People(record).set_defaults(1, language=language)  # type: ignore[arg-type]
    ana = shop.sit("Ana")
    ana.say("12 ondrel")
    assert "50 lb-ft" in ana.say("how do the front bracket bolts go back")
    assert marked in ana.press(button)
    ana.say("58 on the door")
    assert shop.rows(NOTED) == [("D0001", 1, "58 on the door")]


def test_the_picture_of_a_step_lies_in_a_file(demo_terminals: Shop) -> None:
    demo_terminals.at_terminal("Ana", "technician")
    ana = demo_terminals.sit("Ana")
    assert "Picture" in ana.say("5 lug pattern")
    found = re.search(r"\[picture: (.+)\]", ana.press("Picture"))
    assert found is not None
    assert Path(found[1]).read_bytes() == tightening_picture(5)


def test_a_question_in_between_is_about_the_job_in_hand(demo_terminals: Shop) -> None:
    demo_terminals.at_terminal("Ana", "technician")
    ana = demo_terminals.sit("Ana")
    asked = "how do i push the pistons back"
    assert "That is done in more than one way." in ana.say(asked)
    ana.say("/job 12 ondrel")
    ana.say("rear disc")
    ana.press("cable parking brake")
    ana.press("Without a number")
    ana.press("To the step")
    shown = ana.say(asked)
    assert "Wind the piston in" in shown and "Next step" in ana.buttons
