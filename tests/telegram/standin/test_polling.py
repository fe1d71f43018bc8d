"""Fetching updates: offsets, long polls, kinds that are allowed, two pollers, and the webhook."""

from __future__ import annotations

import asyncio
import time
from typing import Any

import pytest
from telegram import Update
from telegram.error import Conflict
from telegram.ext import Application, MessageHandler, filters

from .rig import ANN, SHOP, Rig, bad


def test_an_update_comes_until_its_offset_is_confirmed(rig: Rig) -> None:
    numbers = [rig.server.say(ANN, str(n)).update for n in range(3)]
    fetch = rig.bot.get_updates
    assert [one.update_id for one in rig.run(fetch())] == numbers
    assert [one.update_id for one in rig.run(fetch())] == numbers
    assert numbers[1] is not None
    assert [one.update_id for one in rig.run(fetch(offset=numbers[1]))] == numbers[1:]
    assert rig.server.state()["pending"] == 2
    assert [one.update_id for one in rig.run(fetch(offset=-1))] == numbers[2:]
    assert rig.server.state()["pending"] == 1


def test_at_most_a_hundred_updates_come_at_once(rig: Rig) -> None:
    rig.server.batch([("say", {"chat": ANN, "person": ANN, "text": str(n)}) for n in range(130)])
    assert len(rig.updates(limit=7)) == 7
    assert len(rig.updates(limit=500)) == 100
    assert rig.updates()[0].message.text == "107"


def test_a_long_poll_ends_as_soon_as_something_comes(rig: Rig) -> None:
    async def poll() -> tuple[Any, ...]:
        task = asyncio.create_task(rig.bot.get_updates(timeout=30))
        await rig.aside(rig.server.wait_for, polling=True)
        await rig.aside(rig.server.say, ANN, "torque?")
        return await task

    began = time.monotonic()
    assert rig.run(poll())[0].message.text == "torque?"
    assert time.monotonic() - began < 5


def test_a_long_poll_ends_empty_at_its_time(rig: Rig) -> None:
    began = time.monotonic()
    assert rig.run(rig.bot.get_updates(timeout=1)) == ()
    assert 0.9 < time.monotonic() - began < 5


def test_only_kinds_that_are_allowed_come(rig: Rig) -> None:
    rig.run(rig.bot.get_updates(allowed_updates=["callback_query"]))
    assert rig.server.say(ANN, "x").update is None
    rig.run(rig.bot.get_updates())
    assert rig.server.say(ANN, "x").update is None
    rig.run(rig.bot.get_updates(allowed_updates=[]))
    assert rig.server.say(ANN, "x").update is not None
    assert rig.server.raw_update("chat_member", {}) is None


def test_of_two_polls_the_first_is_refused(rig: Rig) -> None:
    async def both() -> tuple[Any, ...]:
        first = asyncio.create_task(rig.bot.get_updates(timeout=30))
        await rig.aside(rig.server.wait_for, polling=True)
        second = asyncio.create_task(rig.bot.get_updates(timeout=30))
        with pytest.raises(Conflict, match="terminated by other getUpdates request"):
            await first
        await rig.aside(rig.server.wait_for, polling=True)
        await rig.aside(rig.server.say, ANN, "torque?")
        return await second

    assert rig.run(both())[0].message.text == "torque?"


def test_a_poll_that_was_given_up_is_no_conflict(rig: Rig) -> None:
    async def given_up() -> Any:
        first = asyncio.create_task(rig.bot.get_updates(timeout=30))
        await rig.aside(rig.server.wait_for, polling=True)
        first.cancel()
        await asyncio.wait([first])
        await rig.aside(rig.server.wait_for, polling=False)
        return await rig.bot.get_updates()

    assert rig.run(given_up()) == ()


def test_a_webhook_excludes_polling(rig: Rig) -> None:
    assert rig.refusal(rig.bot.set_webhook("http://x.example")) == bad(
        "bad webhook: An HTTPS URL must be provided for webhook"
    )

    async def set_meanwhile() -> None:
        polling = asyncio.create_task(rig.bot.get_updates(timeout=30))
        await rig.aside(rig.server.wait_for, polling=True)
        await rig.bot.set_webhook("https://x.example/hook")
        with pytest.raises(Conflict, match="terminated by setWebhook"):
            await polling

    rig.run(set_meanwhile())
    rig.server.say(ANN, "x")
    assert rig.refusal(rig.bot.get_updates()).kind is Conflict
    info = rig.run(rig.bot.get_webhook_info())
    assert (info.url, info.pending_update_count) == ("https://x.example/hook", 1)
    rig.run(rig.bot.delete_webhook(drop_pending_updates=True))
    assert rig.run(rig.bot.get_updates()) == ()


def test_an_application_of_the_library_polls_and_answers(rig: Rig) -> None:
    async def answer(update: Update, context: Any) -> None:
        assert update.message is not None
        await update.message.reply_text(f"read: {update.message.text}", do_quote=True)

    async def serve() -> None:
        application = Application.builder().bot(rig.new_bot()).build()
        application.add_handler(MessageHandler(filters.TEXT, answer))
        async with application:
            assert application.updater is not None
            await application.updater.start_polling(timeout=30)
            await application.start()
            made = await rig.aside(rig.server.say, SHOP, "torque? @StandInBot", ANN)
            shown = await rig.aside(rig.server.wait_for_answer, SHOP, 1)
            await application.updater.stop()
            await application.stop()
        assert (shown.text, shown.reply_to) == ("read: torque? @StandInBot", made.message)

    rig.run(serve())
    assert rig.server.refused() == []
    assert rig.server.state()["pending"] == 0
