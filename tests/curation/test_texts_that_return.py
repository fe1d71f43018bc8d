"""Any text that a cell may hold leaves in a form that no sheet runs, and comes back as it was."""

from __future__ import annotations

import csv
import os
import string
import tempfile
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchbot.curation import book_file
from benchbot.curation.book_folder import write_csv
from benchbot.curation.book_label import Tally
from benchbot.curation.decisions import Decisions
from benchbot.curation.exchange import compared, take
from benchbot.curation.exporting import export, export_file, export_folder
from benchbot.curation.importing import import_table
from benchbot.curation.looking import revisions
from benchbot.places import Home
from benchbot.specs.cell import cell_fault, shielded, unshielded

EXAMPLES = int(os.environ.get("BENCHBOT_EXAMPLES", "100"))
# OWASP, "CSV Injection": a cell is run when it begins with one of these, full-width forms included.
RUN_FIRST = "=+-@\t\r\n＝＋－＠"
NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)

any_text = st.text(st.characters(codec="utf-8"))
risky = st.builds(
    str.__add__, st.text(st.sampled_from(f"' \u3000{RUN_FIRST}"), max_size=5), st.text(st.characters(codec="utf-8"))
)
texts = any_text | risky
# What a cell may hold once it was read: it has no blanks around it, no line ends, no control characters.
held = (
    st.text(st.sampled_from(f"' =+-@＝＋{string.ascii_letters}09,;\"·°"), min_size=1, max_size=12)
    .map(str.strip)
    .filter(lambda text: text and cell_fault(shielded(text)) is None)
)


@settings(max_examples=EXAMPLES * 10, deadline=None)
@given(texts)
def test_a_shielded_text_returns(text: str) -> None:
    there = shielded(text)
    assert unshielded(there) == text
    assert there == "" or there[0] not in RUN_FIRST
    assert there.strip() == "" or there.strip()[0] not in RUN_FIRST
    assert there in (text, f"'{text}")


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("=1+1", "'=1+1"),
        ("'=1+1", "''=1+1"),
        ("''=1+1", "'''=1+1"),
        ("'", "'"),
        ("'tis", "'tis"),
        ("-20 °C", "'-20 °C"),
        ("　＝1", "'　＝1"),
        ("\t=1", "'\t=1"),
        ("105 N·m", "105 N·m"),
        ("", ""),
        ("1=1", "1=1"),
    ],
)
def test_how_a_text_is_written(text: str, written: str) -> None:
    assert (shielded(text), unshielded(written)) == (written, text)


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.lists(st.tuples(texts, texts, texts), max_size=8))
def test_every_table_returns(rows: list[tuple[str, str, str]]) -> None:
    with tempfile.TemporaryDirectory() as made:
        path = Path(made) / "any.csv"
        assert write_csv(path, ("a", "b", "c"), rows) == len(rows)
        with path.open(encoding="utf-8", newline="") as file:
            read = list(csv.reader(file))
    assert [tuple(map(unshielded, row)) for row in read[1:]] == rows
    assert not [cell for row in read for cell in row if cell and cell[0] in RUN_FIRST]


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.dictionaries(texts, st.tuples(texts, texts), max_size=6), st.text(st.characters(codec="utf-8"), max_size=50))
def test_every_database_returns(rows: dict[str, tuple[str, str]], shop: str) -> None:
    names = [(make, model, alias) for alias, (make, model) in rows.items()]
    tables = {"specs": [], "vehicle names": names, "words": [(said, said) for said in rows]}
    with tempfile.TemporaryDirectory() as made:
        path = Path(made) / "any.db"
        label = book_file.write_file(path, NOW.isoformat(), shop, tables)
        with book_file.open_file(path) as book:
            assert book.label == label
            assert book.label.shop == shop
            for table, told in tables.items():
                assert list(book.rows(table)) == [tuple(row) for row in told]
                lines = [cells for _, cells in book.lines(table, book.faults(table)).rows()]
                assert [tuple(map(unshielded, cells)) for cells in lines] == [tuple(row) for row in told]


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.lists(st.tuples(texts, texts), unique=True, min_size=2, max_size=6))
def test_a_digest_tells_the_rows_and_not_their_order(rows: list[tuple[str, str]]) -> None:
    def counted(told: list[tuple[str, str]]) -> object:
        tally = Tally()
        assert list(tally.watch(told)) == told
        return tally.counted

    assert counted(rows) == counted(rows[::-1])
    assert counted(rows) != counted(rows[1:])
    changed = [(rows[0][0] + "x", rows[0][1]), *rows[1:]]
    assert counted(rows) != counted(changed)


@pytest.mark.parametrize("kind", ["csv", "folder", "file"])
def test_cells_travel_between_two_records(kind: str, home: Home, table: Callable[..., Path], tmp_path: Path) -> None:
    there = Home(tmp_path / "there")
    there.folder.mkdir()
    number = 0

    @settings(max_examples=max(3, EXAMPLES // 20), deadline=None)
    @given(st.lists(st.tuples(held, held, held, held), min_size=1, max_size=30))
    def travel(cells: list[tuple[str, str, str, str]]) -> None:
        nonlocal number
        number += 1
        names = ("condition", "reuse", "order", "source_ref")
        # each time the rows were read again: what was there before and comes back is an older table
        checked = {"checked_on": (date(2020, 1, 1) + timedelta(days=number)).isoformat()}
        rows = [dict(zip(names, map(shielded, four), strict=True)) | checked for four in cells]
        import_table(home, table(*rows), False, "curator", NOW)
        path = tmp_path / {"csv": f"{number}.csv", "folder": f"{number}", "file": f"{number}.db"}[kind]
        if kind == "csv":
            export(home, path)
            import_table(there, path, False, "curator", NOW)
        else:
            (export_folder if kind == "folder" else export_file)(home, path, "", NOW)
            with compared(there, path) as comparison:
                decisions = Decisions(kinds={"new": "take", "changed": "take"})
                assert take(there, comparison, decisions, "curator", NOW).undecided == 0
        for at, four in enumerate(cells, 1):
            for shop in (home, there):
                kept = revisions(shop, f"A{at}")[-1].cells
                assert (kept["condition"], kept["reuse"], kept["tightening_order"], kept["source_ref"]) == four

    travel()
