"""The process ends and another begins, over HTTP: what was under way goes on; and when it must end by itself."""

from __future__ import annotations

import json
import signal
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from urllib import error, request

import pytest
from running_bot import SECONDS
from shop import Phone, Shop, opened

from benchbot.channels.telegram.watch import Alive
from benchbot.places import Home

ASKED, ANSWER = "12 ondrel frt cal brkt bolt tq", "50 lb-ft = 68 N·m (converted)"
ASKED_TOO, QUESTION = "12 ondrel bracket bolt torque", "Front or rear?"
AWAY = "I was away."
REPEATED = "sendings of a killed process are repeated"


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("restarts")) as shop:
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    """A process runs when the test begins."""
    if not _shop.bots or _shop.bots[-1].process.poll() is not None:
        _shop.start()
    with _shop.looked_after():
        yield _shop


@pytest.fixture
def ana(shop: Shop) -> Phone:
    return shop.phone("Ana", technician="North bay")


def firsts(phone: Phone) -> list[str]:
    """The first line of every message of the bot after the welcome."""
    return [one.text.splitlines()[0] for one in phone.shown[1:]]


def test_a_choice_goes_on_after_a_restart(shop: Shop, ana: Phone) -> None:
    asked = ana.say(ASKED_TOO)
    olga = shop.phone("Olga", owner="South bay")
    olga.press("Add a location", olga.say("/locations"))
    assert shop.stop() == 0
    # Pressed while nobody is there: the messenger keeps the press.
    pressed = shop.server.press(ana.chat, asked.id, "front")
    ben = shop.newcomer("Ben")
    ben.write(f"/start {shop.code(shop.location('North bay'))}")
    shop.start()
    shop.server.wait_for(ana.chat, SECONDS, edits=1)
    assert shop.server.wait_for_notice(pressed.query, SECONDS).text == ""
    assert firsts(ana) == [ANSWER]
    assert ben.answer(1).text.startswith("You are in: technician at North bay.")
    assert olga.say("East bay").text.startswith("East bay is there, and you are its owner.")
    assert ana.press("More").labels[1] == "Less"


def test_a_kill_in_the_middle_of_a_change_makes_it_after_all(shop: Shop, ana: Phone) -> None:
    asked = ana.say(ASKED_TOO)
    shop.server.hang("editMessageText", chat=ana.chat)
    ana.press_only("front", asked)
    shop.server.wait_for(outstanding=0, seconds=SECONDS)
    assert shop.stop(signal.SIGKILL) == -signal.SIGKILL
    assert firsts(ana) == [QUESTION]
    shop.start()
    shop.server.wait_for(ana.chat, SECONDS, edits=1)
    assert firsts(ana) == [ANSWER]
    shop.log.wait(REPEATED, count=1)


def test_a_kill_after_a_change_was_made_changes_nothing_twice(shop: Shop, ana: Phone) -> None:
    asked = ana.say(ASKED_TOO)
    shop.server.hang("editMessageText", True, chat=ana.chat)
    ana.press_only("front", asked)
    shop.server.wait_for(ana.chat, SECONDS, edits=1)
    assert shop.stop(signal.SIGKILL) == -signal.SIGKILL
    shop.start()
    assert ana.press("More", ana.last).edits == 2
    shop.log.wait(REPEATED, count=1)
    [refused] = shop.refusals()
    assert refused.startswith("editmessagetext: Bad Request: message is not modified")


def test_a_kill_after_a_message_was_delivered_shows_it_twice_and_both_can_be_pressed(shop: Shop, ana: Phone) -> None:
    """Nobody can tell any more whether it arrived, and one that is missing is worse than one that stands twice."""
    shop.server.hang("sendMessage", True, chat=ana.chat)
    ana.write(ASKED_TOO)
    first = ana.answer(2)
    assert shop.stop(signal.SIGKILL) == -signal.SIGKILL
    shop.start()
    ana.answer(3)
    assert firsts(ana) == [QUESTION, QUESTION]
    shop.log.wait(REPEATED, count=1)
    ana.press("front", first)
    assert sorted(firsts(ana)) == sorted([QUESTION, ANSWER])


def test_messages_of_an_outage_get_one_line_a_chat(shop: Shop, ana: Phone) -> None:
    ben, cleo = shop.phone("Ben", technician="North bay"), shop.phone("Cleo", technician="North bay")
    group = shop.group(ana, ben)
    assert shop.stop() == 0
    now = int(time.time())
    for minutes in (120, 61, 10):
        shop.server.settings(clock=now - 60 * minutes)
        for phone in (ana, ben):
            phone.write(ASKED)
            phone.show("photo", ASKED)
            phone.in_group(group).write(f"/ask {ASKED}")
    shop.server.settings(clock=now)
    cleo.write(ASKED)
    shop.start()
    assert cleo.answer(2).text.startswith(ANSWER)
    shop.settle()
    for phone in (ana, ben, ana.in_group(group)):
        assert [one.text.startswith(AWAY) for one in phone.shown if not one.text.startswith("You are in")] == [True]
    assert ana.say(ASKED).text.startswith(ANSWER)


def test_it_waits_for_a_server_that_is_not_there_yet(shop: Shop, ana: Phone) -> None:
    assert shop.stop() == 0
    ana.write(ASKED)
    shop.server.refuse_connections()
    running = shop.launch()
    running.log.wait("the server cannot be reached", 2)
    shop.server.accept_connections()
    assert ana.answer(2).text.startswith(ANSWER)


# Where it has to end by itself


def test_a_second_process_with_the_same_token_is_refused_whatever_its_home(shop: Shop, ana: Phone) -> None:
    pid, other = shop.bots[-1].process.pid, shop.folder / "other"
    other.mkdir(exist_ok=True)
    (other / "book.sqlite").write_bytes(shop.home.book.read_bytes())
    for home in (shop.home.folder, other):
        second = shop.launch(BENCHBOT_HOME=str(home))
        assert second.ended() == 1
        assert f"another benchbot (process {pid}) polls this bot on this machine already" in second.log.text
        shop.bots.pop()
    assert ana.say(ASKED).text.startswith(ANSWER)


def _polls_too(shop: Shop, ended: threading.Event) -> list[int]:
    """Somebody who polls the same bot with the long poll of a library; the updates that they got."""
    address = f"{shop.server.api_url}{shop.server.token}/getUpdates?timeout=30"
    while True:
        try:
            with request.urlopen(address, timeout=SECONDS) as answer:
                got = [one["update_id"] for one in json.load(answer)["result"]]
        except error.HTTPError as refused:
            refused.close()
            assert refused.code == 409
        else:
            if ended.is_set():
                return got


def test_somebody_else_who_polls_ends_it_after_three_conflicts(shop: Shop, ana: Phone) -> None:
    ended, running = threading.Event(), shop.bots[-1]
    with ThreadPoolExecutor(1) as elsewhere:
        theirs = elsewhere.submit(_polls_too, shop, ended)
        code = running.ended()
        ended.set()
        asked = ana.write(ASKED)
        assert theirs.result(SECONDS) == [asked.update]
    assert code == 1
    conflicts = [one for one in running.log.lines if one["event"] == "another process polls this bot"]
    assert [one["times"] for one in conflicts] == [1, 2, 3]
    [why] = shop.faults()
    assert why.startswith("stopping: another process polls this bot")
    assert "getupdates: Conflict: terminated by other getUpdates request" in shop.refusals()[0]
    # They did not confirm it, so the next start answers it.
    shop.start()
    assert ana.answer(2).text.startswith(ANSWER)


def test_polling_that_dies_quietly_ends_the_process_for_another_start(shop: Shop) -> None:
    """The server takes the poll and never answers: no error comes, only the last good poll grows old."""
    assert shop.stop() == 0
    running = shop.start("--polling-timeout", "1", "--give-up-after", "2")
    shop.log.wait("polling")
    while (alive := Alive.read(shop.home)) is None:
        shop.log.pause()
    assert alive.pid == running.process.pid
    shop.server.hang("getUpdates")
    assert running.ended() == 75
    assert Alive.read(shop.home) is None
    assert shop.faults() == ["stopping: no good poll for too long"]
    shop.server.wait_for(outstanding=0, seconds=SECONDS)
    looked = shop.command("telegram", "--check")
    assert looked.returncode == 1
    assert "no bot runs in this home" in looked.stdout


def test_a_token_that_is_taken_back_ends_it(shop: Shop, ana: Phone) -> None:
    running = shop.bots[-1]
    shop.server.fail("getUpdates", 401)
    ana.write(ASKED)
    assert running.ended() == 1
    [why] = shop.faults()
    assert why.startswith("stopping: the server does not know the token")
    assert shop.server.token not in running.log.text
    shop.start()
    ana.answer(2)
    shop.settle()
    assert firsts(ana) == [ANSWER]


def test_not_a_word_of_what_was_said_is_in_the_log(shop: Shop, ana: Phone) -> None:
    ana.say(ASKED)
    ana.press("How I read that")
    told = shop.log.text
    assert '"event": "handled"' in told
    for word in (ASKED, "50 lb-ft", "Ana", "ondrel", "North bay", "/bot", "http"):
        assert word not in told, word
