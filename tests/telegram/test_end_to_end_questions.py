"""A technician asks in the private chat, over HTTP: answers, choices, gaps, changes, captions, pictures, inline."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from running_bot import SECONDS
from shop import Phone, Shop, opened

from benchbot.curation.settling import settle
from benchbot.pictures.tightening import tightening_picture
from benchbot.places import Home

ANSWER = "50 lb-ft = 68 N·m (converted)"
ASKED = "12 ondrel frt cal brkt bolt tq"
MAKER = "The vehicle maker's current service information, local codes and licensed practice come first."
TEXT_ONLY = "I read text only. Write year, make and model, the part, front or rear."
NASTY = '<b>&">'
# Bot API, sendMessage: "1-4096 characters after entities parsing".
AT_MOST = 4096
FRONT = (
    "12 ondrel front rotor min, machine to, runout, thickness variation, nominal thickness, bracket bolt torque, "
    "slide pin bolt torque, banjo bolt torque, pad min, axle nut torque, strut to knuckle bolt torque, "
    "strut mount nut torque, lower control arm bolt torque"
)


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("questions")) as shop:
        shop.start()
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    with _shop.looked_after():
        yield _shop


@pytest.fixture
def ana(shop: Shop) -> Phone:
    return shop.phone("Ana", technician="North bay")


def first_line(text: str) -> str:
    return text.splitlines()[0]


def test_a_question_a_press_and_the_answer_on_the_same_message(shop: Shop, ana: Phone) -> None:
    asked = ana.say("12 ondrel bracket bolt torque")
    assert first_line(asked.text) == "Front or rear?"
    assert asked.labels == ["front", "rear"]
    assert asked.html.startswith("<b>Front or rear?</b>\n")
    answered = ana.press("front")
    assert (answered.id, answered.edits, ana.count) == (asked.id, 1, 2)
    assert ana.notice == ""
    assert first_line(answered.text) == ANSWER
    assert answered.html.startswith("<b>50 lb-ft</b> = 68 N·m (converted)\n2012 Brackwell Ondrel, FRONT caliper")
    assert answered.labels == ["Other unit", "More", "How I read that", "Not right?"]
    assert all(len(button.data.encode()) <= 64 for row in answered.buttons for button in row)
    assert answered.reply_to is None
    assert shop.rows("SELECT outcome FROM answer WHERE person = :person", person=f"telegram {ana.person}") == [
        ("choose",),
        ("answer",),
    ]


def test_every_view_of_an_answer(ana: Phone) -> None:
    main = ana.say(ASKED)
    assert "holds for 2009-2013" in ana.press("More").text
    assert ana.last.labels == ["Other unit", "Less", "How I read that", "Not right?"]
    assert "“cal brkt bolt”: part: caliper bracket bolt" in ana.press("How I read that").text
    assert ana.press("Less").text == main.text
    assert first_line(ana.press("Other unit").text) == "50 lb-ft = 600 lb-in, 68 N·m (converted)"
    assert len(ana.shown) == 2


def test_a_second_press_of_a_button_that_is_gone_changes_nothing(ana: Phone) -> None:
    asked = ana.say("12 ondrel bracket bolt torque")
    data = asked.data("front")
    ana.press("front")
    assert ana.press_only("front", asked, data) == "That is answered already."
    assert (ana.last.edits, ana.count) == (1, 2)


def test_a_press_on_a_message_that_was_deleted_is_answered_and_no_more(shop: Shop, ana: Phone) -> None:
    """The Bot API gives such a message as an InaccessibleMessage, whose date is 0."""
    asked = ana.say("12 ondrel bracket bolt torque")
    shop.server.retract(ana.chat, asked.id)
    ana.press_only("rear", asked, asked.data("rear"))
    # What stood on it is shown anew: the edit of a message that is gone is refused.
    shown = ana.answer(3)
    assert shown.id != asked.id
    assert first_line(shown.text).startswith("Not in our book")
    shop.settle()
    assert shop.refusals() == ["editmessagetext: Bad Request: message to edit not found"]


def test_a_gap_is_logged_with_its_number(shop: Shop, ana: Phone) -> None:
    shown = ana.say("12 ondrel head bolt torque")
    assert first_line(shown.text).startswith("Not in our book: 2012 Brackwell Ondrel, cylinder head bolt, torque.")
    [(number, location)] = shop.rows(
        "SELECT gap, location.name FROM gap JOIN location USING (location) ORDER BY gap DESC LIMIT 1"
    )
    assert f"Logged as no. {number} for the curator." in shown.text
    assert location == "North bay"
    assert MAKER in shown.text
    assert shown.labels == ["Done already"]


def test_what_a_person_writes_is_never_taken_for_marks(shop: Shop) -> None:
    zoe = shop.phone(f"Zoë {NASTY}", technician=f"Bay {NASTY}")
    assert zoe.last.text.startswith(f"You are in: technician at Bay {NASTY}.")
    assert zoe.last.html.startswith("<b>You are in: technician at Bay &lt;b&gt;&amp;")
    assert zoe.say("/start").text.startswith(f"Zoë {NASTY}, you stand at Bay {NASTY} (technician).")
    assert first_line(zoe.say(f"12 ondrel {NASTY} frt cal brkt bolt tq").text) == ANSWER
    assert "“b”: left out of account" in zoe.press("How I read that").text
    assert zoe.say(f"12 ondrel <i>blarg</i> & {NASTY} front bracket bolt").labels == ["leave out “blarg”"]
    assert zoe.say(f"{NASTY} & </i>").labels == []
    assert zoe.say(f"/torque {NASTY}").text == "I do not know /torque. /help says what I can do."
    held = shop.rows("SELECT name FROM person WHERE person = :person", person=f"telegram {zoe.person}")
    assert held == [(f"Zoë {NASTY}",)]


def test_a_note_goes_to_the_curator_with_its_words_as_they_are(shop: Shop) -> None:
    place = f"Pit {NASTY}"
    lead = shop.phone("Lead", curator=place)
    ana = shop.phone(f"Ana {NASTY}", technician=place)
    shown = ana.say(ASKED)
    assert "You marked this as not right." in ana.press("Not right?", shown).text
    told = lead.answer(2).text
    assert told.startswith(f"Ana {NASTY} ({place}) marked an answer as not right, note 1:\n50 lb-ft")
    assert ana.answer(3).text == "What is not right? Write it in one line; it goes to the curator."
    assert ana.say(f"the sheet says {NASTY} 58").text == "Note 1 is with the curator. Thank you."
    assert f"the sheet says {NASTY} 58" in lead.answer(3).text
    # Until a curator has looked, everybody is warned; then nobody is.
    ben = shop.phone("Ben", technician="North bay")
    assert "Questioned on " in ben.say(ASKED).text
    settle(shop.record, 1, "right", "the sheet was another vehicle's", f"telegram {lead.person}", datetime.now(UTC))
    assert "Questioned on " not in ben.say(ASKED).text


def test_a_changed_question_changes_its_answer(ana: Phone) -> None:
    """The update has an edited_message and no message."""
    shown = ana.say("12 ondrel rear bleeder socket")
    assert first_line(shown.text).startswith("11 mm")
    changed = ana.change(ASKED)
    assert (changed.id, changed.edits, ana.count) == (shown.id, 1, 2)
    assert first_line(changed.text) == ANSWER
    assert "Changed: read again after your edit." in changed.text


def test_a_change_that_changes_no_word_is_passed_over(shop: Shop, ana: Phone) -> None:
    shown = ana.say(ASKED)
    shop.server.edit(ana.chat, ana.said, ASKED)
    ana.say("12 ondrel rear bleeder socket")
    assert shop.server.message(ana.chat, shown.id) == shown


def test_a_choice_and_then_a_change(ana: Phone) -> None:
    ana.say("12 ondrel bracket bolt torque")
    ana.press("front")
    assert ana.change("12 ondrel bracket bolt socket").labels == ["front", "rear"]
    assert "REAR caliper bracket bolt, socket" in ana.press("rear").text


def test_the_caption_of_a_picture_is_a_question(ana: Phone) -> None:
    sent = ana.count
    ana.show("photo", ASKED)
    assert first_line(ana.answer(sent + 1).text) == ANSWER
    assert first_line(ana.change("12 ondrel rear bleeder socket").text).startswith("11 mm")
    ana.show("document", ASKED)
    assert first_line(ana.answer(sent + 2).text) == ANSWER


@pytest.mark.parametrize("kind", ["photo", "document", "voice", "video", "sticker", "contact", "location", "poll"])
def test_what_has_no_words_gets_one_line(ana: Phone, kind: str) -> None:
    sent = ana.count
    ana.show(kind)
    assert ana.answer(sent + 1).text == TEXT_ONLY


def test_an_album_gets_one_answer(shop: Shop, ana: Phone) -> None:
    sent = ana.count
    shop.server.album(ana.chat, ["", "", "", ""])
    assert ana.answer(sent + 1).text == TEXT_ONLY
    shop.server.album(ana.chat, [ASKED, "", ""])
    assert first_line(ana.answer(sent + 2).text) == ANSWER
    assert ana.say("/vehicle").text.startswith("On the lift: 2012 Brackwell Ondrel.")
    assert ana.count == sent + 3, "the pictures without words got lines of their own"


def test_a_long_answer_stays_one_message(ana: Phone) -> None:
    shown = ana.say(FRONT)
    assert 3000 < len(shown.text) <= AT_MOST
    assert shown.labels[-1] == "Not right?"
    ana.say("/vehicle")
    assert ana.count == 3


def test_a_view_too_long_for_one_message_leaves_whole_parts_out(ana: Phone) -> None:
    shown = ana.say(f"{FRONT}, lug nut torque")
    assert 3800 < len(shown.text) <= AT_MOST
    more = ana.press("More")
    assert (more.id, ana.count) == (shown.id, 2)
    assert len(more.text) <= AT_MOST
    assert "6 parts are left out, as one message holds no more. Ask for each by itself:" in more.text
    assert more.labels == ["Other unit", "Less", "How I read that", "Not right?"]
    assert ana.press("Less").text == shown.text
    ana.say("/vehicle")
    assert ana.count == 3


def test_a_text_as_long_as_one_can_be_is_answered(ana: Phone) -> None:
    shown = ana.say("12 ondrel front bracket bolt torque " + "and then some " * 280)
    assert len(shown.text) <= AT_MOST


def test_the_vehicle_on_the_lift(ana: Phone) -> None:
    for vehicle in ("12 ondrel", "16 wendla"):
        ana.say(f"{vehicle} lug nut torque")
    page = ana.say("/vehicle")
    assert page.labels == ["2012 Brackwell Ondrel", "Clear"]
    assert ana.press("2012 Brackwell Ondrel").text.startswith("On the lift: 2012 Brackwell Ondrel.")
    assert "2012 Brackwell Ondrel, FRONT" in ana.say("front bracket bolt torque").text
    assert ana.press("Clear", page).text.startswith("No vehicle is on the lift.")
    assert ana.say("front bracket bolt torque").text.startswith("Which vehicle")


def test_an_inline_query_offers_a_clean_answer_that_can_be_sent_anywhere(shop: Shop, ana: Phone) -> None:
    server = shop.server
    found = ana.inline(ASKED)
    [result] = found.results
    assert (result.title, result.description) == (
        "50 lb-ft (68 N·m converted)",
        "2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque",
    )
    assert "Caution: Brake dust" in result.text
    assert "Source: " in result.text
    assert (found.personal, found.cache_time, found.button) == (True, 0, None)
    # Elsewhere: the bot sees what was sent there, and knows it for its own.
    crew = shop.group(ana, privacy=False)
    made = server.choose(found.query, result.id, crew)
    assert made.update is not None
    assert ana.in_group(crew).say("/ask").text.startswith("Write the question behind it")
    seen = [(one.via_bot, one.ours) for one in server.transcript(crew)]
    assert seen == [(True, False), (False, False), (False, True)]
    # Only what was sent is on record, and that because the messenger tells of it.
    shop.settle()
    asked = shop.rows("SELECT asked, outcome FROM answer WHERE chat = :chat", chat=f"telegram {ana.person} inline")
    assert asked == [(ASKED, "answer")]


@pytest.mark.parametrize("text", ["", "12 ondrel bracket bolt torque", "12 ondrel head bolt torque", "thanks", NASTY])
def test_an_inline_query_that_has_no_clean_answer_offers_nothing(ana: Phone, text: str) -> None:
    found = ana.inline(text)
    assert (found.results, found.button) == ((), None)


def test_an_inline_query_of_a_stranger_is_refused(shop: Shop) -> None:
    stranger = shop.newcomer("Zed")
    found = stranger.inline(ASKED)
    assert found.results == ()
    assert found.button == {"text": "Ask your shop for an invite.", "start_parameter": "invite"}
    # What pressing that button hands in.
    assert stranger.say("/start invite").text == "Ask your shop for an invite."


def test_a_press_or_a_query_that_is_too_old_to_be_answered_harms_nothing(shop: Shop, ana: Phone) -> None:
    """Bot API, answerCallbackQuery: there is a time after which the server takes no answer."""
    ana.say("12 ondrel bracket bolt torque")
    shop.server.settings(query_seconds=0)
    shop.server.press(ana.chat, ana.last.id, "front")
    shop.server.wait_for(ana.chat, SECONDS, edits=1)
    assert first_line(ana.last.text) == ANSWER
    shop.log.wait("not answered in time", what="notice")
    shop.server.settings(query_seconds=60)
    old = "query is too old and response timeout expired or query ID is invalid"
    assert shop.refusals() == [f"answercallbackquery: Bad Request: {old}"]


def test_updates_that_nobody_wrote_are_passed_over(shop: Shop, ana: Phone) -> None:
    """Kinds that a messenger may add, and one that the library cannot take in, do not hold up the next question."""
    sent = ana.count
    shop.server.raw_update("message", {"message_id": 1, "date": "yesterday"})
    shop.server.raw_update("message", {"of": "next year"})
    assert first_line(ana.say(ASKED).text) == ANSWER
    assert ana.count == sent + 1
    shop.log.wait("an update that cannot be read was skipped", 2)
    assert [one.partition(":")[0] for one in shop.faults()] == ["an update that cannot be read was skipped"] * 2


def test_the_picture_of_a_step_comes_once(ana: Phone) -> None:
    step = ana.say("lug order")
    asked = ana.press("Picture", step)
    assert asked.labels[-6:] == ["3", "4", "5", "6", "8", "10"]
    sent = ana.count
    ana.press_only("8", asked)
    shown = ana.answer(sent + 1)
    assert (shown.photo, shown.text) == (tightening_picture(8), "Tightening order, 8 studs: 1-5-3-7-2-6-4-8")
    assert ana.press_only("8", asked) == "That picture is here already."
    assert ana.count == sent + 1
