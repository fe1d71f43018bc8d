"""Two shops exchange their books: what differs is shown, a person decides each of it, and nothing else is done."""

from __future__ import annotations

import argparse
import csv
import sqlite3
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from benchbot.commands import exchange as asking
from benchbot.commands import specs
from benchbot.curation.approving import waiting
from benchbot.curation.book_folder import write_csv
from benchbot.curation.comparing import Comparison
from benchbot.curation.decisions import COLUMNS, Decisions, read_decisions, read_kinds, write_differences
from benchbot.curation.differences import KINDS, Difference
from benchbot.curation.exchange import Exchanged, compared, left_before, take
from benchbot.curation.exporting import export, export_file, export_folder
from benchbot.curation.importing import import_table
from benchbot.curation.looking import revisions
from benchbot.curation.two_people import allow_one_person
from benchbot.errors import RecordError, SettingError, TableError
from benchbot.places import Home
from benchbot.records import reviews
from benchbot.records.record import open_record

Write = Callable[..., Path]
Dump = Callable[[Path], list[str]]
ALL = Decisions(kinds=dict.fromkeys(KINDS, "take"))
LATER = {"checked_on": "2026-04-01"}
BOLT = {"component": "wheel nut", "position": "", "value": "98 N·m"}


@pytest.fixture
def other(tmp_path: Path) -> Home:
    """The shop that the book comes from."""
    folder = tmp_path / "other"
    folder.mkdir()
    return Home(folder)


@pytest.fixture
def book_of(tmp_path: Path, table: Write, now: datetime) -> Callable[..., Path]:
    """Brings rows into the other shop and exports its whole book, as a file unless `kind` says a folder."""

    def made(shop: Home, *rows: dict[str, str], kind: str = "file") -> Path:
        import_table(shop, table(*rows, name="theirs.csv"), False, "their curator", now)
        if kind == "folder":
            export_folder(shop, tmp_path / "book", "Bay 7", now)
            return tmp_path / "book"
        export_file(shop, tmp_path / "book.db", "Bay 7", now)
        return tmp_path / "book.db"

    return made


def differences(home: Home, book: Path) -> list[Difference]:
    with compared(home, book) as comparison:
        return list(comparison.each())


def decide(home: Home, book: Path, decisions: Decisions, now: datetime) -> Exchanged:
    with compared(home, book) as comparison:
        return take(home, comparison, decisions, "curator", now)


def by_name(choices: dict[str, str], found: list[Difference]) -> Decisions:
    return Decisions(marks={one.mark: "take" if choices[one.name] == "take" else "leave" for one in found})


def status(home: Home, spec: str) -> list[tuple[int, str, str]]:
    return [(one.revision, one.cells["value"], one.cells["status"]) for one in revisions(home, spec)]


def words_of(path: Path, header: str, *rows: str) -> Path:
    path.write_text("\n".join((header, *rows)) + "\n", encoding="utf-8")
    return path


@pytest.mark.parametrize("kind", ["file", "folder"])
def test_a_whole_book_goes_to_another_shop_and_comes_back_the_same(
    kind: str, home: Home, other: Home, book_of: Callable[..., Path], tmp_path: Path, now: datetime
) -> None:
    import_table(other, words_of(tmp_path / "w.csv", "term,said", "wheel nut,roundie"), False, "x", now)
    names = words_of(tmp_path / "n.csv", "make,model,alias", "Drabent,Quilsund 3,the three")
    import_table(other, names, False, "x", now)
    book = book_of(
        other,
        {"condition": "'=1+1", "component": "Calliper Bracket Bolts", "only_if": "Drive = 4WD"},
        BOLT | {"status": "draft", "source_ref": "'+3", "order": "'kept'"},
        {"position": "rear", "status": "withdrawn", "second_value": "77 lb-ft"},
        kind=kind,
    )
    with compared(home, book) as comparison:
        assert comparison.book.label.shop == "Bay 7"
        assert comparison.counts() == {("specs", "new"): 3, ("vehicle names", "new"): 1, ("words", "new"): 1}
        done = take(home, comparison, ALL, "curator", now)
    assert (done.taken["new"], done.undecided, done.withdrawn) == (5, 0, 0)
    for shop, name in ((home, "here.csv"), (other, "there.csv")):
        export(shop, tmp_path / name)
    assert (tmp_path / "here.csv").read_bytes() == (tmp_path / "there.csv").read_bytes()
    assert revisions(home, "A1")[0].cells["condition"] == "=1+1"
    assert revisions(home, "A2")[0].cells["tightening_order"] == "'kept'"
    for shop in (home, other):
        assert differences(shop, book) == []
    again = tmp_path / ("again.db" if kind == "file" else "again")
    (export_file if kind == "file" else export_folder)(home, again, "Bay 7", now)
    with compared(home, book) as first, compared(home, again) as second:
        assert first.book.label == second.book.label


def test_what_a_second_import_of_the_same_asks(
    home: Home, other: Home, book_of: Callable[..., Path], now: datetime, dump: Dump
) -> None:
    book = book_of(other, {}, BOLT, {"position": "rear"})
    found = differences(home, book)
    done = decide(home, book, by_name({"A1": "take", "A2": "leave", "A3": "take"}, found), now)
    assert (done.taken["new"], done.left["new"]) == (2, 1)
    before = dump(home.record)
    assert [one.name for one in differences(home, book)] == ["A2"]
    done = decide(home, book, Decisions(before=left_before(home)), now)
    assert (done.undecided, done.left_before, sum(done.taken.values()), sum(done.left.values())) == (0, 1, 0, 0)
    assert dump(home.record) == before
    # The row that was left is asked about again once it says something else.
    book = book_of(other, {}, BOLT | {"value": "99 N·m"} | LATER, {"position": "rear"})
    assert decide(home, book, Decisions(before=left_before(home)), now).undecided == 1
    assert dump(home.record) == before


def test_nothing_is_taken_unasked(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime, dump: Dump
) -> None:
    import_table(home, table({}), False, "curator", now)
    before = dump(home.record)
    book = book_of(other, {"value": "107 N·m"}, BOLT)
    assert decide(home, book, Decisions(), now).undecided == 2
    assert decide(home, book, Decisions(kinds={"new": "take"}), now).undecided == 1
    assert dump(home.record) == before
    assert decide(home, book, Decisions(kinds={"new": "take", "changed": "leave"}), now).taken == {"new": 1}
    assert status(home, "A1") == [(1, "105 N·m", "verified")]


def test_a_changed_row_becomes_a_revision(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    import_table(home, table({}), False, "curator", now)
    book = book_of(other, {"value": "107 N·m", "source_ref": "p. 13"})
    (one,) = differences(home, book)
    assert (one.kind, one.told) == (
        "changed", "2012-2016 Drabent Quilsund 3: value 105 N·m → 107 N·m, source_ref p. 12 → p. 13",
    )  # fmt: skip
    decide(home, book, ALL, now)
    assert status(home, "A1") == [(1, "105 N·m", "verified"), (2, "107 N·m", "verified")]
    assert revisions(home, "A1")[1].why == "import of book.db (made 2026-05-04T07:30 by Bay 7)"


def test_a_row_that_contradicts_a_checked_one_is_decided_for_both(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime, tmp_path: Path
) -> None:
    import_table(home, table({"id": "OURS"}), False, "curator", now)
    book = book_of(other, {"value": "95 N·m", "year_from": "2016", "year_to": "2020"})
    (one,) = differences(home, book)
    assert one.kind == "conflicting"
    assert "taken, it withdraws OURS (2012-2016 Drabent Quilsund 3, front caliper bracket bolt" in one.told
    assert decide(home, book, Decisions(kinds={"new": "take", "changed": "take"}), now).undecided == 1
    done = decide(home, book, ALL, now)
    assert (done.taken["conflicting"], done.withdrawn) == (1, 1)
    assert status(home, "OURS") == [(1, "105 N·m", "verified"), (2, "105 N·m", "withdrawn")]
    assert status(home, "A1") == [(1, "95 N·m", "verified")]
    assert differences(home, book) == []
    export(home, tmp_path / "all.csv")
    assert import_table(home, tmp_path / "all.csv", True, "curator", now).unchanged == 2


def test_an_id_that_another_vehicle_has_here(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    import_table(home, table({}), False, "curator", now)
    book = book_of(other, {"model": "Olix"})
    (one,) = differences(home, book)
    assert one.kind == "conflicting"
    assert one.told.endswith("taken, it comes in as A1-2")
    decide(home, book, ALL, now)
    assert [len(revisions(home, spec)) for spec in ("A1", "A1-2", "A1-3")] == [1, 1, 0]
    assert differences(home, book) == []
    # A correction over there reaches the row that came from there.
    book = book_of(other, {"model": "Olix", "value": "107 N·m"} | LATER)
    (one,) = differences(home, book)
    assert (one.kind, "value 105 N·m → 107 N·m" in one.told) == ("changed", True)
    assert "our own row said this before" not in one.told
    decide(home, book, ALL, now)
    assert status(home, "A1-2") == [(1, "105 N·m", "verified"), (2, "107 N·m", "verified")]
    assert status(home, "A1") == [(1, "105 N·m", "verified")]


def test_an_id_of_another_part_of_the_vehicle_is_no_plain_change(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    import_table(home, table({}), False, "curator", now)
    book = book_of(other, {"position": "rear"})
    (one,) = differences(home, book)
    assert one.kind == "conflicting"
    assert "which it would replace" in one.told
    decide(home, book, ALL, now)
    assert [one.cells["position"] for one in revisions(home, "A1")] == ["front", "rear"]


def test_rows_that_only_fit_together_are_taken_together(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime, dump: Dump
) -> None:
    import_table(home, table({"year_to": "2020"}), False, "curator", now)
    before = dump(home.record)
    book = book_of(other, {"year_to": "2016"}, {"year_from": "2017", "year_to": "2020", "value": "95 N·m"})
    found = differences(home, book)
    assert [(one.name, one.kind) for one in found] == [("A1", "changed"), ("A2", "new")]
    assert found[1].told.endswith("it goes with the change of A1")
    with pytest.raises(TableError, match="take both, or leave both A2 and A1; nothing was written"):
        decide(home, book, by_name({"A1": "leave", "A2": "take"}, found), now)
    assert dump(home.record) == before
    assert decide(home, book, ALL, now).withdrawn == 0
    assert status(home, "A1") == [(1, "105 N·m", "verified"), (2, "105 N·m", "verified")]
    assert status(home, "A2") == [(1, "95 N·m", "verified")]


def test_names_are_compared_as_we_write_them(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime, tmp_path: Path
) -> None:
    import_table(home, table({}), False, "curator", now)
    names = words_of(tmp_path / "n.csv", "make,model,alias", "DRABENT,QUILSUND-3,the three")
    import_table(other, names, False, "x", now)
    book = book_of(other, {"make": "DRABENT", "model": "QUILSUND-3"}, BOLT | {"make": "DRABENT", "model": "QUILSUND-3"})
    with compared(home, book) as comparison:
        assert comparison.notes == ["DRABENT QUILSUND-3 is written Drabent Quilsund 3 here, and was compared so"]
        assert comparison.unchanged["specs"] == 1
        take(home, comparison, ALL, "curator", now)
    assert revisions(home, "A2")[0].cells["make"] == "Drabent"
    assert differences(home, book) == []


def test_a_word_that_means_something_else_here_can_only_be_left(
    home: Home, other: Home, book_of: Callable[..., Path], tmp_path: Path, now: datetime, dump: Dump
) -> None:
    import_table(home, words_of(tmp_path / "w.csv", "term,said", "axle nut,roundie"), False, "x", now)
    import_table(home, words_of(tmp_path / "n.csv", "make,model,alias", "Drabent,Olix,three"), False, "x", now)
    import_table(other, words_of(tmp_path / "w.csv", "term,said", "wheel nut,roundie"), False, "x", now)
    import_table(other, words_of(tmp_path / "n.csv", "make,model,alias", "Drabent,Quilsund 3,three"), False, "x", now)
    # Over there "roundie" names the component of the row; it must not become an axle nut on the way.
    book = book_of(other, BOLT | {"component": "roundie"})
    found = differences(home, book)
    assert [(one.table, one.kind, one.takeable) for one in found] == [
        ("specs", "new", True), ("vehicle names", "conflicting", False), ("words", "conflicting", False),
    ]  # fmt: skip
    assert "here it means axle nut" in found[2].told
    before = dump(home.record)
    assert decide(home, book, ALL, now).undecided == 2
    with pytest.raises(TableError, match="it can only be left"):
        decide(home, book, Decisions(marks={one.mark: "take" for one in found}), now)
    assert dump(home.record) == before
    decide(home, book, Decisions(kinds={"new": "take", "conflicting": "leave"}), now)
    assert revisions(home, "A1")[0].cells["component_read"] == "wheel nut"
    assert decide(home, book, Decisions(before=left_before(home)), now).undecided == 0


def test_a_draft_leaves_the_row_before_it_speaking(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    import_table(other, table({}), False, "their curator", now)
    book = book_of(other, {"value": "107 N·m", "status": "draft"}, BOLT | {"status": "draft"})
    decide(home, book, ALL, now)
    assert status(home, "A1") == [(1, "105 N·m", "verified")]
    assert status(home, "A2") == [(1, "98 N·m", "draft")]
    assert differences(other, book) == []


def test_a_record_that_changed_meanwhile_is_not_written_to(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime, dump: Dump
) -> None:
    book = book_of(other, {})
    with compared(home, book) as comparison:
        import_table(home, table(BOLT, name="own.csv"), False, "curator", now)
        before = dump(home.record)
        with pytest.raises(RecordError, match="the record was changed since"):
            take(home, comparison, ALL, "curator", now)
    assert dump(home.record) == before


def test_a_folder_is_written_over_only_where_a_book_lay(
    other: Home, book_of: Callable[..., Path], tmp_path: Path, now: datetime
) -> None:
    folder = book_of(other, {}, kind="folder")
    first = {path.name: path.read_bytes() for path in folder.iterdir()}
    (folder / ".specs.csv.part").write_text("of an export that was killed")
    export_folder(other, folder, "Bay 7", now)
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == first
    (folder / "own.txt").write_text("kept")
    with pytest.raises(SettingError, match=r"own\.txt"):
        export_folder(other, folder, "Bay 7", now)
    (tmp_path / "file").write_text("kept")
    with pytest.raises(SettingError, match="cannot be written"):
        export_folder(other, tmp_path / "file", "", now)
    with pytest.raises(SettingError, match="cannot be written"):
        export_file(other, tmp_path / "gone" / "book.db", "", now)
    with pytest.raises(RecordError, match="no record yet"):
        export_file(Home(tmp_path), tmp_path / "book.db", "", now)
    assert (tmp_path / "file").read_text() == "kept"


def test_the_tables_written_are_those_of_sqlite_itself(other: Home, book_of: Callable[..., Path]) -> None:
    book = book_of(other, {}, BOLT)
    connection = sqlite3.connect(book)
    tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
    assert tables == {"specs", "vehicle_names", "words", "about"}
    assert connection.execute('SELECT id, "value" FROM specs ORDER BY id').fetchall() == [
        ("A1", "105 N·m"), ("A2", "98 N·m"),
    ]  # fmt: skip
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    connection.close()


def test_decisions_are_read_from_the_table_that_was_written(
    home: Home, other: Home, book_of: Callable[..., Path], tmp_path: Path, now: datetime
) -> None:
    book = book_of(other, {"condition": "'=1+1"}, BOLT)
    path = tmp_path / "decide.csv"
    with compared(home, book) as comparison:
        assert write_differences(path, comparison.each(), Decisions()) == 2
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["decision"] for row in rows] == ["", ""]
    assert read_decisions(path) == {}
    for row, said in zip(rows, ("Take", " leave "), strict=True):
        row["decision"] = said
    write_csv(path, COLUMNS, [[row[name] for name in COLUMNS] for row in rows])
    done = decide(home, book, Decisions(read_decisions(path)), now)
    assert (done.taken, done.left) == ({"new": 1}, {"new": 1})
    # Carried out once more, it changes nothing.
    done = decide(home, book, Decisions(read_decisions(path), before=left_before(home)), now)
    assert (sum(done.taken.values()), sum(done.left.values()), done.undecided) == (0, 0, 0)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("decision,mark\nmaybe,aa11\n", "'maybe' is no decision"),
        ("decision,mark\ntake,aa11\nleave,aa11\n", "was decided on in a row before"),
        ("decision,mark\ntake,\n", "is no mark"),
        ("decision,kind\ntake,new\n", "the column is missing"),
        ("decision,mark\ntake,aa11,more\n", "3 cells"),
        ('decision,mark\n"take,aa11\n', "cannot be read"),
        ("", "the file is empty"),
    ],
)
def test_a_faulty_table_of_decisions_is_refused(text: str, said: str, tmp_path: Path) -> None:
    path = tmp_path / "decide.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(TableError, match=said):
        read_decisions(path)


def test_a_kind_cannot_be_both_taken_and_left() -> None:
    assert read_kinds(["new"], ["changed"]) == {"new": "take", "changed": "leave"}
    with pytest.raises(SettingError, match="new rows cannot be both"):
        read_kinds(["new"], ["new"])


def asked(comparison: Comparison, *answers: str) -> tuple[bool, Decisions, list[str]]:
    decisions, questions, left = Decisions(), [], list(answers)

    def say(question: str) -> str:
        questions.append(question)
        if not left:
            raise EOFError
        return left.pop(0)

    return asking._ask(comparison, decisions, say), decisions, questions


def test_a_person_is_asked_one_by_one(
    home: Home, other: Home, book_of: Callable[..., Path], tmp_path: Path, now: datetime
) -> None:
    import_table(home, words_of(tmp_path / "w.csv", "term,said", "axle nut,roundie"), False, "x", now)
    import_table(other, words_of(tmp_path / "w.csv", "term,said", "wheel nut,roundie"), False, "x", now)
    book = book_of(other, {}, BOLT, {"position": "rear"})
    with compared(home, book) as comparison:
        finished, decisions, questions = asked(comparison, "t", "so", "L", "t", "t", "l")
        assert (finished, list(decisions.marks.values())) == (True, ["take", "leave", "take", "leave"])
        assert len(questions) == 6
        assert "take" not in questions[-1].replace("taken", "")
        finished, decisions, questions = asked(comparison, "at", "al")
        assert (list(decisions.marks.values()), len(questions)) == (["take", "take", "take", "leave"], 2)
        assert asked(comparison, "t", "q")[0] is False
        assert asked(comparison)[0] is False


@pytest.fixture
def run(home: Home, monkeypatch: pytest.MonkeyPatch, now: datetime) -> Callable[..., int]:
    monkeypatch.setenv("BENCHBOT_HOME", str(home.folder))
    parser = argparse.ArgumentParser(prog="benchbot")
    specs.add_parser(parser.add_subparsers(required=True))
    return lambda *words: specs.run(parser.parse_args(["specs", *map(str, words)]), now)


def test_the_command_shows_asks_and_takes(
    run: Callable[..., int],
    home: Home,
    other: Home,
    book_of: Callable[..., Path],
    table: Write,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    book = book_of(other, {}, BOLT)
    assert run("import", book, "--check") == 0
    assert not home.record.exists()
    assert run("import", book) == 1
    assert not home.record.exists()
    assert run("import", book, "--differences", tmp_path / "d.csv") == 0
    assert run("import", book, "--decisions", tmp_path / "d.csv") == 1
    assert run("import", book, "--take", "new", "--publish", "--by", "lead") == 0
    assert run("import", book) == 0
    out = capsys.readouterr().out.splitlines()
    assert out[:3] == [
        "book.db: a whole book, made 2026-05-04T07:30 by Bay 7",
        "specs: 2 new, 0 changed, 0 conflicting, 0 unchanged",
        "  new: A1: 2012-2016 Drabent Quilsund 3, front caliper bracket bolt, torque: 105 N·m (verified, Invented "
        "workshop sheet p. 12, checked by bay lead 2026-02-03)",
    ]
    assert "nothing was written" in out
    assert sum("2 differences wait for a decision; nothing was written" in line for line in out) == 2
    assert "2 taken, 0 left" in out
    assert any(line.startswith("book 1 published: 2 verified specs") for line in out)
    assert out[-1] == "nothing to decide; nothing was written"
    assert revisions(home, "A1")[0].author == "lead"
    assert run("export", tmp_path / "out.db", "--shop", " Bay\n9 ") == 0
    assert run("export", f"{tmp_path / 'out'}/") == 0
    assert run("import", table({}), "--take", "new") == 1
    out, err = capsys.readouterr()
    assert out.splitlines() == [
        f"2 specs, 0 vehicle names and 0 words written to {tmp_path / 'out.db'}",
        f"2 specs, 0 vehicle names and 0 words written to {tmp_path / 'out'}",
    ]
    assert "are for a whole book" in err
    with compared(home, tmp_path / "out.db") as comparison:
        assert comparison.book.label.shop == "Bay 9"


@pytest.mark.parametrize("allowed", [False, True])
def test_rows_that_the_importer_checked_wait_for_a_second_person(
    allowed: bool, home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    import_table(home, table({"id": "R9", "value": "98 N·m"}), False, "curator", now)
    with open_record(home) as record:
        allow_one_person(record, allowed, "command line, root", now)
    book = book_of(other, {"checked_by": "Lead"}, {"position": "rear", "checked_by": "Lead", "property": "socket",
                                                   "value": "19 mm"})  # fmt: skip
    with compared(home, book) as comparison:
        done = take(home, comparison, ALL, "lead", now, importer="lead")
    assert (done.waiting, done.withdrawn) == ((0, 1) if allowed else (1, 0))
    assert [one[2] for one in status(home, "A1")] == ["verified" if allowed else "draft"]
    assert [one[2] for one in status(home, "A2")] == ["verified"]
    # what answered before goes on answering while the other one waits
    assert status(home, "R9")[-1][2] == ("withdrawn" if allowed else "verified")
    with open_record(home) as record:
        assert reviews.sole(record, "A1") == ({1} if allowed else set())
        assert [one.spec for one in waiting(record)] == ([] if allowed else ["A1"])


def test_what_a_check_refuses_waits_and_is_not_asked_about_again(
    run: Callable[..., int],
    home: Home,
    other: Home,
    book_of: Callable[..., Path],
    table: Write,
    now: datetime,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """M10x1.25 of class 10.9 breaks at 1050 N·m: ISO 898-1 gives 61.2 mm² and 1040 MPa."""
    import_table(home, table(BOLT | {"id": "W1"}), False, "office", now)
    book = book_of(other, {"value": "1050 N·m", "thread": "M10x1.25", "class": "10.9"}, {"position": "rear"})
    assert run("import", book, "--take", "new") == 0
    out = capsys.readouterr().out
    assert "note: A1: bolt load: 1050 N·m is" in out and "taken as a draft" in out
    assert "2 taken, 0 left, 1 of them as drafts: they wait for a second person" in out
    assert [status(home, spec)[-1][2] for spec in ("A1", "A2")] == ["draft", "verified"]
    assert differences(home, book) == []


def test_into_a_shop_without_rows_a_book_is_taken_as_it_stands(
    home: Home, other: Home, book_of: Callable[..., Path], now: datetime
) -> None:
    book = book_of(other, {"value": "1050 N·m", "thread": "M10x1.25", "class": "10.9"})
    assert decide(home, book, ALL, now).waiting == 0
    assert status(home, "A1") == [(1, "1050 N·m", "verified")]


def test_in_a_later_book_the_account_is_the_importer(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    book = book_of(other, {"checked_by": "Curator"})
    import_table(home, table(BOLT | {"id": "W1"}), False, "office", now)
    assert decide(home, book, ALL, now).waiting == 1
    assert differences(home, book) == []


def test_what_our_own_row_said_before_is_told_as_such(
    home: Home, other: Home, book_of: Callable[..., Path], table: Write, now: datetime
) -> None:
    book = book_of(other, {})
    for change in ({}, {"value": "110 N·m"} | LATER):
        import_table(home, table(change), False, "office", now)
    (one,) = differences(home, book)
    assert "our own row said this before (revision 1) and was changed since" in one.told
