"""Strangers, members, owners: who is let in, who is told what, and what an owner does in chat."""

from __future__ import annotations

from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from bay import BOT, Bay, Message, Phone, later

from benchbot.desk.limits import CHAT_A_MINUTE, PERSON_A_MINUTE
from benchbot.desk.wording import ENGLISH, wording_of
from benchbot.people.terms import Hours

OUTSIDE = "Ask your shop for an invite."


@pytest.mark.parametrize(
    "text",
    [
        "hi",
        "12 ondrel frt cal brkt bolt tq",
        "/help",
        "/start",
        "/start invite",
        "/people",
        "/vehicle",
        "/nonsense",
        "",
    ],
)
def test_a_stranger_is_told_to_ask_their_shop_and_nothing_else(bay: Bay, text: str) -> None:
    stranger = bay.phone("Zed")
    stranger.say(text)
    assert [one.text for one in stranger.shown] == [OUTSIDE]
    assert stranger.last.labels == []
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]


def test_a_wrong_code_is_refused_in_the_same_words_whatever_is_wrong(bay: Bay) -> None:
    stranger = bay.phone("Zed")
    for text in ("/start K7QPM-2XWDH-9RTVA", "K7QPM-2XWDH-9RTVA", "/start x"):
        assert stranger.say(text).text == "This code does not work. Ask your shop for a new invite."


def test_a_stranger_cannot_press(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("North"))
    shown = ana.say("12 ondrel bracket bolt torque")
    stranger = bay.phone("Zed")
    before = shown.sheet
    stranger.press_code(shown, shown.sheet.buttons[0].code)
    assert (stranger.notice, shown.sheet) == (OUTSIDE, before)


@pytest.fixture
def ghost(bay: Bay) -> Phone:
    """Whoever writes in the name of the group."""
    return Phone(bay, "", "", "-100", False)


@pytest.mark.parametrize("first", ["12 ondrel frt cal brkt bolt tq", "/vehicle"])
def test_nobody_behind_a_message_gets_a_line_an_hour_where_a_member_writes(bay: Bay, ghost: Phone, first: str) -> None:
    bay.phone("Ana", technician=bay.location("North")).in_group("-100", "7").say(first)
    ghost.send("nobody", "12 ondrel frt cal brkt bolt tq")
    assert ghost.last.text == ENGLISH.nobody
    for minutes, lines in ((0, 1), (59, 1), (2, 2)):
        later(bay, minutes=minutes)
        ghost.send("nobody", "12 ondrel frt cal brkt bolt tq")
        assert [one.text for one in ghost.shown[1:]] == [ENGLISH.nobody] * lines


def test_nobody_is_told_nothing_where_no_member_writes(bay: Bay, ghost: Phone) -> None:
    ana = bay.phone("Ana", technician=bay.location("North"))
    ana.in_group("-1001").say("12 ondrel frt cal brkt bolt tq")
    bay.phone("Zed").in_group("-100").say("12 ondrel")
    gone = bay.phone("Gus", technician=bay.people.locations()[0])
    gone.in_group("-100").say("12 ondrel")
    bay.people.remove(gone.person, bay.people.locations()[0].number, "test", bay.clock())
    said = len(ghost.shown)
    ghost.send("nobody", "12 ondrel frt cal brkt bolt tq")
    assert len(ghost.shown) == said


def test_nobody_is_told_nothing_of_what_came_late(bay: Bay, ghost: Phone) -> None:
    bay.phone("Ana", technician=bay.location("North")).in_group("-100").say("12 ondrel")
    ghost.send("nobody", "12 ondrel", at=bay.clock() - timedelta(minutes=6))
    assert len(ghost.shown) == 1


def test_nobody_takes_from_what_the_chat_may_ask(bay: Bay, ghost: Phone) -> None:
    ana = bay.phone("Ana", technician=bay.location("North")).in_group("-100")
    for _ in range(CHAT_A_MINUTE):
        ghost.send("nobody", "12 ondrel")
    assert ghost.shown == []
    assert ana.say("12 ondrel").text == ENGLISH.too_many
    ghost.send("nobody", "12 ondrel")
    assert len(ghost.shown) == 1


def test_nobody_is_spoken_to_in_the_language_of_the_members(bay: Bay, ghost: Phone) -> None:
    bay.phone("Ana", technician=bay.location("Sur", "es")).in_group("-100").say("12 ondrel")
    ghost.send("nobody", "12 ondrel")
    assert ghost.last.text == wording_of("es").nobody


@pytest.mark.parametrize("group", [False, True])
def test_strangers_get_one_line_for_all_that_they_wrote_in_an_outage(bay: Bay, group: bool) -> None:
    stranger = bay.phone("Zed")
    writes = stranger.in_group("-100") if group else stranger
    for minutes in (90, 40, 6):
        writes.send("text", "12 ondrel", at=bay.clock() - timedelta(minutes=minutes))
        writes.send("changed", "13 ondrel", at=bay.clock() - timedelta(minutes=minutes))
    assert [one.text for one in writes.shown] == [OUTSIDE]
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]
    assert writes.say("12 ondrel").text == OUTSIDE
    assert len(writes.shown) == 2


def test_what_came_late_takes_nothing_from_what_may_be_asked_now(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("North"))
    for _ in range(PERSON_A_MINUTE + 1):
        ana.send("text", "12 ondrel", at=bay.clock() - timedelta(minutes=6))
    assert [one.text for one in ana.shown] == [ENGLISH.late]
    assert ana.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")


def code_in(message: Message) -> str:
    """The code that stands in an invite, for somebody who types it by hand."""
    return message.text.partition(f"@{BOT.username}: ")[2].split()[0]


@pytest.fixture
def owner(bay: Bay) -> Phone:
    return bay.phone("Olga", owner=bay.location("North bay"))


def invite(owner: Phone, role: str = "technician", kind: str = "One person, 2 days") -> Message:
    """The picture that an owner's phone shows after these presses."""
    page = owner.say("/invite")
    owner.press(role, on=page)
    owner.press(kind, on=page)
    return owner.last


def test_an_invite_made_in_chat_lets_one_person_in(bay: Bay, owner: Phone) -> None:
    picture = invite(owner)
    assert picture.picture.startswith("https://t.me/baybot?start=")
    ana, ben = bay.phone("Ana"), bay.phone("Ben")
    welcome = ana.say(f"/start {picture.picture.partition('=')[2]}")
    assert welcome.text.splitlines()[0] == "You are in: technician at North bay."
    assert "current service information" in welcome.text
    assert bay.menus[ana.chat] == ("vehicle", "job", "help")
    assert ana.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")
    assert ben.say(code_in(picture)).text.startswith("This code does not work")
    assert bay.record.rows("SELECT body FROM sending WHERE body LIKE '%start=%'", {}) == []
    assert bay.record.rows("SELECT body FROM arrival WHERE body <> ''", {}) == []


def test_a_code_can_be_typed_without_its_dashes(bay: Bay, owner: Phone) -> None:
    code = code_in(invite(owner)).replace("-", "").lower()
    assert bay.phone("Ana").say(code).text.startswith("You are in: technician at North bay.")


def test_the_invite_for_the_wall_lets_many_in_until_it_is_revoked(bay: Bay, owner: Phone) -> None:
    picture = invite(owner, kind="On the wall: 20 people, 30 days")
    assert "For 20 people, until " in picture.text
    code = code_in(picture)
    assert all(bay.phone(name).say(code).text.startswith("You are in") for name in ("Ana", "Ben"))
    owner.press("Revoke", on=picture)
    assert picture.text == "Revoked. Nobody can join with it any more."
    assert bay.phone("Cleo").say(code).text.startswith("This code does not work")


def test_open_invites_are_listed_and_ended_there(bay: Bay, owner: Phone) -> None:
    code = code_in(invite(owner))
    page = owner.say("/locations")
    owner.press("North bay", on=page)
    owner.press("Open invites", on=page)
    assert f"{code[:3]}…: technician, 1 left" in page.text
    owner.press(f"Revoke {code[:3]}…", on=page)
    assert bay.phone("Ana").say(code).text.startswith("This code does not work")


def test_one_of_a_thing_is_said_as_one(bay: Bay) -> None:
    location = bay.people.open_first("Only bay", bay.clock())
    owner = bay.phone("Olga", owner=location)
    page = owner.press("Only bay", on=owner.say("/locations"))
    assert "1 member · 0 open invites" in page.text.splitlines()
    for label in ("Invite", "technician", "One person, 2 days", "Back"):
        owner.press(label, on=page)
    assert "1 member · 1 open invite" in page.text.splitlines()
    bay.phone("Ben", technician=location)
    for label in ("Invite", "technician", "On the wall: 20 people, 30 days", "Back"):
        owner.press(label, on=page)
    assert "2 members · 2 open invites" in page.text.splitlines()
    owner.press("Open invites", on=page)
    lefts = [line.partition(": ")[2].partition(", until")[0] for line in page.text.splitlines()[1:]]
    assert lefts == ["technician, 1 left", "technician, 20 left"]


def test_a_code_that_ran_out(bay: Bay, owner: Phone) -> None:
    code = code_in(invite(owner))
    later(bay, days=2)
    assert bay.phone("Ana").say(code).text.startswith("This code does not work")


def test_an_owner_adds_a_second_location_and_somebody_joins_it(bay: Bay, owner: Phone) -> None:
    """What sharing with a second location takes: six taps and one name."""
    page = owner.say("/locations")
    owner.press("Add a location", on=page)
    added = owner.say("South bay")
    assert added.text.splitlines()[:2] == ["South bay is there, and you are its owner.", "South bay"]
    assert bay.menus[owner.chat] == (
        "vehicle",
        "job",
        "location",
        "gaps",
        "book",
        "people",
        "invite",
        "locations",
        "help",
    )
    owner.press("Invite", on=added)
    owner.press("technician", on=added)
    owner.press("On the wall: 20 people, 30 days", on=added)
    code = code_in(owner.last)
    dora = bay.phone("Dora")
    assert dora.say(code).text.startswith("You are in: technician at South bay.")
    dora.say("12 ondrel head bolt torque")
    gap = "SELECT location.name FROM gap JOIN location USING (location)"
    assert bay.record.rows(gap, {}) == [("South bay",)]


@pytest.mark.parametrize("name", ["north BAY", "x" * 61, "   ", "\u202e\u202e"])
def test_a_name_that_cannot_be_is_asked_for_again(bay: Bay, owner: Phone, name: str) -> None:
    owner.press("Add a location", on=owner.say("/locations"))
    owner.say(name)
    assert [one.name for one in bay.people.locations()] == ["North bay"]
    owner.say("Third bay")
    assert [one.name for one in bay.people.locations()] == ["North bay", "Third bay"]


def test_a_name_that_was_cancelled_is_not_taken_from_the_next_message(bay: Bay, owner: Phone) -> None:
    page = owner.say("/locations")
    owner.press("Add a location", on=page)
    owner.press("Cancel", on=page)
    assert owner.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")


def test_a_command_ends_what_was_awaited(bay: Bay, owner: Phone) -> None:
    owner.press("Add a location", on=owner.say("/locations"))
    owner.say("/help")
    assert owner.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")


def test_settings_of_a_location(bay: Bay, owner: Phone) -> None:
    page = owner.press("North bay", on=owner.say("/locations"))
    owner.press("Units", on=page)
    owner.press("N·m, mm, L", on=page)
    owner.press("Vehicle kept", on=page)
    owner.press("1 h", on=page)
    assert "Units first: N·m, mm, L · language: English · vehicle kept 1 h" in page.text
    owner.press("Rename", on=page)
    assert owner.say("Upper bay").text.splitlines()[0] == "Now called Upper bay."
    owner.say("12 ondrel front bracket bolt torque")
    later(bay, hours=1)
    assert owner.say("front bracket bolt torque").labels == ["2012 Brackwell Ondrel"]


def test_quiet_hours_of_a_location(bay: Bay, owner: Phone) -> None:
    page = owner.press("North bay", on=owner.say("/locations"))
    number = next(one.number for one in bay.people.locations() if one.name == "North bay")
    assert "Never quiet, by the clock of UTC" in page.text
    owner.press("Quiet hours", on=page)
    assert f"It is {bay.clock():%H:%M} there." in page.text
    owner.press("Clock", on=page)
    owner.press("Chicago", on=page)
    assert f"It is {bay.clock().astimezone(ZoneInfo('America/Chicago')):%H:%M} there." in page.text
    owner.press("19:00-07:00", on=page)
    assert "Quiet from 19:00 to 07:00, by the clock of America/Chicago" in page.text
    assert bay.people.hours(number) == Hours(number, "America/Chicago", "19:00", "07:00")
    owner.press("Quiet hours", on=page)
    owner.press("Never", on=page)
    assert bay.people.hours(number) == Hours(number, "America/Chicago")


def test_units_of_the_place_come_first(bay: Bay, owner: Phone) -> None:
    rows = "SELECT 1"
    assert bay.record.rows(rows, {})
    page = owner.press("North bay", on=owner.say("/locations"))
    owner.press("Units", on=page)
    owner.press("lb-ft, in, qt", on=page)
    assert owner.say("12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft = 68 N·m")


def test_a_role_is_changed_and_a_member_removed_at_once(bay: Bay, owner: Phone) -> None:
    north = bay.people.locations()[0]
    ana = bay.phone("Ana", technician=north)
    page = owner.say("/people")
    owner.press("Ana (technician)", on=page)
    owner.press("Make curator", on=page)
    assert ana.last.text == "You are curator at North bay now."
    assert "Ana is curator at North bay now." in page.text
    owner.press("Remove", on=page)
    assert "Remove Ana from North bay?" in page.text
    owner.press("Yes, remove", on=page)
    assert page.text == "Ana is removed from North bay."
    assert bay.menus[ana.chat] == ("start",)
    assert ana.say("12 ondrel frt cal brkt bolt tq").text == OUTSIDE


def test_the_last_owner_cannot_leave(bay: Bay) -> None:
    location = bay.people.open_first("Only bay", bay.clock())
    olga = bay.phone("Olga", owner=location)
    page = olga.say("/people")
    olga.press("Olga (owner)", on=page)
    olga.press("Remove", on=page)
    olga.press("Yes, remove", on=page)
    assert "A location keeps one owner at least." in page.text
    assert olga.say("/people").text == "Members of Only bay"


def test_a_member_list_longer_than_a_screen_has_pages(bay: Bay, owner: Phone) -> None:
    north = bay.people.locations()[0]
    for number in range(8):
        bay.phone(f"Tech {number}", technician=north)
    page = owner.say("/people")
    seen = set(page.labels)
    assert sum("(" in label for label in page.labels) == 6
    owner.press("Next", on=page)
    seen |= set(page.labels)
    assert {f"Tech {number} (technician)" for number in range(8)} <= seen
    owner.press("Previous", on=page)
    assert "Next" in page.labels


@pytest.mark.parametrize("role", ["technician", "curator"])
@pytest.mark.parametrize("command", ["/people", "/invite", "/locations"])
def test_whoever_is_no_owner_gets_no_page(bay: Bay, role: str, command: str) -> None:
    phone = bay.phone("Ana", **{role: bay.location("North")})
    assert (phone.say(command).text, phone.last.labels) == ("Only an owner of this location can do that.", [])


@pytest.mark.parametrize("command", ["/people", "/invite", "/locations"])
def test_an_owner_is_sent_to_the_private_chat(bay: Bay, owner: Phone, command: str) -> None:
    group = owner.in_group("-100")
    assert group.say(command).text == "Do that in a private chat with me."


def test_an_owner_who_was_demoted_cannot_go_on_pressing(bay: Bay, owner: Phone) -> None:
    north = bay.people.locations()[0]
    ana = bay.phone("Ana", technician=north)
    page = owner.say("/people")
    bay.people.change_role(owner.person, north.number, "technician", "test", bay.clock())
    before = page.sheet
    owner.press("Ana (technician)", on=page)
    assert (owner.notice, page.sheet) == ("Only an owner of this location can do that.", before)
    assert bay.people.role_at(ana.person, north.number) == "technician"


def test_an_owner_of_one_location_does_nothing_at_another(bay: Bay, owner: Phone) -> None:
    south = bay.location("South")
    page = owner.say("/locations")
    assert "South" not in page.labels
    for code in (
        f"l.{south.number}",
        f"lu.{south.number}.US",
        f"igowner.{south.number}.owner.one",
        f"m.{south.number}",
    ):
        owner.press_code(page, code)
        assert owner.notice == OUTSIDE
    assert bay.people.location(south.number).units == "source"


def test_an_invite_of_another_location_cannot_be_revoked_through_ones_own(bay: Bay, owner: Phone) -> None:
    other = bay.phone("Otto", owner=bay.location("South"))
    code = code_in(invite(other))
    north = bay.people.location(bay.people.memberships(owner.person)[0].location.number)
    page = owner.say("/locations")
    owner.press_code(page, f"iv.{north.number}.1")
    assert bay.phone("Ana").say(code).text.startswith("You are in: technician at South.")


@pytest.mark.parametrize(
    "code",
    [
        "zz",
        "l",
        "l.x",
        "l.99999",
        "m.1.x",
        "mr.1.2.boss",
        "ik.1.boss",
        "igowner.1.owner.many",
        "iv.1.x",
        "lh.1.99",
        "lq.99999.1",
    ],
)
def test_a_page_that_nobody_made(bay: Bay, owner: Phone, code: str) -> None:
    number = bay.people.locations()[0].number
    page = owner.say("/locations")
    owner.press_code(page, code.replace(".1", f".{number}", 1))
    assert bay.people.location(number).vehicle_hours == 4
    assert len(owner.shown) == 1


def test_a_person_of_two_locations_says_where_they_stand(bay: Bay) -> None:
    north, south = bay.location("North"), bay.location("South")
    ana = bay.phone("Ana", technician=north, curator=south)
    asked = ana.say("12 ondrel head bolt torque")
    assert (asked.text, asked.labels) == ("Where do you stand?", ["North", "South"])
    ana.press("South", on=asked)
    assert asked.text.startswith("Not in our book")
    assert len(ana.shown) == 1
    gap = "SELECT location.name FROM gap JOIN location USING (location)"
    assert bay.record.rows(gap, {}) == [("South",)]
    page = ana.say("/location")
    assert (page.text, page.labels) == ("You stand at South (curator).", ["North"])
    ana.press("North", on=page)
    assert (page.text, page.labels) == ("You stand at North (technician).", ["South"])


def test_a_question_that_waited_for_the_place_goes_on_with_its_choices(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("North"), curator=bay.location("South"))
    asked = ana.say("12 ondrel bracket bolt torque", message="m1")
    ana.press("North", on=asked)
    assert asked.labels == ["front", "rear"]
    ana.press("front", on=asked)
    assert asked.text.startswith("50 lb-ft")
    ana.change("m1", "12 ondrel rear bleeder socket")
    assert asked.text.startswith("11 mm")


def test_a_place_that_one_was_removed_from_cannot_be_stood_at(bay: Bay) -> None:
    north, south = bay.location("North"), bay.location("South")
    ana = bay.phone("Ana", technician=north, curator=south)
    asked = ana.say("12 ondrel head bolt torque")
    bay.people.remove(ana.person, south.number, "telegram 1", bay.clock())
    ana.press("South", on=asked)
    assert ana.notice == "That question is closed. Ask again."


def test_start_greets_by_location(bay: Bay, owner: Phone) -> None:
    assert owner.say("/start").text.splitlines()[0] == "Olga, you stand at North bay (owner)."


def test_help_fits_a_screen_and_shows_questions_that_the_book_answers(bay: Bay, owner: Phone) -> None:
    lines = owner.say("/help").text.splitlines()
    assert len(lines) <= 16
    examples = lines[1:4]
    assert len(set(examples)) == 3
    for text in examples:
        assert "Not right?" in owner.say(text).labels, text


def test_an_unknown_command(owner: Phone) -> None:
    assert owner.say("/torque").text == "I do not know /torque. /help says what I can do."


def test_ask_with_and_without_a_question(owner: Phone) -> None:
    assert owner.say("/ask").text.startswith("Write the question behind it")
    assert owner.say("/ask 12 ondrel frt cal brkt bolt tq").text.startswith("50 lb-ft")
