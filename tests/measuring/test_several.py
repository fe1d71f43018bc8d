"""Several parts measured in one message: each is judged, or it is said which one is not and how to ask for it."""

from __future__ import annotations

import pytest
from desk import Desk
from hypothesis import given
from hypothesis import strategies as st

from benchbot.conversation.manner import Manner
from benchbot.measuring.several import is_of_parts, said_of_parts
from benchbot.outcomes import Answer, Choose

UNSAFE = "12 ondrel front pads 5 mm rotor 17.4 mm"


def test_each_verdict_names_its_part_and_what_is_unsafe_is_said_first(desk: Desk) -> None:
    lines = desk.ask(UNSAFE).reply.text().splitlines()
    assert lines[0] == "brake rotor: DO NOT USE: 17.4 mm is 0.6 mm below the discard limit of 18.0 mm."
    assert lines[1] == "brake pad: USABLE: 5 mm is 2 mm above the discard limit of 3.0 mm."
    assert desk.ask(UNSAFE).reply.short.startswith("brake rotor: DO NOT USE: ")


@pytest.mark.parametrize(
    ("text", "figures", "part"),
    [
        ("front rotor 17.5 mm pads 3.0 12 ondrel", "3.0", "brake pad"),
        ("front rotor 17.5 mm front pads 5 12 ondrel", "5", "brake pad"),
        ("front rotor 5.0 pads 3.0 measured 12 ondrel", "3.0", "brake pad"),
    ],
)
def test_what_is_not_judged_is_named(desk: Desk, text: str, figures: str, part: str) -> None:
    told = f"NOT JUDGED: {figures} of the {part}. Send that part by itself, with its unit."
    assert told in desk.ask(text).reply.text().splitlines()


@pytest.mark.parametrize(
    "text",
    [
        "measured front rotor and pads 22.4 and 4 mm 18 ondrel 2.0t",
        "front rotor 19.6 mm pads 5 mm rear rotor 9.8 mm 18 ondrel 2.0t",
        "12 ondrel front rotor 17.4 mm and pads 18 merit",
    ],
)
def test_where_it_cannot_be_told_which_is_which_that_is_said(desk: Desk, text: str) -> None:
    turn = desk.ask(text)
    assert isinstance(turn.outcome, Choose) and not turn.reply.specs
    assert "NOT JUDGED: your message has figures of several parts. Send each part by itself" in turn.reply.text()


def test_one_that_the_book_has_no_limit_for_is_missing_beside_the_other_and_logged(desk: Desk) -> None:
    turn = desk.ask("18 ondrel 1.6 front rotor 22 mm pads 2 mm")
    assert isinstance(turn.outcome, Answer) and turn.gap is not None
    assert [one.subject.component for one in turn.outcome.missing] == ["brake rotor"]
    assert turn.reply.text().startswith("brake pad: DO NOT USE: 2 mm ")


def test_in_spanish(desk: Desk) -> None:
    spanish = Manner(language="es")
    turn = desk.conversation.say(desk.chat().name, "tester", "front rotor 17.5 mm pads 3.0 12 ondrel", None, spanish)
    lines = turn.reply.text().splitlines()
    assert lines[0].startswith("brake rotor (disco de freno): NO USAR: 17.5 mm ")
    assert lines[1].startswith("SIN DICTAMEN: 3.0 de brake pad (")
    turn = desk.conversation.say(
        desk.chat().name, "tester", "front rotor 19.6 mm pads 5 mm rear rotor 9.8 mm 18 ondrel 2.0t", None, spanish
    )
    assert "SIN DICTAMEN: su mensaje tiene medidas de varias piezas." in turn.reply.text()


@pytest.mark.parametrize(
    "text",
    [
        "12 ondrel front rotor min and pad min",
        "18 ondrel 2.0t front rotor and pads",
        "20 thresher 1750 4wd 16 in brakes rotor and pad min",
        "front rotor 22.4 mm 18 ondrel 2.0t",
        "disc pads 5 mm front 12 ondrel",
        "rotor and pads",
    ],
)
def test_nothing_of_the_sort_is_said(desk: Desk, text: str) -> None:
    assert said_of_parts(text, lambda word: bool(desk.conversation.book.words(word))) is None
    assert not is_of_parts(text, lambda word: bool(desk.conversation.book.words(word)))


tenths = st.integers(min_value=11, max_value=99)


@given(rotor=st.integers(min_value=100, max_value=290), pad=tenths, first=st.booleans(), behind=st.booleans())
def test_each_figure_goes_to_its_part_in_whatever_order(rotor: int, pad: int, first: bool, behind: bool) -> None:
    figures = {"brake rotor": f"{rotor / 10:.1f}", "brake pad": f"{pad / 10:.1f}"}
    pieces = [f"rotor {figures['brake rotor']} mm", f"pads {figures['brake pad']} mm"]
    if behind:
        pieces = [" ".join((piece.split(" ", 1)[1], piece.split(" ", 1)[0])) for piece in pieces]
    said = said_of_parts(" ".join(("front", *(pieces if first else pieces[::-1]))), lambda word: False)
    assert said is not None
    assert {one.part: (one.text, one.unit) for one in said.measured.measures} == {
        part: (figure, "mm") for part, figure in figures.items()
    }
