"""What each number of a message is: a year, an engine, a size, a value that was read off something, or no slot."""

from __future__ import annotations

import pytest
from desk import NOW, Desk

from benchbot.conversation.past import Past
from benchbot.understanding.reading import Reading


def read(desk: Desk, text: str) -> Reading:
    return desk.conversation.read(text, Past(), NOW)[0][0]


@pytest.mark.parametrize(
    ("text", "years"),
    [
        ("ondrel 2012", (2012,)),
        ("2012 ondrel", (2012,)),
        ("ondrel 12", (2012,)),
        ("ondrel '12", (2012,)),
        ("ondrel ’12", (2012,)),
        ("ondrel 09", (2009,)),
        ("ondrel 99", (1999,)),
        ("ondrel '99", (1999,)),
        ("12ondrel", (2012,)),
        ("ondrel12", (2012,)),
        ("MY12 ondrel", (2012,)),
        ("ondrel (2012)", (2012,)),
        ("twenty twelve ondrel", (2012,)),
        ("12 12 ondrel", (2012,)),
        ("ondrel 29", ()),
        ("ondrel 2029", ()),
        ("ondrel 1949", ()),
        ("ondrel 45", ()),
        ("12 ondrel 145k miles", (2012,)),
        ("12 ondrel 145,000 miles", (2012,)),
        ("12 ondrel 3 hours", (2012,)),
        ("12 ondrel $40", (2012,)),
        ("12 ondrel 4 bolts", (2012,)),
        ("12 ondrel 6 lug", (2012,)),
        ("ro 4471 12 ondrel", (2012,)),
        ("bay 6 12 ondrel", (2012,)),
        ("on the lift 12 ondrel", (2012,)),
        ("call me 555-013-0199 12 ondrel", (2012,)),
        ("12 ondrel 17 in brakes", (2012,)),
        ("12 ondrel 17 in wheels", (2012,)),
        ("12 ondrel lugs 80 right?", (2012,)),
    ],
)
def test_years(desk: Desk, text: str, years: tuple[int, ...]) -> None:
    assert read(desk, text).years == years


@pytest.mark.parametrize("text", ["ondrel 2012 2016", "12 ondrel 16", "ondrel 12 or 13", "ondrel 2011-2012"])
def test_two_years_are_both_kept(desk: Desk, text: str) -> None:
    assert len(read(desk, text).years) == 2


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        ("1.6", {("engine", "1.6")}),
        ("1.6 l", {("engine", "1.6")}),
        ("1.6 liter", {("engine", "1.6")}),
        ("1,6 litre", {("engine", "1.6")}),
        ("2 liter", {("engine", "2")}),
        ("2.0t", {("engine", "2.0T")}),
        ("one point six", {("engine", "1.6")}),
        ("17 in brakes", {("brakes", "17 in")}),
        ('17" brakes', {("brakes", "17 in")}),
        ("17 inch brake package", {("brakes", "17 in")}),
        ("320mm rotors", {("brakes", "320 mm")}),
        ("17 in wheels", set()),
        ("built 11/16", {("build", "2016-11")}),
        ("built 2016-05", {("build", "2016-05")}),
        ("build date may 16", {("build", "2016-05")}),
        ("built in june 2016", {("build", "2016-06")}),
        ("built 13/16", set()),
        ("takes 5 liters of oil", set()),
        ("rotor at 2.4", set()),
    ],
)
def test_what_numbers_state_of_the_vehicle(desk: Desk, text: str, stated: set[tuple[str, str]]) -> None:
    assert {(one.key, one.value) for one in read(desk, f"2012 ondrel front {text} bracket bolt").stated} == stated


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("12 ondrel front rotor is 22.4 mm", ("22.4 mm",)),
        ("12 ondrel front rotor measured 22.4", ("22.4",)),
        ("12 ondrel front pads 4/32", ("4/32",)),
        ("12 ondrel lugs 80 right?", ("80",)),
        ("12 ondrel lugs 80 lb ft right?", ("80 lb ft",)),
        ("12 ondrel lugs", ()),
    ],
)
def test_values_that_were_stated(desk: Desk, text: str, said: tuple[str, ...]) -> None:
    reading = read(desk, text)
    assert reading.said_values == said
    assert reading.years == (2012,)


@pytest.mark.parametrize("text", ["12 ondrel 100", "ondrel 45", "okkerby 45 2013"])
def test_a_number_beside_the_vehicle_that_is_none_of_these_is_left_over(desk: Desk, text: str) -> None:
    assert read(desk, text).left_over


def test_digits_are_never_put_right(desk: Desk) -> None:
    for text in ("thresher 1751", "thresher 1570", "quillane 275", "quillane 22"):
        reading = read(desk, f"2016 {text} lugs")
        assert reading.vehicle.state in ("part", "make"), text
        assert reading.left_over or len(reading.years) > 1, text
