"""What is written while an entry is awaited, and questions changed after the chat went on."""

from __future__ import annotations

import pytest
from bay import Bay, Message, Phone, later

GROUP = "-10016"
FRONT = "12 ondrel frt cal brkt bolt tq"


@pytest.fixture
def ana(bay: Bay) -> Phone:
    return bay.phone("Ana", technician=bay.location("North bay"))


@pytest.fixture
def owner(bay: Bay) -> Phone:
    return bay.phone("Olga", owner=bay.location("North bay"))


def notes(bay: Bay) -> list[str]:
    return [str(row[0]) for row in bay.record.rows("SELECT said FROM note ORDER BY note", {})]


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        ("12 ondrel rear bleeder socket", "11 mm"),
        ("17 ondrel bracket bolt torque", "Front or rear?"),
        ("12 ondrel head bolt torque", "Not in our book"),
        ("15 zorbex front bracket bolt torque", "Not in our book"),
    ],
)
def test_a_whole_question_is_answered_and_the_words_are_still_awaited(
    bay: Bay, ana: Phone, question: str, answer: str
) -> None:
    ana.say(FRONT)
    ana.press("Not right?")
    assert ana.say(question).text.startswith(answer)
    assert notes(bay) == [""]
    assert ana.say("the sheet in my box says 58").text == "Note 1 is with the curator. Thank you."
    assert notes(bay) == ["the sheet in my box says 58"]


def test_words_that_name_vehicle_and_part_are_words_when_they_reply(bay: Bay, ana: Phone) -> None:
    ana.say(FRONT)
    ana.press("Not right?")
    words = "the 2012 ondrel front bracket bolt is 58 here"
    ana.send("text", words, answers=ana.last.id, answers_us=True)
    assert notes(bay) == [words]


def test_in_a_group_only_a_reply_to_the_question_is_words(bay: Bay, ana: Phone) -> None:
    crew = ana.in_group(GROUP)
    shown = crew.say(FRONT)
    crew.press("Not right?")
    asked = crew.last
    assert asked.text == "What is not right? Reply to this with one line; it goes to the curator."
    assert crew.say("rear bleeder socket").text.startswith("11 mm")
    assert crew.say("front bracket bolt socket", answers=shown.id, answers_us=True).text != asked.text
    assert notes(bay) == [""]
    crew.send("text", "the sheet says 58", answers=asked.id, answers_us=True)
    assert notes(bay) == ["the sheet says 58"]


def renaming(owner: Phone) -> Message:
    page = owner.press("North bay", on=owner.say("/locations"))
    owner.press("Rename", on=page)
    return page


def names(bay: Bay) -> list[str]:
    return [one.name for one in bay.people.locations()]


@pytest.mark.parametrize(
    "question", [FRONT, "front bracket bolt torque", "12 ondrel head bolt torque", "25 lb-ft in nm"]
)
def test_a_question_is_no_name_unless_they_say_so(bay: Bay, owner: Phone, question: str) -> None:
    renaming(owner)
    asked = owner.say(question)
    assert asked.text == f"That reads like a question. Call it {question}?"
    assert names(bay) == ["North bay"]
    yes = asked.button("Yes, call it that").code
    owner.press_code(asked, yes)
    assert asked.text.splitlines()[0] == f"Now called {question}."
    assert names(bay) == [question]
    owner.press_code(asked, yes)
    assert owner.notice == "That question is closed. Ask again."
    assert "Rename" in asked.labels


def test_a_question_that_is_no_name_is_answered_in_its_place(bay: Bay, owner: Phone) -> None:
    renaming(owner)
    asked = owner.say("12 ondrel bracket bolt torque", message="m1")
    owner.press("No, answer it", on=asked)
    assert asked.labels == ["front", "rear"]
    owner.press("front", on=asked)
    assert asked.text.startswith("50 lb-ft")
    owner.change("m1", "12 ondrel rear bleeder socket")
    assert asked.text.startswith("11 mm")
    assert names(bay) == ["North bay"]
    assert owner.say("South bay").text.splitlines()[0] != "Now called South bay."


def test_a_question_that_is_no_name_waits_for_where_one_stands(bay: Bay, owner: Phone) -> None:
    bay.let_in(owner, bay.location("South bay"), "technician")
    renaming(owner)
    asked = owner.say(FRONT)
    owner.press("No, answer it", on=asked)
    assert (asked.text, asked.labels) == ("Where do you stand?", ["North bay", "South bay"])
    owner.press("North bay", on=asked)
    assert asked.text.startswith("50 lb-ft")


def test_a_new_location_whose_name_reads_as_a_question(bay: Bay, owner: Phone) -> None:
    owner.press("Add a location", on=owner.say("/locations"))
    asked = owner.say("Rotors and drums")
    owner.press("Yes, call it that", on=asked)
    assert names(bay) == ["North bay", "Rotors and drums"]
    assert "Invite" in asked.labels


@pytest.mark.parametrize("name", ["Upper bay", "Brake Center", "Ondrel Brakes", "North bay 2", "Norte"])
def test_a_plain_name_is_taken_at_once(bay: Bay, owner: Phone, name: str) -> None:
    renaming(owner)
    assert owner.say(name).text.splitlines()[0] == f"Now called {name}."


def test_a_changed_question_does_not_undo_a_vehicle_put_on_since(bay: Bay, ana: Phone) -> None:
    for vehicle in ("12 ondrel", "16 wendla"):
        ana.say(f"{vehicle} lug nut torque")
        later(bay, minutes=1)
    page = ana.say("/vehicle")
    shown = ana.say("15 ondrel front bracket bolt torque", message="m7")
    ana.press("2012 Brackwell Ondrel", on=page)
    ana.change("m7", "15 ondrel rear bracket bolt torque")
    assert "2015 Brackwell Ondrel" in shown.text
    assert ana.say("/vehicle").text.startswith("On the lift: 2012 Brackwell Ondrel.")


def test_a_changed_question_that_is_unclear_offers_nothing_once_another_vehicle_was_put_on(
    bay: Bay, ana: Phone
) -> None:
    ana.say("16 wendla lug nut torque")
    later(bay, minutes=1)
    ana.say("12 ondrel lug nut torque")
    page = ana.say("/vehicle")
    shown = ana.say(FRONT, message="m7")
    ana.press("2016 Pelbrook Wendla", on=page)
    ana.change("m7", "12 ondrel bracket bolt torque")
    assert shown.labels == []
    assert "The chat has gone on since" in shown.text


def test_a_question_changed_after_its_vehicle_was_given_up_does_not_bring_it_back(bay: Bay, ana: Phone) -> None:
    shown = ana.say(FRONT, message="m7")
    later(bay, hours=6)
    ana.change("m7", "12 ondrel rear bleeder socket")
    assert shown.text.startswith("11 mm")
    assert ana.say("/vehicle").text.startswith("No vehicle is on the lift.")
    assert ana.say("front bracket bolt torque").labels == ["2012 Brackwell Ondrel"]


def test_a_question_changed_twice_keeps_on_going_on(ana: Phone) -> None:
    shown = ana.say(FRONT, message="m7")
    ana.change("m7", "12 ondrel rear bleeder socket")
    ana.change("m7", "16 wendla bracket bolt torque")
    ana.press(shown.labels[0], on=shown)
    assert "2016 Pelbrook Wendla" in shown.text
    assert ana.say("/vehicle").text.startswith("On the lift: 2016 Pelbrook Wendla.")


def test_a_doubted_answer_keeps_its_mark_when_a_typing_error_is_mended(ana: Phone) -> None:
    shown = ana.say("12 ondrle frt cal brkt bolt tq", message="m7")
    ana.press("Not right?", on=shown)
    ana.change("m7", FRONT)
    assert "Changed: read again after your edit." in shown.text
    assert "You marked this as not right." in shown.text
    assert "Not right?" not in shown.labels
    ana.press("More", on=shown)
    assert "You marked this as not right." in shown.text


def test_a_doubted_figure_is_marked_again_when_it_comes_back(ana: Phone) -> None:
    shown = ana.say(FRONT, message="m7")
    ana.press("Not right?", on=shown)
    ana.change("m7", "12 ondrel rear bleeder socket")
    assert "You marked this as not right." not in shown.text
    ana.change("m7", "12 ondrel bracket bolt torque")
    ana.press("front", on=shown)
    assert shown.text.startswith("50 lb-ft")
    assert "You marked this as not right." in shown.text


def two_bays(bay: Bay, ana: Phone) -> None:
    bay.let_in(ana, bay.location("South bay"), "technician")


def test_a_question_changed_while_it_waits_is_answered_as_changed(bay: Bay, ana: Phone) -> None:
    two_bays(bay, ana)
    asked = ana.say("12 ondrel frt cal brkt bolt tq", message="m1")
    ana.change("m1", "12 ondrel rear bleeder socket")
    ana.press("North bay", on=asked)
    assert asked.text.startswith("11 mm")
    ana.change("m1", FRONT)
    assert asked.text.startswith("50 lb-ft")


def test_a_question_behind_vehicle_waits_for_where_one_stands(bay: Bay, ana: Phone) -> None:
    two_bays(bay, ana)
    asked = ana.say("/vehicle 12 ondrel head bolt torque")
    assert (asked.text, asked.labels) == ("Where do you stand?", ["North bay", "South bay"])
    ana.press("South bay", on=asked)
    assert asked.text.startswith("Not in our book")
    where = "SELECT location.name FROM gap JOIN location USING (location)"
    assert bay.record.rows(where, {}) == [("South bay",)]
