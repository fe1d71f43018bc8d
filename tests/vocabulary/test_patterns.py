"""One line of `said` stands for many phrases."""

from __future__ import annotations

import pytest

from benchbot.vocabulary.patterns import PatternError, expand, expand_text


@pytest.mark.parametrize(
    ("pattern", "phrases"),
    [
        ("drum", [("drum",)]),
        ("(brake) drum", [("brake", "drum"), ("drum",)]),
        ("rotor/disc screw", [("rotor", "screw"), ("disc", "screw")]),
        ("(set/keeper) screw", [("set", "screw"), ("keeper", "screw"), ("screw",)]),
        ("hold-down nail", [("hold", "down", "nail")]),
        ("(drum)", [("drum",)]),
    ],
)
def test_a_pattern_is_every_phrase_it_stands_for(pattern: str, phrases: list[tuple[str, ...]]) -> None:
    assert expand(pattern) == phrases


def test_marks_are_kept_in_texts() -> None:
    assert expand_text("f & r/b") == ["f & r", "f & b"]


@pytest.mark.parametrize("pattern", ["", "Drum", "(brake drum", "drum/", "brake) drum", "/", "mínimo", "&"])
def test_a_pattern_that_says_nothing_clear_is_refused(pattern: str) -> None:
    with pytest.raises(PatternError):
        expand(pattern)
