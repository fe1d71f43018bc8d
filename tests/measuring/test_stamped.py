"""A limit stamped on the part is held beside the book's: the stricter of the two decides, and both are named."""

from __future__ import annotations

import pytest
from desk import Desk, labels

from benchbot.conversation.manner import Manner
from benchbot.outcomes import Answer, Choose

# The book's limits: Ondrel 2009-2013 front rotor 18.0 mm, rear drum 201.0 mm; 2014-2020 2.0T front rotor 22.2 mm.
BELOW = (
    ("12 ondrel front rotor 18.5 mm but stamped min is 19.0 mm", "19.0 mm", "18.0 mm"),
    ("12 ondrel front rotor measures 18.5mm and min stamped on it is 18.8mm", "18.8 mm", "18.0 mm"),
    ("18 ondrel 2.0t front rotor 22.5 mm stamped minimum 23.0 mm", "23.0 mm", "22.2 mm"),
    ("12 ondrel rear drum 200.8 mm stamped max 200.5 mm", "200.5 mm", "201.0 mm"),
    ("12 ondrel front rotor stamped min 19.0 mm measures 18.5 mm", "19.0 mm", "18.0 mm"),
    ("12 ondrel front rotor 18.5 mm, min cast on it 19.0 mm", "19.0 mm", "18.0 mm"),
    ("12 ondrel front rotor 19.0 mm stamped on it, measured 18.5 mm", "19.0 mm", "18.0 mm"),
    ("12 ondrel front rotor measured 18.5 mm, 19.0 mm stamped", "19.0 mm", "18.0 mm"),
    ("12 ondrel front rotor 19.0 mm stamped 18.5 mm measured", "19.0 mm", "18.0 mm"),
    ("12 ondrel front rotor is at 18.5 mm and the rotor says min th 19 mm", "19 mm", "18.0 mm"),
    ("stamped 23.0 front rotor measured 22.4 18 ondrel 2.0t", "23.0 mm", "22.2 mm"),
    ("12 ondrel disco delantero mide 18,5 mm y el minimo grabado es 19 mm", "19 mm", "18.0 mm"),
)


@pytest.mark.parametrize(("said", "stamped", "book"), BELOW)
def test_below_the_stamped_limit_is_not_used_and_both_limits_are_named(
    desk: Desk, said: str, stamped: str, book: str
) -> None:
    turn = desk.ask(said)
    text = turn.reply.text()
    first = text.splitlines()[0]
    assert first.startswith("DO NOT USE") and stamped in first and "stamped" in first, text
    assert book in text
    assert "USABLE" not in text


def test_where_the_book_is_stricter_the_book_decides(desk: Desk) -> None:
    text = desk.ask("12 ondrel front rotor 17.8 mm stamped min 17.5 mm").reply.text()
    assert text.startswith("DO NOT USE: 17.8 mm is 0.2 mm below the discard limit of 18.0 mm.")
    assert "17.5 mm" in text and "stamped" in text


def test_above_both_the_stricter_one_is_the_margin(desk: Desk) -> None:
    turn = desk.ask("18 ondrel 2.0t front rotor 23.9 mm stamped minimum 23.0 mm")
    first = turn.reply.text().splitlines()[0]
    assert "0.9 mm" in first and "23.0 mm" in first
    assert "may be machined" not in first, "the stamped limit is above the machine-to limit of the book"


@pytest.mark.parametrize(
    "said", ["12 ondrel front rotor 18.5 mm stamped 19.0 mm", "12 ondrel front rotor 19.0 mm stamped on it 18.5 mm"]
)
def test_where_it_is_unclear_which_is_which_nothing_is_judged_and_it_is_asked(desk: Desk, said: str) -> None:
    chat = desk.chat()
    turn = chat.say(said)
    assert isinstance(turn.outcome, Choose), turn.reply.text()
    assert len(labels(turn)) == 2 and "stamped" in turn.reply.text()
    wanted = next(n for n, label in enumerate(labels(turn), 1) if label.startswith("18.5"))
    pressed = chat.press(wanted)
    assert isinstance(pressed.outcome, Answer)
    assert pressed.reply.text().startswith("DO NOT USE: 18.5 mm") and "19.0 mm" in pressed.reply.text()


def test_a_stamped_figure_that_no_such_part_has_gives_no_verdict(desk: Desk) -> None:
    turn = desk.ask("12 ondrel front rotor measured 18.5 mm stamped min 190 mm")
    assert "USABLE" not in turn.reply.text() and "NO VERDICT" in turn.reply.text().splitlines()[0]


def test_the_stamped_limit_is_kept_while_something_is_asked_back(desk: Desk) -> None:
    text = desk.ask("front rotor measured 18.5 mm stamped min 19.0 mm", "12 ondrel").reply.text()
    assert text.startswith("DO NOT USE: 18.5 mm")


def test_with_a_second_part_nothing_is_judged(desk: Desk) -> None:
    text = desk.ask("12 ondrel front rotor 18.5 mm stamped min 19.0 mm pads 5 mm").reply.text()
    assert "USABLE" not in text and "NOT JUDGED" in text


def test_in_spanish(desk: Desk) -> None:
    said = "12 ondrel disco delantero mide 18,5 mm minimo grabado 19 mm"
    turn = desk.conversation.say(desk.chat().name, "tester", said, manner=Manner(language="es"))
    first = turn.reply.text().splitlines()[0]
    assert first.startswith("NO USAR") and "grabado" in first
