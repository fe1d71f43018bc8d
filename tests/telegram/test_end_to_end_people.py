"""People over HTTP: the first owner, invites with their picture, members, roles, menus, and who is a stranger."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator

import pytest
import zxingcpp
from PIL import Image
from shop import NOBODY, Phone, Shop, opened
from standin.looks import Shown

from benchbot.desk.wording import wording_of
from benchbot.places import Home

OUTSIDE = "Ask your shop for an invite."
REFUSED = "This code does not work. Ask your shop for a new invite."
ASKED, ANSWER = "12 ondrel frt cal brkt bolt tq", "50 lb-ft = 68 N·m"
FIRST, SECOND = 'North <b>&"> bay', "South & <i>bay</i>"
NOBODYS = "Others"
TECHNICIAN = ("vehicle", "job", "help")
CURATOR = ("vehicle", "job", "gaps", "book", "help")
OWNER = ("vehicle", "job", "gaps", "book", "people", "invite", "locations", "help")
NEWEST_GAP = "SELECT gap, location.name FROM gap JOIN location USING (location) ORDER BY gap DESC LIMIT 1"
LINK = re.compile(r"https://t\.me/StandInBot\?start=([A-Za-z0-9_-]{1,64})")


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("people")) as shop:
        shop.start()
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    with _shop.looked_after():
        yield _shop


@pytest.fixture(scope="module", autouse=True)
def first_owner(_shop: Shop) -> Phone:
    """Let in as the operator of the shop does it: by the code that the command line prints."""
    told = _shop.command("people", "invite", "--role", "owner", "--location", FIRST)
    assert told.returncode == 0, told.stderr
    found = LINK.search(told.stdout)
    assert found is not None, told.stdout
    _shop.codes.append(found[1])
    olga = _shop.newcomer("Olga")
    assert olga.say(f"/start {found[1]}").text.startswith(f"You are in: owner at {FIRST}.")
    return olga


@pytest.fixture
def place(request: pytest.FixtureRequest) -> str:
    """A location of the test's own."""
    return f'Bay <b>&"> {request.node.name[:40]}'


@pytest.fixture
def owner(shop: Shop, place: str) -> Phone:
    """The owner of that one."""
    return shop.phone("Otto", owner=place)


def invited(owner: Phone, place: str, role: str = "technician", kind: str = "One person, 2 days") -> Shown:
    """The picture that the owner gets after these presses."""
    page = owner.say("/locations")
    for label in (place, "Invite", role):
        owner.press(label, page)
    sent = owner.count
    owner.press(kind, page)
    return owner.answer(sent + 1)


def code_in(shop: Shop, picture: Shown) -> str:
    """The code behind the link that a phone's camera finds in the picture."""
    assert picture.photo is not None
    with Image.open(io.BytesIO(picture.photo)) as page:
        [read] = zxingcpp.read_barcodes(page)
    found = LINK.fullmatch(read.text)
    assert found is not None, read.text
    shop.codes.append(found[1])
    return found[1]


def test_the_walk_of_an_owner_who_shares_with_a_second_location(shop: Shop, first_owner: Phone) -> None:
    owner = first_owner
    assert owner.say("/locations").labels == [FIRST, "Add a location"]
    assert owner.press("Add a location").text == "What is the new location called? Write its name."
    added = owner.say(SECOND)
    assert added.text.splitlines()[:2] == [f"{SECOND} is there, and you are its owner.", SECOND]
    assert "&lt;i&gt;bay&lt;/i&gt;" in added.html
    for label in ("Invite", "technician"):
        owner.press(label, added)
    sent = owner.count
    assert owner.press("On the wall: 20 people, 30 days", added).text.startswith("The invite is below.")
    picture = owner.answer(sent + 1)
    code = code_in(shop, picture)
    assert picture.text.startswith(f"Scan to join {SECOND} as technician\nOr open https://t.me/StandInBot?start={code}")
    assert f"Or write this code to @StandInBot: {code}" in picture.text
    assert picture.labels == ["Revoke"]
    dora = shop.newcomer("Dora")
    assert dora.say(f"/start {code}").text.startswith(f"You are in: technician at {SECOND}.")
    gap = dora.say("12 ondrel head bolt torque")
    assert "for the curator" in gap.text
    [(number, place)] = shop.rows(NEWEST_GAP)
    assert (place, f"Logged as no. {number} " in gap.text) == (SECOND, True)
    # The second one off the same wall, and nobody once it is revoked.
    ed = shop.newcomer("Ed")
    assert ed.say(code.lower().replace("-", "")).text.startswith(f"You are in: technician at {SECOND}.")
    assert owner.press("Revoke", picture).text == "Revoked. Nobody can join with it any more."
    assert shop.newcomer("Flo").say(f"/start {code}").text == REFUSED
    shop.settle()
    assert shop.rows("SELECT count(*) FROM sending WHERE body LIKE '%start=%'") == [(0,)]
    assert shop.rows("SELECT count(*) FROM arrival WHERE body <> ''") == [(0,)]


def test_an_invite_for_one_joins_asks_and_is_refused_once_removed(shop: Shop, owner: Phone, place: str) -> None:
    code = code_in(shop, invited(owner, place))
    ana, ben = shop.newcomer("Ana"), shop.newcomer("Ben")
    assert ana.say(ASKED).text == OUTSIDE
    assert ana.say(f"/start {code}").text.startswith(f"You are in: technician at {place}.")
    assert ben.say(f"/start {code}").text == REFUSED
    asked = ana.say("12 ondrel bracket bolt torque")
    assert asked.labels == ["front", "rear"]
    shop.settle()
    assert ana.menu == TECHNICIAN
    page = owner.say("/people")
    owner.press("Ana (technician)", page)
    owner.press("Remove", page)
    assert owner.press("Yes, remove", page).text == f"Ana is removed from {place}."
    shop.settle()
    assert ana.menu == ("start",)
    assert ana.say(ASKED).text == OUTSIDE
    # What stands on her phone from before gives nothing away either, nor does the code that let her in.
    assert ana.press_only("front", asked) == OUTSIDE
    assert shop.server.message(ana.chat, asked.id) == asked
    found = ana.inline(ASKED)
    assert (found.results, found.button and found.button["text"]) == ((), OUTSIDE)
    assert ana.say(f"/start {code}").text == REFUSED


def test_the_menus_of_groups_and_strangers_speak_the_language_of_the_phone(shop: Shop) -> None:
    for scope in ("all_private_chats", "all_group_chats"):
        told = {one.language: dict(one.commands)["help"] for one in shop.server.menus() if one.scope == scope}
        assert told == {"": wording_of("en").menu_help, "es": wording_of("es").menu_help}


def test_the_menu_is_that_of_the_role(shop: Shop, owner: Phone, place: str) -> None:
    ana = shop.phone("Cleo", technician=place)
    shop.settle()
    assert (ana.menu, owner.menu) == (TECHNICIAN, OWNER)
    page = owner.say("/people")
    owner.press("Cleo (technician)", page)
    for role, menu in (("curator", CURATOR), ("owner", OWNER), ("technician", TECHNICIAN)):
        told = ana.count
        owner.press(f"Make {role}", page)
        assert ana.answer(told + 1).text == f"You are {role} at {place} now."
        shop.settle()
        assert ana.menu == menu
    # A second location: from now on she says where she stands.
    assert ana.say(f"/start {shop.code(shop.location(NOBODYS))}").text.startswith("You are in: technician at Others.")
    shop.settle()
    assert ana.menu == ("vehicle", "job", "location", "help")
    wide = {one.scope: [name for name, _ in one.commands] for one in shop.server.menus() if not one.chat}
    assert wide == {"all_private_chats": ["start", "help"], "all_group_chats": ["ask", "vehicle", "job", "help"]}


def test_a_person_of_two_locations_says_where_they_stand(shop: Shop) -> None:
    ana = shop.phone("Ana", technician=FIRST, curator=NOBODYS)
    page = ana.say("/location")
    assert (page.text, page.labels) == ("You stand at Others (curator).", [FIRST])
    assert ana.press(FIRST).text == f"You stand at {FIRST} (technician)."
    ana.say("12 ondrel cam bolt torque")
    assert shop.rows(NEWEST_GAP)[0][1] == FIRST


@pytest.mark.parametrize("text", ["hi", ASKED, "/help", "/start", "/people", "/vehicle 12 ondrel", '<b>&">'])
def test_a_stranger_is_told_to_ask_their_shop(shop: Shop, text: str) -> None:
    zed = shop.newcomer("Zed")
    assert zed.say(text).text == OUTSIDE
    zed.show("photo", ASKED)
    assert zed.answer(2).text == OUTSIDE
    assert (zed.last.labels, zed.menu) == ([], ())


@pytest.mark.parametrize("text", ["/start K7QPM-2XWDH-9RTVA", "K7QPM2XWDH9RTVA", "/start x", "/start <b>&amp;"])
def test_a_code_that_nobody_made_lets_nobody_in(shop: Shop, text: str) -> None:
    assert shop.newcomer("Zed").say(text).text == REFUSED


def test_whoever_takes_over_a_members_name_is_a_stranger(shop: Shop) -> None:
    """Bot API, User: only the id stays; names can be changed and usernames pass from one person to another."""
    server = shop.server
    ana = shop.phone("Ana", technician=NOBODYS)
    server.person(ana.person, "Ana", "ana_of_the_bay")
    assert ana.say(ASKED).text.startswith(ANSWER)
    server.person(ana.person, "Ana Lou", "ana_elsewhere")
    eve = shop.newcomer("Ana", "ana_of_the_bay")
    assert eve.say("/start").text == OUTSIDE
    assert eve.say(ASKED).text == OUTSIDE
    assert ana.say(ASKED).text.startswith(ANSWER)
    shop.settle()
    names = shop.rows("SELECT name FROM person WHERE person = :person", person=f"telegram {ana.person}")
    assert names == [("Ana Lou",)]
    assert shop.rows("SELECT count(*) FROM person WHERE person = :person", person=f"telegram {eve.person}") == [(0,)]


def test_the_command_line_removes_a_member_while_the_bot_runs(shop: Shop) -> None:
    ana = shop.phone("Ana", technician=NOBODYS)
    assert ana.say(ASKED).text.startswith(ANSWER)
    told = shop.command("people", "remove", str(ana.person), "--location", NOBODYS)
    assert told.returncode == 0, told.stderr
    assert ana.say(ASKED).text == OUTSIDE


def test_a_name_that_cannot_be_is_asked_for_again(shop: Shop, owner: Phone, place: str) -> None:
    before = shop.people.locations()
    owner.press("Add a location", owner.say("/locations"))
    for name in (place.upper(), "x" * 61, "\u202e\u202e"):
        assert owner.say(name).labels == []
    # A command puts an end to it.
    owner.say("/help")
    assert owner.say(ASKED).text.startswith(ANSWER)
    assert shop.people.locations() == before


def test_the_settings_of_a_location_change_its_answers(shop: Shop, owner: Phone, place: str) -> None:
    page = owner.say("/locations")
    for label in (place, "Units", "N·m, mm, L"):
        owner.press(label, page)
    assert "Units first: N·m, mm, L" in owner.last.text
    ana = shop.phone("Ana", technician=place)
    assert ana.say("12 ondrel rear bleeder tq").text.startswith("62 lb-in = 7.0 N·m")
    for label in ("Language", "Español"):
        owner.press(label, page)
    shop.settle()
    assert ana.menu == TECHNICIAN
    spanish = ana.say("12 ondrel head bolt torque").text
    assert spanish.startswith("No está en nuestro libro")


def test_a_technician_gets_no_page_of_an_owner(shop: Shop) -> None:
    ana = shop.phone("Ana", technician=NOBODYS)
    for command in ("/people", "/invite", "/locations"):
        assert ana.say(command).text == "Only an owner of this location can do that."


def test_a_removed_owner_cannot_go_on_pressing(shop: Shop) -> None:
    olga = shop.phone("Olga", owner=NOBODYS)
    page = olga.say("/people")
    shop.people.remove(f"telegram {olga.person}", shop.location(NOBODYS).number, f"telegram {NOBODY}", shop.now())
    before = shop.server.message(olga.chat, page.id)
    assert olga.press_only("Invite", page) == OUTSIDE
    assert shop.server.message(olga.chat, page.id) == before
