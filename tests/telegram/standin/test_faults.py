"""The limits of sending, and every fault that can be ordered."""

from __future__ import annotations

import asyncio
import time
from datetime import timedelta
from typing import Any

import pytest
from telegram import Message
from telegram.error import BadRequest, Forbidden, NetworkError, RetryAfter, TelegramError, TimedOut

from .rig import ANN, BOB, SHOP, Rig

# Limits of sending; the figures are those of https://core.telegram.org/bots/faq


def again_after(rig: Rig, chat: int) -> int:
    with pytest.raises(RetryAfter) as refused:
        rig.run(rig.bot.send_message(chat, "x"))
    seconds = refused.value.retry_after
    assert isinstance(seconds, timedelta)
    return round(seconds.total_seconds())


def test_one_message_a_second_to_a_chat(rig: Rig) -> None:
    rig.server.settings(limits={"on": True, "chat_seconds": 30.0})
    rig.run(rig.bot.send_message(ANN, "x"))
    assert again_after(rig, ANN) == 30
    rig.run(rig.bot.send_message(BOB, "x"))
    rig.server.settings(limits={"chat_seconds": 0.0})
    rig.run(rig.bot.send_message(ANN, "x"))
    assert len(rig.server.answers(ANN)) == 2


def test_thirty_messages_a_second_in_all(rig: Rig) -> None:
    rig.server.settings(limits={"on": True, "chat_seconds": 0.0, "overall": 3, "overall_seconds": 20.0})
    for _ in range(3):
        rig.run(rig.bot.send_message(ANN, "x"))
    assert again_after(rig, BOB) == 20
    rig.server.settings(limits={"on": False})
    rig.run(rig.bot.send_message(BOB, "x"))


def test_twenty_messages_a_minute_to_a_group(rig: Rig) -> None:
    rig.server.settings(limits={"on": True, "chat_seconds": 0.0, "group": 2})
    for _ in range(2):
        rig.run(rig.bot.send_message(SHOP, "x"))
    assert again_after(rig, SHOP) == 60
    for _ in range(3):
        rig.run(rig.bot.send_message(ANN, "x"))


# Faults of calls


def send(rig: Rig, chat: int = ANN) -> Any:
    return rig.run(rig.bot.send_message(chat, "100 N·m"))


def test_429_is_answered_so_many_times(rig: Rig) -> None:
    rig.server.limit("sendMessage", retry_after=7, times=2)
    assert [again_after(rig, ANN), again_after(rig, ANN)] == [7, 7]
    send(rig)
    assert len(rig.server.answers(ANN)) == 1


@pytest.mark.parametrize(
    ("code", "kind"), [(500, NetworkError), (502, NetworkError), (403, Forbidden), (400, BadRequest)]
)
@pytest.mark.parametrize("handled", [False, True])
def test_a_status_is_answered(rig: Rig, code: int, kind: type[TelegramError], handled: bool) -> None:
    rig.server.fail("sendMessage", code, handled=handled)
    assert rig.refusal(rig.bot.send_message(ANN, "x")).kind is kind
    assert len(rig.server.answers(ANN)) == handled
    call = rig.server.calls("sendMessage")[0]
    assert (call.status, call.fault, call.handled) == (code, "status", handled)
    assert not call.refused


@pytest.mark.parametrize("handled", [False, True])
def test_a_connection_is_cut_before_or_after_the_call_is_handled(rig: Rig, handled: bool) -> None:
    rig.server.cut("sendMessage", handled=handled)
    refused = rig.refusal(rig.bot.send_message(ANN, "x"))
    assert refused.kind is NetworkError
    assert len(rig.server.answers(ANN)) == handled
    send(rig)


def test_an_answer_comes_late(rig: Rig) -> None:
    rig.server.delay(0.3, "sendMessage")
    began = time.monotonic()
    send(rig)
    assert time.monotonic() - began >= 0.3


def test_a_message_is_delivered_though_the_client_gave_up(rig: Rig) -> None:
    rig.server.delay(30, "sendMessage")
    assert rig.refusal(rig.bot.send_message(ANN, "x", read_timeout=0.2)).kind is TimedOut
    assert len(rig.server.answers(ANN)) == 1


@pytest.mark.parametrize("handled", [False, True])
def test_a_call_hangs(rig: Rig, handled: bool) -> None:
    rig.server.hang("sendMessage", handled=handled)
    assert rig.refusal(rig.bot.send_message(ANN, "x", read_timeout=0.2)).kind is TimedOut
    assert len(rig.server.answers(ANN)) == handled
    assert rig.server.calls("sendMessage")[0].status is None


@pytest.mark.parametrize("handled", [False, True])
def test_an_answer_is_no_json(rig: Rig, handled: bool, caplog: pytest.LogCaptureFixture) -> None:
    rig.server.garble("sendMessage", handled=handled)
    assert rig.refusal(rig.bot.send_message(ANN, "x")).text == "Invalid server response"
    assert len(rig.server.answers(ANN)) == handled


def test_a_fault_meets_only_its_method_and_chat_and_place_in_the_row(rig: Rig) -> None:
    rig.server.fail("sendMessage", 500, chat=BOB, skip=1)
    rig.run(rig.bot.get_me())
    send(rig, ANN)
    send(rig, BOB)
    assert rig.server.state()["outstanding"] == 1
    assert rig.refusal(rig.bot.send_message(BOB, "x")).kind is NetworkError
    send(rig, BOB)
    rig.server.wait_for(outstanding=0)
    rig.server.fail(times=5)
    assert rig.refusal(rig.bot.get_me()).kind is NetworkError
    rig.server.clear_faults()
    rig.run(rig.bot.get_me())


# Faults of updates and of the whole server


def test_an_update_comes_twice(rig: Rig) -> None:
    rig.server.repeat_updates()
    numbers = [rig.server.say(ANN, "one").update, rig.server.say(ANN, "two").update]
    seen = [one.update_id for _ in range(4) for one in rig.updates()]
    assert seen == [numbers[0], numbers[1], numbers[0]]


def test_a_confirmation_is_lost(rig: Rig) -> None:
    rig.server.overhear_confirmations()
    number = rig.server.say(ANN, "one").update
    seen = [one.update_id for _ in range(4) for one in rig.updates()]
    assert seen == [number, number]


def test_connections_are_refused_until_they_are_taken_again(rig: Rig) -> None:
    rig.server.refuse_connections()
    # the first may still find the cut connection of the call before; the next one has to connect anew
    assert rig.refusal(rig.bot.send_message(ANN, "x")).kind is NetworkError
    refused = rig.refusal(rig.bot.send_message(ANN, "x"))
    assert (refused.kind, "ConnectError" in refused.text) == (NetworkError, True)
    rig.server.accept_connections()
    send(rig)


def test_connections_are_refused_for_a_time(rig: Rig) -> None:
    async def polled() -> None:
        polling = asyncio.create_task(rig.bot.get_updates(timeout=30))
        await rig.aside(rig.server.wait_for, polling=True)
        await rig.aside(rig.server.refuse_connections, 0.3)
        with pytest.raises(NetworkError):
            await polling

    rig.run(polled())
    assert rig.refusal(rig.bot.send_message(ANN, "x")).kind is NetworkError
    end = time.monotonic() + 5
    sent = None
    while sent is None and time.monotonic() < end:
        try:
            sent = send(rig)
        except NetworkError:
            continue
    assert isinstance(sent, Message)


def test_the_clock_stands_where_the_test_puts_it(rig: Rig) -> None:
    rig.server.settings(clock=1_900_000_000)
    rig.server.say(ANN, "x")
    assert rig.one().message.date.timestamp() == 1_900_000_000
    assert send(rig).date.timestamp() == 1_900_000_000
