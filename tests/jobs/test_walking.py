"""Everybody walks a job by themselves, and what one settles the other passes by."""

from __future__ import annotations

from job_bay import DANA, MIRO, Bay

from benchbot.jobs.terms import Refused
from benchbot.jobs.walking import in_hand, where


def at(bay: Bay, who: str = DANA.person) -> int:
    here = where(bay.state, who)
    return 0 if here is None else here.number


def test_done_goes_to_the_next_open_step(bay: Bay) -> None:
    bay.begin()
    assert at(bay) == 1
    bay.do("done")
    assert at(bay) == 2
    bay.do("skip", DANA, "none on this vehicle")
    assert at(bay) == 3
    assert [bay.state.settled[step.key].what for step in bay.state.sheet.steps[:2]] == ["done", "skipped"]


def test_next_settles_nothing_and_back_goes_back(bay: Bay) -> None:
    bay.begin()
    bay.do("go_on")
    assert (at(bay), bay.state.settled) == (2, {})
    bay.do("go_back")
    assert at(bay) == 1
    assert bay.refuse("go_back").about == "step"


def test_back_to_a_step_that_is_done_shows_it_so(bay: Bay) -> None:
    bay.begin()
    bay.do("done")
    bay.do("go_back")
    here = where(bay.state, DANA.person)
    assert here is not None
    assert (here.number, here.state, here.settled) == (1, "done", 1)
    bay.do("go_on")
    assert at(bay) == 2


def test_what_the_other_has_settled_is_passed_by(bay: Bay) -> None:
    bay.begin()
    bay.do("resume", MIRO)
    bay.do("done", MIRO)
    bay.do("done", MIRO)
    assert (at(bay), at(bay, MIRO.person)) == (3, 3)
    bay.do("done")
    assert (at(bay), at(bay, MIRO.person)) == (4, 4)


def test_at_the_end_the_open_steps_come_again(bay: Bay) -> None:
    bay.begin("bedding-and-road-test", wheels=("front left",))
    count = len(bay.state.sheet.steps)
    bay.do("go_on")
    for _ in range(count - 1):
        bay.do("done")
    assert at(bay) == 1
    bay.do("done")
    assert where(bay.state, DANA.person) is None
    assert bay.refuse("done").about == "step"


def test_the_job_in_hand_follows_pausing_resuming_and_handing_over(bay: Bay) -> None:
    job = bay.begin().number
    assert in_hand(bay.record, DANA.person) == job
    assert in_hand(bay.record, MIRO.person) is None
    bay.do("pause")
    assert in_hand(bay.record, DANA.person) is None
    bay.do("resume", MIRO)
    assert in_hand(bay.record, MIRO.person) == job
    bay.do("hand_over", MIRO, DANA)
    assert in_hand(bay.record, MIRO.person) is None
    assert in_hand(bay.record, DANA.person) == job


def test_a_paused_job_takes_nothing_until_somebody_resumes_it(bay: Bay) -> None:
    bay.begin()
    bay.do("pause")
    assert bay.refuse("done").about == "paused"
    assert bay.refuse("pause", MIRO).about == "paused"
    bay.do("resume", MIRO)
    bay.do("done", MIRO)
    assert bay.state.settled


def test_what_came_twice_is_done_once(bay: Bay) -> None:
    bay.begin(once="message 1")
    bay.begin(once="message 1")
    assert bay.job == 1
    bay.do("done", once="message 2")
    bay.do("done", once="message 2")
    assert len(bay.state.settled) == 1


def test_a_job_of_no_number(bay: Bay) -> None:
    bay.job = 99
    from benchbot.jobs import doing

    found = doing.done(bay.record, 99, DANA, bay.tick())
    assert isinstance(found, Refused)
    assert found.about == "no such job"


def test_the_procedure_stays_as_it_was_when_the_job_began(bay: Bay) -> None:
    says = {"common/measure-rotor": "Use the blue micrometer."}
    one = bay.begin(shop_says=says)
    two = bay.begin()
    assert one.row.procedure != two.row.procedure
    step = one.step("common/measure-rotor")
    assert step is not None
    assert step.shop_says == says["common/measure-rotor"]
    assert step.plain["because"]
