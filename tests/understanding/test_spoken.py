"""Numbers said in words."""

from __future__ import annotations

import pytest

from benchbot.understanding.spoken import with_spoken_numbers
from benchbot.understanding.tokens import tokens_of


def spoken(text: str) -> list[str]:
    return [token.text for token in with_spoken_numbers(tokens_of(text, lambda _: True))]


@pytest.mark.parametrize(
    ("text", "tokens"),
    [
        ("twenty nineteen", ["2019"]),
        ("twenty twelve", ["2012"]),
        ("twenty twenty one", ["2021"]),
        ("twenty twenty", ["2020"]),
        ("nineteen ninety eight", ["1998"]),
        ("twenty oh nine", ["2009"]),
        ("two thousand twelve", ["2012"]),
        ("two thousand and nine", ["2009"]),
        ("two thousand", ["2000"]),
        ("oh nine", ["09"]),
        ("o eight", ["08"]),
        ("twelve", ["12"]),
        ("seventeen fifty", ["17", "50"]),
        ("fifteen hundred", ["1500"]),
        ("twenty five hundred", ["2500"]),
        ("fifteen hundred and", ["1500", "and"]),
        ("fifteen hundred twenty seventeen", ["1500", "2017"]),
        ("fifteen hundred twelve", ["1512"]),
        ("one point five", ["1.5"]),
        ("two point oh turbo", ["2.0", "turbo"]),
        ("two point zero", ["2.0"]),
        ("three point five six", ["3.56"]),
        ("one eighth", ["one", "eighth"]),
        ("the big one", ["the", "big", "one"]),
        ("oh yeah", ["oh", "yeah"]),
        ("forty two", ["42"]),
        ("forty-two", ["42"]),
        ("four by four", ["4", "by", "4"]),
        ("front bolt", ["front", "bolt"]),
        ("nineteen", ["19"]),
        ("twenty nineteen ondrel one point six", ["2019", "ondrel", "1.6"]),
        ("one hundred", ["100"]),
    ],
)
def test_numbers_in_words(text: str, tokens: list[str]) -> None:
    assert spoken(text) == tokens


def test_a_spoken_number_keeps_what_was_said() -> None:
    (token,) = with_spoken_numbers(tokens_of("twenty nineteen", lambda _: True))
    assert (token.raw, token.spoken, token.kind) == ("twenty nineteen", True, "number")


def test_a_typed_number_is_not_spoken() -> None:
    assert [token.spoken for token in with_spoken_numbers(tokens_of("2019 nineteen", lambda _: True))] == [False, True]


@pytest.mark.parametrize("year", [*range(1990, 2000), *range(2001, 2030)])
def test_every_model_year_said_in_pairs(year: int) -> None:
    ones = (
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
        "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
    )  # fmt: skip
    tens = {2: "twenty", 9: "ninety"}
    first, last = divmod(year, 100)
    start = {19: "nineteen", 20: "twenty"}[first]
    if last < 10:
        said = f"{start} oh {ones[last]}"
    elif last < 20:
        said = f"{start} {ones[last]}"
    else:
        said = f"{start} {tens[last // 10]} {ones[last % 10] if last % 10 else ''}".strip()
    assert spoken(said) == [str(year)]
