"""A gap whose cause is a word, and the other pages of a curator: questioned answers, recalls, the book itself."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import pytest
from bay import Bay, Phone, later
from tell_tales import sounds_english
from test_wordings import blanks

from benchbot.curation import gaps
from benchbot.curation.importing import import_table
from benchbot.curation.settling import open_notes
from benchbot.desk.bookwork.wording import ENGLISH, BookWording, bookwords_of
from benchbot.people.terms import Location
from benchbot.places import demo_folder
from benchbot.records import errands, own_words, revisions


@pytest.fixture
def north(bay: Bay) -> Location:
    return bay.location("North")


@pytest.fixture
def ana(bay: Bay, north: Location) -> Phone:
    return bay.phone("Ana", technician=north)


@pytest.fixture
def cleo(bay: Bay, north: Location) -> Phone:
    return bay.phone("Cleo", curator=north)


def to_group(cleo: Phone, number: str = "1") -> None:
    cleo.say("/gaps")
    cleo.press(number)


def test_what_is_a_word_the_curator_says_it_and_the_words_grow(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ana.say("12 ondrel zorblatt bracket bolt torque")
    assert "“zorblatt bracket bolt”" in ana.last.text
    to_group(cleo)
    assert "Fill" not in cleo.last.labels
    cleo.press("What it means")
    bay.restart()
    cleo.say("calipr brackit bolt")
    assert cleo.last.labels[0] == "caliper bracket bolt"
    bay.restart()
    cleo.press("caliper bracket bolt")
    assert cleo.last.text == "From the next book on, “zorblatt bracket bolt” means caliper bracket bolt."
    assert revisions.shop_words(bay.record) == [("caliper bracket bolt", "zorblatt bracket bolt")]
    cleo.press("Publish")
    cleo.press("Yes, publish")
    errand = errands.claim(bay.record, bay.clock())
    assert errand is not None and errand.what == "publish"


def test_a_word_is_taken_back_where_it_was_taken(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ana.say("12 ondrel zorblatt bracket bolt torque")
    to_group(cleo)
    cleo.press("What it means")
    cleo.say("caliper bracket bolt")
    cleo.press("caliper bracket bolt")
    cleo.press("Take it back")
    assert cleo.last.text.startswith("Take back “zorblatt bracket bolt”?")
    bay.restart()
    sure = cleo.last
    cleo.press("Take it back")
    assert revisions.shop_words(bay.record) == []
    assert "No answer of the last 180 days was read through it." in cleo.last.text
    assert "Publish" in cleo.last.labels
    cleo.press_code(sure, "ky.w.1")
    assert cleo.last.text == "“zorblatt bracket bolt” was taken back before."
    assert ana.say("/book").text != cleo.last.text


def test_a_name_is_taken_back_from_the_list(bay: Bay, ana: Phone, cleo: Phone) -> None:
    # the rows that the book was made from
    import_table(bay.home, demo_folder() / "specs.csv", False, "test", bay.clock())
    for name in (*(f"zip{number}" for number in range(5)), "ondrel"):
        own_words.put_name(bay.record, "Brackwell", "Ondrel", name, cleo.person, "of the test", bay.clock())
    for _ in range(6):
        ana.say("12 ondrel frt cal brkt bolt tq")
    cleo.say("/book")
    page = cleo.press("The shop's words")
    assert "“zip0” = Brackwell Ondrel (Cleo, 2026-11-25)" in page.text
    page = cleo.press(ENGLISH.next_page)
    page = cleo.press("6. ondrel")
    page = cleo.press("Take it back")
    assert page.text.splitlines()[0] == "“ondrel” does not mean Brackwell Ondrel any more, from the next book on."
    shown = [line for line in page.text.splitlines() if "(North)" in line]
    assert len(shown) == 5 and "Ana (North)" in shown[0]
    assert "(North)" in cleo.press(ENGLISH.next_page).text
    assert [alias for _, _, alias in own_words.names(bay.record)][-5:] == [f"zip{number}" for number in range(5)]


def test_a_word_that_is_claimed_is_refused_with_the_reason(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ana.say("12 ondrel zorblatt bracket bolt torque")
    to_group(cleo)
    cleo.press("What it means")
    cleo.press("Other words")
    cleo.say("drain plug")
    cleo.say("axle nut")
    cleo.press("axle nut")
    assert cleo.last.text.startswith("“drain plug” is not taken: 'drain plug' already means")
    assert revisions.shop_words(bay.record) == []


def test_a_vehicle_that_the_shop_calls_otherwise(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ana.say("12 zippywagon front bracket bolt torque")
    group = gaps.groups(bay.record, bay.clock())[0]
    assert group.kind == "vehicle", group
    to_group(cleo)
    cleo.press("Vehicle name")
    cleo.say("brackwell ondral")
    assert cleo.last.labels[0] == "Brackwell Ondrel"
    cleo.press("Brackwell Ondrel")
    assert cleo.last.text == f"From the next book on, “{group.words}” means Brackwell Ondrel."
    assert own_words.names(bay.record) == [("Brackwell", "Ondrel", group.words)]


def test_what_is_like_nothing_is_asked_again(ana: Phone, cleo: Phone) -> None:
    ana.say("12 ondrel zorblatt bracket bolt torque")
    to_group(cleo)
    cleo.press("What it means")
    cleo.say("qqqq")
    assert cleo.last.text == "I know no part like that. Write another name of it."
    cleo.say("axle nut")
    assert cleo.last.labels[0] == "axle nut"


def test_a_list_longer_than_a_screen_is_turned(bay: Bay, ana: Phone, cleo: Phone) -> None:
    parts = (
        "wiper arm nut",
        "fender liner screw",
        "bumper bolt",
        "door hinge bolt",
        "seat bolt",
        "oil pan bolt",
        "head bolt",
    )
    for part in parts:
        later(bay, minutes=1)
        ana.say(f"12 ondrel {part} torque")
    page = cleo.say("/gaps")
    assert page.text.startswith("7 things were asked for in vain:")
    assert page.labels == ["1", "2", "3", "4", "5", "Next"]
    cleo.press("Next")
    assert page.labels == ["6", "7", "Previous"]
    cleo.press("Previous")
    assert page.labels[0] == "1"


def test_nothing_asked_in_vain(cleo: Phone) -> None:
    assert cleo.say("/gaps").text == "Nobody waits for anything. The book answered all."


def test_the_pages_of_the_book(bay: Bay, cleo: Phone) -> None:
    page = cleo.say("/book")
    assert page.text.startswith("Book 1 of 2026-11-25, 1,509 rows")
    assert len(page.labels) <= 8
    for label, told in (
        ("To approve 0", "Nothing waits for approval."),
        ("Questioned 0", "No answer is questioned."),
        ("Due 0", "No row is due for review in the next 30 days."),
        ("Recalls 0", "No value that was shown was corrected or withdrawn."),
    ):
        cleo.press(label)
        assert page.text == told
        cleo.press("Back")
    assert cleo.say("/book D9999").text == "There is no row D9999."


def test_a_publishing_all_the_same_needs_a_reason(bay: Bay, cleo: Phone) -> None:
    cleo.say("/book")
    cleo.press("Publish")
    cleo.press("All the same")
    cleo.say("the sheet was wrong for years")
    errand = errands.claim(bay.record, bay.clock())
    assert errand is not None and errand.body["accept"] == "the sheet was wrong for years"


def test_a_questioned_answer_is_settled(bay: Bay, ana: Phone, cleo: Phone) -> None:
    ana.say("12 ondrel frt cal brkt bolt tq")
    ana.press("Not right?")
    ana.say("the bolt says something else")
    notes = open_notes(bay.record)
    cleo.say("/book")
    cleo.press("Questioned 1")
    cleo.press("1")
    assert "the bolt says something else" in cleo.last.text
    cleo.press("It is right")
    cleo.say("looked at the page: it is as it stands")
    assert cleo.last.text == f"Note {notes[0].note} is settled."
    assert open_notes(bay.record) == []


@pytest.mark.parametrize("did", ["corrected", "withdrawn"])
def test_what_was_pressed_is_what_goes_on_record(bay: Bay, ana: Phone, cleo: Phone, did: str) -> None:
    ana.say("12 ondrel frt cal brkt bolt tq")
    ana.press("Not right?")
    ana.say("the bolt says something else")
    (note,) = open_notes(bay.record)
    cleo.say("/book")
    cleo.press("Questioned 1")
    cleo.press("1")
    cleo.press_code(cleo.last, f"br.{note.note}.{did}")
    cleo.say("looked at the page")
    # nothing was corrected or withdrawn yet
    assert cleo.last.text.startswith("Not settled: D0001 still says what was questioned")
    assert len(open_notes(bay.record)) == 1


def texts(words: BookWording) -> dict[str, str]:
    """Every sentence, those of the lists by list and key."""
    found: dict[str, str] = {}
    for one in fields(words):
        value: Any = getattr(words, one.name)
        if isinstance(value, str):
            found[one.name] = value
        else:
            found |= {f"{one.name} {key}": text for key, text in value.items()}
    return found


def test_every_sentence_is_there_in_spanish_with_the_same_blanks() -> None:
    english, spanish = texts(ENGLISH), texts(bookwords_of("es"))
    for where, text in english.items():
        if where not in ("language", "unfit"):
            assert blanks(spanish[where]) == blanks(text), where
            assert bool(spanish[where]) == bool(text), where


def test_no_sentence_was_left_in_english() -> None:
    english, spanish = texts(ENGLISH), texts(bookwords_of("es"))
    left = {where for where in english if english[where] == spanish[where] and english[where]}
    assert left == set()
    assert [where for where, text in spanish.items() if sounds_english(text)] == []
