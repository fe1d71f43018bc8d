"""The bot at two Bot API servers that nobody here wrote: what works at our own stand-in is no misreading of our own.

telegram-test-api (npm, MIT) is polled, telemelya (PyPI, MIT) comes by webhook. Both are lax about what the Bot API
forbids, and mended where they differ from its reference, so only the way through is tested here.
"""

from __future__ import annotations

import secrets
import shutil
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records import arrivals
from benchbot.records.record import Record, open_record
from foreign.phones import PERSON, Phone, PollingPhone, Shown, WebhookPhone
from foreign.running import Bot, running
from foreign.servers import telegram_test_api, telemelya

# The ids that the servers give to every bot: lib/routes/bot/getMe.js and telemelya/server/bot_api.py.
API_BOT, TELEMELYA_BOT = "666", "123456789"
CHOICE = "12 ondrel bracket bolt torque"
NOT_COVERED = "08 ondrel front bracket bolt torque"


@pytest.fixture
def home(demo_shop: Home, tmp_path: Path) -> Home:
    """Its record is new: no person and no location is known."""
    shutil.copy(demo_shop.book, tmp_path / "book.sqlite")
    return Home(tmp_path)


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    with open_record(f"sqlite:///{home.record}") as opened:
        yield opened


@pytest.fixture
def kept(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A folder that is still there at the next run, where pytest has one."""
    cache = getattr(request.config, "cache", None)
    return tmp_path if cache is None else Path(cache.mkdir("servers"))


def test_by_polling(home: Home, record: Record, kept: Path, tmp_path: Path) -> None:
    token = new_token(API_BOT)
    with (
        telegram_test_api(kept, tmp_path) as url,
        closing(PollingPhone(url, token)) as phone,
        running("polling", home, url, token) as bot,
    ):
        seen = join_ask_and_miss(phone, bot, invite(record))
        assert bot.stop() == 0
        assert phone.shown() == seen
    all_is_done(record, API_BOT, bot)


def test_by_webhook(home: Home, record: Record, tmp_path: Path) -> None:
    token = new_token(TELEMELYA_BOT)
    with (
        telemelya(tmp_path) as url,
        closing(WebhookPhone(url, token)) as phone,
        running("webhook", home, url, token) as bot,
    ):
        bot.until(phone.reachable)
        seen = join_ask_and_miss(phone, bot, invite(record))
        assert bot.stop() == 0
        assert phone.shown() == seen
        assert phone.calls() == {"sendMessage": 3, "editMessageText": 1, "answerCallbackQuery": 1}
    all_is_done(record, TELEMELYA_BOT, bot)


def join_ask_and_miss(phone: Phone, bot: Bot, code: str) -> list[Shown]:
    """An invite, a question that asks back, a press, a gap; what the bot shows in the end, one message for each."""
    phone.say(f"/start {code}")
    bot.until(lambda: len(phone.shown()) == 1)
    assert phone.shown()[0].text.startswith("You are in: technician at North bay.")

    phone.say(CHOICE)
    bot.until(lambda: len(phone.shown()) == 2)
    asked = phone.shown()[1]
    assert asked.text.splitlines()[:2] == ["Front or rear?", "2012 Brackwell Ondrel, caliper bracket bolt, torque"]
    assert list(asked.buttons) == ["front", "rear"]

    phone.press(asked, "front")
    bot.until(lambda: phone.shown()[1].text != asked.text)
    answered = phone.shown()[1]
    assert answered.id == asked.id
    assert answered.text.splitlines()[:2] == [
        "50 lb-ft = 68 N·m (converted)",
        "2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque",
    ]
    assert not {"front", "rear"} & set(answered.buttons)

    phone.say(NOT_COVERED)
    bot.until(lambda: len(phone.shown()) == 3)
    missed = phone.shown()[2]
    assert missed.text.startswith("Not in our book: 2008 Brackwell Ondrel, FRONT caliper bracket bolt, torque.")
    return phone.shown()


def all_is_done(record: Record, number: str, bot: Bot) -> None:
    """The record has the answers and the gap, nothing waits any more, and the bot had nothing to complain about."""
    person = f"telegram {PERSON}"
    assert record.rows("SELECT outcome, person FROM answer ORDER BY answer", {}) == [
        ("choose", person), ("answer", person), ("gap", person),
    ]  # fmt: skip
    assert record.rows("SELECT question, reason, person FROM gap", {}) == [(NOT_COVERED, "year not covered", person)]
    assert arrivals.left(record, number) == []
    # The welcome and the menu behind it, the question, its change into the answer, the gap.
    assert record.rows("SELECT state, tries, bot FROM sending", {}) == [("sent", 1, number)] * 5
    came = [line for line in bot.log() if line["event"] == "came in"]
    assert (sum(line["updates"] for line in came), sum(line["new"] for line in came)) == (4, 4), "each one comes once"
    assert [line for line in bot.log() if line["level"] != "info"] == []


def invite(record: Record) -> str:
    """The code of an invite to a new location."""
    now = datetime.now(UTC)
    made = People(record).add_location("North bay", "telegram 1", now)
    assert isinstance(made, Location)
    return invites.make(record, made.number, "technician", 1, 1, "test", now)[1]


def new_token(number: str) -> str:
    """Another one each time: one machine may run these tests twice at once, and polls one token only once."""
    return f"{number}:{secrets.token_hex(20)}"
