"""A book as a folder: three CSV tables, and digests.txt that tells whether they are whole."""

from __future__ import annotations

import csv
import hashlib
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from benchbot.curation.book_label import TABLES, Counted, Label
from benchbot.curation.foreign_book import NoLines, not_whole
from benchbot.errors import SettingError, TableError
from benchbot.records.decision import to_disk
from benchbot.specs.cell import shielded
from benchbot.specs.columns import SPECS, VEHICLE_NAMES, WORDS
from benchbot.specs.lines import BLOCK, opened, refused
from benchbot.specs.table import Faults, Lines, Table

FILES = {"specs": "specs.csv", "vehicle names": "vehicle_names.csv", "words": "words.csv"}
LAYOUTS = {"specs": SPECS, "vehicle names": VEHICLE_NAMES, "words": WORDS}
DIGESTS = "digests.txt"
_LONGEST_DIGESTS = 10_000
# As the common tools write and check it; they pass over lines with a '#'.
_DIGEST_LINE = re.compile(r"([0-9a-f]{64})  (.+)")
_LABEL_LINE = re.compile(r"# ([a-z_ ]+): (.*)")


def write_csv(path: Path, columns: Sequence[str], rows: Iterable[Sequence[object]]) -> int:
    """Writes a table whose cells no sheet runs, and which reads back as it was; how many rows."""
    count = 0
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(columns)
        for row in rows:
            count += 1
            writer.writerow([shielded(cell) if type(cell) is str else cell for cell in row])
    return count


def write_folder(folder: Path, made_on: str, shop: str, tables: dict[str, Iterable[Sequence[str]]]) -> Label:
    """Writes the book into a new folder, or over the one written there before.

    While its files come into place there is no digests.txt: a folder without one is no book. SettingError: it holds
    other files.
    """
    folder.mkdir(exist_ok=True)
    own = {DIGESTS, *FILES.values()}
    for other in folder.iterdir():
        if other.name.removeprefix(".").removesuffix(".part") not in own:
            raise SettingError(f"{folder}: it holds {other.name}, which is no part of a book; name a new folder")
    parts = {file: folder / f".{file}.part" for file in (*FILES.values(), DIGESTS)}
    counted = []
    for table in TABLES:
        part = parts[FILES[table]]
        rows = write_csv(part, LAYOUTS[table].whole, tables[table])
        counted.append(Counted(rows, _count(part)[1]))
    label = Label(made_on, shop, (counted[0], counted[1], counted[2]))
    parts[DIGESTS].write_text(_text_of(label), encoding="utf-8", newline="\n")
    for part in parts.values():
        to_disk(part)
    (folder / DIGESTS).unlink(missing_ok=True)
    for file, part in parts.items():
        part.replace(folder / file)
    to_disk(folder)
    return label


@contextmanager
def open_folder(folder: Path) -> Iterator[Folder]:
    """TableError: a file is missing, or is not the one that was written."""
    yield Folder(folder, _verified(folder))


class Folder:
    """A folder whose files were found whole."""

    def __init__(self, folder: Path, label: Label) -> None:
        self.name = folder.name
        self.label = label
        self._folder = folder

    def faults(self, table: str) -> Faults:
        return Faults(f"{self.name}/{FILES[table]}")

    def lines(self, table: str, faults: Faults) -> Lines:
        if not self.label.tables[TABLES.index(table)].rows:
            return NoLines()
        read = Table(self._folder / FILES[table], faults)
        if read.layout is not LAYOUTS[table]:
            raise refused(faults.file, "line 1", f"this is no table of {table}", "ask for the book again")
        return read


def _verified(folder: Path) -> Label:
    try:
        with opened(folder / DIGESTS) as file:
            text = file.read(_LONGEST_DIGESTS + 1)
    except TableError as error:
        told = error.faults[0].wrong
        mend = "name a folder written by: benchbot specs export FOLDER/, or one CSV file"
        raise refused(folder.name, DIGESTS, f"{told}, so this is no book or not a whole one", mend) from error
    try:
        label = Label.of_pairs(_pairs_of(text.decode("utf-8")))
    except ValueError as error:
        raise not_whole(folder.name, DIGESTS, str(error)) from error
    for table, counted in zip(TABLES, label.tables, strict=True):
        try:
            rows, digest = _count(folder / FILES[table])
        except TableError as error:
            raise not_whole(folder.name, FILES[table], error.faults[0].wrong) from error
        if rows != counted.rows:
            wrong = f"it holds {rows:,} rows, and {counted.rows:,} were written"
            raise not_whole(folder.name, FILES[table], wrong)
        if digest != counted.digest:
            raise not_whole(folder.name, FILES[table], "it is not the file that was written: its digest is another")
    return label


def _count(path: Path) -> tuple[int, str]:
    """Rows under the header, and the digest of the file."""
    sha, ends = hashlib.sha256(), 0
    with opened(path) as file:
        while block := file.read(BLOCK):
            sha.update(block)
            ends += block.count(b"\n")
    return max(0, ends - 1), sha.hexdigest()


def _text_of(label: Label) -> str:
    lines = []
    for name, value in label.pairs():
        table = name.removesuffix(" digest")
        lines.append(f"{value}  {FILES[table]}" if table in FILES and table != name else f"# {name}: {value}")
    return "\n".join(lines) + "\n"


def _pairs_of(text: str) -> list[tuple[str, str]]:
    table_of = {file: table for table, file in FILES.items()}
    pairs = []
    if len(text) > _LONGEST_DIGESTS or not text.endswith("\n"):
        raise ValueError("it was cut off, or is far too long")
    for number, line in enumerate(text.removesuffix("\n").split("\n"), 1):
        digest, told = _DIGEST_LINE.fullmatch(line), _LABEL_LINE.fullmatch(line)
        if digest and digest[2] in table_of:
            pairs.append((f"{table_of[digest[2]]} digest", digest[1]))
        elif told:
            pairs.append((told[1], told[2]))
        else:
            raise ValueError(f"its line {number} was altered: {line[:80]!r}")
    return pairs
