"""A button pressed twice, or from another time, changes nothing; long lists have further pages."""

from __future__ import annotations

import pytest
from bay import Bay, Message, Phone, later

from benchbot.records import cards, outbox


@pytest.fixture
def ana(bay: Bay) -> Phone:
    return bay.phone("Ana", technician=bay.location("North bay"))


@pytest.fixture
def owner(bay: Bay) -> Phone:
    return bay.phone("Olga", owner=bay.location("North bay"))


def open_invites(bay: Bay) -> int:
    return int(bay.record.rows("SELECT count(*) FROM invite WHERE revoked_at = '' AND author <> 'test'", {})[0][0])


def named(bay: Bay, phone: Phone, *vehicles: str) -> None:
    for vehicle in vehicles:
        phone.say(f"{vehicle} lug nut torque")
        later(bay, minutes=1)


def test_a_vehicle_pressed_twice_stays_the_one_that_was_pressed(bay: Bay, ana: Phone) -> None:
    named(bay, ana, "12 ondrel", "16 wendla", "15 ondrel")
    page = ana.say("/vehicle")
    code = page.button("2016 Pelbrook Wendla").code
    ana.press_code(page, code)
    after = page.sheet
    assert page.text.startswith("On the lift: 2016 Pelbrook Wendla.")
    ana.press_code(page, code)
    assert (page.sheet, ana.notice) == (after, "That is answered already.")
    assert "2016 Pelbrook Wendla" in ana.say("lug nut torque").text


def test_clear_pressed_twice_does_not_clear_the_vehicle_named_since(bay: Bay, ana: Phone) -> None:
    named(bay, ana, "12 ondrel")
    page = ana.say("/vehicle")
    code = page.button("Clear").code
    ana.press_code(page, code)
    ana.say("16 wendla lug nut torque")
    ana.press_code(page, code)
    assert ana.notice == "That is answered already."
    assert ana.say("/vehicle").text.startswith("On the lift: 2016 Pelbrook Wendla.")


@pytest.mark.parametrize("code", ["v1", "v1.0", "v1.9", "v2.1", "v.1", "clear", "clear.2", "vx.1", "v1.١"])
def test_a_vehicle_button_that_nobody_made(bay: Bay, ana: Phone, code: str) -> None:
    named(bay, ana, "12 ondrel", "16 wendla")
    page = ana.say("/vehicle")
    before = page.sheet
    ana.press_code(page, code)
    assert (page.sheet, ana.notice) == (before, "That question is closed. Ask again.")


def test_four_other_vehicles_are_offered_beside_the_one_on_the_lift(bay: Bay, ana: Phone) -> None:
    named(bay, ana, "10 ondrel", "11 ondrel", "12 ondrel", "16 wendla", "13 ondrel", "15 ondrel")
    assert ana.say("/vehicle").labels == [
        "2013 Brackwell Ondrel",
        "2016 Pelbrook Wendla",
        "2012 Brackwell Ondrel",
        "2011 Brackwell Ondrel",
        "Clear",
    ]


def test_a_car_named_with_and_without_its_drive_is_offered_once(bay: Bay, ana: Phone) -> None:
    named(bay, ana, "12 ondrel", "12 ondrel 4wd", "16 wendla")
    assert ana.say("/vehicle").labels == ["2012 Brackwell Ondrel 4WD", "Clear"]
    named(bay, ana, "12 ondrel")
    assert ana.say("/vehicle").labels == ["2016 Pelbrook Wendla", "Clear"]


def test_two_cars_that_differ_in_their_drive_are_both_offered(bay: Bay, ana: Phone) -> None:
    named(bay, ana, "12 ondrel 2wd", "12 ondrel 4wd", "16 wendla")
    assert ana.say("/vehicle").labels == ["2012 Brackwell Ondrel 4WD", "2012 Brackwell Ondrel 2WD", "Clear"]


def kinds(owner: Phone) -> Message:
    page = owner.say("/invite")
    owner.press("technician", on=page)
    return page


def test_an_invite_is_made_once_however_often_its_button_is_pressed(bay: Bay, owner: Phone) -> None:
    page = kinds(owner)
    one, wall = page.button("One person, 2 days").code, page.button("On the wall: 20 people, 30 days").code
    for code in (one, one, wall, one):
        owner.press_code(page, code)
    assert owner.notice == "That is answered already."
    assert (open_invites(bay), len([shown for shown in owner.shown if shown.picture])) == (1, 1)


def test_a_second_invite_is_made_from_the_page_once_more(bay: Bay, owner: Phone) -> None:
    page = kinds(owner)
    for label in ("One person, 2 days", "Back", "Invite", "technician", "One person, 2 days"):
        owner.press(label, on=page)
    assert open_invites(bay) == 2


def test_yes_remove_pressed_twice_still_says_that_they_are_removed(bay: Bay, owner: Phone) -> None:
    bay.phone("Ana", technician=bay.people.locations()[0])
    page = owner.say("/people")
    owner.press("Ana (technician)", on=page)
    owner.press("Remove", on=page)
    code = page.button("Yes, remove").code
    owner.press_code(page, code)
    owner.press_code(page, code)
    assert (page.text, owner.notice) == ("Ana is removed from North bay.", "That is answered already.")


def test_what_was_refused_can_be_pressed_again(bay: Bay) -> None:
    olga = bay.phone("Olga", owner=bay.people.open_first("Only bay", bay.clock()))
    page = olga.say("/people")
    olga.press("Olga (owner)", on=page)
    code = page.button("Make technician").code
    olga.press_code(page, code)
    assert "keeps one owner" in page.text
    bay.phone("Otto", owner=bay.people.locations()[0])
    olga.press_code(page, code)
    assert "Olga is technician at Only bay now." in page.text


def test_every_open_invite_can_be_revoked_in_the_chat(bay: Bay, owner: Phone) -> None:
    for _ in range(8):
        owner.press("One person, 2 days", on=kinds(owner))
    page = owner.press("North bay", on=owner.say("/locations"))
    revoked = 0
    while open_invites(bay):
        later(bay, minutes=1)
        owner.press("Open invites", on=page)
        if "Next" in page.labels:
            owner.press("Next", on=page)
            assert "Previous" in page.labels
        owner.press([label for label in page.labels if label.startswith("Revoke")][-1], on=page)
        revoked += 1
    assert revoked == 8


def test_every_location_can_be_stood_at(bay: Bay, ana: Phone) -> None:
    for number in range(9):
        bay.let_in(ana, bay.location(f"Bay {number}"), "technician")
    asked = ana.say("12 ondrel bracket bolt torque")
    ana.press("Next", on=asked)
    assert asked.labels == ["Bay 6", "Bay 7", "Bay 8", "North bay", "Previous"]
    ana.press("Bay 6", on=asked)
    assert asked.labels == ["front", "rear"]
    page = ana.say("/location")
    assert page.text == "You stand at Bay 6 (technician)."
    code = page.button("Bay 1").code
    ana.press_code(page, code)
    ana.press_code(page, code)
    assert (page.text, ana.notice) == ("You stand at Bay 1 (technician).", "That is answered already.")


@pytest.mark.parametrize(
    ("command", "head"),
    [("/locations", "Your locations"), ("/people", "Members of"), ("/invite", "Invite to which location?")],
)
def test_every_location_can_be_looked_after(bay: Bay, owner: Phone, command: str, head: str) -> None:
    for number in range(22):
        bay.let_in(owner, bay.location(f"Bay {number:02}"), "owner")
    owner.press("Bay 00", on=owner.say("/location"))
    page = owner.say(command)
    seen = set(page.labels)
    while "Next" in page.labels:
        owner.press("Next", on=page)
        seen |= set(page.labels)
    assert page.text.startswith(head)
    assert {f"Bay {number:02}" for number in range(22)} <= seen
    assert "Previous" in page.labels


def test_a_button_of_a_lost_record_presses_nothing_of_the_restored_one(bay: Bay, ana: Phone) -> None:
    """What was made after the backup is lost, and its numbers are not given once more."""
    old = ana.say("12 ondrel bracket bolt torque")
    with bay.record.writing() as store:
        store.run("DELETE FROM card", {})
        cards.leap(store, bay.clock.moment)
    new = ana.say("12 ondrel bracket bolt torque")
    assert new.card is not None and old.card is not None and new.card > old.card + 100_000
    ana.press("front", on=old)
    assert (ana.notice, old.labels, new.labels) == (
        "That is too old. Ask again.",
        ["front", "rear"],
        ["front", "rear"],
    )
    assert ana.press("front", on=new).text.startswith("50 lb-ft")


def unsure(bay: Bay, phone: Phone) -> tuple[Message, int]:
    """A question back that arrived, of which the bot does not know that; and the number of what was sent."""
    asked = phone.say("12 ondrel bracket bolt torque")
    number = int(bay.record.rows("SELECT max(sending) FROM sending", {})[0][0])
    with bay.record.writing() as store:
        store.run("UPDATE card SET message = '' WHERE card = :card", {"card": asked.card})
        body = '{"do": "post", "chat": "' + phone.chat + '", "sheet": {"blocks": [], "buttons": []}}'
        store.run(
            "UPDATE sending SET state = 'unsure', message = '', body = :body WHERE sending = :number",
            {"number": number, "body": body.replace('"do"', '"codes": [], "labels": [], "do"')},
        )
    return asked, number


def test_a_choice_on_a_message_that_timed_out_changes_that_message(bay: Bay, ana: Phone) -> None:
    asked, _ = unsure(bay, ana)
    ana.press("front", on=asked)
    assert asked.text.startswith("50 lb-ft")
    assert len(ana.shown) == 1


def test_a_message_answered_since_is_not_shown_once_more(bay: Bay, ana: Phone) -> None:
    asked, number = unsure(bay, ana)
    line = ana.say("thanks")
    before = line.sheet
    ana.press("front", on=asked)
    ana.send("press", f"0:again.{number}", message=line.id, query="q")
    assert ana.notice == "That is not how it stands any more. Look at the newer message here, or ask again."
    assert line.sheet == before
    ana.press("More", on=asked)
    assert asked.text.startswith("50 lb-ft"), "the answer still stands where it was"
    assert outbox.unsure(bay.record, number) is not None


def test_showing_a_further_page_is_no_choice(bay: Bay, ana: Phone) -> None:
    for number in range(9):
        bay.let_in(ana, bay.location(f"Bay {number}"), "technician")
    page = ana.say("/location")
    before = page.sheet
    for code in ("p", "px", "s", "s999"):
        ana.press_code(page, code)
        assert (ana.notice, page.sheet) == ("That question is closed. Ask again.", before)
    ana.press_code(page, "p99")
    assert page.labels[-1] == "Previous"


def test_owners_keep_their_pages_wherever_they_stand(bay: Bay, owner: Phone) -> None:
    """Owner at one location and technician at the other, where they stand."""
    bay.let_in(owner, bay.location("South bay"), "technician")
    owner.press("South bay", on=owner.say("/location"))
    page = owner.say("/people")
    assert page.text == "Members of North bay"
    owner.press("Olga (owner)", on=page)
    assert "Make curator" in page.labels
