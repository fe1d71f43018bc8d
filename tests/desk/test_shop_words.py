"""The shop's own word for a step: kept by its curators, shown labelled above the step, never in place of a caution."""

from __future__ import annotations

import pytest
from bay import Bay, Phone
from walking import begun, press, say, state_of

from benchbot.people.terms import Location
from benchbot.records.step_overrides import in_force, shop_says

STEP = "common/lift-and-support"
SAID = "Bay 3 only for trucks. Locks down, always."


@pytest.fixture
def north(bay: Bay) -> Location:
    return bay.location("North")


@pytest.fixture
def cleo(bay: Bay, north: Location) -> Phone:
    return bay.phone("Cleo", curator=north)


def to_step(cleo: Phone) -> None:
    say(cleo, "/job")
    press(cleo, "The shop's words")
    press(cleo, "Front disc brake service")
    press(cleo, "3")
    assert "Lift and support" in cleo.last.text


def test_it_is_shown_above_the_step_and_the_caution_stays(bay: Bay, north: Location, cleo: Phone) -> None:
    ana = bay.phone("Ana", technician=north)
    begun(ana)
    to_step(cleo)
    press(cleo, "Write")
    say(cleo, SAID)
    assert cleo.last.text.startswith("Kept.")
    assert shop_says(bay.record, north.number, "disc-brake-front") == {STEP: SAID}
    # a job keeps the procedure that it began with
    say(ana, "done")
    say(ana, "done")
    assert SAID not in ana.last.text
    ben = bay.phone("Ben", technician=north)
    begun(ben)
    say(ben, "done")
    say(ben, "done")
    lines = ben.last.text.splitlines()
    assert f"Your shop says: {SAID}" in lines
    assert lines.index(f"Your shop says: {SAID}") < lines.index("Lift and support")
    assert any(one.startswith("Caution: Lift at the marked points") for one in lines)
    assert any(one.startswith("STOP when:") for one in lines)
    assert state_of(bay, 2).sheet.steps[2].shop_says == SAID
    to_step(cleo)
    press(cleo, "End it")
    assert in_force(bay.record) == []


@pytest.mark.parametrize(
    "text", ["Tighten to 105 Nm here", "80 lb-ft is enough", "then 90 degrees more", " ", "x" * 401]
)
def test_no_figure_of_a_fastener_is_taken(bay: Bay, cleo: Phone, text: str) -> None:
    to_step(cleo)
    press(cleo, "Write")
    say(cleo, text)
    assert in_force(bay.record) == []
    say(cleo, SAID)
    assert [one.text for one in in_force(bay.record)] == [SAID]


def test_only_curators_and_only_in_private(bay: Bay, north: Location, cleo: Phone) -> None:
    ana = bay.phone("Ana", technician=north)
    say(ana, "/job")
    assert "The shop's words" not in ana.last.labels
    ana.press_code(ana.last, "1.sw.0")
    assert ana.notice == "Only a curator or an owner of this location can do that."
    there = cleo.in_group("-7")
    say(there, "/job")
    assert "The shop's words" not in there.last.labels
    there.press_code(there.last, "1.sw.0")
    assert there.notice == "Do that in a private chat with me."


def test_who_is_no_curator_any_more_writes_nothing(bay: Bay, north: Location, cleo: Phone) -> None:
    olga = bay.phone("Olga", owner=north)
    to_step(cleo)
    press(cleo, "Write")
    bay.people.change_role(cleo.person, north.number, "technician", olga.person, bay.clock())
    say(cleo, SAID)
    assert in_force(bay.record) == []


def test_it_counts_at_one_location_only(bay: Bay, cleo: Phone) -> None:
    to_step(cleo)
    press(cleo, "Write")
    say(cleo, SAID)
    zoe = bay.phone("Zoe", technician=bay.location("South"))
    begun(zoe)
    say(zoe, "done")
    say(zoe, "done")
    assert SAID not in zoe.last.text
