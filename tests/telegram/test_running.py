"""The whole bot as a process of its own, on the demo book, against the stand-in of the Bot API."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from parts import asked, fresh_home, record_of, states
from standin.client import StandIn

from benchbot.channels.telegram.token import bot_number
from benchbot.channels.telegram.watch import Alive
from benchbot.desk.wording import ENGLISH
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import arrivals

pytestmark = pytest.mark.skipif(os.name != "posix", reason="ends processes by signals")

ANN, BEN = 11, 12
UNSURE, SHOW_IT = ENGLISH.unsure, ENGLISH.show_it
QUESTION = "12 ondrel frt cal brkt bolt tq"
# Of the demo book, where every figure is invented.
ANSWER = "50 lb-ft"
SECONDS = 30.0


class Process:
    """`benchbot telegram` in a home, its log in a file."""

    def __init__(
        self, home: Home, server: StandIn, *words: str, url: str = "", token: str = "", record: str = ""
    ) -> None:
        self.log = home.folder / "log.txt"
        settings = {
            "BENCHBOT_HOME": str(home.folder),
            "BENCHBOT_TELEGRAM_TOKEN": token or server.token,
            "BENCHBOT_TELEGRAM_API_URL": url or server.url,
            "TMPDIR": str(home.folder),
        }
        if record:
            settings["BENCHBOT_DATABASE_URL"] = record
        left_out = ("BENCHBOT_DATABASE_URL", "NOTIFY_SOCKET")
        self.settings = {name: value for name, value in os.environ.items() if name not in left_out} | settings
        self._file = self.log.open("a", encoding="utf-8")
        self.process = subprocess.Popen(
            [sys.executable, "-m", "benchbot", "telegram", *words], env=self.settings, stderr=self._file
        )

    def ended(self) -> int:
        """Its exit code."""
        return self.process.wait(SECONDS)

    def stopped(self, by: signal.Signals = signal.SIGTERM) -> int:
        self.process.send_signal(by)
        return self.ended()

    @property
    def told(self) -> str:
        return self.log.read_text(encoding="utf-8")

    def clear_away(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        self._file.close()


@pytest.fixture
def server() -> Iterator[StandIn]:
    with StandIn.start() as server:
        for person in (ANN, BEN):
            server.person(person, f"Person {person}")
        yield server


@pytest.fixture
def shop(demo_shop: Home, tmp_path: Path) -> Home:
    """The demo book, and a record in which Ann owns a location."""
    home = fresh_home(tmp_path)
    shutil.copy(demo_shop.book, home.book)
    with record_of(home) as record:
        People(record).add_location("Main shop", f"telegram {ANN}", datetime.now(UTC))
    return home


@contextmanager
def running(home: Home, server: StandIn, *words: str) -> Iterator[Process]:
    """Started, and polling."""
    process = Process(home, server, *words)
    try:
        server.wait_for(polling=True, seconds=SECONDS)
        yield process
    finally:
        process.clear_away()


@contextmanager
def started(
    home: Home, server: StandIn, *words: str, url: str = "", token: str = "", record: str = ""
) -> Iterator[Process]:
    process = Process(home, server, *words, url=url, token=token, record=record)
    try:
        yield process
    finally:
        process.clear_away()


def answers(server: StandIn, person: int = ANN) -> int:
    return sum(ANSWER in shown.text for shown in server.answers(person))


def test_a_question_is_answered_and_the_process_ends_when_asked_to(server: StandIn, shop: Home) -> None:
    with running(shop, server) as process:
        server.say(ANN, QUESTION)
        shown = server.wait_for_answer(ANN, 1, SECONDS)
        assert shown.text.startswith(ANSWER)
        alive = Alive.read(shop)
        assert alive is not None
        assert alive.pid == process.process.pid
        assert process.stopped() == 0
        assert Alive.read(shop) is None
        assert not server.refused()
        assert states(shop) == [(str(ANN), "sent")]
        assert server.token not in process.told
        assert QUESTION not in process.told
        assert ANSWER not in process.told
        for words in ("polling bot=@StandInBot", "came in updates=1", "handled ", "sent ", "stopping why=SIGTERM"):
            assert words in process.told


def test_an_interrupt_ends_it_too(server: StandIn, shop: Home) -> None:
    with running(shop, server) as process:
        assert process.stopped(signal.SIGINT) == 0


def test_a_second_one_on_the_same_machine_is_refused_and_a_check_is_not(server: StandIn, shop: Home) -> None:
    with running(shop, server) as process:
        with started(shop, server) as second:
            assert second.ended() == 1
        assert f"(process {process.process.pid})" in process.told
        looked = subprocess.run(
            [sys.executable, "-m", "benchbot", "telegram", "--check", "--json"],
            env=process.settings, capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert looked.returncode == 0, looked.stdout + looked.stderr
        assert json.loads(looked.stdout)["ok"] is True
        assert process.process.poll() is None


def test_another_poller_elsewhere_ends_it_after_three_conflicts(server: StandIn, shop: Home) -> None:
    server.fail("getUpdates", 409, times=3)
    with started(shop, server) as process:
        assert process.ended() == 1
        assert process.told.count("another process polls this bot times=") == 3
    assert len(server.calls("getUpdates")) == 3


def test_a_server_that_goes_away_ends_it_for_another_try(server: StandIn, shop: Home) -> None:
    with running(shop, server, "--polling-timeout", "1", "--give-up-after", "1.5") as process:
        server.refuse_connections()
        assert process.ended() == 75
        assert "no good poll for too long" in process.told
    server.accept_connections()


def test_a_server_that_never_was_there_ends_it_for_another_try(server: StandIn, shop: Home) -> None:
    with started(shop, server, "--polling-timeout", "0", "--give-up-after", "1", url="http://127.0.0.1:9") as process:
        assert process.ended() == 75
        assert "the server cannot be reached" in process.told


def test_without_a_book_a_person_must_act(server: StandIn, shop: Home) -> None:
    shop.book.unlink()
    with started(shop, server) as process:
        assert process.ended() == 1
        assert "there is no book yet" in process.told
    assert not server.calls("getUpdates")


def test_a_token_that_is_refused_is_told_without_showing_it(server: StandIn, shop: Home) -> None:
    wrong = server.token[:-3] + "xyz"
    with started(shop, server, token=wrong) as process:
        assert process.ended() == 1
        assert "does not know the bot token" in process.told
        assert wrong not in process.told


def test_a_damaged_record_needs_a_person(server: StandIn, shop: Home) -> None:
    shop.record.write_bytes(b"no database" * 500)
    with started(shop, server) as process:
        assert process.ended() == 1
        assert "restore" in process.told


def test_a_record_out_of_reach_at_the_start_may_be_there_later(server: StandIn, shop: Home) -> None:
    """Such as a database server that comes up later than the bot."""
    nowhere = shop.folder / "no" / "such" / "folder" / "served"
    with started(shop, server, record=f"sqlite+pysqlite:///{nowhere}") as process:
        assert process.ended() == 75
        assert "out of reach" in process.told


@pytest.mark.parametrize(
    "words", [["--json"], ["--polling-timeout", "-1"], ["--give-up-after", "0"], ["--sends-per-second", "x"]]
)
def test_wrong_usage_is_told_apart(server: StandIn, shop: Home, words: list[str]) -> None:
    with started(shop, server, *words) as process:
        assert process.ended() == 2


def test_an_update_that_comes_twice_is_answered_once(server: StandIn, shop: Home) -> None:
    with running(shop, server) as process:
        server.repeat_updates(2)
        server.say(ANN, QUESTION)
        server.wait_for_answer(ANN, 1, SECONDS)
        server.say(ANN, "12 ondrel frt cal brkt bolt tq?")
        server.wait_for_answer(ANN, 2, SECONDS)
        server.wait_for(pending=0, seconds=SECONDS)
        assert process.stopped() == 0
    assert answers(server) == 2


def test_what_an_earlier_process_took_in_is_handled_at_the_next_start(server: StandIn, shop: Home) -> None:
    bot, now = bot_number(server.token), datetime.now(UTC)
    left = asked(7, chat=str(ANN), text=QUESTION, bot=bot, at=now)
    with record_of(shop) as record:
        arrivals.keep(record, bot, [(left.number, left.chat, left.to_text())], now)
    with running(shop, server) as process:
        server.wait_for_answer(ANN, 1, SECONDS)
        assert process.stopped() == 0
        assert "handling what was left over count=1" in process.told
    assert answers(server) == 1


def test_a_kill_while_sending_loses_nothing(server: StandIn, shop: Home) -> None:
    server.hang("sendMessage")
    with running(shop, server) as process:
        server.say(ANN, QUESTION)
        server.wait_for(method="sendMessage", calls=1, seconds=SECONDS)
        process.process.kill()
        process.ended()
    assert states(shop) == [(str(ANN), "sending")]
    with running(shop, server) as process:
        server.wait_for_answer(ANN, 1, SECONDS)
        assert process.stopped() == 0
        assert "sendings of a killed process are repeated count=1" in process.told
    assert answers(server) == 1
    assert states(shop) == [(str(ANN), "sent")]


def test_what_may_have_arrived_is_asked_about_and_shown_on_request(server: StandIn, shop: Home) -> None:
    server.cut("sendMessage", handled=False)
    with running(shop, server) as process:
        server.say(ANN, QUESTION)
        question = server.wait_for_answer(ANN, 1, SECONDS)
        assert (question.text, question.labels) == (UNSURE, [SHOW_IT])
        server.press(ANN, question.id, SHOW_IT)
        server.wait_for(ANN, SECONDS, text=ANSWER)
        assert process.stopped() == 0
    assert len(server.answers(ANN)) == 1, "the answer stands where the question stood"
    assert server.last(ANN).labels, "with its buttons"


def test_a_limit_of_the_server_is_waited_for(server: StandIn, shop: Home) -> None:
    server.limit("sendMessage", retry_after=1)
    with running(shop, server) as process:
        server.say(ANN, QUESTION)
        server.wait_for_answer(ANN, 1, SECONDS)
        first, second = server.calls("sendMessage", ANN)
        assert second.at - first.at >= 1
        assert process.stopped() == 0
    assert answers(server) == 1


def test_one_chat_that_hangs_does_not_hold_up_another(server: StandIn, shop: Home) -> None:
    server.hang("sendMessage", chat=ANN)
    with running(shop, server) as process:
        server.say(ANN, QUESTION)
        server.wait_for(method="sendMessage", calls=1, seconds=SECONDS)
        server.say(BEN, "hello")
        assert "invite" in server.wait_for_answer(BEN, 1, SECONDS).text
        assert answers(server) == 0
        # It hangs for longer than the process waits for it.
        assert process.stopped() == 0
        assert "left to the next start" in process.told
    assert states(shop) == [(str(ANN), "sending"), (str(BEN), "sent")]


def test_a_log_for_machines(server: StandIn, shop: Home) -> None:
    with running(shop, server, "--log-json") as process:
        server.say(ANN, QUESTION)
        server.wait_for_answer(ANN, 1, SECONDS)
        assert process.stopped() == 0
        plain = [json.loads(line) for line in process.told.splitlines()]
    assert {"polling", "came in", "handled", "sent", "stopping", "stopped"} <= {one["event"] for one in plain}
    assert plain[-1]["sent"] == 1
