"""What time does, over HTTP, with a clock that the test sets: floods, late messages, what is too old."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest
from shop import Phone, Shop, later, opened

from benchbot.places import Home

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
ASKED, ANSWER = "12 ondrel frt cal brkt bolt tq", "50 lb-ft = 68 N·m (converted)"
SLOW = "That is more than I can take at once. Wait a minute, then ask again."
AWAY = "I was away. What was asked more than five minutes ago is left unanswered: ask again what you still need."


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("time")) as shop:
        shop.start(at=NOW)
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    with _shop.looked_after():
        yield _shop


@pytest.fixture
def ana(shop: Shop) -> Phone:
    return shop.phone("Ana", technician="North bay")


def writes_ago(shop: Shop, phone: Phone, ago: timedelta, *texts: str) -> None:
    """Messages that the messenger kept for so long."""
    shop.server.settings(clock=int((shop.now() - ago).timestamp()))
    for text in texts:
        phone.write(text)
    shop.server.settings(clock=int(shop.now().timestamp()))


def test_a_flood_of_one_gets_one_line_and_leaves_the_others_served(shop: Shop, ana: Phone) -> None:
    ben = shop.phone("Ben", technician="North bay")
    later(shop, minutes=1)
    shop.server.batch([("say", {"chat": ana.chat, "person": ana.person, "text": "thanks"})] * 50)
    assert ben.say(ASKED).text.startswith(ANSWER)
    shop.settle()
    # Thirty a minute, then one line and silence.
    assert ana.count == 1 + 30 + 1
    assert [one.text for one in ana.shown].count(SLOW) == 1
    assert ana.last.text == SLOW
    later(shop, minutes=1)
    assert ana.say(ASKED).text.startswith(ANSWER)


def test_presses_count_too_and_change_nothing_then(shop: Shop, ana: Phone) -> None:
    later(shop, minutes=1)
    asked = ana.say("12 ondrel bracket bolt torque")
    shop.server.batch([("say", {"chat": ana.chat, "person": ana.person, "text": "thanks"})] * 29)
    shop.settle()
    assert ana.press_only("front", asked) == SLOW
    assert shop.server.message(ana.chat, asked.id) == asked
    later(shop, minutes=1)
    assert ana.press("front", asked).text.startswith(ANSWER)


def test_what_piled_up_in_a_chat_gets_one_line(shop: Shop, ana: Phone) -> None:
    ben = shop.phone("Ben", technician="North bay")
    for minutes in (90, 40, 6):
        writes_ago(shop, ana, timedelta(minutes=minutes), ASKED, "rotor min")
    writes_ago(shop, ben, timedelta(minutes=4), ASKED)
    assert ben.answer(2).text.startswith(ANSWER), "five minutes are not late"
    shop.settle()
    assert [one.text for one in ana.shown[1:]] == [AWAY]
    assert ana.say(ASKED).text.startswith(ANSWER)
    late = shop.rows(
        "SELECT count(*) FROM answer WHERE outcome = 'late' AND person = :person", person=f"telegram {ana.person}"
    )
    assert late == [(6,)]


def test_a_code_that_comes_late_lets_in_all_the_same(shop: Shop) -> None:
    zed = shop.newcomer("Zed")
    writes_ago(shop, zed, timedelta(hours=2), f"/start {shop.code(shop.location('North bay'))}")
    assert zed.answer(1).text.startswith("You are in: technician at North bay.")


def test_the_vehicle_on_the_lift_is_asked_for_again_after_its_hours(shop: Shop, ana: Phone) -> None:
    ana.say("12 ondrel")
    later(shop, hours=3)
    assert "2012 Brackwell Ondrel" in ana.say("front bracket bolt torque").text
    later(shop, hours=4)
    asked = ana.say("front bracket bolt torque")
    assert asked.labels == ["2012 Brackwell Ondrel"]
    assert ana.press("2012 Brackwell Ondrel", asked).text.startswith(ANSWER)


def test_buttons_die_in_time(shop: Shop, ana: Phone) -> None:
    asked = ana.say("12 ondrel bracket bolt torque")
    answered = ana.say(ASKED)
    later(shop, hours=4)
    assert ana.press_only("front", asked) == "That question is closed. Ask again."
    assert "holds for 2009-2013" in ana.press("More", answered).text
    later(shop, hours=48)
    assert ana.press_only("Less") == "That is too old. Ask again."
    assert ana.last.labels[1] == "Less"


def test_an_invite_runs_out(shop: Shop) -> None:
    olga, zed = shop.phone("Olga", owner="North bay"), shop.newcomer("Zed")
    page = olga.say("/invite")
    olga.press("technician", page)
    sent = olga.count
    olga.press("One person, 2 days", page)
    code = olga.answer(sent + 1).text.partition("@StandInBot: ")[2].split()[0]
    shop.codes.append(code)
    later(shop, days=2)
    assert zed.say(f"/start {code}").text == "This code does not work. Ask your shop for a new invite."
