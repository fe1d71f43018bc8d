"""Names that people and messengers come up with, the hostile ones too."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.people.names import NO_NAME, fit_name, same_name, shown_name


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("Main shop", "Main shop"),
        ("  Main \t shop\n", "Main shop"),
        ("x", "x"),
        ("x" * 60, "x" * 60),
        ("Taller Nu\u0301n\u0303ez", "Taller Núñez"),
        ("Гараж 4", "Гараж 4"),
        ("🔧 Bay", "🔧 Bay"),
        ("🔧", "🔧"),
        ("<b>Bay</b> & co", "<b>Bay</b> & co"),
        ("'; DROP TABLE location; --", "'; DROP TABLE location; --"),
        ("4", "4"),
    ],
)
def test_a_name_is_kept_as_it_is_seen(written: str, kept: str) -> None:
    assert fit_name(written) == kept


@pytest.mark.parametrize(
    "written",
    [
        "",
        " \n ",
        "x" * 61,
        "x" * 10_000,
        "a\x00b",
        "a\x1b[31mb",
        "a\u202eb",
        "\u200fabc",
        "a\u200bb",
        "\u2066abc\u2069",
        "\ufe0f",
        "\u0301\u0301",
        "\u3164",
        "\u2800\u2800",
        "\ud800",
        "\ue000",
        "...",
        "👨\u200d👩\u200d👧",
    ],
)
def test_a_name_that_is_not_what_is_seen_is_not_fit(written: str) -> None:
    assert fit_name(written) is None


@pytest.mark.parametrize(
    ("told", "shown"),
    [
        ("Ana Tolvane", "Ana Tolvane"),
        ("  Ana\n\nTolvane ", "Ana Tolvane"),
        ("\u202eAna\u202c", "Ana"),
        ("A\x00n\x07a", "A n a"),
        ("👨\u200d👩\u200d👧", "👨👩👧"),
        ("<i>Ana</i>", "<i>Ana</i>"),
        ("Ana\ud800", "Ana"),
        ("", NO_NAME),
        ("\u200b\u2060", NO_NAME),
        ("\u3164", NO_NAME),
        ("...", NO_NAME),
        ("x" * 60, "x" * 60),
        ("x" * 61, "x" * 59 + "…"),
        ("x" * 10_000, "x" * 59 + "…"),
        ("\u0301" * 10_000, NO_NAME),
    ],
)
def test_whatever_a_messenger_calls_a_person_can_be_shown(told: str, shown: str) -> None:
    assert shown_name(told) == shown


def test_a_longer_name_can_be_asked_for() -> None:
    assert shown_name("x" * 100, 120) == "x" * 100
    assert shown_name("x" * 121, 120) == "x" * 119 + "…"


@given(st.text())
def test_every_shown_name_is_short_and_printable(told: str) -> None:
    name = shown_name(told)
    assert 1 <= len(name) <= 60
    assert name.isprintable()
    assert shown_name(name) == name
    name.encode("utf-8")


@given(st.text(max_size=80))
def test_a_fit_name_stays_as_it_is(written: str) -> None:
    name = fit_name(written)
    assert name is None or (fit_name(name) == name and shown_name(name) == name and same_name(name, written))


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("Main shop", "MAIN  SHOP", True),
        ("Ñandú", "ñandu\u0301", True),
        ("STRASSE", "straße", True),
        ("Ｍain", "main", True),
        ("ΣΊΣΥΦΟΣ", "σίσυφος", True),
        ("Main shop", "Main shops", False),
        ("Nandu", "Ñandú", False),
        ("", "Main", False),
    ],
)
def test_when_two_names_are_one(one: str, other: str, same: bool) -> None:
    assert same_name(one, other) is same
    assert same_name(other, one) is same
