"""Files that are no book, a damaged one, or one made to do harm: each is refused, and the home stays as it was."""

from __future__ import annotations

import argparse
import csv
import gzip
import os
import shutil
import sqlite3
import time
import zipfile
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlite_utils import Database

from benchbot.commands import specs
from benchbot.curation import book_file, book_folder
from benchbot.curation.book_label import Counted, Label
from benchbot.curation.decisions import Decisions
from benchbot.curation.differences import KINDS
from benchbot.curation.exchange import compared, take
from benchbot.curation.exporting import export_file, export_folder
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.errors import TableError
from benchbot.places import Home
from benchbot.specs.columns import SPECS

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
HEADER = ",".join(SPECS.columns)
ROW = (
    "A1,Drabent,Quilsund 3,2012,2016,,caliper bracket bolt,front,torque,105 N·m,,,,,,,,"
    "Invented workshop sheet,p. 12,curator,2026-02-03,,verified"
)
CELLS = dict(zip(SPECS.whole, (*ROW.split(","), ""), strict=True))
ALL = Decisions(kinds=dict.fromkeys(KINDS, "take"))

Change = Callable[[Path], object]


@pytest.fixture(scope="module")
def _shops(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Home, Path]]:
    """A home in use, and a folder with a sound book of another shop in both of its forms."""
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("BENCHBOT_DATABASE_URL", raising=False)
        there = tmp_path_factory.mktemp("there")
        tables = {
            "theirs.csv": f"{HEADER}\n{ROW}\n{ROW.replace('A1', 'A2').replace('front', 'rear')}\n",
            "names.csv": "make,model,alias\nDrabent,Quilsund 3,the three\n",
            "words.csv": "term,said\nwheel nut,roundie\n",
        }
        for name, text in tables.items():
            (there / name).write_text(text, encoding="utf-8")
            import_table(Home(there), there / name, False, "curator", NOW)
        export_file(Home(there), there / "book.db", "Bay 7", NOW)
        export_folder(Home(there), there / "book", "Bay 7", NOW)
        home = Home(tmp_path_factory.mktemp("home"))
        (there / "ours.csv").write_text(f"{HEADER}\n{ROW.replace('A1', 'OURS').replace('105', '99')}\n", "utf-8")
        import_table(home, there / "ours.csv", False, "curator", NOW)
        publish(home, NOW)
        yield home, there


@pytest.fixture
def used(_shops: tuple[Home, Path], home: Home) -> Home:
    for file in (_shops[0].record, _shops[0].book):
        shutil.copyfile(file, home.folder / file.name)
    return home


@pytest.fixture
def file(_shops: tuple[Home, Path], tmp_path: Path) -> Path:
    return Path(shutil.copyfile(_shops[1] / "book.db", tmp_path / "book.db"))


@pytest.fixture
def folder(_shops: tuple[Home, Path], tmp_path: Path) -> Path:
    return Path(shutil.copytree(_shops[1] / "book", tmp_path / "book"))


def refused(home: Home, path: Path, *said: str) -> TableError:
    """The error of taking everything from a book; the home and the book itself stay as they were."""

    def everything() -> list[tuple[str, bytes]]:
        kept = [home.record, home.book, *sorted(p for p in path.parent.glob("book*") if p.is_file())]
        return [(each.name, each.read_bytes()) for each in kept]

    before, begun = everything(), time.monotonic()
    with pytest.raises(TableError) as told:
        with compared(home, path) as comparison:
            take(home, comparison, ALL, "curator", NOW)
        raise AssertionError("it was taken")
    assert time.monotonic() - begun < 30
    for part in said:
        assert part in str(told.value)
    assert all(fault.where and fault.mend for fault in told.value.faults)
    assert everything() == before
    return told.value


def run_sql(*statements: str) -> Change:
    def change(path: Path) -> None:
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            for statement in statements:
                connection.execute(statement)

    return change


def schema(statement: str) -> Change:
    """Writes into the schema table itself, past all that the library would refuse."""

    def change(path: Path) -> None:
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute("PRAGMA writable_schema = ON")
            connection.execute(statement)

    return change


def bytes_of(make: Callable[[bytes], bytes]) -> Change:
    return lambda path: path.write_bytes(make(path.read_bytes()))


def swapped(old: bytes, new: bytes) -> Change:
    def make(content: bytes) -> bytes:
        assert content.count(old) >= 1 and len(old) == len(new)
        return content.replace(old, new)

    return bytes_of(make)


def rows_of(*changes: dict[str, str], label: Callable[[Label], Label] = lambda label: label) -> Change:
    """A file whose digests are right: what it says is what is wrong."""

    def change(path: Path) -> None:
        path.unlink()
        rows = [list((CELLS | {"id": f"A{n}"} | cells).values()) for n, cells in enumerate(changes, 1)]
        book_file.write_file(path, NOW.isoformat(), "Bay 7", {"specs": rows, "vehicle names": [], "words": []})
        with closing(sqlite3.connect(path)) as connection, connection:
            told = label(Label.of_pairs(connection.execute("SELECT name, value FROM about").fetchall()))
            connection.execute("DELETE FROM about")
            connection.executemany("INSERT INTO about VALUES (?, ?)", told.pairs())

    return change


def rebuilt(kind: str, strict: bool = True) -> Change:
    """The table of specs with its years in another type."""

    def change(path: Path) -> None:
        with closing(sqlite3.connect(path)) as connection:
            rows = connection.execute("SELECT * FROM specs").fetchall()
            connection.execute("DROP TABLE specs")
            types = {name: kind if name.startswith("year") else "TEXT" for name in SPECS.whole}
            cells = ", ".join(f'"{name}" {told} NOT NULL' for name, told in types.items())
            cells = cells.replace("NOT NULL", "PRIMARY KEY NOT NULL", 1)
            connection.execute(f"CREATE TABLE specs ({cells}){' STRICT' if strict else ''}")
            connection.executemany(f"INSERT INTO specs VALUES ({', '.join('?' * len(types))})", rows)
            connection.commit()

    return change


def wide(path: Path) -> None:
    """As many columns as SQLite takes."""
    path.unlink()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"CREATE TABLE specs ({', '.join(f'c{n} TEXT' for n in range(2_000))})")


def untyped_years(path: Path) -> None:
    """Numbers in a table that says TEXT: the file was put together by hand."""
    rebuilt("INTEGER")(path)
    schema("UPDATE sqlite_schema SET sql = replace(sql, 'INTEGER', 'TEXT') WHERE name = 'specs'")(path)


# name: (what is done to a sound file, what is said)
DATABASES: dict[str, tuple[Change, tuple[str, ...]]] = {
    "empty": (bytes_of(lambda b: b""), ("the file is empty",)),
    "text": (bytes_of(lambda b: HEADER.encode()), ("no SQLite database",)),
    "zip": (lambda p: zipfile.ZipFile(p, "w").writestr("specs.csv", HEADER), ("no SQLite database",)),
    "only the start": (bytes_of(lambda b: b[:100]), ("this is no book",)),
    "start and noise": (bytes_of(lambda b: b[:100] + bytes(range(256)) * 200), ("this is no book",)),
    "cut off": (bytes_of(lambda b: b[: len(b) // 2]), ()),
    "a byte changed in a cell": (swapped(b"105 N", b"115 N"), ("table specs", "its digest is another")),
    "a byte changed in a name": (swapped(b"the three", b"the thref"), ("table vehicle_names", "digest")),
    "a byte changed in a word": (swapped(b"roundie", b"rounbie"), ("table words", "digest")),
    "a byte changed in the label": (swapped(b"Bay 7", b"Bay 8"), ("table about", "label was altered")),
    "a row missing": (run_sql("DELETE FROM specs WHERE id = 'A2'"), ("holds 1 rows, and 2 were written",)),
    "a row more": (
        run_sql("INSERT INTO words VALUES ('axle nut', 'axler')"), ("table words", "holds 2 rows, and 1 were written"),
    ),
    "the label's rows lowered": (
        run_sql("DELETE FROM words", "UPDATE about SET value = '0' WHERE name = 'words rows'"), ("label was altered",),
    ),
    "a line of the label missing": (run_sql("DELETE FROM about WHERE name = 'made_on'"), ("does not tell 'made_on'",)),
    "a line of the label more": (run_sql("INSERT INTO about VALUES ('by', 'x')"), ("tells more than it should",)),
    "no label": (run_sql("DELETE FROM about"), ("no 'benchbot book 2'",)),
    "of a format to come": (run_sql("UPDATE about SET value = 'benchbot book 3'"), ("it says 'benchbot book 3'",)),
    "a label of a million lines": (
        run_sql("INSERT INTO about SELECT value, '' FROM (WITH RECURSIVE n(value) AS (SELECT 1 UNION ALL SELECT value"
                " + 1 FROM n LIMIT 100000) SELECT value FROM n)"),
        ("table about",),
    ),
    "a table missing": (run_sql("DROP TABLE words"), ("the table words is missing",)),
    "a table more": (run_sql("CREATE TABLE own (x TEXT)"), ("a table of its own ('own')",)),
    "another program's": (lambda p: (p.unlink(), run_sql("CREATE TABLE cars (x)")(p)), ("is missing",)),
    "a shop's record": (lambda p: shutil.copyfile(p.parent / "home" / "record.sqlite", p), ("this is no book",)),
    "a trigger": (
        run_sql("CREATE TRIGGER t AFTER INSERT ON specs BEGIN DELETE FROM words; END"), ("it has a trigger ('t')",),
    ),
    "a view": (run_sql("CREATE VIEW v AS SELECT * FROM specs"), ("it has a view ('v')",)),
    "a view in the place of a table": (
        run_sql("ALTER TABLE specs RENAME TO real", "CREATE VIEW specs AS SELECT * FROM real"), ("it has a view",),
    ),
    "a virtual table": (run_sql("CREATE VIRTUAL TABLE v USING fts5(x)"), ("a rule of its own (VIRTUAL)",)),
    "an index with an expression": (
        run_sql("CREATE INDEX i ON specs (abs(year_from))"), ("the table specs is built otherwise",),
    ),
    "a column that is reckoned": (
        run_sql("ALTER TABLE words ADD COLUMN x TEXT AS (hex(said))"), ("the table words is built otherwise",),
    ),
    "a column with a default": (run_sql("ALTER TABLE words ADD COLUMN x TEXT DEFAULT 'y'"), ("a rule of its own",)),
    "a column more": (run_sql("ALTER TABLE words ADD COLUMN x TEXT"), ("the table words is built otherwise",)),
    "a column missing": (run_sql("ALTER TABLE specs DROP COLUMN cautions"), ("the table specs is built otherwise",)),
    "a column of another name": (run_sql("ALTER TABLE specs RENAME cautions TO c"), ("specs is built otherwise",)),
    "years as numbers": (rebuilt("INTEGER"), ("the table specs is built otherwise",)),
    "types not kept to": (rebuilt("TEXT", strict=False), ("the table specs is built otherwise",)),
    "numbers under the name of texts": (untyped_years, ("a cell is no text but int",)),
    "a schema that is no SQL": (
        schema("UPDATE sqlite_schema SET sql = 'CREATE TABLE nonsense(' WHERE name = 'words'"), ("this is no book",),
    ),
    "a schema of its own name twice": (
        schema("INSERT INTO sqlite_schema SELECT type, 'own', 'own', rootpage, 'CREATE TABLE own (x TEXT)' "
               "FROM sqlite_schema WHERE name = 'words'"),
        ("this is no book",),
    ),
    "two thousand columns": (wide, ("this is no book",)),
    "a cell of ten million letters": (rows_of({"condition": "x" * 10_000_000}), ("the file is damaged",)),
    "a cell of ten thousand letters": (rows_of({"condition": "x" * 10_000}), ("row 1, condition: 10,000 characters",)),
    "a NUL in a cell": (rows_of({"source": "sheet\0two"}), ("control character U+0000",)),
    "letters of no encoding": (
        lambda p: run_sql("UPDATE specs SET source = CAST(x'ff41' AS TEXT)")(p), ("the file is damaged",),
    ),
    "an escape sequence in the shop's name": (
        rows_of({}, {"value": "1"}, label=lambda told: replace(told, shop="\x1b[2J")), ("is no torque",),
    ),
    "more rows told than can be": (
        rows_of({}, label=lambda told: replace(told, tables=(Counted(10**8, "0"), *told.tables[1:]))),
        ("'100000000' as a number of rows",),
    ),
    "made at no time": (rows_of({}, label=lambda told: replace(told, made_on="yesterday")), ("table about",)),
    "the digest right, a cell a formula of no torque": (rows_of({"value": "=1+1"}), ("row 1, value:",)),
    "the digest right, a value of no unit": (rows_of({}, {"value": "105"}), ("row 2, value:", "is no torque")),
    "the digest right, no such component": (rows_of({"component": "flux bolt"}), ("row 1, component:",)),
    "the digest right, no such status": (rows_of({"status": "approved"}), ("row 1, status:",)),
    "the digest right, verified by nobody": (rows_of({"checked_by": ""}), ("empty in a verified row",)),
    "the digest right, a mark that is none": (rows_of({"one_person": "maybe"}), ("row 1, one_person:", "is no mark")),
    "the digest right, no id": (rows_of({"id": "A 1"}), ("row 1, id:",)),
    "the digest right, two units apart": (rows_of({"second_value": "774 lb-ft"}), ("row 1, second_value:", "10 times")),
    "the digest right, two rows that disagree": (
        rows_of({}, {"value": "95 N·m"}), ("row 2, value: A2 and A1 (row 1) state different values",),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", list(DATABASES))
def test_a_hostile_database_is_refused(name: str, used: Home, file: Path) -> None:
    change, said = DATABASES[name]
    change(file)
    error = refused(used, file, *said)
    assert "\x1b" not in str(error)


def test_a_row_that_contradicts_ours_is_taken_only_when_a_person_says_so(used: Home, file: Path) -> None:
    before = used.record.read_bytes()
    with compared(used, file) as comparison:
        assert comparison.counts()["specs", "conflicting"] == 1
        done = take(used, comparison, Decisions(kinds={"new": "take", "changed": "take"}), "curator", NOW)
    assert done.undecided == 1
    assert used.record.read_bytes() == before


def test_a_journal_beside_the_file_is_not_played_into_it(used: Home, file: Path) -> None:
    copy = file.with_name("with_wal.db")
    shutil.copyfile(file, copy)
    connection = sqlite3.connect(copy)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("UPDATE specs SET value = '1 N·m'")
    connection.commit()
    for side in ("", "-wal"):
        shutil.copyfile(f"{copy}{side}", f"{file}{side}")
    connection.close()
    around = sorted(path.name for path in file.parent.iterdir())
    with compared(used, file) as comparison:
        assert {row.row[12] for row in comparison.specs()} == {"105 N·m"}
    assert sorted(path.name for path in file.parent.iterdir()) == around


def rewritten(file: str, old: str, new: str) -> Change:
    def change(folder: Path) -> None:
        text = (folder / file).read_text(encoding="utf-8")
        assert old in text
        (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8", newline="")

    return change


def looped(folder: Path) -> None:
    (folder / "specs.csv").unlink()
    (folder / "specs.csv").symlink_to("specs.csv")


def piped(file: str) -> Change:
    def change(folder: Path) -> None:
        (folder / file).unlink()
        os.mkfifo(folder / file)

    return change


def vouched(**texts: str) -> Change:
    """A folder whose digests are right for tables that are wrong."""

    def change(folder: Path) -> None:
        counted = []
        for name in ("specs", "vehicle_names", "words"):
            path = folder / f"{name}.csv"
            if name in texts:
                path.write_text(texts[name], encoding="utf-8", newline="")
            counted.append(Counted(*book_folder._count(path)))
        label = Label(NOW.isoformat(), "", (counted[0], counted[1], counted[2]))
        (folder / "digests.txt").write_text(book_folder._text_of(label), encoding="utf-8")

    return change


FOLDERS: dict[str, tuple[Change, tuple[str, ...]]] = {
    "no digests": (lambda f: (f / "digests.txt").unlink(), ("digests.txt: there is no such file", "no book")),
    "a file missing": (lambda f: (f / "words.csv").unlink(), ("words.csv: there is no such file",)),
    "a byte changed": (rewritten("specs.csv", "105", "115"), ("specs.csv: it is not the file that was written",)),
    "a byte more": (rewritten("words.csv", "roundie", "roundies"), ("words.csv: it is not the file",)),
    "a row missing": (rewritten("specs.csv", f"{ROW},\n", ""), ("specs.csv: it holds 1 rows, and 2 were written",)),
    "cut off": (rewritten("vehicle_names.csv", "the three\n", ""), ("it holds 0 rows, and 1 were written",)),
    "line ends changed": (rewritten("specs.csv", "one_person\n", "one_person\r"), ("specs.csv: it holds 1 rows",)),
    "a digest changed": (rewritten("digests.txt", "  specs.csv", "0  specs.csv"), ("its line 5 was altered",)),
    "the label changed": (rewritten("digests.txt", "Bay 7", "Bay 8"), ("its label was altered",)),
    "a file the digests do not name": (rewritten("digests.txt", "  words.csv", "  other.csv"), ("was altered",)),
    "digests without an end": (rewritten("digests.txt", "\n# digest: ", "\n"), ("was altered",)),
    "digests of no text": (lambda f: (f / "digests.txt").write_bytes(b"\xff\xfe" * 100), ("digests.txt",)),
    "digests without bounds": (lambda f: (f / "digests.txt").write_bytes(b"# a: b\n" * 10**6), ("far too long",)),
    "a link that leads to itself": (looped, ("specs.csv: this link leads back to itself",)),
    "a pipe for a table": (piped("specs.csv"), ("specs.csv: this is no plain file",)),
    "a pipe for the digests": (piped("digests.txt"), ("this is no plain file",)),
    "a folder for a table": (
        lambda f: ((f / "words.csv").unlink(), (f / "words.csv").mkdir()), ("words.csv: this is a folder",),
    ),
    "the digest right, another table in its place": (
        vouched(specs="term,said\nwheel nut,nutty\n"), ("book/specs.csv", "no table of specs"),
    ),
    "the digest right, no table": (vouched(specs="PK\x03\x04\n\n"), ("a zip file or a spreadsheet",)),
    "the digest right, a formula": (
        vouched(specs=f"{HEADER}\n{ROW.replace('p. 12', '=HYPERLINK(1)')}\n"), ("line 2, source_ref: starts with '='",),
    ),
    "the digest right, a word without a term": (vouched(words="term,said\n,nutty\n"), ("words.csv", "line 2, term:")),
    "the digest right, a name of two vehicles": (
        vouched(vehicle_names="make,model,alias\nDrabent,Olix,oli\nDrabent,Zorn,oli\n"), ("is also Drabent Olix",),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", list(FOLDERS))
def test_a_hostile_folder_is_refused(name: str, used: Home, folder: Path) -> None:
    for table in folder.glob("*.csv"):
        text = table.read_bytes().replace(b"\r\n", b"\n")
        table.write_bytes(text)
    vouched()(folder)
    label = Label.of_pairs(book_folder._pairs_of((folder / "digests.txt").read_text(encoding="utf-8")))
    text = book_folder._text_of(replace(label, shop="Bay 7"))
    (folder / "digests.txt").write_text(text, encoding="utf-8")
    with compared(used, folder) as comparison:
        assert sum(comparison.counts().values()) == 4
    change, said = FOLDERS[name]
    change(folder)
    refused(used, folder, *said)


def named(path: Path, content: bytes) -> None:
    path.write_bytes(content)


def spilled(path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerow([f"c{n}" for n in range(1_000_000)])


# name: (makes the file book.csv, what is said): given to `specs import` as a table
TABLES: dict[str, tuple[Change, str]] = {
    "a zip": (lambda p: zipfile.ZipFile(p, "w").writestr("specs.csv", f"{HEADER}\n{ROW}\n"), "a zip file"),
    "a gzip file": (lambda p: named(p, gzip.compress(f"{HEADER}\n{ROW}\n".encode())), "a gzip file"),
    "a database": (lambda p: Database(p)["specs"].insert({"id": "A1"}), "a database"),
    "noise": (lambda p: named(p, bytes(range(256)) * 400), "this is no text"),
    "a million columns": (spilled, "over 100,000 bytes in one line"),
    "one field without end": (lambda p: named(p, f'{HEADER}\n"'.encode() + b"x" * 5_000_000), "over 100,000 bytes"),
    "a field over a million lines": (lambda p: named(p, f'{HEADER}\n"'.encode() + b"x\n" * 10**6), "never closed"),
    "only NULs": (lambda p: named(p, bytes(1_000_000)), "this is no text"),
    "UTF-16": (lambda p: named(p, f"{HEADER}\n{ROW}\n".encode("utf-16")), "UTF-16 text"),
    "UTF-16 without its mark": (lambda p: named(p, f"{HEADER}\n{ROW}\n".encode("utf-16-le")), "this is no text"),
    "UTF-32": (lambda p: named(p, f"{HEADER}\n{ROW}\n".encode("utf-32")), "UTF-16 text"),
    "its mark twice": (lambda p: named(p, b"\xef\xbb\xbf" * 2 + f"{HEADER}\n{ROW}\n".encode()), "line 1"),
    "mixed line ends": (lambda p: named(p, f"{HEADER}\r\n{ROW}\n{ROW}\r{ROW}\r\n".encode()), "lone carriage return"),
    "a quote never closed": (lambda p: named(p, f'{HEADER}\n"{ROW}\n'.encode()), "never closed"),
    "a link to itself": (lambda p: p.symlink_to(p.name), "this link leads back to itself"),
    "a link to nowhere": (lambda p: p.symlink_to("gone"), "no such file"),
    "a pipe": (lambda p: os.mkfifo(p), "a pipe or a device"),
    "a device": (lambda p: p.symlink_to("/dev/zero"), "a pipe or a device"),
    "a folder": (lambda p: p.mkdir(), "this is a folder"),
    "a formula in every cell": (
        lambda p: named(p, f"{HEADER}\n{','.join(['=cmd()'] * 23)}\n".encode()), "may run as a formula",
    ),
    "a formula behind a full-width mark": (
        lambda p: named(p, f"{HEADER}\n{ROW.replace('105 N·m', '＝1+1')}\n".encode()), "is no torque",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", list(TABLES))
def test_a_hostile_file_under_the_name_of_a_table(
    name: str, used: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("BENCHBOT_HOME", str(used.folder))
    parser = argparse.ArgumentParser()
    specs.add_parser(parser.add_subparsers(required=True))
    change, said = TABLES[name]
    path = tmp_path / "book.csv"
    change(path)
    before, begun = (used.record.read_bytes(), used.book.read_bytes()), time.monotonic()
    assert specs.run(parser.parse_args(["specs", "import", str(path), "--publish"]), NOW) == 1
    assert time.monotonic() - begun < 30
    out, err = capsys.readouterr()
    assert (out, said in err) == ("", True), err
    assert (used.record.read_bytes(), used.book.read_bytes()) == before
