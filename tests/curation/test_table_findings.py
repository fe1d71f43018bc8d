"""What the checks find in a table that is brought in: told, and nothing is kept out for it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from benchbot.curation.importing import ImportReport, import_table
from benchbot.curation.publishing import publish
from benchbot.curation.table_findings import MOST_TOLD
from benchbot.errors import TableError
from benchbot.places import Home

Write = Callable[..., Path]
# M8x1.25 in class 10.9 cannot bear it: ISO 898-1 gives 36.6 mm² and 830 MPa.
TOO_MUCH = {"value": "300 N·m", "thread": "M8x1.25", "class": "10.9"}


def bring(home: Home, file: Path, now: datetime) -> ImportReport:
    return import_table(home, file, False, "office", now)


def fleet(count: int, **more: str) -> list[dict[str, str]]:
    return [{"model": f"Quilsund {number + 10}"} | more for number in range(count)]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ([TOO_MUCH], "A1 (line 2): bolt load: 300 N·m is "),
        ([*fleet(12), {"value": "1050 N·m"}], "A13 (line 14): outlier: 1050 N·m is 10 times the middle of what 12 "),
        ([{"year_from": "1985", "year_to": "2016"}], "A1 (line 2): scope: the row answers for 32 model years"),
        ([{"component": "lower control arm bolt", "position": "front upper"}],
         "A1 (line 2): scope: a lower control arm bolt cannot sit upper"),
    ],
)  # fmt: skip
def test_a_finding_is_a_note(rows: list[dict[str, str]], told: str, home: Home, table: Write, now: datetime) -> None:
    report = bring(home, table(*rows), now)
    (note,) = report.notes
    assert note.startswith(told)
    assert (report.new, publish(home, now).rows) == (len(rows), len(rows))


def test_rows_that_say_the_same_are_told_once(home: Home, table: Write, now: datetime) -> None:
    report = bring(home, table(*fleet(30, **TOO_MUCH)), now)
    assert [note.partition(":")[0] for note in report.notes] == ["A1 (line 2)"]


def test_what_is_withdrawn_is_not_judged(home: Home, table: Write, now: datetime) -> None:
    assert bring(home, table(TOO_MUCH | {"status": "withdrawn"}), now).notes == ()


def test_so_many_are_told_and_no_more(home: Home, table: Write, now: datetime) -> None:
    rows = [TOO_MUCH | {"model": f"Quilsund {n}", "value": f"{300 + n} N·m"} for n in range(MOST_TOLD + 5)]
    notes = bring(home, table(*rows), now).notes
    assert (len(notes), notes[-1]) == (MOST_TOLD + 1, "more findings are left out")


def test_two_units_that_do_not_agree_refuse_the_table(home: Home, table: Write, now: datetime) -> None:
    """105 N·m is 77.4 lb-ft; 7.74 is it slipped by a place."""
    with pytest.raises(TableError, match="line 3, second_value") as told:
        bring(home, table({}, {"position": "rear", "second_value": "7.74 lb-ft"}), now)
    assert len(told.value.faults) == 1
    assert not home.record.exists()
