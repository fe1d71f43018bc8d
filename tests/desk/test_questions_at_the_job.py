"""A question in between is about the job that whoever asks it has in hand, and stays so when it is looked at again."""

from __future__ import annotations

import pytest
from bay import Bay, Message, Phone
from walking import begun, press, say

from benchbot.people.terms import Location

PISTONS = "how do i push the pistons back"
WIND_IN = "Wind the piston in"


@pytest.fixture
def north(bay: Bay) -> Location:
    return bay.location("North bay")


@pytest.fixture
def ana(bay: Bay, north: Location) -> Phone:
    """With the rear brakes of a vehicle with a cable parking brake in hand."""
    phone = bay.phone("Ana", technician=north)
    say(phone, "/job 12 ondrel")
    say(phone, "rear disc")
    press(phone, "cable parking brake")
    press(phone, "Without a number")
    press(phone, "To the step")
    assert "step 1 of" in phone.last.text
    return phone


def is_wind_in(message: Message) -> bool:
    return WIND_IN in message.text and {"Next step", "Whole list"} <= set(message.labels)


def test_what_the_job_knows_is_not_asked(ana: Phone, bay: Bay, north: Location) -> None:
    assert is_wind_in(say(ana, PISTONS))
    # somebody else of the place has no job in hand, and neither has who has put theirs down
    ben = bay.phone("Ben", technician=north)
    assert len(say(ben, PISTONS).labels) == 4
    say(ana, "pause")
    assert len(say(ana, PISTONS).labels) == 4
    say(ana, "/job")
    press(ana, "1")
    assert is_wind_in(say(ana, PISTONS))


def test_another_vehicle_has_nothing_of_the_job(ana: Phone) -> None:
    assert len(say(ana, "16 wendla " + PISTONS).labels) == 4
    assert is_wind_in(say(ana, "12 ondrel " + PISTONS))


def test_looked_at_again_when_the_job_rests_it_is_the_same(ana: Phone) -> None:
    message = say(ana, PISTONS)
    say(ana, "pause")
    press(ana, "How I read that", message)
    assert WIND_IN in message.text and "a question about the work" in message.text
    press(ana, "Less", message)
    assert is_wind_in(message)


def test_changed_it_is_about_the_job_still(ana: Phone) -> None:
    message = ana.say("how do i push the front pistons back", message="m7")
    assert "Front disc brake service" in message.text
    ana.change("m7", PISTONS)
    assert WIND_IN in message.text


def test_a_value_of_the_vehicle_on_the_lift_stands_in_the_step_of_the_job(bay: Bay, north: Location) -> None:
    ana = bay.phone("Ana", technician=north)
    begun(ana)
    message = say(ana, "how do i put the bracket back on")
    assert "50 lb-ft" in message.text and "FRONT caliper bracket bolt" in message.text
    assert {"Next step", "Whole list"} <= set(message.labels)


def test_while_a_figure_is_awaited_the_work_is_asked_about_without_a_question_mark(bay: Bay, north: Location) -> None:
    ana = bay.phone("Ana", technician=north)
    begun(ana)
    while "Measured" not in ana.last.labels:
        say(ana, "done")
    press(ana, "Measured")
    assert "step" in say(ana, "do the slide pins get grease").text
    assert "Front disc brake service" in ana.last.text
    # the entry is open still
    assert "8 mm (before), good, Ana" in say(ana, "8 mm").text
