"""A two-digit year that corrects the one before is asked about, however that one was written and wherever it stands."""

from __future__ import annotations

import pytest
from desk import Desk, brief, shown


@pytest.mark.parametrize("year", ["2012", "12", "twenty twelve"])
@pytest.mark.parametrize("corrected", ["wait its a 16", "no its a 16", "no wait it is a 16", "sorry 16", ", nope 16"])
def test_it_is_asked_which_is_meant(desk: Desk, year: str, corrected: str) -> None:
    turn = desk.ask(f"{year} ondrel lug nut torque {corrected}")
    assert brief(turn) == "choose year" and shown(turn) == []


@pytest.mark.parametrize(
    "text",
    [
        "2012 ondrel lugs 80 no 90 right?",
        "2012 ondrel lug nut torque no its a 16 mm",
        "2012 ondrel lug nut torque no its a 19 socket",
    ],
)
def test_other_figures_are_no_years(desk: Desk, text: str) -> None:
    assert desk.ask(text).reading.years == (2012,)
