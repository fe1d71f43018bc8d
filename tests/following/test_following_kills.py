"""A process killed between any two steps of publishing and telling loses nobody and tells nobody twice."""

from __future__ import annotations

import importlib
import multiprocessing
import os
import sys
from datetime import datetime
from itertools import count
from typing import Any

import pytest
from bay import later
from curators_shop import ASK_FRONT, ASK_REAR, FRONT, REAR, Shop, told
from desk import NOW

from benchbot.book.reader import Book
from benchbot.following.errands import run_due
from benchbot.following.follow import follow
from benchbot.following.publishing import publish
from benchbot.places import Home
from benchbot.records import errands

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="a forked process has the vocabulary loaded already")
KILLED = 77
Point = tuple[str, str, int, str]

POINTS: list[Point] = [
    ("benchbot.following.publishing", "differences", 1, "after"),
    ("benchbot.records.curator", "put_book_version", 1, "before"),
    ("benchbot.records.errands", "put", 1, "after"),
    ("benchbot.records.kept_questions", "replace", 1, "after"),
    ("benchbot.curation.publishing", "put_in_place", 1, "before"),
    ("benchbot.curation.publishing", "put_in_place", 1, "after"),
    ("benchbot.following.follow", "answered", 1, "after"),
    ("benchbot.records.waiting", "put_followed", 1, "after"),
    ("benchbot.records.waiting", "fill", 1, "after"),
    ("benchbot.records.kept_questions", "put", 1, "after"),
    ("benchbot.following.follow", "tell", 1, "before"),
    ("benchbot.following.follow", "tell", 1, "after"),
    ("benchbot.following.follow", "tell", 2, "after"),
    ("benchbot.records.waiting", "fill_meanings", 1, "after"),
    ("benchbot.records.recalls", "put", 1, "after"),
    ("benchbot.records.recalls", "told", 1, "after"),
    ("benchbot.following.follow", "tell_recalls", 1, "after"),
    ("benchbot.records.errands", "ended_once", 1, "after"),
    ("benchbot.records.errands", "put", 2, "after"),
    ("benchbot.following.follow", "follow", 1, "after"),
]


def publish_and_follow(home: Home, now: datetime, point: Point | None) -> None:
    """Ends its own process before or after that call of the function at `point`."""
    if point:
        room, name, number, when = point
        place: Any = importlib.import_module(room)
        whole, calls = getattr(place, name), count(1)

        def counted(*given: Any, **named: Any) -> Any:
            mine = next(calls) == number
            if mine and when == "before":
                os._exit(KILLED)
            came = whole(*given, **named)
            if mine:
                os._exit(KILLED)
            return came

        setattr(place, name, counted)
    publish(home, now)
    importlib.import_module("benchbot.following.follow").follow(home, now)


def process(home: Home, now: datetime, point: Point | None = None) -> Any:
    child = multiprocessing.get_context("fork").Process(target=publish_and_follow, args=(home, now, point))
    child.start()
    return child


def counts(shop: Shop) -> dict[str, int]:
    asked = {
        "told": "SELECT count(*) FROM answer WHERE outcome = 'told'",
        "filled": "SELECT count(*) FROM gap WHERE state = 'filled'",
        "meanings": "SELECT count(*) FROM meaning WHERE state = 'filled'",
        "kept": "SELECT count(*) FROM kept_question",
        "recalls": "SELECT count(*) FROM recall",
        "notices": "SELECT count(*) FROM recall_notice WHERE told_at <> ''",
        "versions": "SELECT count(*) FROM book_version",
        "followed": "SELECT count(*) FROM followed",
    }
    return {name: int(str(shop.one(statement)[0])) for name, statement in asked.items()}


ALL_DONE = {
    "told": 2, "filled": 2, "meanings": 1, "kept": 1, "recalls": 1, "notices": 2, "versions": 2, "followed": 2,
}  # fmt: skip


@pytest.fixture
def asked(shop: Shop) -> Shop:
    """Two people wait for the rear bolt and were shown the front one, which is corrected; nothing is published yet."""
    for name in ("Ana", "Bo"):
        phone = shop.bay.phone(name, technician=shop.main)
        phone.say(ASK_FRONT)
        phone.say(ASK_REAR)
    shop.enter(FRONT | {"value": "110 N·m"}, REAR)
    later(shop.bay, hours=1)
    return shop


@pytest.mark.parametrize("point", POINTS, ids=lambda point: f"{point[3]} {point[1]} {point[2]}")
def test_killed_at_a_point(point: Point, asked: Shop) -> None:
    now = asked.bay.clock()
    child = process(asked.home, now, point)
    child.join()
    assert child.exitcode == KILLED
    half = counts(asked)
    # what follows is there whole or not at all
    assert half["told"] in (0, 2) and (half["told"] == 2) == (half["notices"] == 2) == (half["followed"] == 2)
    with Book.open(asked.home.book) as book:
        assert book.version in (1, 2)
    if half["versions"] == 2:
        # the bot's errands bring the rest, without anybody publishing again
        run_due(asked.home, lambda: now)
    else:
        publish_and_follow(asked.home, now, None)
    assert counts(asked) == ALL_DONE
    publish_and_follow(asked.home, now, None)
    run_due(asked.home, lambda: now)
    assert counts(asked) == ALL_DONE
    with Book.open(asked.home.book) as book:
        assert book.version == 2
    asked.bay.deliver()
    # two answers at once, one told later, one recall; what the owner hears goes to a chat of their own
    shown = [messages for chat, messages in asked.bay.messages.items() if chat != "1"]
    assert [len(messages) for messages in shown] == [4, 4]


def test_two_processes_at_once(asked: Shop) -> None:
    children = [process(asked.home, asked.bay.clock()) for _ in range(3)]
    for child in children:
        child.join()
    assert [child.exitcode for child in children] == [0, 0, 0]
    assert counts(asked) == ALL_DONE


def test_twice_in_one_process(asked: Shop) -> None:
    for _ in range(2):
        publish_and_follow(asked.home, asked.bay.clock(), None)
    assert counts(asked) == ALL_DONE


def killed_before_marked(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process does what is due, and dies before the errand that it did first is marked by the runner."""
    with monkeypatch.context() as patched:
        patched.setattr("benchbot.records.errands.ended", lambda *given: os._exit(KILLED))
        child = multiprocessing.get_context("fork").Process(target=run_due, args=(shop.home, shop.bay.clock))
        child.start()
        child.join()
        assert child.exitcode == KILLED


def test_a_tell_errand_killed_before_it_was_marked_tells_once(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    shop.bay.people.set_hours(shop.main.number, "UTC", "08:00", "12:00")
    ana.say(ASK_REAR)
    shop.publish_and_follow(REAR)
    later(shop.bay, hours=1)
    # the second look at the book comes first
    assert {done.what for done in run_due(shop.home, shop.bay.clock)} == {"follow"}
    later(shop.bay, hours=3)
    killed_before_marked(shop, monkeypatch)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert len(told(ana)) == 1
    assert follow(shop.home, NOW).told == 0


def test_whoever_wanted_a_publishing_is_told_once(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    cora = shop.bay.phone("Cora", curator=shop.main)
    shop.enter(REAR)
    with shop.bay.record.writing() as store:
        errands.put(store, "publish", {"by": cora.person}, shop.bay.clock())
    before = len(cora.shown)
    killed_before_marked(shop, monkeypatch)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert len(cora.shown) == before + 1
