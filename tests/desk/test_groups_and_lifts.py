"""Groups, inline queries and the vehicle on the lift."""

from __future__ import annotations

from datetime import timedelta

import pytest
from bay import Bay, Phone, later

from benchbot.desk.incoming import Incoming
from benchbot.desk.limits import INLINE_A_MINUTE, PERSON_A_MINUTE
from benchbot.desk.pages import length
from benchbot.desk.wording import ENGLISH
from benchbot.errors import RecordError
from benchbot.records import arrivals

GROUP = "-1001"


@pytest.fixture
def ana(bay: Bay) -> Phone:
    return bay.phone("Ana", technician=bay.location("North"))


@pytest.fixture
def ben(bay: Bay, ana: Phone) -> Phone:
    return bay.phone("Ben", technician=bay.people.memberships(ana.person)[0].location)


def test_in_a_group_the_answer_quotes_the_question_in_its_topic(ana: Phone) -> None:
    group = ana.in_group(GROUP, "7")
    shown = group.say("12 ondrel frt cal brkt bolt tq", message="m3")
    assert (shown.quote, shown.topic, shown.text[:8]) == ("m3", "7", "50 lb-ft")


def test_a_choice_belongs_to_whoever_asked(ana: Phone, ben: Phone) -> None:
    asked = ana.in_group(GROUP).say("12 ondrel bracket bolt torque")
    before = asked.sheet
    ben.in_group(GROUP).press("front", on=asked)
    assert (ben.notice, asked.sheet) == ("That is Ana's. Ask your own.", before)
    ana.in_group(GROUP).press("front", on=asked)
    assert asked.text.startswith("50 lb-ft")


def test_the_name_of_somebody_from_another_location_is_not_told(bay: Bay, ana: Phone) -> None:
    zoe = bay.phone("Zoe", technician=bay.location("South"))
    asked = ana.in_group(GROUP).say("12 ondrel bracket bolt torque")
    zoe.in_group(GROUP).press("front", on=asked)
    assert zoe.notice == "That belongs to somebody else. Ask your own."


def test_each_member_of_a_group_has_their_own_vehicle(ana: Phone, ben: Phone) -> None:
    one, other = ana.in_group(GROUP), ben.in_group(GROUP)
    one.say("12 ondrel")
    other.say("16 wendla")
    assert "2012 Brackwell Ondrel" in one.say("front bracket bolt torque").text
    assert "2016 Pelbrook Wendla" in other.say("front bracket bolt torque").text


def test_the_group_and_the_private_chat_are_two_chats(ana: Phone) -> None:
    ana.say("12 ondrel")
    assert ana.in_group(GROUP).say("front bracket bolt torque").text.startswith("Which vehicle")


def test_each_topic_has_its_own_vehicle_and_its_own_pending_question(ana: Phone) -> None:
    bay_1, bay_2, general = ana.in_group(GROUP, "7"), ana.in_group(GROUP, "8"), ana.in_group(GROUP)
    asked = bay_1.say("12 ondrel bracket bolt torque")
    assert "2016 Pelbrook Wendla" in bay_2.say("16 wendla lug nut torque").text
    bay_1.press("front", on=asked)
    assert "2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque" in asked.text
    assert bay_1.say("/vehicle").text.startswith("On the lift: 2012 Brackwell Ondrel.")
    assert bay_2.say("/vehicle").text.startswith("On the lift: 2016 Pelbrook Wendla.")
    assert general.say("/vehicle").text.startswith("No vehicle is on the lift.")
    assert "2012 Brackwell Ondrel" in bay_1.say("rear bleeder socket").text
    assert general.say("front bracket bolt torque").text.startswith("Which vehicle")


def test_in_one_topic_each_member_has_their_own_vehicle(ana: Phone, ben: Phone) -> None:
    one, other = ana.in_group(GROUP, "7"), ben.in_group(GROUP, "7")
    one.say("12 ondrel")
    other.say("16 wendla")
    assert "2012 Brackwell Ondrel" in one.say("front bracket bolt torque").text
    assert "2016 Pelbrook Wendla" in other.say("front bracket bolt torque").text


def test_a_press_belongs_to_the_topic_of_its_question_wherever_the_message_stands(ana: Phone) -> None:
    """A messenger posts outside of a topic that was closed, and of an old message does not say where it stands."""
    asked = ana.in_group(GROUP, "7").say("12 ondrel bracket bolt torque")
    ana.in_group(GROUP).press("front", on=asked)
    assert asked.text.startswith("50 lb-ft")
    assert "2012 Brackwell Ondrel" in ana.in_group(GROUP, "7").say("rear bleeder socket").text


def test_a_button_of_one_chat_changes_nothing_in_another(ana: Phone) -> None:
    asked = ana.in_group(GROUP, "7").say("12 ondrel bracket bolt torque")
    before = asked.sheet
    for elsewhere in (ana, ana.in_group("-100"), ana.in_group("-10017", "7")):
        elsewhere.press("front", on=asked)
        assert (ana.notice, asked.sheet) == ("That is too old. Ask again.", before)


def test_a_stranger_in_the_group_gets_one_line(bay: Bay, ana: Phone) -> None:
    stranger = bay.phone("Zed").in_group(GROUP)
    assert stranger.say("12 ondrel frt cal brkt bolt tq").text == "Ask your shop for an invite."


def test_a_code_said_in_a_group_lets_nobody_in(bay: Bay) -> None:
    stranger = bay.phone("Zed").in_group(GROUP)
    assert stranger.say("/start K7QPM-2XWDH-9RTVA").text == "Ask your shop for an invite."


def inline(phone: Phone, text: str) -> tuple[list[str], str]:
    """The titles offered, and the refusal."""
    asker = Phone(phone.bay, phone.person, phone.name, "", False)
    asker.chat = ""
    asker.send("inline", text, query="i1", message="x")
    offers = phone.bay.offers[-1]
    return [offer.title for offer in offers.offers], offers.refusal


def test_inline_offers_a_clean_answer_to_members(bay: Bay, ana: Phone) -> None:
    assert inline(ana, "12 ondrel frt cal brkt bolt tq") == (["50 lb-ft (68 N·m converted)"], "")
    offer = bay.offers[-1].offers[0]
    assert offer.line == "2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque"
    assert any(block.kind == "caution" for block in offer.sheet.blocks)
    assert any(block.kind == "source" for block in offer.sheet.blocks)


def test_what_is_only_typed_goes_on_no_record_and_what_was_sent_does(bay: Bay, ana: Phone) -> None:
    question = "12 ondrel frt cal brkt bolt tq"
    for end in range(12, len(question) + 1):
        inline(ana, question[:end])
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]
    asker = Phone(bay, ana.person, ana.name, "", False)
    asker.chat = ""
    asker.send("chosen", question, message="x")
    asker.send("chosen", "12 ondrel head bolt torque", message="x")
    bay.phone("Zed").send("chosen", question, chat="", private=False)
    place = bay.people.memberships(ana.person)[0].location.number
    rows = "SELECT outcome, asked, location, spec FROM answer JOIN answer_spec USING (answer)"
    assert bay.record.rows(rows, {}) == [("answer", question, place, "D0001")]
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(1,)]
    assert bay.record.rows("SELECT count(*) FROM gap", {}) == [(0,)]


def choose(phone: Phone, text: str, code: str) -> None:
    phone.send("chosen", text, message=code, chat="", private=False)


def test_an_offer_of_somebody_else_is_not_taken_for_ones_own(bay: Bay, ana: Phone) -> None:
    question = "12 ondrel frt cal brkt bolt tq"
    inline(ana, question)
    code = bay.offers[-1].offers[0].code
    bo = bay.phone("Bo", technician=bay.people.memberships(ana.person)[0].location)
    choose(bo, "12 ondrel head bolt torque", code)
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]


def test_what_is_typed_on_and_shows_the_same_is_kept_once(bay: Bay, ana: Phone) -> None:
    for _ in range(3):
        inline(ana, "12 ondrel frt cal brkt bolt tq")
    assert bay.record.rows("SELECT count(*) FROM card WHERE kind = 'offer'", {}) == [(1,)]


def test_typing_inline_uses_up_no_questions(bay: Bay, ana: Phone) -> None:
    for _ in range(INLINE_A_MINUTE):
        assert inline(ana, "12 ondrel frt cal brkt bolt tq")[0]
    assert inline(ana, "12 ondrel frt cal brkt bolt tq") == ([], "")
    assert ana.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")
    later(bay, minutes=1)
    assert inline(ana, "12 ondrel frt cal brkt bolt tq")[0]


def test_a_press_that_is_held_back_leaves_the_line_to_the_next_question(bay: Bay, ana: Phone) -> None:
    asked = ana.say("12 ondrel bracket bolt torque")
    for _ in range(PERSON_A_MINUTE - 1):
        ana.say("thanks")
    for _ in range(2):
        ana.press("front", on=asked)
        assert ana.notice == ENGLISH.too_many
    said = len(ana.shown)
    for _ in range(3):
        ana.say("thanks")
    assert [one.text for one in ana.shown[said:]] == [ENGLISH.too_many]
    ana.press("front", on=asked)
    assert ana.notice == ENGLISH.too_many


def test_a_line_that_could_not_be_posted_is_posted_with_the_next_question(
    bay: Bay, ana: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    for _ in range(PERSON_A_MINUTE):
        ana.say("thanks")

    def fail(*_: object) -> None:
        raise RecordError("of the test")

    with monkeypatch.context() as patch, pytest.raises(RecordError):
        patch.setattr(arrivals, "handled", fail)
        ana.say("thanks")
    bay.desk.take(Incoming("900", 10**6, "text", ana.chat, True, ana.person, ana.name, bay.clock(), text="thanks"))
    bay.deliver()
    assert ana.last.text == ENGLISH.too_many


@pytest.mark.parametrize("command", ["deploy", "settings", "lift"])
@pytest.mark.parametrize("member", [True, False])
def test_a_command_of_another_bot_in_a_group_is_not_answered(bay: Bay, ana: Phone, command: str, member: bool) -> None:
    group = (ana if member else bay.phone("Zed")).in_group(GROUP)
    group.send("text", "now", command=command, addressed=False)
    group.send("nobody", "now", command=command, addressed=False)
    group.send("text", "now", command=command, addressed=False, at=bay.clock() - timedelta(hours=1))
    assert group.shown == []
    if member:
        assert group.say(f"/{command}").text == ENGLISH.unknown_command.format(command=command)
        group.send("text", "12 ondrel frt cal brkt bolt tq", command="ask", addressed=False)
        assert group.last.text.startswith("50 lb-ft")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "12 ondrel bracket bolt torque",
        "12 ondrel head bolt torque",
        "thanks",
        "12 ondrel frt cal brkt bolt tq and head bolts",
    ],
)
def test_inline_offers_nothing_else(bay: Bay, ana: Phone, text: str) -> None:
    assert inline(ana, text) == ([], "")
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]
    assert bay.record.rows("SELECT count(*) FROM gap", {}) == [(0,)]


def test_inline_offers_nothing_that_one_message_does_not_hold(
    bay: Bay, ana: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert len(inline(ana, "12 ondrel frt cal brkt bolt tq")[0]) == 1
    size = length(bay.offers[-1].offers[0].sheet.blocks)
    monkeypatch.setattr("benchbot.desk.inline.SHOWN_AT_MOST", size)
    assert len(inline(ana, "12 ondrel frt cal brkt bolt tq")[0]) == 1
    monkeypatch.setattr("benchbot.desk.inline.SHOWN_AT_MOST", size - 1)
    assert inline(ana, "12 ondrel frt cal brkt bolt tq") == ([], "")


def test_inline_knows_no_vehicle_on_a_lift(ana: Phone) -> None:
    ana.say("12 ondrel")
    assert inline(ana, "front bracket bolt torque") == ([], "")


def test_inline_refuses_strangers(bay: Bay) -> None:
    assert inline(bay.phone("Zed"), "12 ondrel frt cal brkt bolt tq") == ([], "Ask your shop for an invite.")


def test_the_vehicle_is_shown_changed_and_cleared(bay: Bay, ana: Phone) -> None:
    assert ana.say("/vehicle").text.startswith("No vehicle is on the lift.")
    for vehicle in ("12 ondrel", "16 wendla", "15 ondrel"):
        ana.say(f"{vehicle} lug nut torque")
        later(bay, minutes=1)
    page = ana.say("/vehicle")
    assert page.text.splitlines()[0] == "On the lift: 2015 Brackwell Ondrel."
    assert "I ask again after 4 h" in page.text
    assert page.labels == ["2016 Pelbrook Wendla", "2012 Brackwell Ondrel", "Clear"]
    ana.press("2012 Brackwell Ondrel", on=page)
    assert page.text.splitlines()[0] == "On the lift: 2012 Brackwell Ondrel."
    assert "2012 Brackwell Ondrel" in ana.say("front bracket bolt torque").text
    ana.press("Clear", on=page)
    assert page.text.startswith("No vehicle is on the lift.")
    assert ana.say("front bracket bolt torque").text.startswith("Which vehicle")


def test_a_vehicle_named_behind_the_command_is_put_on_the_lift(ana: Phone) -> None:
    assert ana.say("/vehicle 12 ondrel").text.startswith("2012 Brackwell Ondrel: what do you need of it?")
    assert "2012 Brackwell Ondrel" in ana.say("front bracket bolt torque").text


def test_the_vehicle_stands_in_every_answer_and_is_asked_again_after_its_hours(bay: Bay, ana: Phone) -> None:
    ana.say("12 ondrel")
    assert "2012 Brackwell Ondrel" in ana.say("front bracket bolt torque").text
    later(bay, hours=4)
    asked = ana.say("front bracket bolt torque")
    assert asked.labels == ["2012 Brackwell Ondrel"]
    ana.press("2012 Brackwell Ondrel", on=asked)
    assert asked.text.startswith("50 lb-ft")


def test_another_vehicle_named_since_is_asked_about(bay: Bay, ana: Phone) -> None:
    ana.say("12 ondrel front bracket bolt torque")
    later(bay, minutes=1)
    ana.say("16 wendla front bracket bolt torque")
    asked = ana.say("lug nut torque")
    assert asked.labels == ["2016 Pelbrook Wendla", "2012 Brackwell Ondrel"]
    ana.press("2012 Brackwell Ondrel", on=asked)
    assert "2012 Brackwell Ondrel, wheel nut, torque" in asked.text


def test_clearing_the_lift_closes_the_question_that_was_open(ana: Phone) -> None:
    asked = ana.say("12 ondrel bracket bolt torque")
    page = ana.say("/vehicle")
    ana.press("Clear", on=page)
    ana.press("front", on=asked)
    assert ana.notice == "That question is closed. Ask again."


def test_an_unsure_message_is_shown_when_it_is_asked_for(bay: Bay, ana: Phone) -> None:
    from benchbot.desk.handling import plain
    from benchbot.desk.sheets import Parcel
    from benchbot.records import outbox

    record = bay.record
    body = Parcel("post", ana.chat, plain("the answer")).to_text()
    with record.writing() as store:
        number = outbox.add(store, "900", ana.chat, body, bay.clock())
    outbox.claim(record, "900", (), bay.clock(), 1)
    outbox.ended(record, number, "unsure", "timed out", bay.clock())
    line = ana.say("thanks")
    ana.send("press", f"0:again.{number}", message=line.id, query="q")
    assert line.text == "the answer"
    ana.send("press", f"0:again.{number}", message=line.id, query="q")
    assert ana.notice == "That message is not kept any more. Ask again."
