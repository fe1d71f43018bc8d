"""Which ways to write an unknown word are joined: slips, one word or two, the make left out; never two known ones."""

from __future__ import annotations

import json
import random
import subprocess
import sys
from pathlib import Path

import pytest

from benchbot.curation.gap_joining import joined, wording

_BENCHMARK = Path(__file__).parent.parent / "benchmarks" / "gaps.py"


def together(kind: str, *held: tuple[str, int]) -> list[set[str]]:
    """Groups of identities such as "=bolt dogbone" or, of vehicles, "=Brackwell/zorvan"; asks as given."""
    wordings = []
    for number, (text, asks) in enumerate(held):
        make, _, words = text.rpartition("/")
        parts = [kind, *([make] if kind == "vehicle" else []), *sorted(words.split())]
        people = {f"p{n}" for n in range(asks)}
        wordings.append(wording(number, kind, json.dumps(parts), asks, people))
    random.Random(len(held)).shuffle(wordings)
    return sorted(({held[number][0] for number in numbers} for numbers in joined(wordings)), key=sorted)


@pytest.mark.parametrize(
    ("kind", "one", "other"),
    [
        ("word", "=bolt zorvan", "=bolt zorvna"),  # two letters swapped
        ("word", "=bolt zorvan", "=bolt zorvn"),  # one dropped
        ("word", "=bolt zorvan", "=bolt zorvvan"),  # one doubled
        ("word", "=bolt dogzorv", "=bolt dog zorv"),  # written as two
        ("word", "=braket zorvan", "braket zorvan"),  # the same, once known
        ("vehicle", "=Brackwell/zorvan", "/zorvan"),
        ("vehicle", "klimbor/zorvan", "/zorvan"),
        ("vehicle", "=Brackwell/zorvan", "brakwell/zorvan"),
        ("vehicle", "=Brackwell/zorvan 5", "/5 zorvna"),
    ],
)
def test_the_same_is_joined(kind: str, one: str, other: str) -> None:
    assert together(kind, (one, 12), (other, 1)) == [{one, other}]


@pytest.mark.parametrize(
    ("kind", "one", "other"),
    [
        ("word", "=bolt =cooler =oil", "=bolt =coil =cooler"),  # two words that the shop knows
        ("word", "=bolt zorvan 10", "=bolt zorvan 12"),
        ("word", "=bolt m10x zorvan", "=bolt m12x zorvan"),
        ("word", "=bolt zorvan", "zorvan"),
        ("word", "=bolt zorvan", "=bolt trelmak"),
        ("word", "=bolt zor", "=bolt zar"),  # too short for a slip
        ("vehicle", "=Brackwell/zorvan 3", "=Brackwell/zorvan 5"),
        ("vehicle", "=Brackwell/zorvan", "=Brackwell/zorvan 5"),
        ("vehicle", "=Brackwell/zorvan", "=Pelbrook/zorvan"),
        ("vehicle", "=Brackwell/=wendla", "=Brackwell/=wendle"),
    ],
)
def test_what_differs_stays_apart(kind: str, one: str, other: str) -> None:
    assert together(kind, (one, 12), (other, 1)) == sorted([{one}, {other}], key=sorted)


def test_a_slip_between_two_words_joins_neither() -> None:
    found = together("word", ("=bolt zorvan", 8), ("=bolt zorven", 8), ("=bolt zorvin", 1))
    assert found == [{"=bolt zorvan"}, {"=bolt zorven"}, {"=bolt zorvin"}]


def test_slips_do_not_chain_from_word_to_word() -> None:
    found = together("word", ("=bolt zorvan", 9), ("=bolt zorvin", 2), ("=bolt zorkin", 1))
    assert {"=bolt zorvan", "=bolt zorvin"} in found
    assert {"=bolt zorkin"} in found


def test_what_many_people_write_is_no_slip() -> None:
    assert len(together("word", ("=bolt zorvan", 9), ("=bolt zorven", 3))) == 2
    assert len(together("word", ("=bolt zorvan", 14), ("=bolt zorven", 3))) == 1
    assert len(together("word", ("=bolt zorvan", 9), ("=bolt zorven", 2))) == 1


def test_a_model_asked_with_two_makes_joins_neither_without_one() -> None:
    held = ("=Brackwell/zorvan", 5), ("=Pelbrook/zorvan", 5), ("/zorvan", 9)
    assert together("vehicle", *held) == sorted(({one} for one, _ in held), key=sorted)


def test_two_makes_never_meet_over_a_model_without_one() -> None:
    held = ("/zorvan", 9), ("=Brackwell/zorvna", 2), ("=Pelbrook/zorvann", 1)
    assert not [one for one in together("vehicle", *held) if {"=Brackwell/zorvna", "=Pelbrook/zorvann"} <= one]


@pytest.mark.parametrize("seed", ["small 1", "small 2"])
def test_invented_questions_are_grouped_by_what_was_meant(seed: str, tmp_path: Path) -> None:
    told = tmp_path / "figures.json"
    words = ["--questions", "600", "--seed", seed, "--json", str(told)]
    subprocess.run([sys.executable, str(_BENCHMARK), *words], check=True, capture_output=True)
    figures = json.loads(told.read_text(encoding="utf-8"))
    assert figures["gaps"] > 500
    assert figures["not_gaps"].get("answer", 0) == 0
    assert figures["precision"] >= 0.995
    assert figures["recall"] >= 0.95
