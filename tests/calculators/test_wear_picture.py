"""A sum of wear has a picture where it has two readings and a limit, with the person's own figures."""

from __future__ import annotations

import pytest

from benchbot.calculators.asked import calculate
from benchbot.outcomes import Calculation, Picture

DRAWN = {
    "rotor was 26 mm new, is 25.2 mm now after 45000 miles, discard 24.4 mm, how long will it last":
        Picture("wear", 0, "rotor", "mm", (("0", "26"), ("45000 miles", "25.2")), "24.4"),
    "pads 12 mm new 7 mm now min 3 mm how much is left":
        Picture("wear", 0, "lining", "mm", (("", "12"), ("", "7")), "3"),
    "pad 12 mm new, 0.25 in now, limit 3 mm, 2 years, how long will it last":
        Picture("wear", 0, "lining", "in", (("0", "0.4724"), ("2 years", "0.25")), "0.1181"),
    # at the limit, and without any wear: what was read can be drawn all the same
    "rotor 26 mm new, 24 mm now, limit 24.4 mm, how much is left":
        Picture("wear", 0, "rotor", "mm", (("", "26"), ("", "24")), "24.4"),
    "rotor 26 mm new, 26 mm now, limit 24.4 mm, 20000 miles, how long will it last":
        Picture("wear", 0, "rotor", "mm", (("0", "26"), ("20000 miles", "26")), "24.4"),
    "thickness 26 mm new 25 mm now limit 24 mm how much is left":
        Picture("wear", 0, "", "mm", (("", "26"), ("", "25")), "24"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "picture"), DRAWN.items())
def test_both_readings_and_the_limit(text: str, picture: Picture) -> None:
    found = calculate(text)
    assert isinstance(found, Calculation), found
    assert found.picture == picture


@pytest.mark.parametrize(
    "text",
    [
        # one reading, no limit, nothing of wear
        "pad 7 mm now, min 3 mm, how much is left", "rotor 26 mm new, 25.2 mm now, 45000 miles, how long will it last",
        "100 nm in ft lbs", "6 in adapter on an 18 in wrench, 100 ft lb",
    ],
)  # fmt: skip
def test_nothing_to_draw(text: str) -> None:
    found = calculate(text)
    assert found is not None
    assert getattr(found, "picture", None) is None
