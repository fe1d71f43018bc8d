"""A difference between inner and outer pad, or left and right, is pointed to with a named vehicle as well."""

from __future__ import annotations

import pytest
from desk import Desk

from benchbot.conversation.manner import Manner


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("12 ondrel front pads 4 mm inner 9 mm outer", "piston that does not come back"),
        ("12 ondrel front pads inner 4 outer 9 mm", "piston that does not come back"),
        ("18 ondrel 2.0t front pad inner 1.4 outer 4 mm", "piston that does not come back"),
        ("12 ondrel front pads inner 9 mm outer 4 mm", "slide pins"),
        ("12 ondrel front pads left inner 4 mm left outer 9 mm", "piston that does not come back"),
        ("12 ondrel front pads left 3.7 mm right 8 mm", "LEFT and RIGHT differ by 4.3 mm"),
        ("12 ondrel front pads driver side 4 mm passenger side 8 mm", "DRIVER SIDE and PASSENGER SIDE differ by 4 mm"),
        ("12 ondrel front rotors left 19.8 mm right 18.5 mm", "LEFT and RIGHT differ by 1.3 mm"),
        ("12 ondrel pastillas delanteras interior 4 mm exterior 9 mm", "piston that does not come back"),
        ("12 ondrel front rotor 19.2 mm pads left 4 mm right 8 mm", "LEFT and RIGHT differ by 4 mm"),
    ],
)
def test_the_difference_is_pointed_to_below_the_verdicts(desk: Desk, said: str, told: str) -> None:
    text = desk.ask(said).reply.text()
    assert told in text and "lead tech" in text, text
    assert text.index("limit of") < text.index(told)


@pytest.mark.parametrize("said", ["12 ondrel front pads left 7.0 mm right 7.5 mm", "12 ondrel front pads 8 mm"])
def test_what_is_within_the_reading_is_no_difference(desk: Desk, said: str) -> None:
    assert "differ by" not in desk.ask(said).reply.text()


def test_what_is_unsafe_still_comes_first(desk: Desk) -> None:
    text = desk.ask("18 ondrel 2.0t front pad inner 1.4 outer 4 mm").reply.text()
    assert text.startswith("INNER: DO NOT USE: 1.4 mm")


def test_in_spanish(desk: Desk) -> None:
    said = "12 ondrel front pads left 4 mm right 8 mm"
    turn = desk.conversation.say(desk.chat().name, "tester", said, manner=Manner(language="es"))
    assert "IZQUIERDA y DERECHA difieren en 4 mm" in turn.reply.text()
