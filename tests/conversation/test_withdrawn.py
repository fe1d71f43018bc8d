"""A row that was withdrawn is silent at once, in every channel, though the book in place still holds it."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from desk import NOW, TABLES, Desk, published, shown

from benchbot.conversation.manner import Manner
from benchbot.conversation.standing import standing
from benchbot.curation.approving import Approved, Withdrawn, approve, withdraw
from benchbot.curation.publishing import publish
from benchbot.curation.submitting import Submitted, submit
from benchbot.outcomes import Answer, Gap, Judged, Sentence
from benchbot.places import demo_folder
from benchbot.records import revisions
from benchbot.records.withdrawals import WITHDRAWN, withdrawn_since

TORQUE = "12 ondrel front bracket bolt torque"
BOTH = "12 ondrel front bracket bolt torque and socket"
DAY = NOW + timedelta(days=3)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Desk]:
    desk = Desk(published(tmp_path, *(demo_folder() / name for name in TABLES)))
    yield desk
    desk.conversation.close()


def gone(desk: Desk, spec: str = "D0001") -> None:
    done = withdraw(desk.conversation.record, spec, "terminal ben", "the sheet was recalled", DAY)
    assert isinstance(done, Withdrawn)


def test_it_is_a_gap_for_everybody_before_the_next_book(bench: Desk) -> None:
    assert shown(bench.ask(TORQUE)) == ["D0001"]
    gone(bench)
    turn = bench.ask(TORQUE)
    assert turn.reply.outcome == "gap" and turn.gap is not None
    assert turn.reply.text().startswith(
        "Not in our book: 2012 Brackwell Ondrel, FRONT caliper bracket bolt, torque. Its row was withdrawn on "
        "2026-11-28; do not use the value from before."
    )
    assert "lb-ft" not in turn.reply.text() and turn.reply.specs == ()
    spanish = bench.conversation.say("otro", "tester", TORQUE, None, Manner(language="es"))
    assert "Su fila fue retirada el 2026-11-28; no use el valor de antes." in spanish.reply.text()
    assert isinstance(bench.conversation.consider(TORQUE, None).outcome, Gap)


def test_the_gap_and_what_was_shown_are_on_record(bench: Desk) -> None:
    gone(bench)
    turn = bench.ask(TORQUE)
    connection = sqlite3.connect(bench.home.record)
    (reason, detail), parts = (
        connection.execute("SELECT reason, detail FROM gap WHERE gap = ?", (turn.gap,)).fetchone(),
        connection.execute("SELECT count(*) FROM answer_spec WHERE answer = ?", (turn.answer,)).fetchone(),
    )
    connection.close()
    assert (reason, json.loads(detail)[0]["detail"], parts) == ("withdrawn", "2026-11-28", (0,))


def test_the_other_rows_of_an_answer_stay(bench: Desk) -> None:
    before = shown(bench.ask(BOTH))
    gone(bench)
    turn = bench.ask(BOTH)
    assert isinstance(turn.outcome, Answer)
    assert shown(turn) == [spec for spec in before if spec != "D0001"] != []
    assert "withdrawn on 2026-11-28" in turn.reply.text()


def test_a_verdict_goes_with_the_row_that_it_may_rest_on(bench: Desk) -> None:
    turn = bench.ask(BOTH)
    assert isinstance(turn.outcome, Answer)
    judged = replace(turn.outcome, judged=(Judged("use", "", Sentence("at the limit")),))
    gone(bench)
    assert isinstance(standing(turn.outcome, bench.conversation.record), Answer)
    assert isinstance(standing(judged, bench.conversation.record), Gap)


def test_a_step_of_the_work_shows_it_no_more(bench: Desk) -> None:
    from benchbot.outcomes import Procedure, Pulled
    from benchbot.procedures.steps import Step, Tighten

    turn = bench.ask(TORQUE)
    assert isinstance(turn.outcome, Answer)
    step = Step("axle/nut", "Tighten", "By hand.", "", (), (), (), ())
    work = Procedure(step, pulled=(Pulled(Tighten("caliper bracket bolt", ()), turn.outcome),))
    gone(bench)
    left = work.with_answers(lambda one: standing(one, bench.conversation.record))
    assert (left.findings, [one.reason for one in left.missing]) == ((), ["withdrawn"])


def test_one_that_speaks_again_is_silent_until_it_is_published(bench: Desk) -> None:
    gone(bench)
    record = bench.conversation.record
    held = revisions.newest(record, "D0001")
    assert held is not None
    cells = held.cells | {"value": "52 lb-ft", "second_value": ""}
    reasons = {"outlier": "printed so", "scope": "as before", "bolt load": "printed so"}
    done = submit(record, cells, "terminal ana", "read again", DAY, reasons)  # type: ignore[arg-type]
    assert isinstance(done, Submitted), done
    approved = approve(record, "D0001", done.revision, "terminal ben", "ben", DAY, reasons)  # type: ignore[arg-type]
    assert isinstance(approved, Approved), approved
    assert isinstance(bench.ask(TORQUE).outcome, Gap)
    publish(bench.home, DAY)
    assert bench.ask(TORQUE).reply.text().startswith("52 lb-ft")


def test_of_many_rows_each_is_looked_up(bench: Desk) -> None:
    gone(bench)
    record = bench.conversation.record
    specs = [(f"Z{number}", 1) for number in range(30)] + [("D0001", 1), ("D0002", 1)]
    assert withdrawn_since(record, specs) == {"D0001": date(2026, 11, 28)}
    assert withdrawn_since(record, [("D0001", 2)]) == withdrawn_since(record, []) == {}


def test_the_rows_are_found_by_an_index(bench: Desk) -> None:
    connection = sqlite3.connect(bench.home.record)
    plan = connection.execute(f"EXPLAIN QUERY PLAN {WITHDRAWN}", {f"spec{n}": "" for n in range(8)}).fetchall()
    connection.close()
    assert all(step[3].startswith("SEARCH") for step in plan), plan
