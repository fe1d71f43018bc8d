"""Damage that was said beside a measured part: the rule and the lead tech first, and nothing there is called usable."""

from __future__ import annotations

import pytest
from desk import Desk, labels

from benchbot.conversation.manner import Manner
from benchbot.measuring.damage import damage_said
from benchbot.outcomes import Answer, Choose

# The rules are those of the steps "check-rotor-face" and "friction that took up oil" of knowledge/procedures.
JUDGED = (
    ("12 ondrel front rotor 19 mm cracked", "condemns the rotor"),
    ("12 ondrel front rotor 19 mm with a crack", "condemns the rotor"),
    ("12 ondrel cracked front rotor 19 mm good?", "condemns the rotor"),
    ("12 ondrel front rotor measured 19.0 has hairline cracks", "condemns the rotor"),
    ("12 ondrel front rotor 19 mm scored deep", "grooves"),
    ("12 ondrel front rotor 19 mm deep grooves", "grooves"),
    ("12 ondrel front rotor 19 mm grooved", "grooves"),
    ("12 ondrel front rotor 19 mm rusted through", "rust"),
    ("12 ondrel front rotor 19 mm blue", "blue"),
    ("12 ondrel front rotor 19 mm heat spots ok?", "spots"),
    ("12 ondrel front rotor 19 mm oil on it", "oil"),
    ("12 ondrel front rotor 19 mm chipped", "lead tech"),
    ("12 ondrel front pads 6 mm cracked lining", "condemns the set"),
    ("12 ondrel front pads 6 mm lining coming off the plate", "condemns the set"),
    ("12 ondrel front pads 6 mm contaminated", "whole axle"),
    ("12 ondrel front pads 5 mm soaked in brake fluid ok?", "whole axle"),
    ("12 ondrel front pads 5 mm glazed", "lead tech"),
    ("12 ondrel rear shoes 4 mm greasy", "whole axle"),
    ("12 ondrel rear drum 200.5 mm cracked", "condemns the drum"),
    ("12 ondrel front rotor 0.76 in cracked", "condemns the rotor"),
    ("12 ondrel disco delantero 19 mm agrietado", "condemns the rotor"),
    ("12 ondrel pastillas delanteras 6 mm con aceite", "whole axle"),
    ("12 ondrel front rotor 19 mm cracked pads 6 mm", "lead tech"),
)


@pytest.mark.parametrize(("said", "rule"), JUDGED)
def test_damage_comes_first_and_nothing_is_called_usable(desk: Desk, said: str, rule: str) -> None:
    turn = desk.ask(said)
    assert isinstance(turn.outcome, Answer), turn.reply.text()
    first = turn.reply.text().splitlines()[0]
    assert first.startswith("DO NOT USE") and "lead tech" in first and rule in first
    text = turn.reply.text()
    assert "USABLE" not in text and "Usable" not in text and "may be machined" not in text
    assert "mm" in text and turn.outcome.findings
    assert not {one.verdict for one in turn.outcome.judged} & {"use", "no machining"}


@pytest.mark.parametrize(
    "said",
    [
        "ondrel front rotor 19 mm cracked",
        "12 ondrel rotor 19 mm cracked",
        "front rotor 19 mm cracked",
        "18 ondrel front rotor 23 mm cracked",
        "12 ondrel rotor and pads 19 mm 6 mm cracked",
        "12 ondrel front rotor 19.1 or 19.2 mm cracked",
        "12 ondrel front pads 6 soaked in oil",
        "measured 26.1 front rotor 18 ondrel 1.6 cracked",
    ],
)
def test_while_something_is_open_the_damage_is_said_and_never_offered_to_be_left_out(desk: Desk, said: str) -> None:
    turn = desk.ask(said)
    text = turn.reply.text()
    assert text.splitlines()[0].startswith("DO NOT USE") and "lead tech" in text
    assert not any("leave out" in label for label in labels(turn))
    assert "USABLE" not in text


def test_what_was_said_of_damage_is_kept_while_something_is_asked_back(desk: Desk) -> None:
    turn = desk.ask("front rotor 19 mm cracked", "12 ondrel")
    assert turn.reply.text().startswith("DO NOT USE")
    chat = desk.chat()
    assert isinstance(chat.say("12 ondrel rotor 19 mm cracked").outcome, Choose)
    assert chat.press(1).reply.text().startswith("DO NOT USE")


def test_below_the_limit_stays_below_the_limit(desk: Desk) -> None:
    lines = desk.ask("12 ondrel front rotor 17.4 mm cracked").reply.text().splitlines()
    assert "crack" in lines[0]
    assert lines[1].startswith("DO NOT USE: 17.4 mm is 0.6 mm below")


@pytest.mark.parametrize("said", ["12 ondrel front rotor 19 mm no cracks", "12 ondrel front rotor 19 mm, not cracked"])
def test_damage_that_is_denied_is_none(desk: Desk, said: str) -> None:
    turn = desk.ask(said)
    assert turn.reply.text().startswith("USABLE: 19 mm")
    assert "Cracks, grooves" in turn.reply.text()


@pytest.mark.parametrize(
    "said",
    ["crack the bleeder 8 mm wrench", "front rotor 19 mm", "blue loctite 8 mm bolt", "12 ondrel cracked rotor",
     "12 ondrel front pads min"],
)  # fmt: skip
def test_no_damage_of_a_measured_part(said: str) -> None:
    assert damage_said(said) is None


def test_in_spanish(desk: Desk) -> None:
    said = "12 ondrel disco delantero 19 mm con grietas"
    turn = desk.conversation.say(desk.chat().name, "tester", said, manner=Manner(language="es"))
    first = turn.reply.text().splitlines()[0]
    assert first.startswith("NO USAR") and "técnico líder" in first
    assert "SE PUEDE" not in turn.reply.text()
