"""What the checks find in a table that is brought in: told in the first one of all, and a draft in every later one."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from benchbot.curation.approving import Denied, approve, waiting
from benchbot.curation.importing import ImportReport, import_table
from benchbot.curation.looking import revisions
from benchbot.curation.publishing import publish
from benchbot.curation.taking import MOST_TOLD
from benchbot.errors import TableError
from benchbot.places import Home
from benchbot.records.record import open_record

Write = Callable[..., Path]
# M8x1.25 in class 10.9 cannot bear it: ISO 898-1 gives 36.6 mm² and 830 MPa.
TOO_MUCH = {"value": "300 N·m", "thread": "M8x1.25", "class": "10.9"}
# M10x1.25 in class 10.9 breaks: ISO 898-1 gives 61.2 mm² and 1040 MPa.
SLIPPED = {"value": "1050 N·m", "thread": "M10x1.25", "class": "10.9"}
NO_PLACE = {"component": "lower control arm bolt", "position": "front upper"}
NUT = {"id": "W1", "component": "wheel nut", "position": ""}


def bring(home: Home, file: Path, now: datetime) -> ImportReport:
    return import_table(home, file, False, "office", now)


def fleet(count: int, **more: str) -> list[dict[str, str]]:
    return [{"model": f"Quilsund {number + 10}"} | more for number in range(count)]


def statuses(home: Home, spec: str) -> list[str]:
    return [one.cells["status"] for one in revisions(home, spec)]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ([TOO_MUCH], "A1 (line 2): bolt load: 300 N·m is "),
        ([*fleet(12), {"value": "1050 N·m"}], "A13 (line 14): outlier: 1050 N·m is 10 times the middle of what 12 "),
        ([{"year_from": "1985", "year_to": "2016"}], "A1 (line 2): scope: the row answers for 32 model years"),
        ([NO_PLACE], "A1 (line 2): scope: a lower control arm bolt cannot sit upper"),
    ],
)
def test_in_the_first_table_a_finding_is_a_note(
    rows: list[dict[str, str]], told: str, home: Home, table: Write, now: datetime
) -> None:
    report = bring(home, table(*rows), now)
    (note,) = report.notes
    assert note.startswith(told)
    assert (report.new, publish(home, now).rows) == (len(rows), len(rows))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (SLIPPED, "A1 (line 2): bolt load: 1050 N·m is "),
        (NO_PLACE, "A1 (line 2): scope: a lower control arm bolt cannot sit upper"),
        (NO_PLACE | {"property": "socket", "value": "18 mm"}, "A1 (line 2): scope: a lower control arm bolt cannot"),
    ],
    ids=["torque", "place", "socket"],
)
def test_in_a_later_one_what_a_check_refuses_is_a_draft(
    change: dict[str, str], told: str, home: Home, table: Write, now: datetime
) -> None:
    bring(home, table(NUT), now)
    report = bring(home, table(change, {"position": "rear"}), now)
    (note,) = report.notes
    assert note.startswith(told) and "taken as a draft, which answers after: benchbot specs approve A1" in note
    assert (statuses(home, "A1"), statuses(home, "A2")) == (["draft"], ["verified"])
    assert publish(home, now).rows == 2
    with open_record(home) as record:
        assert [one.spec for one in waiting(record)] == ["A1"]
        denied = approve(record, "A1", 1, "terminal ben", "ben", now)
        assert isinstance(denied, Denied) and denied.about == "refused"
    again = bring(home, table(change, {"position": "rear"}), now)
    assert (again.new, again.changed, again.unchanged) == (0, 0, 2)
    assert statuses(home, "A1") == ["draft"]


def test_a_change_that_a_check_refuses_leaves_the_row_before_it_answering(
    home: Home, table: Write, now: datetime
) -> None:
    bring(home, table({}), now)
    bring(home, table(SLIPPED | {"checked_on": "2026-04-01"}), now)
    assert statuses(home, "A1") == ["verified", "draft"]
    with pytest.raises(TableError, match=r"B1 and A1 \(on record\) state different values"):
        bring(home, table({"id": "B1", "value": "120 N·m"}, name="other.csv"), now)


def test_a_warning_is_a_note_in_a_later_one_too(home: Home, table: Write, now: datetime) -> None:
    bring(home, table(NUT), now)
    report = bring(home, table({"year_from": "1985", "year_to": "2016"}), now)
    assert [note.partition(";")[0] for note in report.notes] == [
        "A1 (line 2): scope: the row answers for 32 model years"
    ]
    assert statuses(home, "A1") == ["verified"]


def test_of_rows_that_are_on_record_nothing_is_told_again(home: Home, table: Write, now: datetime) -> None:
    bring(home, table(TOO_MUCH, {"position": "rear"}), now)
    report = bring(home, table(TOO_MUCH, {"position": "rear"}), now)
    assert (report.unchanged, report.notes, statuses(home, "A1")) == (2, (), ["verified"])


def test_each_vehicle_is_told(home: Home, table: Write, now: datetime) -> None:
    report = bring(home, table(*fleet(3, **TOO_MUCH)), now)
    assert [note.partition(":")[0] for note in report.notes] == ["A1 (line 2)", "A2 (line 3)", "A3 (line 4)"]


def test_what_is_withdrawn_is_not_judged(home: Home, table: Write, now: datetime) -> None:
    assert bring(home, table(TOO_MUCH | {"status": "withdrawn"}), now).notes == ()


def test_so_many_are_told_and_the_others_counted(home: Home, table: Write, now: datetime) -> None:
    rows = fleet(MOST_TOLD + 1_205, **TOO_MUCH)
    notes = bring(home, table(*rows), now).notes
    assert (len(notes), notes[-1]) == (MOST_TOLD + 1, "1,205 more findings are not told here")


def test_no_row_of_a_later_table_is_left_unjudged(
    home: Home, table: Write, fleet: Callable[[Path, int], Path], tmp_path: Path, now: datetime
) -> None:
    """The one that cannot be is the last of eleven thousand."""
    bring(home, table(NUT), now)
    path = fleet(tmp_path / "fleet.csv", 11_000)
    lines = path.read_text(encoding="utf-8").splitlines()
    last = table(SLIPPED | {"id": "LAST"}, name="last.csv").read_text(encoding="utf-8").splitlines()[1]
    path.write_text("\n".join([*lines, last]) + "\n", encoding="utf-8")
    report = bring(home, path, now)
    assert statuses(home, "LAST") == ["draft"]
    drafts = [note for note in report.notes if "taken as a draft" in note]
    assert [note.partition(": 1050")[0] for note in drafts] == ["LAST (line 11002): bolt load"]


def test_so_many_drafts_are_told_and_the_others_counted(home: Home, table: Write, now: datetime) -> None:
    bring(home, table(NUT), now)
    rows = [SLIPPED | {"model": f"Quilsund {number + 10}"} for number in range(MOST_TOLD + 12)]
    notes = bring(home, table(*rows), now).notes
    assert (len(notes), notes[-1]) == (
        MOST_TOLD + 1, "12 more rows are taken as drafts; see them with: benchbot specs waiting",
    )  # fmt: skip
    with open_record(home) as record:
        assert len(waiting(record)) == MOST_TOLD + 12


def test_two_units_that_do_not_agree_refuse_the_table(home: Home, table: Write, now: datetime) -> None:
    """105 N·m is 77.4 lb-ft; 7.74 is it slipped by a place."""
    with pytest.raises(TableError, match="line 3, second_value") as told:
        bring(home, table({}, {"position": "rear", "second_value": "7.74 lb-ft"}), now)
    assert len(told.value.faults) == 1
    assert not home.record.exists()
