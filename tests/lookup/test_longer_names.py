"""A model beside another whose name is longer by a word: each is answered by its own name and no other way."""

from __future__ import annotations

from functools import lru_cache

import pytest
from fleets import NOW, Shop, say, shown, spec_row, vocabulary
from memory_book import MemoryBook, MemoryRecord

from benchbot.conversation.conversation import Conversation

THING = "front caliper bracket bolt torque"
# Invented names; the second word is one that a message can hold for other reasons. Common practice, no source.
IN_ONE_WORD = (
    "Sport",
    "Limited",
    "Van",
    "Diesel",
    "Hybrid",
    "Plus",
    "XL",
    "AWD",
    "S",
    "Turbo",
    "1.9",
    "6",
    "62",
    "Dually",
)
IN_QUALIFIERS = ("4x4", "V6", "Turbo Diesel", "2-door", "4 Door", "Crew Cab", "Heavy Duty", "Long Bed")
WORD_TWICE = ("GT GT", "m/m", "2+2")


@lru_cache(maxsize=64)
def two(longer: str) -> Shop:
    """Sarnel holds row R0000, the longer name R0001; nothing else differs."""
    named = [("Dravoq", "Sarnel"), ("Dravoq", f"Sarnel {longer}")]
    rows = [spec_row(n, n + 1, (2011, 2019), "", "caliper bracket bolt", "front", "torque") for n in (0, 1)]
    book = MemoryBook(rows, named)
    record = MemoryRecord()
    return Shop(named, rows, Conversation(book, vocabulary(), record, clock=lambda: NOW))  # type: ignore[arg-type]


@pytest.mark.parametrize("longer", IN_ONE_WORD)
def test_the_longer_name_is_its_own(longer: str) -> None:
    assert shown(say(two(longer), f"2014 dravoq sarnel {longer.lower()} {THING}")) == {"R0001"}


@pytest.mark.parametrize("longer", [*IN_ONE_WORD, *IN_QUALIFIERS, *WORD_TWICE])
def test_the_shorter_name_is_its_own(longer: str) -> None:
    assert shown(say(two(longer), f"2014 dravoq sarnel {THING}")) == {"R0000"}


@pytest.mark.parametrize("longer", IN_QUALIFIERS)
def test_a_name_that_ends_in_a_qualifier(longer: str) -> None:
    assert "R0000" not in shown(say(two(longer), f"2014 dravoq sarnel {longer.lower()} {THING}"))


@pytest.mark.parametrize("longer", WORD_TWICE)
def test_a_name_with_a_word_twice(longer: str) -> None:
    assert shown(say(two(longer), f"2014 dravoq sarnel {longer.lower()} {THING}")) == {"R0001"}


@pytest.mark.parametrize(
    ("longer", "text"),
    [
        ("6", f"2014 dravoq sarnel {THING}, 6 bolts"),
        ("6", f"got 6 of them, 2014 dravoq sarnel {THING}"),
        ("2", f"2014 dravoq sarnel {THING} for 2 bolts"),
        ("20", f"2014 dravoq sarnel {THING} 20 mm socket?"),
        ("A", f"need a {THING} 2014 dravoq sarnel"),
        ("Go", f"2014 dravoq sarnel ready to go {THING}"),
        ("One", f"2014 dravoq sarnel {THING}, this one"),
        ("Van", f"2014 dravoq sarnel in the van bay, {THING}"),
    ],
)
def test_a_word_of_the_longer_name_elsewhere_is_not_its_name(longer: str, text: str) -> None:
    assert "R0001" not in shown(say(two(longer), text))


def test_an_everyday_word_near_the_longer_name_is_asked_about() -> None:
    assert "R0000" not in shown(say(two("Sport"), f"2014 dravoq sarnel spot {THING}"))


@pytest.mark.xfail(strict=True, reason="farther than a slip, three letters short, or a trade word itself")
@pytest.mark.parametrize(("longer", "typed"), [("Van", "can"), ("Limited", "limite"), ("Sport", "support")])
def test_a_slip_in_the_last_word_of_the_longer_name(longer: str, typed: str) -> None:
    assert "R0000" not in shown(say(two(longer), f"2014 dravoq sarnel {typed} {THING}"))
