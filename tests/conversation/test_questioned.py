"""An answer that somebody marked as not right is marked for everybody, in every channel, until it is settled."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from desk import NOW, TABLES, Desk, published, shown

from benchbot.conversation.manner import Manner
from benchbot.curation.settling import settle
from benchbot.outcomes import Answer
from benchbot.places import demo_folder
from benchbot.records import notes
from benchbot.records.notes import QUESTIONED, questioned

TORQUE = "12 ondrel front bracket bolt torque"
SOCKET = "12 ondrel front bracket bolt socket"


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Desk]:
    desk = Desk(published(tmp_path, *(demo_folder() / name for name in TABLES)))
    yield desk
    desk.conversation.close()


def doubted(desk: Desk, text: str, person: str = "telegram 7") -> int:
    turn = desk.ask(text)
    number, _ = notes.put(desk.conversation.record, turn.answer, person, None, desk.clock.moment)
    return number


def test_it_is_marked_for_everybody_until_it_is_settled(bench: Desk) -> None:
    assert "Questioned" not in bench.ask(TORQUE).reply.text()
    note = doubted(bench, TORQUE)
    bench.clock.moment = NOW + timedelta(days=3)
    marked = bench.ask(TORQUE)
    assert marked.reply.text().splitlines()[1] == "Questioned on 2026-11-25, check before use."
    assert marked.reply.short.startswith("Questioned on 2026-11-25, check before use: ")
    spanish = bench.conversation.say("otro", "tester", TORQUE, None, Manner(language="es"))
    assert "Puesto en duda el 2026-11-25, verifique antes de usarlo." in spanish.reply.text()
    considered = bench.conversation.consider(TORQUE, None)
    assert "Questioned on 2026-11-25" in considered.reply.text()
    # another row of the same part was not shown
    assert "Questioned" not in bench.ask(SOCKET).reply.text()
    settle(bench.conversation.record, note, "right", "page 3 says so", "terminal ben", bench.clock.moment)
    assert "Questioned" not in bench.ask(TORQUE).reply.text()


def test_the_first_of_several_notes_gives_the_date_and_the_last_ends_it(bench: Desk) -> None:
    first = doubted(bench, TORQUE)
    bench.clock.moment = NOW + timedelta(days=2)
    second = doubted(bench, TORQUE, "telegram 8")
    record = bench.conversation.record
    assert questioned(record, [("D0001", 1)]) == {"D0001": date(2026, 11, 25)}
    settle(record, first, "right", "looked", "terminal ben", NOW)
    assert questioned(record, [("D0001", 1)]) == {"D0001": date(2026, 11, 27)}
    settle(record, second, "right", "looked", "terminal ben", NOW)
    assert questioned(record, [("D0001", 1)]) == {}


def test_a_later_revision_is_questioned_too_and_an_earlier_is_not(bench: Desk) -> None:
    turn = bench.ask(TORQUE)
    assert isinstance(turn.outcome, Answer)
    revision = turn.outcome.findings[0].row.revision
    notes.put(bench.conversation.record, turn.answer, "telegram 7", None, NOW)
    record = bench.conversation.record
    assert set(questioned(record, [("D0001", revision + 1)])) == {"D0001"}
    assert questioned(record, [("D0001", revision - 1)]) == {}


def test_of_many_rows_each_is_looked_up(bench: Desk) -> None:
    doubted(bench, TORQUE)
    specs = [(f"Z{number}", 1) for number in range(30)] + [("D0001", 1)]
    assert set(questioned(bench.conversation.record, specs)) == {"D0001"}
    assert questioned(bench.conversation.record, []) == {}


def test_the_marked_answer_shows_the_same_rows(bench: Desk) -> None:
    before = bench.ask(TORQUE)
    doubted(bench, TORQUE)
    after = bench.ask(TORQUE)
    assert shown(after) == shown(before) == ["D0001"]
    assert after.reply.specs == before.reply.specs


def test_the_open_notes_are_found_first_by_an_index(bench: Desk) -> None:
    connection = sqlite3.connect(bench.home.record)
    plan = connection.execute(f"EXPLAIN QUERY PLAN {QUESTIONED}", {f"spec{n}": "" for n in range(8)}).fetchall()
    connection.close()
    assert "ix_note_state" in plan[0][3]
    assert all("SEARCH" in step[3] for step in plan if not step[3].startswith("CORRELATED"))
