"""A job at the desk: two people, a restart in the middle, and a record that says what they entered and nothing else."""

from __future__ import annotations

import json
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from bay import BOT, Bay, Phone, later
from walking import TOOL, begun, measured, points, press, say, state_of, step, tightened

from benchbot.desk.desk import Desk
from benchbot.desk.incoming import Incoming
from benchbot.desk.paper_files import paper_file
from benchbot.jobs import rules
from benchbot.people.terms import Location

FRONT = {
    ("front left", "minimum thickness"): "19.61 19.60 mm", ("front right", "minimum thickness"): "19.5 mm",
    ("front left", "maximum thickness variation"): "0.01 mm", ("front right", "maximum thickness variation"): ".012 mm",
    ("front left", "maximum runout"): ".002 in", ("front right", "maximum runout"): "0.05 mm",
}  # fmt: skip
PADS = FRONT | {
    ("front left", "minimum thickness"): "8.5 mm", ("front right", "minimum thickness"): "8 mm",
}  # fmt: skip
REAR = {
    ("rear left", "maximum diameter"): "200.4 mm", ("rear right", "maximum diameter"): "201.2 mm",
    ("rear left", "minimum thickness"): "4 mm", ("rear right", "minimum thickness"): "4.1 mm",
}  # fmt: skip


@pytest.fixture
def north(bay: Bay) -> Location:
    made = bay.location("North")
    rules.set_second_person(bay.record, made.number, True, "telegram 1", bay.clock())
    rules.set_distance(bay.record, made.number, "80 km", "telegram 1", bay.clock())
    rules.set_days(bay.record, made.number, 3, "telegram 1", bay.clock())
    return made


@pytest.fixture
def ana(bay: Bay, north: Location) -> Phone:
    return bay.phone("Ana", technician=north)


@pytest.fixture
def ben(bay: Bay, north: Location) -> Phone:
    return bay.phone("Ben", technician=north)


def walk(phone: Phone, figures: dict[tuple[str, str], str], until: str = "Every step is done") -> None:
    for _ in range(70):
        if until in phone.last.text:
            return
        step(phone, PADS if "Measure the pads" in phone.last.text else figures)
    raise AssertionError(f"{until} never came: {phone.last.text}")


def explain_all(phone: Phone, reason: str) -> None:
    press(phone, "Finish") if "Finish" in phone.last.labels else say(phone, "finish")
    while "1" in phone.last.labels:
        press(phone, "1")
        press(phone, "Say why")
        say(phone, "x")
        say(phone, reason)
        if "Who decided that" in phone.last.text:
            say(phone, "Olga")


def test_a_front_brake_job_by_two_people_with_a_restart_in_the_middle(bay: Bay, ana: Phone, ben: Phone) -> None:
    begun(ana)
    walk(ana, FRONT, "Fit the bracket")
    tightened(ana, as_shown=True)
    bay.restart()
    say(ana, "pause")
    assert ana.last.text == "Job 1 rests. Anybody at North goes on with it: /job"
    later(bay, days=1)
    bay.restart()
    # the next day, on another phone, by another technician
    page = say(ben, "/job")
    assert "2012 Brackwell Ondrel, Front disc brake service, 27 of 45 steps · paused by Ana" in page.text
    press(ben, "1")
    assert "Fit the bracket" in ben.last.text
    assert "FRONT LEFT caliper bracket bolt: set to 50 lb-ft with wrench 4, book 50 lb-ft, Ana" in ben.last.text
    say(ben, "done")
    walk(ben, FRONT)
    assert len(points(bay)) == 4, "two values that the book lacks, two wheels without a second person"
    say(ben, "finish")
    assert "Open before job 1 is finished:" in ben.last.text
    say(ana, "/job")
    press(ana, "1")
    press(ana, "Confirm wheels")
    assert "FRONT LEFT wheel nut: set to 79 lb-ft with wrench 4, book 79 lb-ft, Ben" in ana.last.text
    press(ana, "Checked, all of them")
    explain_all(ben, "screw tightened by hand feel, shown to the lead")
    assert ben.last.text == "Nothing is open. Finish job 1?"
    press(ben, "Yes, finish")
    finished, *papers = ben.shown[-4:]
    assert finished.text.splitlines() == [
        "Job 1 is finished. Its record follows, as PDF and JSON.", "Wheels again: after 80 km or on 2026-11-29.",
    ]  # fmt: skip
    assert [one.picture for one in papers] == ["paper:job-1.json", "paper:job-1.pdf", "paper:job-1-slip.pdf"]
    files = [paper_file(bay.home, one.picture) for one in papers]
    assert all(file is not None for file in files)
    plain, pdf, slip = (file.read_bytes() for file in files if file is not None)
    assert pdf.startswith(b"%PDF-") and slip.startswith(b"%PDF-")
    told = json.loads(plain)
    assert told["vehicle"]["said"] == "2012 Brackwell Ondrel" and told["repair_order"] == "RO-10482"
    assert all(one["state"] == "done" for one in told["steps"])
    entered = {(one["component"], one["property"], one["wheel"]): (one["value"], one["unit"], one["judged"])
               for one in told["measurements"]}  # fmt: skip
    assert entered["brake rotor", "minimum thickness", "front left"] == ("19.61 19.60", "mm", "good")
    assert entered["brake rotor", "maximum runout", "front left"] == (".002", "in", "good")
    assert entered["brake pad", "minimum thickness", "front right"] == ("8", "mm", "good")
    assert len(entered) == len(told["measurements"]) == 8
    bolts = {(one["component"], one["wheel"]): one for one in told["tightened"]}
    assert len(bolts) == len(told["tightened"]) == 8
    bolt = bolts["caliper bracket bolt", "front right"]
    assert (bolt["set_to"], bolt["tool"], bolt["name"]) == ("50 lb-ft", TOOL, "Ana")
    assert bolt["target"] == {"text": "50 lb-ft", "spec": "D0001", "revision": 1}
    nut = bolts["wheel nut", "front left"]
    assert (nut["name"], nut["confirmed"]["name"]) == ("Ben", "Ana")
    assert bolts["rotor retaining screw", "front left"]["target"] is None
    assert {one["reason"] for one in told["explained"]} == {"screw tightened by hand feel, shown to the lead"}
    assert told["open_points"] == []
    # the book never held the screw: a curator sees that it was missed
    assert bay.record.rows("SELECT count(*) FROM gap", {}) != [(0,)]


def test_a_rear_drum_job_ends_in_what_was_entered(bay: Bay, ana: Phone, ben: Phone) -> None:
    begun(ana, work="drum brake", order="")
    walk(ana, REAR)
    told = points(bay)
    assert any("brake drum, rear right, maximum diameter: 201.2 mm was judged bad" in one for one in told), told
    # the drum was replaced: measured again, after the work
    say(ana, "back")
    while "Measured" not in ana.last.labels or "maximum diameter" not in ana.last.text:
        say(ana, "back")
    press(ana, "Measured")
    press(ana, "REAR RIGHT brake drum, maximum diameter")
    assert "after the work" in ana.last.text
    say(ana, "199.8 mm")
    assert not any("maximum diameter" in one for one in points(bay))
    lines = [one.body for one in state_of(bay).measured if one.body["wheel"] == "rear right"]
    assert [(one["value"], one["when"], one["judged"]) for one in lines if one["component"] == "brake drum"] == [
        ("201.2", "before", "bad"), ("199.8", "after", "good"),
    ]  # fmt: skip


def test_a_question_in_between_is_answered_and_the_job_goes_on(bay: Bay, ana: Phone) -> None:
    begun(ana)
    say(ana, "done")
    here = ana.last.text
    # of the vehicle of the job, without naming it
    assert say(ana, "front bracket bolt torque").text.startswith("50 lb-ft")
    assert say(ana, "done?").text != here
    assert len(state_of(bay).settled) == 1
    say(ana, "where am i")
    assert "You are at step 2 of 45" in ana.last.text
    # while a figure is awaited as well
    while "Measured" not in ana.last.labels:
        say(ana, "next") if "step" in ana.last.text.splitlines()[0] else press(ana, "To the step")
    press(ana, "Measured")
    assert say(ana, "12 ondrel front bracket bolt torque").text.startswith("50 lb-ft")
    say(ana, "8 mm")
    assert [one.body["value"] for one in state_of(bay).measured] == ["8"]


def test_hands_free_words_are_said_to_no_job_where_none_is_open(bay: Bay, ana: Phone) -> None:
    for word in ("done", "next", "back", "where am i", "skip because it is new"):
        say(ana, word)
        assert "step" not in ana.last.text
    begun(ana)
    later(bay, hours=1)
    elsewhere = ana.in_group("-100")
    say(elsewhere, "done")
    assert state_of(bay).settled == {}, "it was said in another chat"
    say(ana, "pause")
    say(ana, "done")
    assert state_of(bay).settled == {}


@pytest.mark.parametrize(("word", "what"), [("done", "done"), ("skip because it has none", "skipped")])
def test_where_am_i_stands_at_its_step(bay: Bay, ana: Phone, word: str, what: str) -> None:
    begun(ana)
    for count in (1, 2, 3):
        say(ana, "where am i")
        say(ana, word)
        assert [one.what for one in state_of(bay).settled.values()] == [what] * count
        assert f"step {count + 1} of 45" in ana.last.text


@pytest.mark.parametrize(("title", "word"), [("Measure the pads", "measured"), ("Fit the bracket", "torqued")])
def test_after_where_am_i_the_entry_of_that_step_is_asked_for(bay: Bay, ana: Phone, title: str, word: str) -> None:
    begun(ana)
    while title not in ana.last.text:
        say(ana, "next")
    say(ana, "where am i")
    say(ana, word)
    assert "what did you" in ana.last.text and "FRONT LEFT" in ana.last.text


def test_what_is_said_where_no_step_stands_is_not_lost_in_silence(bay: Bay, ana: Phone) -> None:
    begun(ana)
    for word in ("done", "skip because it has none", "measured", "tightened"):
        say(ana, "where am i")
        press(ana, "Overview")
        say(ana, word)
        assert ana.last.text.splitlines()[0] == "Nothing is marked yet. This is the step: say it again."
        assert "step 1 of 45" in ana.last.text and state_of(bay).settled == {}
    say(ana, "done")
    assert len(state_of(bay).settled) == 1


def at_the_pads(phone: Phone) -> None:
    begun(phone)
    while "Measure the pads" not in phone.last.text:
        say(phone, "next")


@pytest.mark.parametrize("before", ["", "where am i", "12 ondrel front bracket bolt torque"])
def test_a_bare_figure_at_a_measuring_step_is_of_that_step(bay: Bay, ana: Phone, before: str) -> None:
    at_the_pads(ana)
    say(ana, before) if before else None
    say(ana, "4 mm")
    assert ana.last.text == "4 mm: not in job 1 yet."
    assert ana.last.labels == [
        "Put it in the job: FRONT LEFT brake pad, minimum thickness",
        "Put it in the job: FRONT RIGHT brake pad, minimum thickness", "To the step",
    ]  # fmt: skip
    assert state_of(bay).measured == ()
    press(ana, ana.last.labels[1])
    (line,) = (one.body for one in state_of(bay).measured)
    assert (line["wheel"], line["value"], line["unit"], line["component"]) == ("front right", "4", "mm", "brake pad")
    # of the one that is left there is no doubt, and it is judged: what is unsafe first
    say(ana, "where am i")
    say(ana, "1.2 mm")
    assert ana.last.text.startswith("DO NOT USE: 1.2 mm")
    assert [one.body["wheel"] for one in state_of(bay).measured] == ["front right", "front left"]


def test_a_bare_figure_without_a_unit_is_asked_for_it(bay: Bay, ana: Phone) -> None:
    at_the_pads(ana)
    say(ana, "4.5")
    press(ana, ana.last.labels[0])
    press(ana, "mm")
    assert [(one.body["value"], one.body["unit"]) for one in state_of(bay).measured] == [("4.5", "mm")]


@pytest.mark.parametrize(("text", "wheels", "judged"), [
    ("rotor 19.4 mm front left", ["front left"], "good"), ("front rotor 17.4 mm right", ["front right"], "bad"),
    ("front rotor 19.4 mm", ["front left", "front right"], "good"),
])  # fmt: skip
def test_what_was_measured_in_between_is_offered_to_the_job(
    bay: Bay, ana: Phone, text: str, wheels: list[str], judged: str
) -> None:
    begun(ana)
    say(ana, text)
    answer, offer = ana.shown[-2:]
    assert answer.text.startswith("DO NOT USE" if judged == "bad" else "USABLE")
    assert "not in job 1 yet" in offer.text and state_of(bay).measured == ()
    labels = [f"Put it in the job: {wheel.upper()} brake rotor, minimum thickness" for wheel in wheels]
    assert offer.labels == [*labels, "To the step"]
    press(ana, labels[-1])
    (line,) = (one.body for one in state_of(bay).measured)
    assert (line["wheel"], line["judged"], line["component"]) == (wheels[-1], judged, "brake rotor")


def test_what_is_of_no_line_of_the_job_is_not_offered(bay: Bay, ana: Phone, ben: Phone) -> None:
    begun(ana)
    for text in ("12 ondrel rear drum 200.4 mm", "18 ondrel 2.0t front rotor 22.3 mm", "front bracket bolt torque"):
        say(ana, text)
        assert "not in job" not in ana.last.text
    # who has no job in hand is offered none
    assert "not in job" not in say(ben, "12 ondrel front rotor 19.4 mm left").text
    # an entry that is awaited is awaited on
    while "Measure the rotor" not in ana.last.text:
        say(ana, "next")
    press(ana, "Measured")
    say(ana, "12 ondrel front pads 6 mm left?")
    assert "not in job" in ana.last.text
    say(ana, "19.4 mm")
    assert [one.body["component"] for one in state_of(bay).measured] == ["brake rotor"]


def test_a_step_is_skipped_with_its_reason(bay: Bay, ana: Phone) -> None:
    begun(ana)
    say(ana, "skip because the pads are from another shop")
    say(ana, "skip")
    assert "Why is “Keep the brakes from working by themselves” skipped?" in ana.last.text
    say(ana, "no such system on this one")
    reasons = [one.body["reason"] for one in state_of(bay).settled.values()]
    assert reasons == ["the pads are from another shop", "no such system on this one"]


def test_nothing_is_done_twice_by_a_button(bay: Bay, ana: Phone) -> None:
    begun(ana)
    page = ana.last
    code = page.button("Done").code
    for _ in range(3):
        later(bay, seconds=5)
        ana.press_code(page, code)
    assert len(state_of(bay).settled) == 1
    assert ana.notice == "That is answered already."
    # an older page is closed once there is a newer one
    say(ana, "where am i")
    press(ana, "Done", on=page)
    assert ana.notice == "That question is closed. Ask again."
    assert len(state_of(bay).settled) == 1


def test_a_fastener_pressed_twice_is_one_line(bay: Bay, ana: Phone) -> None:
    begun(ana)
    while "Fit the bracket" not in ana.last.text:
        say(ana, "next")
    press(ana, "Tightened")
    say(ana, f"50 lb-ft {TOOL}")
    page = ana.last
    code = page.button(f"50 lb-ft, {TOOL}").code
    for _ in range(2):
        later(bay, seconds=5)
        ana.press_code(page, code)
    assert [one.body["wheel"] for one in state_of(bay).tightened] == ["front left", "front right"]


def test_two_people_at_one_step_do_it_once(bay: Bay, ana: Phone, ben: Phone) -> None:
    begun(ana)
    say(ben, "/job")
    press(ben, "1")
    assert "step 1 of 45" in ben.last.text
    say(ana, "done")
    page = press(ben, "Done")
    assert page.text.startswith("Ana has done that step already.")
    assert "step 2 of 45" in page.text
    # what a page no longer shows is not done unseen by a word either
    say(ana, "done")
    say(ben, "done")
    assert ben.last.text.startswith("Ana has done that step already.")
    assert [one.name for one in state_of(bay).settled.values()] == ["Ana", "Ana"]
    say(ben, "done")
    assert len(state_of(bay).settled) == 3


def test_what_was_set_otherwise_than_the_book_says_is_told_first(bay: Bay, ana: Phone) -> None:
    begun(ana)
    while "Fit the bracket" not in ana.last.text:
        say(ana, "next")
    press(ana, "Tightened")
    say(ana, "80 lb-ft wrench 4")
    assert ana.last.text.splitlines()[0].startswith(
        "You set 80 lb-ft where the book says 50 lb-ft. It is an open point"
    )
    assert ana.last.labels[:2] == ["Say why", "Entered wrong?"]
    assert any("set to 80 lb-ft where the book says 50 lb-ft" in one for one in points(bay))
    # 68 N·m are 50.2 lb-ft: SP 811 by NIST, factor 1.355 818
    say(ana, "68 Nm, wrench 4")
    assert not ana.last.text.startswith("You set")
    say(ana, "where am i")
    press(ana, "Entered wrong?")
    press(ana, "2")
    say(ana, "typed the wrong figure")
    kept = state_of(bay)
    assert [one.body["set_to"] for one in kept.tightened] == ["68 Nm"]
    assert len(kept.struck) == 1
    assert not any("set to 80 lb-ft" in one for one in points(bay))


def test_what_differs_is_explained_at_once_and_seen_before_it_is_confirmed(bay: Bay, ana: Phone, ben: Phone) -> None:
    begun(ana)
    while "wheel nut" not in ana.last.text or "Tightened" not in ana.last.labels:
        say(ana, "next")
    press(ana, "Tightened")
    say(ana, "140 lb-ft wrench 4")
    press(ana, "Say why")
    say(ana, "extension of 300 mm on the wrench")
    assert "Who decided that" in ana.last.text
    say(ana, "Olga")
    say(ana, "where am i")
    press(ana, "To the step")
    press(ana, "Tightened")
    say(ana, "79 lb-ft wrench 4")
    say(ben, "/job")
    press(ben, "1")
    press(ben, "Confirm wheels")
    blocks = [(one.kind, one.text) for one in ben.last.sheet.blocks if "wheel nut" in one.text]
    assert [kind for kind, _ in blocks] == ["condition", "note"]
    told = "set to 140 lb-ft with wrench 4, book 79 lb-ft, Ana, NOT THE BOOK'S VALUE: extension of 300 mm on the wrench"
    assert told in blocks[0][1]


def test_units_are_never_assumed(bay: Bay, ana: Phone) -> None:
    begun(ana)
    while "Measure the rotor" not in ana.last.text:
        say(ana, "next")
    press(ana, "Measured")
    say(ana, "19.6")
    assert ana.last.labels == ["mm", "in", "thou", "Cancel"]
    press(ana, "mm")
    assert "19.6 mm" in ana.last.text and "DO NOT USE" not in ana.last.text
    say(ana, "17.9 mm")
    assert ana.last.text.startswith("DO NOT USE: 17.9 mm")
    assert [one.body["judged"] for one in state_of(bay).measured] == ["good", "bad"]


@pytest.mark.parametrize("text", [
    "<b>x</b>", "'; DROP TABLE job; --", "mm", "-5 mm", "22.4.1 mm", "1 1/8 in", "9" * 400 + " mm", "５ mm x",
    "\u202e22 mm", "22 Nm", "nan mm", "∞ mm", "0x10 mm",
])  # fmt: skip
def test_no_figure_is_kept_that_is_none(bay: Bay, ana: Phone, text: str) -> None:
    begun(ana)
    while "Measure the rotor" not in ana.last.text:
        say(ana, "next")
    press(ana, "Measured")
    say(ana, text)
    assert state_of(bay).measured == ()
    # it is awaited on
    say(ana, "19.6 mm")
    assert len(state_of(bay).measured) == 1


@pytest.mark.parametrize(
    "order", ["Mr Smith", "next", "done", "miller", "555-123-4567", "a@b.co", "RO 1'; --", "x" * 21]
)
def test_an_order_number_holds_no_customer(bay: Bay, ana: Phone, order: str) -> None:
    say(ana, "/job 12 ondrel")
    press(ana, "Front disc brake service")
    say(ana, order)
    assert "Repair order number?" in ana.last.text
    say(ana, "RO-7")
    assert state_of(bay).row.repair_order == "RO-7"
    press(ana, "To the step")
    say(ana, "where am i")
    press(ana, "Entered wrong?")
    press(ana, "The repair order number")
    # said at work, "next" and "done" are said to the step
    say(ana, "miller" if order in ("next", "done") else order)
    assert "Which repair order number is right?" in ana.last.text
    say(ana, "RO-8")
    assert ana.last.text.startswith("Repair order RO-8") and state_of(bay).repair_order == "RO-8"


@pytest.mark.parametrize(
    "code", ["", "1", "1.", "1.zz", "1.d.9", "2.d", "99.d", "-1.d", "1.fi.x", "1.m.99", "1.t.-1", "x.d"]
)
def test_made_up_buttons_do_nothing_that_is_not_there(bay: Bay, ana: Phone, code: str) -> None:
    begun(ana)
    say(ana, "where am i")
    before = state_of(bay).events
    ana.press_code(ana.last, code)
    assert [one.what for one in state_of(bay).events[len(before) :]] in ([], ["done"])
    assert state_of(bay).finished is None


def test_a_job_of_another_location_is_not_to_be_had(bay: Bay, ana: Phone) -> None:
    begun(ana)
    south = bay.location("South")
    zoe = bay.phone("Zoe", technician=south)
    assert say(zoe, "/job").text == "No job is open at South."
    zoe.press_code(zoe.last, "1.jo.1")
    assert zoe.last.text == "Ask your shop for an invite."
    assert state_of(bay).names == {ana.person: "Ana"}


def test_whoever_is_removed_does_nothing_more(bay: Bay, north: Location, ana: Phone) -> None:
    begun(ana)
    olga = bay.phone("Olga", owner=north)
    bay.people.remove(ana.person, north.number, olga.person, bay.clock())
    page = ana.last
    press(ana, "Done")
    say(ana, "done")
    assert state_of(bay).settled == {}
    assert "step 1" in page.text


def test_in_a_group_each_has_their_own_page(bay: Bay, ana: Phone, ben: Phone) -> None:
    here, there = ana.in_group("-7"), ben.in_group("-7")
    say(here, "/job 12 ondrel")
    press(here, "Front disc brake service")
    press(here, "Without a number")
    page = press(here, "To the step")
    say(there, "done")
    press(there, "Done", on=page)
    assert there.notice == "That is Ana's. Ask your own."
    say(here, "done")
    assert [one.name for one in state_of(bay).settled.values()] == ["Ana"]
    # what is written there is an entry only where it answers the message that asks for it
    say(here, "skip")
    say(here, "hello everybody")
    assert len(state_of(bay).settled) == 1
    asks = next(one for one in reversed(here.shown) if "skipped? Write it" in one.text)
    here.say("not on this one", answers_us=True, answers=asks.id)
    assert len(state_of(bay).settled) == 2


def test_what_decides_is_asked_and_counts_for_the_whole_job(bay: Bay, ana: Phone, ben: Phone) -> None:
    begun(ana, vehicle="14 ondrela")
    while "caliper bracket bolt" not in ana.last.text:
        say(ana, "next")
    assert "47 lb-ft" not in ana.last.text and "57 lb-ft" not in ana.last.text
    assert ana.last.labels[:2] == ["15 in", "16 in"]
    press(ana, "16 in")
    assert "57 lb-ft" in ana.last.text and "47 lb-ft" not in ana.last.text
    assert state_of(bay).vehicle.only_if == (("brakes", "16 in"),)
    # on another phone it is known
    say(ben, "/job")
    press(ben, "1")
    while "caliper bracket bolt" not in ben.last.text:
        say(ben, "next")
    assert "57 lb-ft" in ben.last.text
    press(ben, "Tightened")
    say(ben, f"57 lb-ft {TOOL}")
    assert state_of(bay).tightened[0].body["target"]["spec"] == "D0176"
    # it was wrong after all
    say(ben, "where am i")
    assert "Told on the way: brakes 16 in" in ben.last.text
    press(ben, "That is wrong, ask again")
    assert state_of(bay).vehicle.only_if == ()
    assert ben.last.labels[:2] == ["15 in", "16 in"]


def test_a_limit_that_decides_nothing_yet_is_asked_before_the_figure_is_kept(bay: Bay, ana: Phone) -> None:
    begun(ana, vehicle="14 ondrela")
    while "Measure the rotor" not in ana.last.text:
        say(ana, "next")
    press(ana, "Measured")
    say(ana, "18.6 mm")
    assert state_of(bay).measured == ()
    press(ana, "16 in")
    assert ana.last.text.startswith("DO NOT USE: 18.6 mm")
    assert [one.body["judged"] for one in state_of(bay).measured] == ["bad"]


def test_a_vehicle_that_the_book_does_not_hold_has_no_values(bay: Bay, ana: Phone) -> None:
    say(ana, "/job 09 zorblatt wagon")
    assert "The book holds no such vehicle" in ana.last.text
    press(ana, "As written")
    press(ana, "Front disc brake service")
    press(ana, "Without a number")
    press(ana, "To the step")
    while "caliper bracket bolt" not in ana.last.text:
        say(ana, "next")
    assert "Not in our book" in ana.last.text and "lb-ft" not in ana.last.text


def test_a_vehicle_without_its_year_is_asked_for(bay: Bay, ana: Phone) -> None:
    for said in ("/job ondrel", "/job 2012", "/job brackwell", "/job 12 14 ondrel"):
        say(ana, said)
        assert "procedure" not in ana.last.text and "Which work?" not in ana.last.text, ana.last.text
    say(ana, "12 ondrel")
    assert "2012 Brackwell Ondrel. Which work?" in ana.last.text


def test_the_vehicle_on_the_lift_is_offered_and_the_wheels_are_asked(bay: Bay, ana: Phone) -> None:
    say(ana, "12 ondrel")
    say(ana, "/job")
    press(ana, "Begin a job")
    assert "On the lift: 2012 Brackwell Ondrel." in ana.last.text
    press(ana, "This one")
    say(ana, "wheel fitting")
    press(ana, "front left")
    press(ana, "rear right")
    press(ana, "Go on")
    press(ana, "Without a number")
    assert state_of(bay).sheet.wheels == ("front left", "rear right")


def test_what_is_fitted_is_asked(bay: Bay, ana: Phone) -> None:
    say(ana, "/job 12 ondrel")
    say(ana, "rear disc")
    press(ana, "electric parking brake")
    press(ana, "Without a number")
    assert state_of(bay).sheet.fitted == ("electric parking brake",)


def test_figures_said_in_one_go_are_one_line(bay: Bay, ana: Phone) -> None:
    begun(ana)
    while "Measure the rotor" not in ana.last.text:
        say(ana, "next")
    measured(ana, dict.fromkeys(FRONT, "19.61 19.60 19.62 19.60 mm"))
    assert [one.body["value"] for one in state_of(bay).measured] == ["19.61 19.60 19.62 19.60"] * 2


def test_two_presses_at_the_very_same_moment_do_a_step_once(bay: Bay, ana: Phone, ben: Phone) -> None:
    """Two desks, each on a thread of its own, as the bot has them."""
    begun(ana)
    say(ben, "/job")
    press(ben, "1")
    together = Barrier(2)

    def done(phone: Phone, number: int) -> None:
        desk = Desk(bay.home, BOT, bay.clock)
        page = phone.last
        incoming = Incoming(
            BOT.number, number, "press", phone.chat, True, phone.person, phone.name, bay.clock(),
            text=f"{page.card}:{page.button('Done').code}", message=page.id, query="q",
        )  # fmt: skip
        together.wait()
        try:
            desk.take(incoming)
        finally:
            desk.close()

    with ThreadPoolExecutor(2) as pool:
        for one in [pool.submit(done, ana, 900_001), pool.submit(done, ben, 900_002)]:
            one.result()
    bay.deliver()
    assert [one.what for one in state_of(bay).events].count("done") == 1
    told = [phone.name for phone in (ana, ben) if "has done that step already" in phone.last.text]
    first = next(one.name for one in state_of(bay).events if one.what == "done")
    assert told == [name for name in ("Ana", "Ben") if name != first]
    assert all("step 2 of 45" in phone.last.text for phone in (ana, ben))
