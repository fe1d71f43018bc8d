"""A figure that is joined to the next one shares its unit, so that neither reading is lost nor taken for a year."""

from __future__ import annotations

import pytest
from desk import Desk
from hypothesis import given
from hypothesis import strategies as st

from benchbot.measuring.figures import figures_in, folded
from benchbot.outcomes import Answer


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("12 ondrel front rotors 17 and 19 mm", ["12", "17 mm", "19 mm"]),
        ("12 ondrel front rotor 17 19 mm", ["12", "17 mm", "19 mm"]),
        ("2012 ondrel front rotor 17 19 mm", ["17 mm", "19 mm"]),
        ("17, 18 and 19 mm", ["17 mm", "18 mm", "19 mm"]),
        ("balatas 2 y 6 mm", ["2 mm", "6 mm"]),
        ("front pads 2, 6 mm", ["2 mm", "6 mm"]),
        # a year may stand there
        ("ondrel 18, 5 mm", ["18", "5 mm"]),
        ("ondrel 12 19 mm front rotor", ["12", "19 mm"]),
        ("12 ondrel and 5 mm", ["12", "5 mm"]),
        # each has its own
        ("2 mm and 3/32 in", ["2 mm", "3/32 in"]),
        ("", []),
    ],
)
def test_units_are_shared(text: str, figures: list[str]) -> None:
    assert [one.measure.shown() for one in figures_in(folded(text))] == figures


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("runout +1 -2 mm", ["+1", "-2 mm"]),
        ("runout from -0.02 to +2 mm", ["-0.02", "+2 mm"]),
        ("runout minus 3 to plus 4 thou", ["-3", "+4 thou"]),
    ],
)
def test_a_whole_figure_with_its_sign_is_read(text: str, figures: list[str]) -> None:
    assert [one.measure.shown() for one in figures_in(folded(text))] == figures


@given(st.text(alphabet='0123456789+-.,/ inmthou runout dial and y &"', max_size=60))
def test_whatever_is_written_is_read_or_left(text: str) -> None:
    for one in figures_in(folded(f"runout {text}")):
        assert one.measure.number is not None and one.start < one.end


@pytest.mark.parametrize(
    "text",
    [
        "12 ondrel front rotors 17 and 19 mm",
        "12 ondrel front rotor 17 19 mm",
        "12 ondrel front rotors 19 and 17 mm",
        "front rotor 17, 19 mm 2012 ondrel",
        "12 ondrel front pads 2, 6 mm",
        "12 ondrel front pads 6 and 2 mm",
    ],
)
def test_the_worse_of_two_is_told_first(desk: Desk, text: str) -> None:
    turn = desk.ask(text)
    assert isinstance(turn.outcome, Answer)
    assert turn.reply.text().startswith("DO NOT USE: ")
    assert turn.outcome.judged[0].verdict == "discard"
