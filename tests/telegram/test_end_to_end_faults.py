"""What goes wrong between the bot and the messenger, over HTTP: nothing is lost, and nothing is shown twice unsaid.

The process is started with SEND_SECONDS of patience, so that what times out does so soon.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from urllib import parse, request

import pytest
from running_bot import SECONDS, SEND_SECONDS
from shop import Phone, Shop, opened

from benchbot.desk.wording import ENGLISH
from benchbot.places import Home

ASKED, ANSWER = "12 ondrel frt cal brkt bolt tq", "50 lb-ft = 68 N·m (converted)"
UNSURE, SHOW_IT = ENGLISH.unsure, ENGLISH.show_it
OTHER, ELEVEN = "12 ondrel rear bleeder socket", "11 mm"
GAP = "12 ondrel head bolt torque"
SENT_TO = "SELECT state, tries FROM sending WHERE chat = :chat ORDER BY sending DESC LIMIT 1"


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("faults")) as shop:
        shop.start(hasty=True)
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    with _shop.looked_after():
        yield _shop


@pytest.fixture
def ana(shop: Shop) -> Phone:
    return shop.phone("Ana", technician="North bay")


@pytest.fixture
def ben(shop: Shop) -> Phone:
    return shop.phone("Ben", technician="North bay")


def firsts(phone: Phone) -> list[str]:
    """The first line of every message of the bot after the welcome."""
    return [one.text.splitlines()[0] for one in phone.shown[1:]]


def last_sending(shop: Shop, phone: Phone) -> tuple[str, int]:
    shop.settle()
    [(state, tries)] = shop.rows(SENT_TO, chat=str(phone.chat))
    return state, tries


# Sending


def test_a_limit_of_the_server_is_kept_to_the_second_and_holds_up_nobody_else(
    shop: Shop, ana: Phone, ben: Phone
) -> None:
    """The library's rate limiter tries nothing again by itself (python-telegram-bot, AIORateLimiter: max_retries=0)."""
    shop.server.limit("sendMessage", retry_after=1, chat=ana.chat)
    ana.write(ASKED)
    ana.write(OTHER)
    shop.log.wait("not sent, tried again", chat=str(ana.chat))
    assert ben.say(ASKED).text.startswith(ANSWER)
    assert firsts(ana) == [], "the other chat was not kept waiting"
    ana.answer(3)
    assert firsts(ana) == [ANSWER, ELEVEN]
    calls = [one for one in shop.server.calls("sendMessage", ana.chat) if one.at]
    assert [one.status for one in calls[1:]] == [429, 200, 200]
    assert calls[2].at - calls[1].at >= 1.0


def test_an_internal_error_of_the_server_is_tried_again(shop: Shop, ana: Phone) -> None:
    shop.server.fail("sendMessage", 500, chat=ana.chat, times=2)
    ana.write(ASKED)
    ana.write(OTHER)
    ana.answer(3)
    assert firsts(ana) == [ANSWER, ELEVEN]
    assert [one.status for one in shop.server.calls("sendMessage", ana.chat)[1:]] == [500, 500, 200, 200]


def test_a_server_that_is_not_there_for_a_while_gets_it_later(shop: Shop, ana: Phone) -> None:
    """Refused connections: certainly nothing was sent."""
    shop.server.limit("sendMessage", retry_after=1, chat=ana.chat)
    ana.write(ASKED)
    shop.log.wait("not sent, tried again", chat=str(ana.chat))
    shop.server.refuse_connections()
    shop.log.wait("not sent, tried again", 2, chat=str(ana.chat))
    shop.server.accept_connections()
    ana.answer(2)
    assert ana.say(OTHER).text.startswith(ELEVEN)
    assert firsts(ana) == [ANSWER, ELEVEN]


@pytest.mark.parametrize("handled", [True, False])
@pytest.mark.parametrize("fault", ["cut", "bad gateway", "no JSON"])
def test_what_may_have_arrived_is_said_and_shown_on_request(shop: Shop, ana: Phone, fault: str, handled: bool) -> None:
    order = {
        "cut": lambda: shop.server.cut("sendMessage", handled, chat=ana.chat),
        "bad gateway": lambda: shop.server.fail("sendMessage", 502, handled=handled, chat=ana.chat),
        "no JSON": lambda: shop.server.garble("sendMessage", handled=handled, chat=ana.chat),
    }
    order[fault]()
    ana.write("12 ondrel bracket bolt torque")
    line = ana.answer(3 if handled else 2)
    arrived = ["Front or rear?"] if handled else []
    assert firsts(ana) == [*arrived, UNSURE]
    assert line.labels == [SHOW_IT]
    # The choice stands on the line now, and its buttons work there.
    shown = ana.press(SHOW_IT, line)
    assert (shown.id, shown.labels) == (line.id, ["front", "rear"])
    assert ana.press("front", shown).text.startswith(ANSWER)
    assert firsts(ana) == [*arrived, ANSWER]
    assert ana.press_only(SHOW_IT, shown, line.data(SHOW_IT)) == "That message is not kept any more. Ask again."


def test_a_send_that_times_out_after_it_was_delivered(shop: Shop, ana: Phone, ben: Phone) -> None:
    """TimedOut is a NetworkError, as is BadRequest: one says that it may be there, the other that it is not."""
    shop.server.hang("sendMessage", handled=True, chat=ana.chat)
    ana.write(ASKED)
    assert ben.say(ASKED).text.startswith(ANSWER), "one that hangs holds up nobody else"
    ana.answer(3)
    assert firsts(ana) == [ANSWER, UNSURE]
    assert shop.log.wait("sent or not, nobody knows", chat=str(ana.chat))["ms"] >= 1000 * SEND_SECONDS
    assert [one.status for one in shop.server.calls("sendMessage", ana.chat)[1:]] == [None, 200]


def test_the_line_itself_may_stand_twice(shop: Shop, ana: Phone) -> None:
    shop.server.cut("sendMessage", True, chat=ana.chat, times=2)
    ana.write(ASKED)
    ana.answer(4)
    assert firsts(ana) == [ANSWER, UNSURE, UNSURE]
    assert ana.press(SHOW_IT).text.startswith(ANSWER)


def test_what_the_server_refuses_is_not_tried_again(shop: Shop, ana: Phone) -> None:
    shop.server.fail("sendMessage", 400, chat=ana.chat)
    ana.write(ASKED)
    assert ana.say(OTHER).text.startswith(ELEVEN)
    assert firsts(ana) == [ELEVEN]
    assert [one.status for one in shop.server.calls("sendMessage", ana.chat)[1:]] == [400, 200]
    shop.log.wait("the server refused a message of ours", chat=str(ana.chat))
    assert shop.faults() == ["the server refused a message of ours: BadRequest: Ordered by the test"]
    states = shop.rows("SELECT state FROM sending WHERE chat = :chat", chat=str(ana.chat))
    assert sorted(states).count(("refused",)) == 1


def test_marks_that_the_server_does_not_take_are_left_out(shop: Shop, ana: Phone) -> None:
    shop.server.fail("sendMessage", 400, chat=ana.chat, description="Bad Request: can't parse entities: by the test")
    since = len(shop.log.lines)
    shown = ana.say(ASKED)
    assert shown.text.splitlines()[0] == ANSWER
    assert "<b>" not in shown.html
    assert "Not right?" in shown.labels
    shop.log.wait("markup of ours was refused, sent as plain text", since=since)
    assert len(shop.faults()) == 1


# Changing


@pytest.mark.parametrize("code", [500, 502, 429])
def test_a_change_that_failed_is_made_again(shop: Shop, ana: Phone, code: int) -> None:
    ana.say("12 ondrel bracket bolt torque")
    shop.server.fail("editMessageText", code, chat=ana.chat, parameters={"retry_after": 1} if code == 429 else {})
    shown = ana.press("front")
    assert (shown.text.splitlines()[0], shown.edits, ana.count) == (ANSWER, 1, 2)


def test_a_change_that_was_made_and_not_told_is_made_again_without_harm(shop: Shop, ana: Phone) -> None:
    ana.say("12 ondrel bracket bolt torque")
    shop.server.cut("editMessageText", True, chat=ana.chat)
    shown = ana.press("front")
    assert last_sending(shop, ana) == ("sent", 2)
    assert (shown.text.splitlines()[0], ana.last.edits, ana.count) == (ANSWER, 1, 2)
    [refused] = shop.refusals()
    assert refused.startswith("editmessagetext: Bad Request: message is not modified")


def test_a_menu_that_failed_is_put_again(shop: Shop) -> None:
    shop.server.cut("setMyCommands", True)
    shop.server.fail("setMyCommands", 500)
    ana = shop.phone("Ana", technician="North bay")
    shop.settle()
    assert ana.menu == ("vehicle", "job", "help")


# Presses


def test_a_notice_that_is_lost_does_not_keep_the_answer_back(shop: Shop, ana: Phone) -> None:
    asked, since = ana.say("12 ondrel bracket bolt torque"), len(shop.log.lines)
    shop.server.cut("answerCallbackQuery")
    shop.server.press(ana.chat, asked.id, "front")
    shop.server.wait_for(ana.chat, SECONDS, edits=1)
    assert firsts(ana) == [ANSWER]
    shop.log.wait("not answered in time", since=since, what="notice")


def test_two_presses_at_once_choose_once(shop: Shop, ana: Phone) -> None:
    asked = ana.say("12 ondrel bracket bolt torque")
    press = {"chat": ana.chat, "person": ana.person, "message": asked.id}
    queries = [
        one["query"] for one in shop.server.batch([("press", press | {"label": one}) for one in ("front", "rear")])
    ]
    notices = [shop.server.wait_for_notice(one, SECONDS).text for one in queries]
    assert notices == ["", "That is answered already."]
    shop.settle()
    assert firsts(ana) == [ANSWER]


# Polling


def test_an_update_that_comes_twice_is_answered_once(shop: Shop, ana: Phone) -> None:
    shop.server.repeat_updates(2)
    shop.server.batch([("say", {"chat": ana.chat, "person": ana.person, "text": text}) for text in ("/help", GAP)])
    ana.answer(3)
    assert ana.say(OTHER).text.startswith(ELEVEN)
    assert ana.count == 4
    gaps = shop.rows("SELECT count(*) FROM answer WHERE person = :p AND outcome = 'gap'", p=f"telegram {ana.person}")
    assert gaps == [(1,)]


def test_a_confirmation_that_is_lost_repeats_nothing(shop: Shop, ana: Phone) -> None:
    shop.server.overhear_confirmations(2)
    ana.write("12 ondrel bracket bolt torque")
    asked = ana.answer(2)
    shop.server.overhear_confirmations(1)
    ana.press("front", asked)
    assert ana.say(OTHER).text.startswith(ELEVEN)
    assert (ana.count, ana.shown[1].edits) == (3, 1)


@pytest.mark.parametrize("fault", ["cut", "lost answer", 500, 502, 429, "no JSON"])
def test_a_poll_that_fails_loses_nothing(shop: Shop, ana: Phone, fault: str | int) -> None:
    since = len(shop.log.lines)
    if isinstance(fault, int):
        shop.server.fail("getUpdates", fault, parameters={"retry_after": 1} if fault == 429 else {})
    elif fault == "no JSON":
        shop.server.garble("getUpdates", handled=False)
    else:
        shop.server.cut("getUpdates", handled=fault == "lost answer")
    # The poll that is under way brings the first one, and the next poll fails.
    assert ana.say(ASKED).text.startswith(ANSWER)
    assert ana.say(OTHER).text.startswith(ELEVEN)
    assert firsts(ana) == [ANSWER, ELEVEN]
    shop.log.wait("polling too often" if fault == 429 else "a poll failed", since=since)


def test_all_connections_are_lost_and_come_back(shop: Shop, ana: Phone) -> None:
    since = len(shop.log.lines)
    shop.server.refuse_connections()
    shop.log.wait("a poll failed", since=since)
    ana.write(ASKED)
    ana.write(OTHER)
    shop.server.accept_connections()
    ana.answer(3)
    assert firsts(ana) == [ANSWER, ELEVEN]


def test_a_webhook_that_somebody_sets_is_taken_away(shop: Shop, ana: Phone) -> None:
    since, hook = len(shop.log.lines), parse.urlencode({"url": "https://elsewhere.example/hook"})
    with request.urlopen(f"{shop.server.api_url}{shop.server.token}/setWebhook?{hook}") as answer:
        assert answer.status == 200
    shop.log.wait("another process polls this bot", since=since)
    assert ana.say(ASKED).text.startswith(ANSWER)
    assert shop.server.state()["webhook"] == ""
    assert {one.partition(":")[0] for one in shop.refusals()} == {"getupdates"}


# People and floods


def test_whoever_blocks_the_bot_does_not_stop_the_others(shop: Shop, ana: Phone, ben: Phone) -> None:
    shop.server.limit("sendMessage", retry_after=1, chat=ana.chat)
    ana.write(ASKED)
    shop.log.wait("not sent, tried again", chat=str(ana.chat))
    shop.server.block(ana.person)
    assert ben.say(ASKED).text.startswith(ANSWER)
    assert last_sending(shop, ana) == ("refused", 2)
    assert shop.refusals() == ["sendmessage: Forbidden: bot was blocked by the user"]
    assert ben.say(OTHER).text.startswith(ELEVEN)
    shop.server.unblock(ana.person)
    assert ana.say(OTHER).text.startswith(ELEVEN)
    assert firsts(ana) == [ELEVEN]


def test_everybody_at_once(shop: Shop) -> None:
    """Forty people ask in the same moment, of a server that takes thirty messages a second (Bot FAQ, limits)."""
    phones = [shop.phone(f"Tech {number}", technician="North bay") for number in range(40)]
    shop.settle()
    shop.server.settings(limits={"on": True, "chat_seconds": 0.0})
    shop.server.batch([("say", {"chat": one.chat, "person": one.person, "text": ASKED}) for one in phones])
    for one in phones:
        one.answer(2)
    shop.settle()
    shop.server.settings(limits={"on": False})
    assert [firsts(one) for one in phones] == [[ANSWER]] * len(phones)
    # The library's limiter lets a first thirty through at once; whatever the server refuses then is waited for.
    assert all(one.startswith("sendmessage: Too Many Requests: retry after") for one in shop.refusals())


def test_a_chat_is_answered_in_the_order_in_which_it_asked(shop: Shop, ana: Phone) -> None:
    texts = list(itertools.islice(itertools.cycle([ASKED, OTHER]), 12))
    shop.server.fail("sendMessage", 500, chat=ana.chat, skip=3)
    shop.server.limit("sendMessage", retry_after=1, chat=ana.chat, skip=7)
    shop.server.batch([("say", {"chat": ana.chat, "person": ana.person, "text": text}) for text in texts])
    ana.answer(13)
    assert firsts(ana) == [ANSWER if text == ASKED else ELEVEN for text in texts]


def test_the_token_is_hidden_in_the_url_that_httpx_logs(shop: Shop, ana: Phone) -> None:
    """It logs the URL of every call at INFO; the process of these tests lets it (see running_bot)."""
    since = len(shop.log.lines)
    ana.say(ASKED)
    secret = shop.server.token.partition(":")[2]
    shop.log.wait(
        f'HTTP Request: POST {shop.server.url}/bot***/sendMessage "HTTP/1.1 200 OK"', since=since, logger="httpx"
    )
    assert secret not in shop.log.text
