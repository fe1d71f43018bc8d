"""A technician's questions at the desk: answers, choices as buttons, views, changes, doubts."""

from __future__ import annotations

from datetime import timedelta

import pytest
from bay import Bay, Phone, later
from desk import NOW

from benchbot.desk.incoming import Incoming
from benchbot.records import arrivals


@pytest.fixture
def phone(bay: Bay) -> Phone:
    return bay.phone("Ana", technician=bay.location("North bay"))


def test_a_question_gets_one_message_with_the_value_first(phone: Phone) -> None:
    shown = phone.say("12 ondrel frt cal brkt bolt tq")
    assert len(phone.shown) == 1
    assert shown.text.splitlines()[0] == "50 lb-ft = 68 N·m (converted)"
    assert "2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque" in shown.text
    assert shown.labels == ["Other unit", "More", "How I read that", "Not right?"]
    assert shown.quote == ""


def test_pressing_a_choice_changes_the_question_into_the_answer(phone: Phone) -> None:
    asked = phone.say("12 ondrel bracket bolt torque")
    assert asked.labels == ["front", "rear"]
    answered = phone.press("front")
    assert (len(phone.shown), answered.changes) == (1, 1)
    assert answered.text.startswith("50 lb-ft")
    assert phone.notice == ""


def test_choices_can_be_typed(phone: Phone) -> None:
    phone.say("12 ondrel bracket bolt torque")
    assert phone.say("front").text.startswith("50 lb-ft")


def test_choices_can_be_typed_by_number(phone: Phone) -> None:
    phone.say("12 ondrel bracket bolt torque")
    assert phone.say("1").text.startswith("50 lb-ft")


def test_one_question_after_the_other_on_the_same_message(phone: Phone) -> None:
    shown = phone.say("17 ondrel bracket bolt torque")
    first = shown.sheet.buttons[0]
    seen = []
    while phone.last.labels and "Not right?" not in phone.last.labels:
        seen.append(phone.last.text.splitlines()[0])
        phone.press(phone.last.labels[0])
    assert len(seen) == 2
    assert len(phone.shown) == 1
    before = shown.sheet
    phone.press_code(shown, first.code)
    assert (phone.notice, shown.sheet) == ("That is answered already.", before)


def test_a_double_press_never_chooses_in_the_next_question(phone: Phone) -> None:
    shown = phone.say("17 ondrel bracket bolt torque")
    code = shown.sheet.buttons[0].code
    phone.press_code(shown, code)
    after = shown.sheet
    assert after.buttons, "it asks a second question"
    phone.press_code(shown, code)
    assert (shown.sheet, phone.notice) == (after, "That question is closed. Ask again.")


def test_the_button_of_an_older_question_changes_nothing(phone: Phone) -> None:
    old = phone.say("12 ondrel bracket bolt torque")
    phone.say("16 wendla front bracket bolt torque")
    before = old.sheet
    phone.press("front", on=old)
    assert (phone.notice, old.sheet, len(phone.shown)) == ("That question is closed. Ask again.", before, 2)


def test_the_same_question_asked_twice_leaves_one_set_of_buttons_alive(phone: Phone) -> None:
    old = phone.say("12 ondrel bracket bolt torque")
    new = phone.say("12 ondrel bracket bolt torque")
    phone.press("front", on=old)
    assert phone.notice == "That question is closed. Ask again."
    phone.press("front", on=new)
    assert new.text.startswith("50 lb-ft")


def test_small_talk_leaves_the_buttons_alive(phone: Phone) -> None:
    asked = phone.say("12 ondrel bracket bolt torque")
    phone.say("hold on")
    assert phone.press("front", on=asked).text.startswith("50 lb-ft")


def test_a_press_after_the_vehicle_was_given_up_changes_nothing(bay: Bay, phone: Phone) -> None:
    asked = phone.say("12 ondrel bracket bolt torque")
    later(bay, hours=4)
    phone.press("front", on=asked)
    assert phone.notice == "That question is closed. Ask again."


def test_a_press_after_two_days_is_too_old(bay: Bay, phone: Phone) -> None:
    shown = phone.say("12 ondrel front bracket bolt torque")
    later(bay, hours=48)
    phone.press("More", on=shown)
    assert phone.notice == "That is too old. Ask again."


@pytest.mark.parametrize("code", ["c1.9", "c1.0", "c9.1", "c.", "c1", "cx.y", "zz", "", "u", "c1.١", "more"])
def test_a_button_that_nobody_made_changes_nothing(phone: Phone, code: str) -> None:
    shown = phone.say("12 ondrel bracket bolt torque")
    before = shown.sheet
    phone.press_code(shown, code)
    assert (shown.sheet, phone.notice) == (before, "That question is closed. Ask again.")


@pytest.mark.parametrize("text", ["", ":", "x:main", "999999:main", "-1:main", "١:main", "0:again.7", "0:again.x"])
def test_a_press_on_no_card_of_ours_changes_nothing(phone: Phone, text: str) -> None:
    shown = phone.say("12 ondrel bracket bolt torque")
    before = shown.sheet
    phone.send("press", text, message=shown.id, query="q")
    assert shown.sheet == before
    assert phone.notice in ("That is too old. Ask again.", "That message is not kept any more. Ask again.")


def test_views_of_an_answer(phone: Phone) -> None:
    shown = phone.say("12 ondrel frt cal brkt bolt tq")
    main = shown.text
    phone.press("More")
    assert "Row D0001, revision 1, holds for 2009-2013." in shown.text
    assert shown.labels == ["Other unit", "Less", "How I read that", "Not right?"]
    phone.press("How I read that")
    assert "“cal brkt bolt”: part: caliper bracket bolt" in shown.text
    phone.press("Less")
    assert shown.text == main
    assert len(phone.shown) == 1


def test_the_other_units_one_after_the_other(phone: Phone) -> None:
    shown = phone.say("12 ondrel frt cal brkt bolt tq")
    first_lines = []
    for _ in range(3):
        phone.press("Other unit")
        first_lines.append(shown.text.splitlines()[0])
    assert first_lines == [
        "50 lb-ft = 600 lb-in, 68 N·m (converted)",
        "50 lb-ft = 6.9 kgf·m, 68 N·m (converted)",
        "50 lb-ft = 68 N·m (converted)",
    ]


def test_a_unit_that_was_asked_for_does_not_hide_the_others(phone: Phone) -> None:
    phone.say("12 ondrel frt cal brkt bolt tq")
    shown = phone.say("in lb-in")
    assert shown.text.splitlines()[0] == "50 lb-ft = 600 lb-in, 68 N·m (converted)"
    phone.press("Other unit", on=shown)
    assert "kgf·m" in shown.text.splitlines()[0]


def test_an_answer_whose_row_is_withdrawn_shows_no_further_view(bay: Bay, phone: Phone) -> None:
    shown = phone.say("12 ondrel frt cal brkt bolt tq")
    before = shown.sheet
    bay.clock.moment = NOW.replace(year=2099) - timedelta(hours=1)  # past the review date of every row
    with bay.record.writing() as store:
        store.run("UPDATE card SET expires_at = '2100'", {})
    later(bay, minutes=0)
    phone.press("More", on=shown)
    assert shown.sheet == before or "Row D0001" in shown.text


def test_a_changed_question_changes_its_answer_and_says_so(phone: Phone) -> None:
    phone.say("12 ondrel rear bleeder socket", message="m7")
    shown = phone.change("m7", "12 ondrel frt cal brkt bolt tq")
    assert (len(phone.shown), shown.changes) == (1, 1)
    assert shown.text.startswith("50 lb-ft")
    assert shown.text.splitlines()[-1] != "", shown.text
    assert "Changed: read again after your edit." in shown.text


def test_a_change_that_changes_no_word_is_passed_over(phone: Phone) -> None:
    shown = phone.say("12 ondrel frt cal brkt bolt tq", message="m7")
    before = shown.sheet
    phone.change("m7", "12 ondrel frt cal brkt bolt tq")
    assert (shown.sheet, shown.changes) == (before, 0)


def test_a_changed_older_question_leaves_the_vehicle_on_the_lift(phone: Phone) -> None:
    old = phone.say("12 ondrel frt cal brkt bolt tq", message="m7")
    phone.say("16 wendla front bracket bolt torque")
    phone.change("m7", "12 ondrel front bracket bolt socket")
    assert old.text.splitlines()[1].startswith("2012 Brackwell Ondrel")
    assert "2016 Pelbrook Wendla" in phone.say("in nm?").text


def test_a_changed_older_question_that_is_unclear_offers_no_buttons(phone: Phone) -> None:
    old = phone.say("12 ondrel frt cal brkt bolt tq", message="m7")
    phone.say("16 wendla front bracket bolt torque")
    phone.change("m7", "12 ondrel bracket bolt torque")
    assert old.labels == []
    assert "The chat has gone on since" in old.text


def test_a_question_changed_after_a_press_starts_anew(phone: Phone) -> None:
    shown = phone.say("12 ondrel bracket bolt torque", message="m7")
    phone.press("front")
    phone.change("m7", "12 ondrel bracket bolt socket")
    assert shown.labels == ["front", "rear"]
    phone.press("rear")
    assert "REAR caliper bracket bolt, socket" in shown.text


def test_a_message_nobody_answered_can_be_changed_without_a_word_from_us(phone: Phone) -> None:
    phone.send("changed", "12 ondrel frt cal brkt bolt tq", message="m99")
    assert phone.shown == []


def test_a_message_that_comes_twice_is_answered_once(phone: Phone) -> None:
    phone.say("12 ondrel head bolt torque", message="m5")
    phone.say("12 ondrel head bolt torque", message="m5")
    assert len(phone.shown) == 1
    assert "Logged as no. 1 " in phone.last.text


def test_not_right_marks_the_answer_and_tells_the_curators(bay: Bay) -> None:
    north, south = bay.location("North"), bay.location("South")
    ana = bay.phone("Ana", technician=north)
    lead, other = bay.phone("Lead", curator=north), bay.phone("Other", curator=south)
    shown = ana.say("12 ondrel frt cal brkt bolt tq")
    ana.press("Not right?")
    assert "You marked this as not right." in shown.text
    assert ana.last.text == "What is not right? Write it in one line; it goes to the curator."
    assert "Ana (North) marked an answer as not right, note 1:" in lead.last.text
    assert "50 lb-ft" in lead.last.text
    assert ana.say("the sheet in my box says 58").text == "Note 1 is with the curator. Thank you."
    assert "the sheet in my box says 58" in lead.last.text
    assert other.shown == []
    assert ana.say("12 ondrel rear bleeder socket").text.startswith("11 mm"), "the next message is a question again"
    ana.press("More", on=shown)
    assert "You marked this as not right." in shown.text


def test_an_answer_is_marked_once(bay: Bay) -> None:
    north = bay.location("North")
    ana, lead = bay.phone("Ana", technician=north), bay.phone("Lead", curator=north)
    shown = ana.say("12 ondrel frt cal brkt bolt tq")
    old_copy = shown.button("Not right?").code
    ana.press("Not right?")
    marked, told = shown.sheet, len(lead.shown)
    assert shown.labels == ["Other unit", "More", "How I read that"]
    ana.press_code(shown, old_copy)
    assert (ana.notice, shown.sheet, len(ana.shown), len(lead.shown)) == ("You marked that already.", marked, 2, told)
    for view in ("More", "How I read that", "Other unit"):
        ana.press(view, on=shown)
        assert "Not right?" not in shown.labels
    assert bay.record.rows("SELECT count(*) FROM note", {}) == [(1,)]


def test_a_changed_question_has_an_answer_that_nobody_marked(phone: Phone) -> None:
    shown = phone.say("12 ondrel frt cal brkt bolt tq", message="m7")
    phone.press("Not right?")
    phone.press("No words")
    phone.change("m7", "12 ondrel rear bleeder socket")
    assert "You marked this as not right." not in shown.text
    assert "Not right?" in shown.labels


def test_the_curators_are_told_which_bolt_each_doubted_figure_is_for(bay: Bay) -> None:
    north = bay.location("North")
    ana, lead = bay.phone("Ana", technician=north), bay.phone("Lead", curator=north)
    ana.say("12 ondrel frt cal brkt bolt tq and rear bleeder socket")
    ana.press("Not right?")
    assert lead.last.text.splitlines() == [
        "Ana (North) marked an answer as not right, note 1:",
        "FRONT caliper bracket bolt, torque: 50 lb-ft = 68 N·m (converted)",
        "2012 Brackwell Ondrel",
        "REAR bleeder screw, socket: 11 mm",
        "2012 Brackwell Ondrel",
    ]


def test_a_note_without_words(bay: Bay, phone: Phone) -> None:
    phone.say("12 ondrel frt cal brkt bolt tq")
    phone.press("Not right?")
    asked = phone.last
    phone.press("No words")
    assert (asked.text, asked.labels) == ("Note 1 is with the curator. Thank you.", [])
    assert phone.say("12 ondrel rear bleeder socket").text.startswith("11 mm")


def test_words_that_come_too_late_are_a_question(bay: Bay, phone: Phone) -> None:
    phone.say("12 ondrel frt cal brkt bolt tq")
    phone.press("Not right?")
    later(bay, minutes=15)
    assert phone.say("12 ondrel rear bleeder socket").text.startswith("11 mm")


@pytest.mark.parametrize("kind", ["photo", "sticker", "contact", "poll", "voice"])
def test_what_is_no_text_gets_one_friendly_line(phone: Phone, kind: str) -> None:
    phone.send("media", kind=kind)
    assert [one.text for one in phone.shown] == [
        "I read text only. Write year, make and model, the part, front or rear."
    ]


def test_an_album_gets_one_line_for_all_its_pictures(phone: Phone) -> None:
    for _ in range(4):
        phone.send("media", kind="photo", album="a1")
    assert len(phone.shown) == 1


def test_the_caption_of_an_album_is_its_question(phone: Phone) -> None:
    phone.send("text", "12 ondrel frt cal brkt bolt tq", album="a2")
    for _ in range(3):
        phone.send("media", kind="photo", album="a2")
    assert [one.text.splitlines()[0] for one in phone.shown] == ["50 lb-ft = 68 N·m (converted)"]


def test_what_was_asked_long_ago_gets_one_line_and_not_a_burst(bay: Bay, phone: Phone) -> None:
    for minutes in (30, 20, 10, 6):
        phone.send("text", "12 ondrel frt cal brkt bolt tq", NOW - timedelta(minutes=minutes))
    assert [one.text.split(".")[0] for one in phone.shown] == ["I was away"]
    phone.send("text", "12 ondrel frt cal brkt bolt tq", NOW - timedelta(minutes=5))
    assert phone.last.text.startswith("50 lb-ft")
    asked = bay.record.rows("SELECT outcome FROM answer ORDER BY answer", {})
    assert asked == [("late",)] * 4 + [("answer",)]


def test_a_flood_gets_one_line_and_then_silence(bay: Bay, phone: Phone) -> None:
    for _ in range(60):
        phone.send("text", "thanks")
    slow = [one for one in phone.shown if one.text.startswith("That is more than I can take at once")]
    assert (len(phone.shown), len(slow)) == (31, 1)
    later(bay, minutes=1)
    assert phone.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")


def test_a_flood_of_one_leaves_the_others_served(bay: Bay) -> None:
    north = bay.location("North")
    ana, ben = bay.phone("Ana", technician=north), bay.phone("Ben", technician=north)
    for _ in range(60):
        ana.send("text", "thanks")
    assert ben.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")


def test_a_choice_survives_a_restart(bay: Bay, phone: Phone) -> None:
    asked = phone.say("12 ondrel bracket bolt torque")
    bay.restart()
    assert phone.press("front", on=asked).text.startswith("50 lb-ft")


def test_after_a_fault_of_ours_nothing_is_on_record_and_the_next_message_is_served(
    bay: Bay, phone: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError

    with monkeypatch.context() as broken_desk:
        broken_desk.setattr("benchbot.desk.questions.answer_sheet", broken)
        with pytest.raises(ZeroDivisionError):
            phone.say("12 ondrel frt cal brkt bolt tq")
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]
    bay.restart()
    arrivals.forget(bay.record, bay.clock())
    assert [Incoming.from_text(one).text for one in arrivals.left(bay.record, "900")] == [
        "12 ondrel frt cal brkt bolt tq"
    ]
