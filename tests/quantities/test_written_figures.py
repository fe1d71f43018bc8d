"""Figures are read exactly as written, or refused."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.errors import QuantityError
from benchbot.quantities import read_number
from benchbot.quantities.numbers import last_digit


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("108", "108"), ("26.5", "26.5"), ("26,5", "26.5"), (".0015", "0.0015"), ("0,125", "0.125"),
        ("1.500", "1.500"),
        ("5/8", "0.625"), ("4/32", "0.125"), ("1 1/8", "1.125"), ("1-1/8", "1.125"), ("1½", "1.5"), ("½", "0.5"),
        ("1 ⅜", "1.375"), ("5⁄8", "0.625"), ("-40", "-40"), ("−40", "-40"), ("+20", "20"), (" 22.0 ", "22.0"),
        ("1,234.5", "1234.5"), ("1,234,567", "1234567"), ("1234,5", "1234.5"), ("1234,500", "1234.500"),
        ("9/8", "1.125"),
        ("007", "7"), ("12,25", "12.25"),
    ],
)  # fmt: skip
def test_figures(text: str, number: str) -> None:
    assert read_number(text) == Decimal(number)


def test_the_printed_places_are_kept() -> None:
    assert str(read_number("22.0")) == "22.0"
    assert str(read_number("1.500")) == "1.500"


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "NaN", "nan", "inf", "-inf", "Infinity", "1e5", "1E5", "1e-3", "--5", "++5", "+-5", "5 5", "5-5",
        "1_000",
        "1,500", "12,000", "999,999", "1.234.567", "1.234,5", "1,23,456", "1,2345,678", "5.", ",5", ".", ",",
        "1..5", "1,,5",
        "1/0", "0/0", "1 9/8", "1/2/3", "1 1", "1 1/", "/8", "5/-8", "٣", "१२", "５", "²", "5²", "Ⅳ", "🔧", "5🔧",
        "five", "0x10", "1 000",
        "9" * 21, "0." + "1" * 21, "1/" + "9" * 21, "9" * 5000, "5%", "(5)", "$5", "5\x00", "1'500", "1.5.5",
    ],
)  # fmt: skip
def test_what_is_no_figure(text: str) -> None:
    with pytest.raises(QuantityError):
        read_number(text)


def test_the_ambiguous_comma_says_both_meanings() -> None:
    with pytest.raises(QuantityError, match=r"1500 or 1\.500"):
        read_number("1,500")


@pytest.mark.parametrize(
    ("text", "place"), [("22.0", "0.1"), ("17", "1"), ("5/32", "0.03125"), ("26,5", "0.1"), ("-0.005", "0.001")]
)
def test_the_last_printed_place(text: str, place: str) -> None:
    assert last_digit(text) == Decimal(place)


@given(st.decimals(min_value=0, max_value=10**9, allow_nan=False, places=4))
def test_any_plain_decimal_is_read_as_itself(number: Decimal) -> None:
    assert read_number(f"{number:f}") == number


@given(st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.integers(0, 40))
def test_fractions_of_an_inch_are_exact(top: int, bottom: int, whole: int) -> None:
    text = f"{whole} {top}/{bottom}" if whole and top < bottom else f"{top}/{bottom}"
    expected = Fraction(top, bottom) + (whole if " " in text else 0)
    assert Fraction(read_number(text)) == expected


@given(st.text(max_size=30))
def test_any_text_is_a_finite_figure_or_refused(text: str) -> None:
    try:
        number = read_number(text)
    except QuantityError:
        return
    assert number.is_finite()
    assert any(letter in "0123456789½¼¾⅛⅜⅝⅞" for letter in text)
