"""Two processes on one record of a real server: nothing is done twice, nothing is lost."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from bay import BOT
from curators_shop import ASK_REAR, REAR, Shop, told
from desk import NOW

from benchbot.book.reader import Book
from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.records import errands, outbox
from benchbot.records.record import Record

RACER = Path(__file__).with_name("racer.py")


@pytest.fixture(scope="module")
def racers() -> Iterator[list[subprocess.Popen[str]]]:
    command = [sys.executable, str(RACER)]
    with ExitStack() as stack:
        both = [
            stack.enter_context(subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True))
            for _ in range(2)
        ]
        yield both
        for one in both:
            one.communicate()


Race = Callable[[str, Path], list[Any]]


@pytest.fixture
def race(racers: list[subprocess.Popen[str]]) -> Race:
    """What each of the two says that it did; they begin together once both have the record open."""

    def run(what: str, folder: Path) -> list[Any]:
        for who, one in zip(("71", "72"), racers, strict=True):
            tell(one, json.dumps([what, who, str(folder), os.environ["BENCHBOT_DATABASE_URL"]]))
        assert [hear(one) for one in racers] == ["ready", "ready"]
        for one in racers:
            tell(one, "go")
        return [json.loads(hear(one)) for one in racers]

    return run


def tell(racer: subprocess.Popen[str], line: str) -> None:
    assert racer.stdin is not None
    racer.stdin.write(f"{line}\n")
    racer.stdin.flush()


def hear(racer: subprocess.Popen[str]) -> str:
    assert racer.stdout is not None
    return racer.stdout.readline().rstrip("\n")


def test_each_message_is_sent_once_and_each_chat_in_order(record: Record, race: Race, tmp_path: Path) -> None:
    with record.writing() as store:
        for number in range(90):
            outbox.add(store, BOT.number, f"c{number % 12}", str(number), NOW)
    first, second = race("send", tmp_path)
    assert sorted(int(body) for _, body in first + second) == list(range(90))
    assert record.rows("SELECT DISTINCT state FROM sending", {}) == [("sent",)]
    for done in (first, second):
        for chat in {chat for chat, _ in done}:
            bodies = [int(body) for of, body in done if of == chat]
            assert bodies == sorted(bodies)


def test_a_message_that_both_get_is_on_record_once(record: Record, race: Race, tmp_path: Path) -> None:
    assert sum(race("put", tmp_path)) == 40
    assert record.row("SELECT count(*) FROM answer", {}) == (40,)


def test_a_code_for_one_lets_one_in(record: Record, race: Race, tmp_path: Path) -> None:
    place = People(record).add_location("North", "telegram 1", NOW)
    assert isinstance(place, Location)
    others = [People(record).add_location(f"Place {number}", "telegram 1", NOW) for number in range(20)]
    codes = [
        invites.make(record, one.number, "technician", 1, 1, "test", NOW)[1]
        for one in others
        if isinstance(one, Location)
    ]
    (tmp_path / "codes.txt").write_text("\n".join(codes), encoding="utf-8")
    assert sum(race("redeem", tmp_path)) == len(codes) == 20
    counted = "SELECT count(*) FROM membership WHERE person IN ('telegram 71', 'telegram 72')"
    assert record.row(counted, {}) == (20,)


def test_errands_are_done_once(shop: Shop, race: Race) -> None:
    bay = shop.bay
    askers = [bay.phone(name, technician=shop.main) for name in ("Ana", "Bo", "Cy")]
    for phone in askers:
        phone.say(ASK_REAR)
    shop.enter(REAR)
    with bay.record.writing() as store:
        errands.put(store, "publish", {"by": askers[0].person}, NOW)
    first, second = race("errands", shop.home.folder)
    assert {state for _, state, _ in first + second} == {"done"}
    assert sorted(what for what, _, _ in first + second).count("publish") == 1
    bay.deliver()
    assert [len(told(phone)) for phone in askers] == [1, 1, 1]
    with Book.open(shop.home.book) as book:
        assert book.version == 2
    assert bay.record.rows("SELECT version FROM book_version ORDER BY version", {}) == [(1,), (2,)]
    left = "SELECT what FROM errand WHERE state <> 'done' AND not_before <= :now"
    assert bay.record.rows(left, {"now": NOW.isoformat(timespec="microseconds")}) == []
