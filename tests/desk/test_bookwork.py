"""A curator's phone: a gap is filled field by field, interrupted, taken over, handed in, and approved by another."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from bay import Bay, Message, Phone, later
from tell_tales import sounds_english

from benchbot.curation import gaps
from benchbot.curation.approving import waiting
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records import errands, evidence, fillings, revisions
from benchbot.records.expected import one as expected_one

ASKED = "12 ondrel head bolt torque"
# an invented row, field by field as a curator types or presses it
STEPS = (
    ("press", "2012"),
    ("press", "No, for all"),
    ("say", "108"),
    ("press", "N·m"),
    ("say", "80 lb-ft"),
    ("say", "M12x1.5"),
    ("press", "10.9"),
    ("say", "Invented Brackwell sheet 12-1"),
    ("say", "p. 12"),
)
SEEN = "108 N·m (80 lb-ft, as the source prints it too)"


@pytest.fixture
def north(bay: Bay) -> Location:
    return bay.location("North")


@pytest.fixture
def ana(bay: Bay, north: Location) -> Phone:
    return bay.phone("Ana", technician=north)


@pytest.fixture
def cleo(bay: Bay, north: Location) -> Phone:
    return bay.phone("Cleo", curator=north)


@pytest.fixture
def dan(bay: Bay, north: Location) -> Phone:
    return bay.phone("Dan", curator=north)


@pytest.fixture
def whole_bay(demo_shop: Home, tmp_path: Path) -> Iterator[Bay]:
    """With the record that the demo book was made from."""
    for name in ("book.sqlite", "record.sqlite"):
        shutil.copy(demo_shop.folder / name, tmp_path / name)
    opened = Bay(Home(tmp_path))
    yield opened
    opened.close()


def begin(ana: Phone, cleo: Phone, asked: str = ASKED) -> Message:
    """The first field of the row that Ana asked for in vain."""
    ana.say(asked)
    cleo.say("/gaps")
    cleo.press("1")
    return cleo.press("Fill")


def do(phone: Phone, step: tuple[str, str]) -> Message:
    assert len(phone.last.labels) <= 8, phone.last.labels
    return phone.press(step[1]) if step[0] == "press" else phone.say(step[1])


def filled(ana: Phone, cleo: Phone) -> Message:
    begin(ana, cleo)
    for step in STEPS:
        do(cleo, step)
    return cleo.last


def handed_in(ana: Phone, cleo: Phone) -> str:
    """The id of the row."""
    filled(ana, cleo)
    cleo.press("Submit")
    return cleo.last.text.split()[0]


def test_the_gaps_are_ranked_and_shown_with_what_was_asked(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ben = bay.phone("Ben", technician=bay.location("South"))
    ana.say("12 ondrel engine mount bolt torque")
    for phone in (ana, ben):
        phone.say(ASKED)
    page = cleo.say("/gaps")
    first, counts = page.text.splitlines()[1:3]
    assert first == "1. 2012 Brackwell Ondrel, cylinder head bolt, torque"
    assert counts == "2 waiting, asked 2x, last 2026-11-25 · North 1, South 1"
    assert page.labels == ["1", "2"]
    one = cleo.press("1").text
    assert f"Ben, South, 2026-11-25: “{ASKED}”" in one
    assert "Why: Nothing checked is held of that part for this vehicle." in one


def test_a_row_is_filled_looked_at_and_handed_in(bay: Bay, ana: Phone, cleo: Phone, dan: Phone) -> None:
    page = filled(ana, cleo)
    assert page.text.splitlines()[0] == "So it will be answered:"
    assert SEEN in page.text
    assert "For 2012 Brackwell Ondrel" in page.text
    assert "fit a new one where the maker says so" in page.text
    cleo.press("Submit")
    draft = waiting(bay.record)[0]
    assert cleo.last.text == f"{draft.spec} is submitted. Somebody else has to approve it: /book."
    expected = {
        "make": "Brackwell", "model": "Ondrel", "year_from": "2012", "year_to": "2012", "only_if": "",
        "component": "cylinder head bolt", "property": "torque", "value": "108 N·m", "second_value": "80 lb-ft",
        "thread": "M12x1.5", "class": "10.9", "source": "Invented Brackwell sheet 12-1", "source_ref": "p. 12",
        "status": "draft",
    }  # fmt: skip
    assert {name: draft.cells[name] for name in expected} == expected
    assert draft.spec in dan.last.text
    assert dan.last.text.startswith("Cleo submitted")
    # the technician hears nothing of it yet
    assert ana.say(ASKED).text.startswith("Not in our book")


def test_nothing_is_lost_by_a_restart_between_any_two_steps(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS:
        bay.restart()
        do(cleo, step)
    bay.restart()
    assert SEEN in cleo.last.text
    cleo.press("Submit")
    assert [one.cells["value"] for one in waiting(bay.record)] == ["108 N·m"]


def test_it_is_left_and_gone_on_with_another_day(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS[:5]:
        do(cleo, step)
    cleo.press("Leave it for now")
    assert cleo.last.text == "Kept as it is. /gaps goes on with it."
    # nothing is awaited any more: this is a question
    assert cleo.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")
    later(bay, days=3)
    page = cleo.say("/gaps")
    cleo.press(next(one for one in page.labels if one.startswith("Go on:")))
    assert "Thread of the fastener?" in cleo.last.text
    for step in STEPS[5:]:
        do(cleo, step)
    assert SEEN in cleo.last.text


def test_a_question_in_between_is_answered_and_the_filling_goes_on(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS:
        cleo.say("12 ondrel frt cal brkt bolt tq")
        answer, again = cleo.shown[-2:]
        assert answer.text.startswith("50 lb-ft = 68 N·m"), step
        assert again.text.startswith("The row is still open:"), step
        do(cleo, step)
    assert SEEN in cleo.last.text


@pytest.mark.parametrize("said", ["2", "rear"])
def test_a_choice_of_a_question_in_between_is_no_value(bay: Bay, ana: Phone, cleo: Phone, said: str) -> None:
    begin(ana, cleo)
    for step in STEPS[:2]:
        do(cleo, step)
    cleo.say("12 ondrel bracket bolt torque")
    assert cleo.shown[-2].labels == ["front", "rear"]
    cleo.say(said)
    assert "REAR caliper bracket bolt" in cleo.shown[-2].text
    assert "The value, as the source prints it?" in cleo.last.text
    held = fillings.open_of(bay.record, cleo.person)[0].fields
    assert "value" not in held.cells and not held.half


def test_the_command_to_ask_leaves_the_entry_open(ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    do(cleo, STEPS[0])
    do(cleo, STEPS[1])
    cleo.say("/ask 12 ondrel frt cal brkt bolt tq")
    assert cleo.shown[-2].text.startswith("50 lb-ft")
    cleo.say("108 N·m")
    assert "second unit" in cleo.last.text


def test_a_unit_is_never_taken_for_granted(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS[:2]:
        do(cleo, step)
    cleo.say("80 lbs")
    assert "in which unit?" in cleo.last.text
    assert cleo.last.labels[:2] == ["lb-ft", "lb-in"]
    bay.restart()
    cleo.say("lb-ft")
    assert fillings.open_of(bay.record, cleo.person)[0].fields.cells["value"] == "80 lb-ft"


def test_two_values_that_do_not_agree_are_not_taken(ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS[:4]:
        do(cleo, step)
    page = cleo.say("800 lb-ft")
    assert "10 times: the decimal point slipped" in page.text
    assert "Is the same value printed in a second unit?" in page.text


def test_a_warning_needs_a_reason_in_words(bay: Bay, ana: Phone, cleo: Phone, dan: Phone) -> None:
    begin(ana, cleo)
    # wider than asked only because somebody types it
    for step in (("say", "2011-2013"), *STEPS[1:]):
        do(cleo, step)
    assert "2012 was asked, and the row would answer for 2011 to 2013" in cleo.last.text
    cleo.press("Submit")
    assert "Why is it right all the same?" in cleo.last.text
    cleo.say("..")
    assert "Why is it right all the same?" in cleo.last.text
    assert waiting(bay.record) == []
    cleo.say("The sheet is headed 2011 to 2013.")
    draft = waiting(bay.record)[0]
    assert [(one.concern, one.reason) for one in draft.passed] == [("scope", "The sheet is headed 2011 to 2013.")]
    dan.say(f"/book {draft.spec}")
    assert "“The sheet is headed 2011 to 2013.”" in dan.last.text


def test_back_shows_the_field_before_and_what_stands_there(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS[:5]:
        do(cleo, step)
    cleo.press("Back")
    assert "Now: 80 lb-ft" in cleo.last.text
    cleo.press("Back")
    assert "Now: 108 N·m" in cleo.last.text
    cleo.press("Keep 108 N·m")
    assert "Thread of the fastener?" in cleo.last.text


def test_another_value_asks_for_its_second_unit_again(bay: Bay, ana: Phone, cleo: Phone) -> None:
    filled(ana, cleo)
    cleo.press("Change")
    cleo.press("Next")
    cleo.press("value")
    cleo.say("95 N·m")
    assert "Is the same value printed in a second unit?" in cleo.last.text
    cleo.press("Not printed")
    assert "95 N·m = 70 lb-ft (converted)" in cleo.last.text
    assert "80 lb-ft" not in cleo.last.text


def test_what_is_added_is_shown_as_the_technician_sees_it(ana: Phone, cleo: Phone) -> None:
    filled(ana, cleo)
    cleo.press("Add")
    cleo.press("condition")
    cleo.press("dry")
    assert f"dry: {SEEN}" in cleo.last.text


def test_the_second_curator_is_told_who_has_it_and_may_take_over(ana: Phone, cleo: Phone, dan: Phone) -> None:
    begin(ana, cleo)
    for step in STEPS[:4]:
        do(cleo, step)
    dan.say("/gaps")
    dan.press("1")
    dan.press("Fill")
    assert dan.last.text.startswith("Cleo is filling this since 2026-11-25 09:00.")
    dan.press("Take over")
    assert "Is the same value printed in a second unit?" in dan.last.text
    cleo.say("80 lb-ft")
    assert cleo.last.text == "Dan has taken this over."
    for step in STEPS[4:]:
        do(dan, step)
    assert SEEN in dan.last.text


def test_what_was_handed_in_is_not_filled_once_more(ana: Phone, cleo: Phone, dan: Phone) -> None:
    spec = handed_in(ana, cleo)
    dan.say("/gaps")
    dan.press("1")
    dan.press("Fill")
    assert dan.last.text.startswith(f"Cleo handed {spec} in for this.")
    dan.press("Look at it")
    assert SEEN in dan.last.text


def test_what_is_given_up_is_open_again(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    number = gaps.groups(bay.record, bay.clock())[0].number
    for step in STEPS:
        do(cleo, step)
    for label in ("Give up", "Yes, give up"):
        cleo.press(label)
    group = gaps.group(bay.record, number)
    assert group is not None and group.state == "open"
    assert fillings.open_of(bay.record, cleo.person) == []


@pytest.mark.parametrize("label", ["Wait for a source", "Set aside"])
def test_a_gap_waits_or_is_set_aside_with_a_reason(bay: Bay, ana: Phone, cleo: Phone, label: str) -> None:
    ana.say(ASKED)
    cleo.say("/gaps")
    number = gaps.groups(bay.record, bay.clock())[0].number
    cleo.press("1")
    cleo.press(label)
    cleo.say("the dealer sends the sheet on Friday")
    assert "the dealer sends the sheet on Friday" in cleo.last.text
    group = gaps.group(bay.record, number)
    state = "waiting" if label.startswith("Wait") else "set aside"
    assert group is not None and (group.state, group.why) == (state, "the dealer sends the sheet on Friday")
    cleo.press("Open again")
    group = gaps.group(bay.record, number)
    assert group is not None and group.state == "open"


def test_another_person_approves_and_nobody_their_own(bay: Bay, ana: Phone, cleo: Phone, dan: Phone) -> None:
    spec = handed_in(ana, cleo)
    cleo.say(f"/book {spec}")
    cleo.press("Approve")
    assert cleo.last.text.startswith("Not done: You wrote this row yourself")
    dan.say("/book")
    dan.press("To approve 1")
    dan.press("1")
    assert SEEN in dan.last.text
    dan.press("Approve")
    assert dan.last.text == f"{spec} is approved. It answers from the next book on."
    newest = revisions.newest(bay.record, spec)
    assert newest is not None and (newest.status, newest.cells["checked_by"]) == ("verified", "Dan")
    for label in ("Publish", "Yes, publish"):
        dan.press(label)
    errand = errands.claim(bay.record, bay.clock())
    assert errand is not None and (errand.what, errand.body["by"]) == ("publish", dan.person)


def test_nobody_approves_what_they_have_not_seen(bay: Bay, ana: Phone, cleo: Phone, dan: Phone) -> None:
    spec = handed_in(ana, cleo)
    page = dan.say(f"/book {spec}")
    eve = bay.phone("Eve", owner=bay.people.locations()[0])
    eve.say(f"/book {spec}")
    eve.press("Send back")
    eve.say("the page is missing")
    cleo.say("/gaps")
    cleo.press(cleo.last.labels[-1])
    cleo.press("Submit")
    dan.press("Approve", on=page)
    assert page.text.startswith("Not done:")
    assert "changed since" in page.text
    assert [one.revision for one in waiting(bay.record)] == [2]


def test_sent_back_with_a_comment_the_fields_are_all_there(ana: Phone, cleo: Phone, dan: Phone) -> None:
    spec = handed_in(ana, cleo)
    dan.say(f"/book {spec}")
    dan.press("Send back")
    dan.say("which page of the sheet?")
    assert cleo.last.text == f"Dan sent {spec} back: “which page of the sheet?”. Its fields are kept: /gaps"
    page = cleo.say("/gaps")
    cleo.press(page.labels[-1])
    assert SEEN in cleo.last.text
    dan.say(f"/book {spec}")
    dan.press("History")
    assert "sent back: which page of the sheet?" in dan.last.text


def test_an_owner_alone_lets_one_person_do_it(bay: Bay, ana: Phone, cleo: Phone, north: Location) -> None:
    spec = handed_in(ana, cleo)
    assert "One person" not in cleo.say("/book").labels
    cleo.press_code(cleo.last, "bO.yes")
    assert cleo.notice == "Only an owner of this location can do that."
    olga = bay.phone("Olga", owner=north)
    olga.say("/book")
    olga.press("One person")
    olga.press("Allow")
    cleo.say(f"/book {spec}")
    cleo.press("Approve")
    assert cleo.last.text == f"{spec} is approved by its author alone; every answer will say so."


def test_a_row_of_the_book_is_corrected_and_withdrawn(whole_bay: Bay) -> None:
    cleo = whole_bay.phone("Cleo", curator=whole_bay.location("North"))
    cleo.say("/book D0001")
    assert "50 lb-ft" in cleo.last.text
    cleo.press("Correct")
    assert cleo.last.labels[0] == "50 lb-ft"
    for text in ("52 lb-ft", "-", "Invented Brackwell sheet 09-8", "p. 93"):
        cleo.say(text)
    assert "52 lb-ft" in cleo.last.text
    cleo.press("Submit")
    while "Why is it right all the same?" in cleo.last.text:
        cleo.say("the new sheet says so")
    draft = next(one for one in waiting(whole_bay.record) if one.spec == "D0001")
    assert ("value", "50 lb-ft", "52 lb-ft") in draft.changes
    cleo.say("/book D0002")
    cleo.press("Withdraw")
    cleo.say("wrong engine on that sheet")
    newest = revisions.newest(whole_bay.record, "D0002")
    assert newest is not None and newest.status == "withdrawn"


def corrected(cleo: Phone) -> None:
    """A change of D0001 waits for approval."""
    cleo.say("/book D0001")
    cleo.press("Correct")
    for text in ("52 lb-ft", "-", "Invented Brackwell sheet 09-8", "p. 93"):
        cleo.say(text)
    cleo.press("Submit")
    while "Why is it right all the same?" in cleo.last.text:
        cleo.say("the new sheet says so")


def test_a_change_is_dropped_and_the_row_goes_on_answering(whole_bay: Bay) -> None:
    cleo = whole_bay.phone("Cleo", curator=whole_bay.location("North"))
    corrected(cleo)
    page = cleo.say("/book D0001")
    assert "waits for approval" in page.text and "52 lb-ft" in page.text
    assert "Withdraw" not in page.labels and {"Drop this change", "Withdraw the row"} <= set(page.labels)
    assert len(page.labels) <= 8
    cleo.press("Drop this change")
    cleo.say("the old sheet is right")
    newest, speaking = (one(whole_bay.record, "D0001") for one in (revisions.newest, revisions.answering))
    assert newest is not None and (newest.status, newest.revision) == ("draft", 2)
    assert speaking is not None and (speaking.status, speaking.revision) == ("verified", 1)
    assert not any(one.spec == "D0001" for one in waiting(whole_bay.record))
    # what was dropped is neither shown as the row nor entered into the next correction
    page = cleo.last
    assert "revision 2" in page.text and ": dropped" in page.text and ": checked" in page.text
    assert "50 lb-ft" in page.text and "52 lb-ft" not in page.text
    assert "Withdraw" in page.labels
    cleo.press("Correct")
    assert cleo.last.labels[0] == "50 lb-ft"


def test_the_row_that_was_seen_is_withdrawn_and_published(whole_bay: Bay) -> None:
    north = whole_bay.location("North")
    cleo, dan = whole_bay.phone("Cleo", curator=north), whole_bay.phone("Dan", curator=north)
    page = dan.say("/book D0001")
    corrected(cleo)
    dan.press("Withdraw", on=page)
    assert "The whole row D0001 stops answering" in page.text
    dan.say("the sheet was recalled")
    assert "changed since" in dan.last.text
    dan.press("Withdraw the row")
    dan.say("the sheet was recalled")
    newest = revisions.newest(whole_bay.record, "D0001")
    assert newest is not None and newest.status == "withdrawn"
    assert ": withdrawn" in dan.last.text and "answers no more" in dan.last.text
    dan.press("Publish")
    assert "Yes, publish" in dan.last.labels
    assert ": withdrawn" in dan.say("/book D0001").text


def test_drafts_of_tables_are_kept_apart_from_what_was_handed_in(whole_bay: Bay) -> None:
    cleo = whole_bay.phone("Cleo", curator=whole_bay.location("North"))
    drafts = len(waiting(whole_bay.record))
    assert drafts > 5
    assert "To approve 0" in cleo.say("/book").labels
    corrected(cleo)
    cleo.say("/book")
    cleo.press("To approve 1")
    assert "1. D0001 by Cleo" in cleo.last.text and len(cleo.last.text.splitlines()) == 2
    cleo.press(f"Drafts of tables {drafts}")
    assert cleo.last.text.startswith("Drafts that came in tables:") and "D0001" not in cleo.last.text
    cleo.press("Next")
    cleo.press("Back")
    assert "1. D0001 by Cleo" in cleo.last.text


def test_a_doubt_about_a_withdrawn_row_is_settled_as_such(whole_bay: Bay) -> None:
    north = whole_bay.location("North")
    ana, cleo = whole_bay.phone("Ana", technician=north), whole_bay.phone("Cleo", curator=north)
    ana.say("12 ondrel frt cal brkt bolt tq")
    ana.press("Not right?")
    ana.say("the bolt says something else")
    cleo.say("/book")
    for label in ("Questioned 1", "1", "Withdraw"):
        cleo.press(label)
    cleo.say("the sheet was recalled")
    cleo.say("/book")
    cleo.press("Questioned 1")
    cleo.press("1")
    assert "Withdraw" not in cleo.last.labels and "Is corrected" not in cleo.last.labels
    cleo.press("Is withdrawn")
    cleo.say("recalled by its maker")
    assert whole_bay.record.rows("SELECT did, said FROM note_end", {}) == [("withdrawn", "recalled by its maker")]


@pytest.mark.parametrize("command", ["/gaps", "/book", "/book D0001"])
def test_technicians_and_groups_see_none_of_it(bay: Bay, ana: Phone, cleo: Phone, command: str) -> None:
    assert ana.say(command).text == "Only a curator or an owner of this location can do that."
    group = cleo.in_group("-100")
    assert group.say(command).text == "Do that in a private chat with me."


def test_whoever_lost_the_role_turns_no_page(bay: Bay, ana: Phone, cleo: Phone, north: Location) -> None:
    page = begin(ana, cleo)
    bay.people.change_role(cleo.person, north.number, "technician", "test", bay.clock())
    before = page.sheet
    cleo.press("2012", on=page)
    assert page.sheet == before
    assert cleo.notice == "Only a curator or an owner of this location can do that."
    cleo.say("2012")
    assert cleo.last.text == "Only a curator or an owner of this location can do that."
    assert "year_from" not in fillings.open_of(bay.record, cleo.person)[0].fields.cells


HOSTILE = [
    "=HYPERLINK(1)", "<b>x</b>", "x" * 5000, "a\u202eb", "\u0000", "'; DROP TABLE filling; --", "{0.__class__}", "@all",
]  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_refused_or_kept_as_text(bay: Bay, ana: Phone, cleo: Phone, text: str) -> None:
    begin(ana, cleo)
    for step in STEPS[:7]:
        do(cleo, step)
    cleo.say(text)
    held = fillings.open_of(bay.record, cleo.person)[0].fields.cells
    assert held.get("source", text) == text
    if "source" not in held:
        assert "Which source?" in cleo.last.text
        cleo.say("Invented Brackwell sheet 12-1")
    cleo.say("p. 12")
    assert SEEN in cleo.last.text
    cleo.press("Submit")
    assert len(waiting(bay.record)) == 1


MADE_UP = (
    "f", "fv.1", "fv.x.value.0", "fv.1.value.99", "fq.1.nonsense", "fs.999", "g1.", "wv.1.0", "a1.7", "zz", "fe.1.make",
)  # fmt: skip


@pytest.mark.parametrize("code", MADE_UP)
def test_made_up_buttons_do_nothing(bay: Bay, ana: Phone, cleo: Phone, code: str) -> None:
    page = begin(ana, cleo)
    held = fillings.open_of(bay.record, cleo.person)[0].fields.cells
    cleo.press_code(page, code)
    assert fillings.open_of(bay.record, cleo.person)[0].fields.cells == held
    assert waiting(bay.record) == []


def test_an_old_button_of_another_field_does_not_fill_this_one(bay: Bay, ana: Phone, cleo: Phone) -> None:
    page = begin(ana, cleo)
    code = page.button("2012").code
    cleo.press("2012")
    cleo.press_code(page, code)
    held = fillings.open_of(bay.record, cleo.person)[0].fields.cells
    assert held["year_from"] == "2012"
    assert "only_if" not in held


def test_in_spanish(bay: Bay) -> None:
    sur = bay.location("Sur", "es")
    ana, cleo = bay.phone("Ana", technician=sur), bay.phone("Cleo", curator=sur)
    ana.say(ASKED)
    cleo.say("/gaps")
    cleo.press("1")
    cleo.press("Llenar")
    steps = [(how, {"No, for all": "No, para todos"}.get(text, text)) for how, text in STEPS]
    for step in steps:
        assert [one for one in cleo.last.text.splitlines() if sounds_english(one)] == [], cleo.last.text
        do(cleo, step)
    assert cleo.last.text.splitlines()[0] == "Así se va a responder:"
    assert "108 N·m (80 lb-ft, como también lo imprime la fuente)" in cleo.last.text
    cleo.press("Entregar")
    assert cleo.last.text.endswith("La tiene que aprobar otra persona: /book.")


def photo(phone: Phone, file: str, album: str = "", text: str = "") -> Message:
    kind = "" if text else "photo"
    phone.send("text" if text else "media", text, kind=kind, file=file, album=album)
    return phone.last


def test_a_photo_of_the_page_is_offered_as_evidence(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    do(cleo, STEPS[0])
    photo(cleo, "FILE1")
    assert cleo.last.text == "Keep this picture with the row as its source page?"
    cleo.press("Keep")
    number = fillings.open_of(bay.record, cleo.person)[0].number
    kept = evidence.of_filling(bay.record, number)
    assert [(one.handle, one.state) for one in kept] == [("FILE1", "awaited")]
    assert [(one.code, one.title) for one in bay.fetches] == [(str(kept[0].number), "FILE1")]
    # what was awaited before is awaited still
    awaited = expected_one(bay.record, f"telegram {cleo.chat}", cleo.person, bay.clock())
    assert awaited is not None and awaited.body["field"] == "only_if"
    for step in (("say", "all"), *STEPS[2:]):
        do(cleo, step)
    assert "1 page attached" in cleo.last.text
    cleo.press("Submit")
    spec = cleo.last.text.split()[0]
    assert [(one.spec, one.revision) for one in evidence.of_filling(bay.record, number)] == [(spec, 1)]


def test_an_album_is_offered_once(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    before = len(cleo.shown)
    for file in ("FILE1", "FILE2", "FILE3"):
        photo(cleo, file, album="A1")
    assert len(cleo.shown) == before + 1
    assert cleo.last.text == "Keep these 3 pictures with the row as its source pages?"
    cleo.press("Keep")
    assert [one.title for one in bay.fetches] == ["FILE1", "FILE2", "FILE3"]


def test_a_caption_is_the_entry_and_the_picture_is_offered(bay: Bay, ana: Phone, cleo: Phone) -> None:
    begin(ana, cleo)
    photo(cleo, "FILE1", text="2012")
    assert "Keep this picture" in cleo.shown[-2].text
    assert "Only for some engine" in cleo.last.text


def test_a_photo_of_nobody_who_fills_a_row_is_no_evidence(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ana.say(ASKED)
    for phone in (ana, cleo):
        assert photo(phone, "FILE1").text.startswith("I read text only")
    assert bay.fetches == []
