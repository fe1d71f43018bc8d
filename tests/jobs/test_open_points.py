"""What keeps a job open, each kind, and what closes it."""

from __future__ import annotations

import pytest
from job_bay import BAD, BOLT, DANA, GOOD, LEFT, MIRO, RIGHT, START, Bay, measured, tightened

from benchbot.jobs.open_points import open_points
from benchbot.jobs.record_json import plain_record
from benchbot.jobs.rules import set_second_person
from benchbot.jobs.terms import Shown, Tightened, Who


def kinds(bay: Bay) -> list[str]:
    return sorted({point.kind for point in open_points(bay.state)})


def keys(bay: Bay) -> list[str]:
    return [point.key for point in open_points(bay.state)]


def all_but(bay: Bay) -> None:
    """Every step done and every line entered."""
    bay.all_lines()
    bay.all_steps()
    assert keys(bay) == []


def test_a_new_job_is_open_in_every_step_and_line(bay: Bay) -> None:
    state = bay.begin()
    assert kinds(bay) == ["fastener", "measurement", "step"]
    found = [point.step for point in open_points(state) if point.kind == "step"]
    assert found == [step.key for step in state.sheet.steps]
    assert f"fastener {BOLT}//{LEFT}" in keys(bay)
    assert f"measurement brake rotor/maximum runout/{RIGHT}" in keys(bay)
    assert bay.refuse("finish").choices == tuple(keys(bay))


def test_with_everything_entered_it_finishes_and_takes_nothing_more(bay: Bay) -> None:
    bay.begin()
    all_but(bay)
    assert bay.do("finish").finished is not None
    for what, given in (("done", ()), ("pause", ()), ("resume", ()), ("tighten", (tightened(),)), ("finish", ())):
        assert bay.refuse(what, MIRO, *given).about == "finished"


def test_a_skipped_step_wants_no_lines(bay: Bay) -> None:
    bay.begin()
    bay.do("skip", DANA, "the bracket stayed on", "common/fit-bracket")
    assert not [key for key in keys(bay) if BOLT in key]
    bay.do("done", DANA, "common/fit-bracket")
    assert [key for key in keys(bay) if BOLT in key] == [f"fastener {BOLT}//{LEFT}", f"fastener {BOLT}//{RIGHT}"]


def test_a_bad_figure_is_followed_by_a_good_one_of_the_same_thing_at_the_same_wheel(bay: Bay) -> None:
    bay.begin()
    all_but(bay)
    bay.do("measure", DANA, measured(), BAD)
    assert kinds(bay) == ["bad"]
    bay.do("measure", DANA, measured(wheel=RIGHT, when="after"), GOOD)
    bay.do("measure", DANA, measured(name="maximum runout", when="after"), GOOD)
    bay.do("measure", DANA, measured(when="after"))
    assert kinds(bay) == ["bad"]
    bay.do("measure", MIRO, measured(when="after"), GOOD)
    assert keys(bay) == []


def test_a_line_without_a_value_of_the_book_is_explained(bay: Bay) -> None:
    bay.begin()
    all_but(bay)
    bay.do("tighten", DANA, tightened(held=False))
    (key,) = keys(bay)
    assert key.startswith("no value ")
    assert bay.refuse("explain", DANA, [key], "   ").about == "empty"
    for short in ("x", ".", "ok", ". ."):
        assert bay.refuse("explain", DANA, [key], short, decided_by="Miro").about == "reason"
    assert bay.refuse("explain", DANA, [key], "from the maker's page 12").about == "decided"
    bay.do("explain", DANA, [key], "from the maker's page 12", decided_by="Miro, lead tech")
    bay.do("finish")


# 1 lb-ft = 1.355 818 N·m: NIST SP 811, appendix B.8
@pytest.mark.parametrize("set_to", ["140 lb-ft", "105 lb-ft", "105 N·m by feel", "30 N·m + 90 deg"])
def test_what_differs_from_the_book_is_open_until_struck_or_explained(bay: Bay, set_to: str) -> None:
    bay.begin()
    all_but(bay)
    for wheel in (LEFT, RIGHT):
        bay.do("tighten", DANA, tightened("wheel nut", wheel, set_to=set_to))
    struck, explained = (f"differs {one.entry}" for one in bay.state.tightened[-2:])
    assert keys(bay) == [struck, explained]
    # set right afterwards it was set wrong all the same
    bay.do("tighten", DANA, tightened("wheel nut"))
    assert bay.refuse("finish").about == "open points"
    bay.do("strike", DANA, int(struck.split()[1]), "typed the wrong figure")
    assert keys(bay) == [explained]
    bay.do("explain", DANA, [explained], "crowfoot of 50 mm on a wrench of 400 mm", decided_by="Miro")
    bay.do("finish")


@pytest.mark.parametrize("set_to", ["105 N·m", "77 lb-ft", "77.4 ft lb", "929 in lbs"])
def test_what_agrees_in_another_unit_does_not_differ(bay: Bay, set_to: str) -> None:
    bay.begin()
    bay.do("tighten", DANA, tightened("wheel nut", set_to=set_to))
    assert "differs" not in kinds(bay)


def test_the_value_is_held_against_one_unit_where_the_book_has_two(bay: Bay) -> None:
    bay.begin()
    both = Shown("105 N·m; 77 lb-ft", "D0001", 3)
    bay.do("tighten", DANA, Tightened("wheel nut", "105 N·m", "wrench 4", LEFT, "", both, "105 N·m"))
    assert "differs" not in kinds(bay)
    bay.do("tighten", DANA, Tightened("wheel nut", "77 N·m", "wrench 4", LEFT, "", both, "105 N·m"))
    assert "differs" in kinds(bay)


def test_what_differs_is_confirmed_by_its_number_only(bay: Bay) -> None:
    set_second_person(bay.record, None, True, "telegram 1", START)
    bay.begin()
    bay.do("tighten", DANA, tightened("wheel nut", LEFT, set_to="140 lb-ft"))
    bay.do("tighten", DANA, tightened("wheel nut", RIGHT))
    other = bay.state.tightened[0].entry
    refused = bay.refuse("confirm", MIRO)
    assert refused.about == "differs"
    assert f"{other}: wheel nut, front left: set to 140 lb-ft where the book says 105 N·m" in refused.reason
    bay.do("confirm", MIRO, [other])
    bay.do("confirm", MIRO)
    assert not bay.state.unconfirmed()


@pytest.mark.parametrize("who", [DANA, Who("terminal dana", "dana")], ids=["the same", "the same elsewhere"])
def test_wheels_are_confirmed_by_somebody_else(bay: Bay, who: Who) -> None:
    set_second_person(bay.record, None, True, "telegram 1", START)
    bay.begin()
    bay.all_lines()
    bay.all_steps()
    assert kinds(bay) == ["second person"]
    line = bay.state.unconfirmed()[0].entry
    assert bay.refuse("confirm", who, [line]).about == "same person"
    assert bay.refuse("confirm", who).about == "same person"
    bay.do("confirm", MIRO, [line])
    assert len(keys(bay)) == 1
    bay.do("confirm", MIRO)
    assert bay.refuse("confirm", MIRO).about == "nothing to confirm"
    bay.do("finish")


def test_tightened_again_it_is_confirmed_again(bay: Bay) -> None:
    set_second_person(bay.record, None, True, "telegram 1", START)
    bay.begin()
    bay.do("tighten", DANA, tightened("wheel nut"))
    bay.do("confirm", MIRO)
    assert not bay.state.unconfirmed()
    bay.do("tighten", DANA, tightened("wheel nut"))
    assert len(bay.state.unconfirmed()) == 1


def test_the_rule_of_the_day_it_began_counts(bay: Bay) -> None:
    bay.begin()
    set_second_person(bay.record, None, True, "telegram 1", START)
    bay.do("tighten", DANA, tightened("wheel nut"))
    assert "second person" not in kinds(bay)
    bay.begin()
    bay.do("tighten", DANA, tightened("wheel nut"))
    assert "second person" in kinds(bay)


def test_a_struck_line_counts_no_more_and_stays_on_record(bay: Bay) -> None:
    bay.begin()
    all_but(bay)
    line = bay.state.tightened[0]
    bay.do("strike", MIRO, line.entry, "that was the other side")
    assert len(keys(bay)) == 1
    assert line in bay.state.events
    assert bay.refuse("strike", MIRO, line.entry, "again").about == "line"


def test_an_unknown_point_is_refused_with_those_that_there_are(bay: Bay) -> None:
    bay.begin()
    assert bay.refuse("explain", DANA, ["step nonsense"], "no idea").choices == tuple(keys(bay))


def test_a_condemned_part_is_explained_by_whoever_decided_it(bay: Bay) -> None:
    bay.begin()
    all_but(bay)
    bay.do("measure", DANA, measured(), BAD)
    (key,) = keys(bay)
    assert bay.refuse("explain", DANA, [key], "comes back for it").about == "decided"
    bay.do("explain", DANA, [key], "comes back for it", decided_by="Miro")
    (told,) = plain_record(bay.do("finish"))["explained"]
    assert (told["reason"], told["decided_by"]) == ("comes back for it", "Miro")


def test_what_the_vehicle_has_but_once_wants_one_line(bay: Bay) -> None:
    state = bay.begin("disc-brake-rear", fitted=("cable parking brake",))
    assert {want.wheel for want in state.sheet.fasteners} == {"rear left", "rear right"}
    assert not any("electric" in want.component for want in state.sheet.fasteners)
    state = bay.begin("wheel-fitting", wheels=("front left", "rear right"))
    nuts = [want.wheel for want in state.missing_lines() if want.component == "wheel nut"]
    assert nuts == ["front left", "rear right"]
