"""The watch: what counts as polling that goes on, who is told, and how a process that hangs is ended."""

from __future__ import annotations

import asyncio
import json
import os
import socket
import threading
from pathlib import Path

import pytest
from parts import BOT, NOW, Clock, Noted

from benchbot.channels.telegram.leaving import ACT, AGAIN, ASKED, Leaving
from benchbot.channels.telegram.watch import GRACE_SECONDS, Alive, Guard, Watch, alive_file, tell_supervisor
from benchbot.places import Home


class Post:
    """A watch whose time the test sets."""

    def __init__(self, folder: Path) -> None:
        self.home = Home(folder)
        self.clock, self.told = Clock(), Noted()
        self.seconds = 1000.0
        self.watch = Watch(self.home, BOT, 180, self.clock, lambda: self.seconds, self.told)

    def later(self, seconds: float) -> None:
        self.seconds += seconds
        self.clock.forward(seconds)

    @property
    def words(self) -> list[str]:
        return [call[0] for call in self.told.calls]


def test_three_minutes_without_a_good_poll_are_too_long(tmp_path: Path) -> None:
    post = Post(tmp_path)
    post.later(180)
    assert not post.watch.overdue, "counted from the start until the first one"
    post.watch.good_poll({})
    post.later(180)
    assert not post.watch.overdue
    post.later(0.1)
    assert post.watch.overdue
    post.watch.going_on()
    assert not post.watch.overdue


def test_the_supervisor_hears_of_the_first_good_poll_and_of_each(tmp_path: Path) -> None:
    post = Post(tmp_path)
    assert post.words == []
    post.watch.good_poll({})
    post.watch.good_poll({})
    post.watch.going_on()
    post.watch.end()
    assert post.words == ["READY=1", "WATCHDOG=1", "WATCHDOG=1", "STOPPING=1"]


def test_the_last_good_poll_is_written_now_and_then(tmp_path: Path) -> None:
    post = Post(tmp_path)
    assert Alive.read(post.home) is None
    post.watch.good_poll({"sent": 1})
    assert Alive.read(post.home) == Alive(os.getpid(), BOT, NOW, {"sent": 1})
    post.later(9.9)
    post.watch.good_poll({"sent": 2})
    assert Alive.read(post.home) == Alive(os.getpid(), BOT, NOW, {"sent": 1}), "not every poll writes a file"
    post.later(0.2)
    post.watch.good_poll({"sent": 3})
    alive = Alive.read(post.home)
    assert alive is not None
    assert (alive.polled_at, alive.counts) == (post.clock(), {"sent": 3})
    post.watch.end()
    assert Alive.read(post.home) is None
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"pid": 1}', '{"pid": 1, "bot": "5", "polled_at": "x", "counts": {}}']
)
def test_a_file_that_is_none_of_ours_says_nothing(tmp_path: Path, text: str) -> None:
    alive_file(Home(tmp_path)).write_text(text, encoding="utf-8")
    assert Alive.read(Home(tmp_path)) is None


def test_a_home_that_takes_no_file_does_not_stop_polling(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    post = Post(tmp_path / "gone")
    post.watch.good_poll({})
    assert "cannot be written" in caplog.text
    assert not post.watch.overdue


@pytest.mark.skipif(not hasattr(socket, "AF_UNIX"), reason="systemd is on Linux only")
@pytest.mark.parametrize("abstract", [False, True])
def test_systemd_is_told_over_its_socket(tmp_path: Path, abstract: bool) -> None:
    """sd_notify(3): a datagram to the socket that NOTIFY_SOCKET names; a leading @ is the abstract namespace."""
    name = f"@benchbot-test-{os.getpid()}" if abstract else str(tmp_path / "socket")
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as supervisor:
        supervisor.bind("\0" + name[1:] if abstract else name)
        supervisor.settimeout(5)
        tell_supervisor("READY=1", {"NOTIFY_SOCKET": name})
        assert supervisor.recv(100) == b"READY=1"


def test_without_a_supervisor_nobody_is_told(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    tell_supervisor("READY=1", {})
    assert not caplog.text
    tell_supervisor("READY=1", {"NOTIFY_SOCKET": str(tmp_path / "none")})
    assert "does not listen" in caplog.text


class Sentry:
    """A guard whose looks the test takes."""

    def __init__(self, post: Post) -> None:
        self.stopped, self.left = Noted(), Noted()
        self.guard = Guard(post.watch, self.left, lambda: post.seconds)
        self.guard._stop = self.stopped


def test_a_process_that_polls_no_more_is_asked_to_end_and_then_ended(tmp_path: Path) -> None:
    post = Post(tmp_path)
    sentry = Sentry(post)
    sentry.guard.look()
    assert not sentry.stopped.calls
    post.later(181)
    sentry.guard.look()
    sentry.guard.look()
    assert sentry.stopped.calls == [()]
    assert not sentry.left.calls
    post.later(GRACE_SECONDS)
    sentry.guard.look()
    assert sentry.left.calls == [(AGAIN,)]


def test_a_process_that_ends_by_itself_and_hangs_is_ended_with_its_own_code(tmp_path: Path) -> None:
    post = Post(tmp_path)
    sentry = Sentry(post)
    sentry.guard.hurry(ASKED)
    post.later(GRACE_SECONDS - 0.1)
    sentry.guard.look()
    assert not sentry.left.calls
    post.later(200)
    sentry.guard.look()
    assert sentry.left.calls == [(ASKED,)]
    assert not sentry.stopped.calls


def test_the_guard_looks_from_a_thread_of_its_own(tmp_path: Path) -> None:
    post = Post(tmp_path)
    post.later(181)
    asked = threading.Event()
    guard = Guard(post.watch, lambda _: None, lambda: post.seconds)
    guard.start(asked.set)
    assert asked.wait(10), "the event loop of this test stands still all the time"
    guard.over()


def test_the_first_reason_to_leave_counts() -> None:
    async def main() -> tuple[int, str]:
        leaving = Leaving()
        leaving(ACT, "first")
        leaving(AGAIN, "second")
        return await leaving.reason()

    assert asyncio.run(main()) == (ACT, "first")


def test_what_is_written_is_plain(tmp_path: Path) -> None:
    post = Post(tmp_path)
    post.watch.good_poll({"handled": 2})
    plain = json.loads(alive_file(post.home).read_text(encoding="utf-8"))
    assert sorted(plain) == ["bot", "counts", "pid", "polled_at"]
