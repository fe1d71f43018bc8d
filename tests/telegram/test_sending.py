"""Parcels become messages on the stand-in of the Bot API: what it refuses, and what is done then."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

import pytest
from parts import post, run
from standin.client import StandIn
from telegram.error import BadRequest, ChatMigrated, Forbidden, RetryAfter, TelegramError
from telegram.request import HTTPXRequest

from benchbot.channels.telegram.at_once import answer
from benchbot.channels.telegram.calls import Garbled, garbled_told, new_bot, polling_line, verdict
from benchbot.channels.telegram.fates import GARBLED_AT_MOST, Back, Unsure, fate_of
from benchbot.channels.telegram.sending import Sender
from benchbot.channels.telegram.settings import Settings
from benchbot.desk.sheets import AtOnce, Button, Notice, Offer, Offers, Parcel, Sheet
from benchbot.reply.reply import Block

ANN, BEN = 11, 12
ROOM, FORUM = -100_77, -100_88
SHEET = Sheet((Block("value", "50 lb-ft"), Block("note", "1 < 2 & so on")), (Button("More", "more"),))
# A PNG of one white point; any decoder takes it (PNG specification, W3C).
POINT = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010806000000 1f15c489"
    "0000000d49444154789c63f8ffffff7f0009fb03fd0543451a0000000049454e44ae426082"
)  # fmt: skip


@pytest.fixture(scope="module")
def _server() -> Iterator[StandIn]:
    with StandIn.start() as server:
        for person in (ANN, BEN):
            server.person(person, f"Person {person}")
        server.group(ROOM, [ANN, BEN])
        server.group(FORUM, [ANN, BEN], forum=True)
        yield server


@pytest.fixture
def server(_server: StandIn) -> Iterator[StandIn]:
    yield _server
    _server.clear_faults()


def settings_of(server: StandIn, seconds: float = 5) -> Settings:
    return Settings(server.token, server.url, sends_per_second=0, group_sends_per_minute=0, send_seconds=seconds)


class Desk:
    """Sends to the stand-in with a real bot, one parcel after the other."""

    def __init__(self, server: StandIn, seconds: float = 5) -> None:
        self.server = server
        self.seconds = seconds
        self.drawn: list[tuple[str, str, Sequence[str]]] = []

    def _draw(self, link: str, title: str, lines: Sequence[str]) -> bytes:
        self.drawn.append((link, title, lines))
        return POINT

    def send(self, *parcels: Parcel, card_message: str = "") -> list[str]:
        async def each(sender: Sender) -> list[str]:
            return [await sender.send(parcel, parcel.chat, card_message) for parcel in parcels]

        return self._with_bot(lambda bot: each(Sender(bot, self._draw)))

    def answer(self, *things: AtOnce) -> None:
        async def each(bot: Any) -> None:
            for thing in things:
                await answer(bot, thing)

        self._with_bot(each)

    def _with_bot(self, work: Any) -> Any:
        async def main() -> Any:
            settings = settings_of(self.server, self.seconds)
            bot = new_bot(settings, polling_line(settings))
            await bot.initialize()
            try:
                return await work(bot)
            finally:
                await bot.shutdown()

        return run(main())


def test_a_post_shows_its_text_its_buttons_and_what_it_answers(server: StandIn) -> None:
    said = server.say(ROOM, "/ask a question", ANN)
    [number] = Desk(server).send(Parcel("post", str(ROOM), SHEET, quote=str(said.message), card=4))
    shown = server.message(ROOM, int(number))
    assert shown.text == "50 lb-ft\n1 < 2 & so on"
    assert "<b>50 lb-ft</b>" in shown.html
    assert shown.data("More") == "4:more"
    assert shown.reply_to == said.message
    assert shown.asked is None


def test_what_it_answers_may_be_gone(server: StandIn) -> None:
    [number] = Desk(server).send(Parcel("post", str(ANN), SHEET, quote="987654"))
    assert server.message(ANN, int(number)).reply_to is None


def test_links_are_not_unfolded(server: StandIn) -> None:
    Desk(server).send(post(str(ANN), "see https://example.com"))
    assert server.calls("sendMessage", ANN)[-1].params["link_preview_options"] in (
        {"is_disabled": True},
        '{"is_disabled": true}',
    )


def test_a_topic_is_kept_and_a_closed_one_left_out(server: StandIn) -> None:
    topic = server.topic(FORUM, "Brakes", ANN)
    [number] = Desk(server).send(post(str(FORUM), topic=str(topic)))
    assert server.message(FORUM, int(number)).thread == topic
    server.close_topic(FORUM, topic)
    [number] = Desk(server).send(post(str(FORUM), "after it was closed", topic=str(topic)))
    assert server.message(FORUM, int(number)).thread is None


def test_a_change_shows_on_the_message_and_once_is_enough(server: StandIn) -> None:
    desk = Desk(server)
    [number] = desk.send(Parcel("post", str(ANN), SHEET, card=4))
    change = Parcel("change", str(ANN), Sheet((Block("value", "68 N·m"),)), message=number)
    assert desk.send(change, change) == [number, number]
    shown = server.message(ANN, int(number))
    assert (shown.text, shown.labels, shown.edits) == ("68 N·m", [], 1)


def test_a_change_of_what_the_card_stands_on(server: StandIn) -> None:
    desk = Desk(server)
    [number] = desk.send(Parcel("post", str(ANN), SHEET, card=4))
    assert desk.send(post(str(ANN), "other"), card_message="1")
    assert desk.send(Parcel("change", str(ANN), post("", "changed").sheet, card=4), card_message=number) == [number]
    assert server.message(ANN, int(number)).text == "changed"


@pytest.mark.parametrize("gone", ["never there", "deleted", "of somebody else", "a picture"])
def test_a_change_of_a_message_that_is_not_there_is_posted(server: StandIn, gone: str) -> None:
    desk = Desk(server)
    number = "987654"
    if gone == "deleted":
        [number] = desk.send(post(str(ANN)))
        server.order("retract", chat=ANN, message=int(number))
    elif gone == "of somebody else":
        number = str(server.say(ANN, "a question").message)
    elif gone == "a picture":
        [number] = desk.send(Parcel("picture", str(ANN), SHEET, code="https://t.me/x", title="t"))
    [new] = desk.send(Parcel("change", str(ANN), post("", f"news of {gone}").sheet, message=number))
    assert new != number
    assert server.message(ANN, int(new)).text == f"news of {gone}"


def test_a_change_without_any_message_is_posted(server: StandIn) -> None:
    [new] = Desk(server).send(Parcel("change", str(ANN), post("", "news").sheet, card=4))
    assert server.message(ANN, int(new)).text == "news"


def test_a_picture_is_drawn_from_its_link_and_its_caption_can_change(server: StandIn) -> None:
    desk = Desk(server)
    picture = Parcel("picture", str(ANN), SHEET, card=4, code="https://t.me/x?start=y", title="Main shop")
    [number] = desk.send(picture)
    assert desk.drawn == [("https://t.me/x?start=y", "Main shop", ["50 lb-ft", "1 < 2 & so on"])]
    shown = server.message(ANN, int(number))
    assert shown.photo == POINT
    assert (shown.text, shown.labels) == ("50 lb-ft\n1 < 2 & so on", ["More"])
    assert desk.send(Parcel("caption", str(ANN), post("", "revoked").sheet), card_message=number) == [number]
    shown = server.message(ANN, int(number))
    assert (shown.text, shown.labels, shown.photo) == ("revoked", [], POINT)


def test_a_document_has_its_name_and_its_caption(server: StandIn) -> None:
    desk = Desk(server)
    paper = Parcel("document", str(ANN), post("", "Job 7").sheet, code="paper:job-7.pdf", title="job-7.pdf")
    [number] = desk.send(paper)
    assert desk.drawn == [("paper:job-7.pdf", "job-7.pdf", ())]
    shown = server.message(ANN, int(number))
    assert (shown.kind, shown.text) == ("document", "Job 7")
    assert (shown.file, shown.filename) == (POINT, "job-7.pdf")


def test_a_menu_is_one_persons_and_can_be_taken_away(server: StandIn) -> None:
    desk = Desk(server)
    desk.send(Parcel("menu", str(BEN), codes=("vehicle", "help"), labels=("On the lift", "How to ask")))
    [menu] = [one for one in server.menus() if one.chat == BEN]
    assert menu.commands == (("vehicle", "On the lift"), ("help", "How to ask"))
    desk.send(Parcel("menu", str(BEN)))
    assert not [one for one in server.menus() if one.chat == BEN and one.commands]


@pytest.mark.parametrize("do", ["post", "change", "picture", "caption"])
def test_markup_that_the_server_does_not_take_is_sent_plain(
    server: StandIn, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture, do: Any
) -> None:
    desk = Desk(server)
    message = ""
    if do in ("change", "caption"):
        [message] = desk.send(Parcel("post" if do == "change" else "picture", str(ANN), SHEET, code="x", title="t"))
    monkeypatch.setattr("benchbot.channels.telegram.sending.html", lambda sheet: "<b>50 lb-ft")
    [number] = desk.send(Parcel(do, str(ANN), replace(SHEET, blocks=(Block("note", "1 < 2"),)), message=message))
    assert server.message(ANN, int(number)).text == "1 < 2"
    assert "sent as plain text" in caplog.text


def test_what_the_server_refuses_for_good_is_raised(server: StandIn) -> None:
    desk = Desk(server)
    with pytest.raises(BadRequest, match=r"(?i)chat not found"):
        desk.send(post("555"))
    with pytest.raises(BadRequest, match=r"(?i)chat not found"):
        desk.send(post("555", topic="3"))
    with pytest.raises(BadRequest, match=r"(?i)empty"):
        desk.send(Parcel("post", str(ANN), Sheet(())))
    with pytest.raises(ValueError, match="64"):
        desk.send(Parcel("post", str(ANN), Sheet(SHEET.blocks, (Button("More", "x" * 64),)), card=4))


def test_whoever_blocked_us_is_told_apart(server: StandIn) -> None:
    server.person(13, "Cal")
    server.block(13)
    with pytest.raises(Forbidden):
        Desk(server).send(post("13"))


def test_a_group_that_moved_says_where_to(server: StandIn) -> None:
    server.group(-55, [ANN], supergroup=False)
    server.migrate(-55, -100_55)
    with pytest.raises(ChatMigrated) as moved:
        Desk(server).send(post("-55"))
    assert verdict(moved.value).chat == "-10055"


def test_a_limit_of_the_server_is_passed_on(server: StandIn) -> None:
    server.limit("sendMessage", retry_after=7)
    with pytest.raises(RetryAfter) as limited:
        Desk(server).send(post(str(ANN)))
    assert verdict(limited.value).wait.total_seconds() == 7
    assert len(Desk(server).send(post(str(ANN)))) == 1


def failure(server: StandIn, seconds: float = 5) -> TelegramError:
    with pytest.raises(TelegramError) as failed:
        Desk(server, seconds).send(post(str(ANN), "lost or not"))
    return failed.value


def told(server: StandIn) -> int:
    return sum(shown.text == "lost or not" for shown in server.answers(ANN))


@pytest.mark.parametrize("code", [500, 502, 503, 504])
@pytest.mark.parametrize("handled", [True, False])
def test_only_an_internal_error_is_certain_among_5xx(server: StandIn, code: int, handled: bool) -> None:
    server.fail("sendMessage", code, handled=handled)
    assert verdict(failure(server)).what == ("not done" if code == 500 else "unknown")


def test_a_connection_that_is_cut_leaves_us_unsure(server: StandIn) -> None:
    for handled in (True, False):
        before = told(server)
        server.cut("sendMessage", handled=handled)
        assert verdict(failure(server)).what == "unknown"
        assert told(server) == before + handled


def test_an_answer_that_comes_too_late_leaves_us_unsure(server: StandIn) -> None:
    before = told(server)
    server.hang("sendMessage", handled=True)
    assert verdict(failure(server, seconds=0.2)).what == "unknown"
    assert told(server) == before + 1


def test_an_answer_that_is_no_json_leaves_us_unsure(server: StandIn) -> None:
    server.garble("sendMessage")
    assert verdict(failure(server)).what == "garbled"


# JSON all the same, and none of the answers that the reference has for these methods (core.telegram.org/bots/api).
RIDDLES = [
    b"[]", b"null", b'"sent"', b'{"ok": true}', b'{"ok": true, "result": {}}', b'{"ok": true, "result": [1]}',
    b'{"ok": true, "result": {"message_id": 1, "date": "yesterday"}}', b'{"ok": true, "result": "sent"}',
    b'{"ok": true, "result": true}',
    b'{"ok": true, "result": {"message_id": "x", "date": 1, "chat": {"id": 1, "type": "private"}}}',
]  # fmt: skip


@contextmanager
def riddles(monkeypatch: pytest.MonkeyPatch, method: str, body: bytes) -> Iterator[None]:
    """The server does what it is asked for, and answers so."""
    ask = HTTPXRequest.do_request

    async def asked(line: HTTPXRequest, url: str, *args: Any, **given: Any) -> tuple[int, bytes]:
        status, answer = await ask(line, url, *args, **given)
        return (status, body) if url.endswith(f"/{method}") else (status, answer)

    with monkeypatch.context() as patch:
        patch.setattr(HTTPXRequest, "do_request", asked)
        yield


@pytest.mark.parametrize("body", RIDDLES, ids=bytes.decode)
def test_an_answer_that_says_nothing_leaves_us_unsure(
    server: StandIn, body: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = told(server)
    with riddles(monkeypatch, "sendMessage", body):
        found = verdict(failure(server))
    assert told(server) == before + 1, "it was shown"
    assert isinstance(fate_of(found, post(str(ANN)), 1), Unsure)
    for ask_about_another in (1, 100):
        assert isinstance(fate_of(found, post(str(ANN), twice=True), ask_about_another), Unsure)


@pytest.mark.parametrize(("do", "method"), [("picture", "sendPhoto"), ("menu", "setMyCommands")])
def test_whatever_was_asked_for(server: StandIn, do: str, method: str, monkeypatch: pytest.MonkeyPatch) -> None:
    parcel = Parcel(do, str(ANN), SHEET, codes=("ask",), labels=("Ask",), code="https://invented.example")  # type: ignore[arg-type]
    with riddles(monkeypatch, method, b"[]"), pytest.raises(Garbled) as failed:
        Desk(server).send(parcel)
    assert verdict(failed.value).what == "garbled"


def test_a_change_with_such_an_answer_is_made_again_but_not_for_ever(
    server: StandIn, monkeypatch: pytest.MonkeyPatch
) -> None:
    [message] = Desk(server).send(post(str(ANN)))
    change = Parcel("change", str(ANN), SHEET, message=message)
    with riddles(monkeypatch, "editMessageText", b"[]"), pytest.raises(Garbled) as failed:
        Desk(server).send(change)
    found = verdict(failed.value)
    assert server.message(ANN, int(message)).text.startswith("50 lb-ft")
    assert isinstance(fate_of(found, change, GARBLED_AT_MOST - 1), Back)
    assert isinstance(fate_of(found, change, GARBLED_AT_MOST), Unsure)


def test_what_we_trip_over_before_we_ask_is_a_fault_of_ours() -> None:
    with pytest.raises(ValueError, match="of the test"), garbled_told():
        raise ValueError("of the test")


def test_a_server_that_is_not_there_is_certain() -> None:
    with StandIn.start() as server:
        server.refuse_connections()

        async def main() -> TelegramError:
            settings = settings_of(server)
            # Without a connection of before: that one might be cut while the call is on its way.
            bot = new_bot(settings, polling_line(settings))
            with pytest.raises(TelegramError) as failed:
                await Sender(bot, lambda *_: POINT).send(post(str(ANN)), str(ANN), "")
            await bot.request.shutdown()
            return failed.value

        found = verdict(run(main()))
        assert found.what == "not done"
        assert fate_of(found, post(str(ANN)), 1) != fate_of(found, post(str(ANN)), 100)
        server.accept_connections()


def test_presses_and_inline_queries_are_answered(server: StandIn) -> None:
    desk = Desk(server)
    [number] = desk.send(Parcel("post", str(ANN), SHEET, card=4))
    pressed = server.press(ANN, int(number), "More")
    queried = server.inline(ANN, "ondrel")
    refused = server.inline(BEN, "ondrel")
    desk.answer(
        Notice(pressed.query, "That is answered already."),
        Offers(queried.query, (Offer("Title", "line", SHEET, "1"),)),
        Offers(refused.query, refusal="Ask your shop for an invite."),
    )
    notice = server.wait_for_notice(pressed.query)
    assert (notice.text, notice.alert) == ("That is answered already.", False)
    assert len(server.wait_for_inline(queried.query).results) == 1
    told = server.wait_for_inline(refused.query)
    assert not told.results
    params = server.calls("answerInlineQuery")[-1].params
    assert "invite" in str(params["button"])
    assert str(params["cache_time"]) == "0"


def test_a_press_that_is_too_old_is_no_error(server: StandIn, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("INFO")
    desk = Desk(server)
    [number] = desk.send(Parcel("post", str(ANN), SHEET, card=4))
    pressed = server.press(ANN, int(number), "More")
    server.expire_queries()
    desk.answer(Notice(pressed.query, "late"))
    assert "not answered in time" in caplog.text
