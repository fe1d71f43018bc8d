"""How many studs a question names, and that a step carries it to the picture, whichever way it is come to."""

from __future__ import annotations

import pytest
from desk import Desk

from benchbot.conversation.stud_count import studs_in
from benchbot.outcomes import Calculation, Picture, Procedure


@pytest.mark.parametrize(
    ("text", "studs"),
    [
        ("8 lug pattern", 8), ("order for 5 studs", 5), ("6 birlos", 6), ("star pattern 6-lug", 6), ("10 stud", 10),
        ("Five lug nuts", 5), ("order of ten wheel nuts", 10), ("orden de ocho tuercas", 8), ("5lug", 5),
        ("orden para seis espárragos", 6), ("diez pernos", 10), ("4 wheel bolts", 4), ("3 lugnuts", 3),
        ("one stud snapped on my 5 lug", 5), ("2 studs short on the 6 lug", 6), ("5 lugs, yes 5 studs", 5),
        ("7 studs", 0), ("9 birlos", 0), ("0 lugs", 0), ("55 lugs", 0), ("star pattern", 0), ("order", 0),
        ("3 studs off my 5 lug", 0), ("3/4 stud", 0), ("10.5 stud", 0), ("class 10.8 bolts", 0), ("M10 bolts", 0),
        ("12x1.5 studs", 0), ("20 5 mm nuts", 0), ("8 luggage racks", 0), ("1,5 nuts", 0), ("weight bolts", 0),
    ],
)  # fmt: skip
def test_the_count_that_is_read(text: str, studs: int) -> None:
    assert studs_in(text) == studs


def picture(outcome: object) -> Picture | None:
    assert isinstance(outcome, (Procedure, Calculation)), outcome
    return outcome.picture


def test_the_order_is_asked_for_with_and_without_a_count(desk: Desk) -> None:
    assert picture(desk.ask("8 lug pattern").outcome) == Picture("tightening order", 8)
    assert picture(desk.ask("en que orden van los 6 birlos").outcome) == Picture("tightening order", 6)
    assert picture(desk.ask("order for 7 studs").outcome) == Picture("tightening order", 0)
    assert picture(desk.ask("where do i measure the rotor").outcome) == Picture("rotor points")
    assert picture(desk.ask("lift points").outcome) is None


def test_the_count_goes_along_to_the_next_step_and_to_a_step_that_is_chosen(desk: Desk) -> None:
    # the step before the order, in the one procedure that is named
    chat = desk.chat()
    first = chat.say("oval holes on a 5 lug wheel")
    assert isinstance(first.outcome, Procedure)
    for _ in range(12):
        if isinstance(first.outcome, Procedure) and first.outcome.picture is not None:
            break
        first = chat.press(1)
    assert picture(first.outcome) == Picture("tightening order", 5)
    # the whole list shows no step
    listed = chat.press(2)
    assert isinstance(listed.outcome, Procedure) and listed.outcome.listed
    assert listed.outcome.picture is None
