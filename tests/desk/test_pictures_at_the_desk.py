"""The button "Picture" on a phone: the very picture that is drawn, once, for the studs that the wheel has."""

from __future__ import annotations

from decimal import Decimal

import pytest
from bay import Bay, Message, Phone
from walking import begun, press, say

from benchbot.desk import drawing
from benchbot.desk.picture_files import picture_file
from benchbot.errors import SettingError
from benchbot.pictures.rotor import rotor_picture
from benchbot.pictures.tightening import tightening_picture
from benchbot.pictures.wear import Limit, Reading, wear_picture
from benchbot.pictures.wording import SPANISH

NUMBERS = ["3", "4", "5", "6", "8", "10"]


@pytest.fixture
def ana(bay: Bay) -> Phone:
    return bay.phone("Ana", technician=bay.location("North bay"))


def content(bay: Bay, message: Message) -> bytes:
    """The file of a picture that was sent."""
    assert message.picture.startswith("png:")
    file = picture_file(bay.home, message.picture)
    assert file is not None and file.stat().st_mode & 0o777 == 0o600
    return file.read_bytes()


def test_the_order_for_the_studs_that_were_named(bay: Bay, ana: Phone) -> None:
    message = ana.say("8 lug pattern")
    assert message.labels[-1] == "Picture"
    ana.press("Picture", message)
    assert content(bay, ana.last) == tightening_picture(8)
    assert ana.last.text == "Tightening order, 8 studs: 1-5-3-7-2-6-4-8" and ana.notice == ""
    before = len(ana.shown)
    ana.press("Picture", message)
    assert ana.notice == "That picture is here already." and len(ana.shown) == before
    # the step stands there as before, and its other buttons go on working
    ana.press("How I read that", message)
    assert message.labels[-1] == "Picture"
    ana.press("Picture", message)
    assert ana.notice == "That picture is here already." and len(ana.shown) == before


@pytest.mark.parametrize("asked", ["lug order", "order for 7 studs"])
def test_how_many_studs_is_asked_where_no_picture_is_meant_yet(bay: Bay, ana: Phone, asked: str) -> None:
    message = ana.say(asked)
    old = message.button("Picture").code
    ana.press("Picture", message)
    assert message.labels[-6:] == NUMBERS and "Picture" not in message.labels
    assert message.text.splitlines()[-1] == "How many studs does the wheel have?"
    assert len(ana.shown) == 1
    ana.press("5", message)
    assert content(bay, ana.last) == tightening_picture(5)
    ana.press("5", message)
    assert ana.notice == "That picture is here already."
    ana.press_code(message, old)
    assert ana.notice == "That is answered already."
    for view in ("How I read that", "Less"):
        ana.press(view, message)
        assert message.labels[-6:] == NUMBERS
    ana.press("10", message)
    assert content(bay, ana.last) == tightening_picture(10)
    assert len(ana.shown) == 3


def test_where_a_rotor_is_measured(bay: Bay, ana: Phone) -> None:
    for asked in ("where do i measure the rotor", "how do i check thickness variation"):
        message = ana.say(asked)
        ana.press("Picture", message)
        assert content(bay, ana.last) == rotor_picture()
        assert ana.last.text == "Where a rotor is measured"


def test_a_button_of_a_step_that_is_gone_and_codes_that_nobody_gave(bay: Bay, ana: Phone) -> None:
    ana.say("12 ondrel")
    message = ana.say("oval holes on a 5 lug wheel")
    while "Picture" not in message.labels:
        ana.press("Next step", message)
    code = message.button("Picture").code
    ana.press("Next step", message)
    count = len(ana.shown)
    ana.press_code(message, code)
    assert ana.notice == "That question is closed. Ask again."
    step = int(code.partition(".")[2])
    for made_up in ("pic", "pic.", "pic.x", f"pic.{step + 1}.7", f"pic.{step + 1}.", f"pic.{step + 1}.5.5", "pic.99"):
        ana.press_code(message, made_up)
        assert ana.notice == "That question is closed. Ask again.", made_up
    assert len(ana.shown) == count


def test_a_step_that_shows_nothing_and_an_answer_have_no_picture(ana: Phone) -> None:
    assert "Picture" not in ana.say("lift points").labels
    answer = ana.say("12 ondrel front bracket bolt torque")
    assert "Picture" not in answer.labels
    ana.press_code(answer, "pic.1")
    assert ana.notice == "The book has changed since. Ask again." and ana.last is answer


WEAR = "rotor was 26 mm new, is 25.2 mm now after 45000 miles, discard 24.4 mm, how long will it last"


def test_wear_is_drawn_from_what_was_read(bay: Bay, ana: Phone) -> None:
    message = ana.say(WEAR)
    assert message.labels == ["Picture"]
    ana.press("Picture", message)
    readings = [Reading("0", Decimal(26)), Reading("45000 miles", Decimal("25.2"))]
    limit = Limit("limit", Decimal("24.4"))
    assert content(bay, ana.last) == wear_picture("Rotor thickness", "mm", readings, [], limit)
    ana.press("Picture", message)
    assert ana.notice == "That picture is here already." and len(ana.shown) == 2
    assert ana.say("rotor was 26 mm new, is 25.2 mm now after 45000 miles, how long will it last").labels == []


def test_a_question_that_is_changed_has_the_picture_of_what_it_says_then(bay: Bay, ana: Phone) -> None:
    asked = ana.send("text", "4 lug pattern")
    message = ana.last
    ana.press("Picture", message)
    ana.change(asked.message, "6 lug pattern")
    ana.press("Picture", message)
    assert [content(bay, one) for one in ana.shown[1:]] == [tightening_picture(4), tightening_picture(6)]


def test_in_spanish(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("Sur", "es"))
    message = ana.say("orden de apriete 6 birlos")
    ana.press("Dibujo", message)
    assert content(bay, ana.last) == tightening_picture(6, SPANISH)
    assert ana.last.text == "Orden de apriete, 6 birlos: 1-4-2-5-3-6"
    message = ana.say("donde mido el disco")
    ana.press("Dibujo", message)
    assert content(bay, ana.last) == rotor_picture(SPANISH)
    message = ana.say("pads 12 mm new 7 mm now min 3 mm how much is left")
    ana.press("Dibujo", message)
    readings = [Reading("antes", Decimal(12)), Reading("ahora", Decimal(7))]
    limit = Limit("límite", Decimal(3))
    drawn = wear_picture("Grosor de la balata", "mm", readings, [], limit, words=SPANISH)
    assert content(bay, ana.last) == drawn


def test_in_a_group_it_is_the_askers_own_and_stays_in_the_topic(bay: Bay) -> None:
    north = bay.location("North bay")
    ana, ben = bay.phone("Ana", technician=north), bay.phone("Ben", technician=north)
    in_group, other = ana.in_group("-77", "4"), ben.in_group("-77", "4")
    message = in_group.say("5 lug pattern")
    other.press("Picture", message)
    assert other.notice == "That is Ana's. Ask your own." and other.last is message
    in_group.press("Picture", message)
    assert in_group.last.topic == "4" and content(bay, in_group.last) == tightening_picture(5)


def test_it_is_said_when_nothing_draws(ana: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    def without(*_: object) -> bytes:
        raise SettingError("Pillow is not installed")

    monkeypatch.setattr(drawing, "rotor_picture", without)
    message = ana.say("where do i measure the rotor")
    ana.press("Picture", message)
    assert ana.notice == "No picture can be drawn here. Tell whoever looks after the bot." and ana.last is message
    monkeypatch.undo()
    # nothing was sent, so that it can be asked for once more
    ana.press("Picture", message)
    assert ana.last.picture


def test_in_a_job(bay: Bay, ana: Phone) -> None:
    begun(ana)
    page = ana.last
    while "Tighten the wheel in order" not in page.text:
        assert ("Picture" in page.labels) == ("Measure the rotor" in page.text or "variation" in page.text)
        press(ana, "Next", page)
    press(ana, "Picture", page)
    assert page.text == "How many studs does the wheel have?" and page.labels == [*NUMBERS, "To the step"]
    stale = page.button("8").code
    press(ana, "8", page)
    assert content(bay, ana.last) == tightening_picture(8)
    assert "Tighten the wheel in order" in page.text and "Done" in page.labels
    ana.press_code(page, stale)
    assert ana.notice == "That is answered already."
    press(ana, "Picture", page)
    press(ana, "8", page)
    assert page.text.startswith("That picture is here already.") and "Tighten the wheel in order" in page.text
    assert len([one for one in ana.shown if one.picture]) == 1
    press(ana, "Picture", page)
    press(ana, "6", page)
    assert content(bay, ana.last) == tightening_picture(6)
    # the job goes on
    say(ana, "done")
    assert "Last pass on the ground" in ana.last.text and "Picture" in ana.last.labels


def test_in_a_job_the_rotor(bay: Bay, monkeypatch: pytest.MonkeyPatch) -> None:
    ana = bay.phone("Ana", technician=bay.location("Sur", "es"))
    ana.say("/job 12 ondrel")
    ana.say("front brakes")
    ana.say("RO-10482")
    page = ana.last
    ana.press("Al paso", page)
    while "Dibujo" not in page.labels:
        ana.press("Siguiente", page)

    def without(*_: object) -> bytes:
        raise SettingError("Pillow is not installed")

    monkeypatch.setattr(drawing, "rotor_picture", without)
    ana.press("Dibujo", page)
    assert page.text.startswith("Aquí no se puede dibujar.") and len([one for one in ana.shown if one.picture]) == 0
    monkeypatch.undo()
    ana.press("Dibujo", page)
    assert content(bay, ana.last) == rotor_picture(SPANISH)
    ana.press("Dibujo", page)
    assert page.text.startswith("Ese dibujo ya está aquí.")
    assert len([one for one in ana.shown if one.picture]) == 1
