"""Files that are no backup, or a damaged one, or one made to do harm: each is refused, and the home stays as it was."""

from __future__ import annotations

import hashlib
import json
import os
import random
import shutil
import sqlite3
import struct
import time
import zipfile
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from benchbot.curation.backup import back_up
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.curation.restoring import look_through, restore
from benchbot.errors import RecordError
from benchbot.places import Home

NOW = datetime(2026, 5, 4, 7, 30, tzinfo=UTC)
FLEET = Path(__file__).parent.parent / "commands" / "fleet.csv"
RECORD, BOOK, MANIFEST = "record.sqlite", "book.sqlite", "manifest.json"

Change = Callable[[Path], None]


@pytest.fixture(scope="module")
def _made(tmp_path_factory: pytest.TempPathFactory) -> Home:
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("BENCHBOT_DATABASE_URL", raising=False)
        home = Home(tmp_path_factory.mktemp("made"))
        import_table(home, FLEET, False, "curator", NOW)
        publish(home, NOW)
        back_up(home, home.folder / "shop.backup", False, NOW)
    return home


@pytest.fixture
def used(_made: Home, home: Home) -> Home:
    for file in (_made.record, _made.book):
        shutil.copyfile(file, home.folder / file.name)
    return home


@pytest.fixture
def backup(_made: Home, tmp_path: Path) -> Path:
    return Path(shutil.copyfile(_made.folder / "shop.backup", tmp_path / "shop.backup"))


def refused(file: Path, home: Home, said: str) -> None:
    """Neither looked through nor restored, and the home is left as it was."""
    before = {path.name: path.read_bytes() for path in home.folder.iterdir() if path.suffix == ".sqlite"}
    around = sorted(path.name for path in file.parent.iterdir())
    begun = time.monotonic()
    with pytest.raises(RecordError, match=said):
        look_through(file)
    with pytest.raises(RecordError, match=said) as told:
        restore(home, file, True, NOW)
    assert time.monotonic() - begun < 30
    assert "Nothing was changed" in str(told.value) or "name a file that can" in str(told.value)
    assert {path.name: path.read_bytes() for path in home.folder.iterdir() if path.name != "curation.lock"} == before
    assert sorted(path.name for path in file.parent.iterdir()) == around


def parts_of(file: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(file) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def pack(file: Path, parts: dict[str, bytes], kind: int = zipfile.ZIP_DEFLATED) -> None:
    with zipfile.ZipFile(file, "w", kind) as archive:
        for name, body in parts.items():
            archive.writestr(name, body)


def told_again(parts: dict[str, bytes], **changes: Any) -> dict[str, bytes]:
    """The parts with a manifest that is right about sizes and digests again, but for the changes."""
    plain = json.loads(parts[MANIFEST])
    for part in plain["parts"]:
        body = parts.get(part["file"], b"")
        part |= {"size": len(body), "sha256": hashlib.sha256(body).hexdigest()}
    return parts | {MANIFEST: json.dumps(plain | changes).encode()}


def with_file_changed(backup: Path, name: str, change: Change, tmp_path: Path) -> None:
    """Changes a part as a file and packs it again so that only its contents can give it away."""
    parts, loose = parts_of(backup), tmp_path / "work" / name
    loose.parent.mkdir()
    loose.write_bytes(parts[name])
    change(loose)
    parts[name] = loose.read_bytes()
    shutil.rmtree(loose.parent)
    pack(backup, told_again(parts))


def sql(*statements: str) -> Change:
    def change(path: Path) -> None:
        with closing(sqlite3.connect(path)) as connection:
            for statement in statements:
                connection.execute(statement)
            connection.commit()

    return change


def test_the_tools_of_this_file_make_good_backups_too(backup: Path, used: Home, tmp_path: Path) -> None:
    with_file_changed(backup, RECORD, sql("PRAGMA user_version = 0"), tmp_path)
    restore(used, backup, True, NOW)


# No zip of ours


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (b"", "no backup file"),
        (b"x", "no backup file"),
        (b"not a zip at all\n" * 900, "no backup file"),
        (b"PK\x03\x04" + bytes(500), "no backup file"),
        (b"PK\x05\x06" + bytes(18), "has no manifest"),
        (b"SQLite format 3\0" + bytes(4080), "bare database file"),
    ],
)
def test_not_a_backup(body: bytes, said: str, used: Home, tmp_path: Path) -> None:
    file = tmp_path / "b.backup"
    file.write_bytes(body)
    refused(file, used, said)


def test_not_a_file(used: Home, tmp_path: Path) -> None:
    refused(tmp_path / "nowhere.backup", used, "cannot be read")
    (tmp_path / "folder").mkdir()
    refused(tmp_path / "folder", used, "no plain file")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_a_pipe_is_not_waited_for(used: Home, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    refused(tmp_path / "pipe", used, "no plain file")


@pytest.mark.parametrize("part", [0.1, 0.5, 0.9, 0.9999])
def test_truncated(part: float, backup: Path, used: Home) -> None:
    body = backup.read_bytes()
    backup.write_bytes(body[: int(len(body) * part)])
    refused(backup, used, "its end is missing")


@pytest.mark.parametrize("tail", [b"\n", b"tail" * 1000])
def test_something_behind_the_end(tail: bytes, backup: Path, used: Home) -> None:
    backup.write_bytes(backup.read_bytes() + tail)
    refused(backup, used, "its end is missing")


def test_a_hole_in_the_middle(backup: Path, used: Home) -> None:
    body = bytearray(backup.read_bytes())
    body[9_000:9_100] = bytes(100)
    backup.write_bytes(body)
    refused(backup, used, r"cannot be unpacked|is not what the manifest says")


@pytest.mark.parametrize(
    "name", ["../evil.sqlite", "/etc/evil", "..\\evil", "C:\\evil", "sub/record.sqlite", "record.sqlite/", "more"]
)
def test_a_name_that_does_not_belong_there(name: str, backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    del parts[BOOK]
    pack(backup, parts | {name: b"evil"})
    refused(backup, used, "does not belong there")


def test_a_part_that_is_there_twice(backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    del parts[BOOK]
    with pytest.warns(UserWarning, match="Duplicate name"), zipfile.ZipFile(backup, "w") as archive:
        for name in (MANIFEST, RECORD, RECORD):
            archive.writestr(name, parts[name])
    refused(backup, used, "does not belong there")


@pytest.mark.parametrize(("name", "said"), [(MANIFEST, "has no manifest"), (RECORD, "missing"), (BOOK, "missing")])
def test_a_part_is_missing(name: str, said: str, backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    del parts[name]
    pack(backup, parts)
    refused(backup, used, said)


def test_thousands_of_names(backup: Path, used: Home) -> None:
    with zipfile.ZipFile(backup, "a") as archive:
        for number in range(3_000):
            archive.writestr(f"{number}", b"")
    refused(backup, used, "which does not belong there")
    with zipfile.ZipFile(backup, "a") as archive:
        for number in range(3_000, 20_001):
            archive.writestr(f"{number}", b"")
    refused(backup, used, "lists 20,004 files")


def test_thousands_of_names_in_the_long_list_only(backup: Path, used: Home) -> None:
    # The end of a zip of more than 65,535 files stands twice, and the long one counts (APPNOTE.TXT 4.3.14-4.3.16).
    body = backup.read_bytes()
    far = struct.pack("<4sQ2H2L4Q", b"PK\x06\x06", 44, 45, 45, 0, 0, 1_000_000, 1_000_000, 46_000_000, 0)
    place = struct.pack("<4sLQL", b"PK\x06\x07", 0, len(body) - 22, 1)
    backup.write_bytes(body[:-22] + far + place + body[-22:])
    refused(backup, used, "lists 1,000,000 files")


@pytest.mark.parametrize("kind", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_packed_in_another_way(kind: int, backup: Path, used: Home) -> None:
    pack(backup, parts_of(backup), kind)
    refused(backup, used, "packed in a way")


def test_encrypted(backup: Path, used: Home) -> None:
    body = bytearray(backup.read_bytes())
    for mark, flags in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = body.find(mark)
        while at >= 0:
            body[at + flags] |= 1
            at = body.find(mark, at + 4)
    backup.write_bytes(body)
    refused(backup, used, r"cannot be unpacked \(.*encrypted")


# Bombs and lies about sizes


def test_a_bomb_is_not_unpacked(backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    parts[RECORD] = bytes(64 << 20)
    pack(backup, told_again(parts))
    assert backup.stat().st_size < 1 << 20
    refused(backup, used, "would grow from")


@pytest.mark.parametrize("told", [-1, 1])
def test_a_size_that_is_not_the_manifests(told: int, backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    plain = json.loads(parts[MANIFEST])
    plain["parts"][0]["size"] += told
    pack(backup, parts | {MANIFEST: json.dumps(plain).encode()})
    refused(backup, used, "the manifest says")


def test_a_list_that_lies_about_the_size(backup: Path, used: Home) -> None:
    """Manifest and list say that the record is small; what is packed goes on far beyond."""
    parts = parts_of(backup)
    told = told_again(parts | {RECORD: parts[RECORD][:8192]})
    pack(backup, told | {RECORD: parts[RECORD] + bytes(8 << 20)})
    body = bytearray(backup.read_bytes())
    at = body.find(b"PK\x01\x02")
    while bytes(body[at + 46 : at + 46 + len(RECORD)]) != RECORD.encode():
        at = body.find(b"PK\x01\x02", at + 4)
    body[at + 24 : at + 28] = struct.pack("<L", 8192)
    backup.write_bytes(body)
    refused(backup, used, r"cannot be unpacked|is not what the manifest says|to more than")


def test_a_manifest_that_is_too_long(backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    pack(backup, parts | {MANIFEST: parts[MANIFEST] + b" " * (9 << 20)})
    refused(backup, used, r"manifest\.json has 9,4")


# Manifests


def manifest(**changes: Any) -> Callable[[bytes], bytes]:
    def change(text: bytes) -> bytes:
        return json.dumps(json.loads(text) | changes).encode()

    return change


def within(key: str, **changes: Any) -> Callable[[bytes], bytes]:
    def change(text: bytes) -> bytes:
        plain = json.loads(text)
        plain[key] = plain[key] | changes
        return json.dumps(plain).encode()

    return change


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda text: b"", "is wrong"),
        (lambda text: b"\xff\xfe{}", "is wrong"),
        (lambda text: b"[" * 100_000, "nested too deep"),
        (lambda text: b"[1]", "does not call itself"),
        (lambda text: text.replace(b"benchbot backup", b"other backup"), "does not call itself"),
        (manifest(layout=3), "layout 3, this benchbot knows 2"),
        (manifest(layout=True), "no count"),
        (manifest(layout="1"), "no count"),
        (manifest(made_at="yesterday"), "is wrong"),
        (manifest(made_at=5), "'made_at' is missing or of the wrong kind"),
        (manifest(record=None), "'record' is missing or of the wrong kind"),
        (manifest(parts={}), "'parts' is missing or of the wrong kind"),
        (manifest(parts=[]), "its parts are not"),
        (manifest(parts=["record.sqlite"]), "a part of it is no object"),
        (manifest(parts=[{"file": "../evil", "size": 1, "sha256": "0" * 64}]), "its parts are not"),
        (manifest(parts=[{"file": "record.sqlite", "size": -1, "sha256": "0" * 64}]), "'size' is no count"),
        (manifest(parts=[{"file": "record.sqlite", "size": 1 << 62, "sha256": "0" * 64}]), "'size' is no count"),
        (manifest(parts=[{"file": "record.sqlite", "size": 1, "sha256": "XYZ"}]), "no SHA-256 digest"),
        (manifest(book=None), "its parts are not"),
        (within("record", rows=[1]), "'rows' is missing or of the wrong kind"),
        (within("record", rows={"answer": 1.5}), "'answer' is no count"),
        (within("record", migration=2), "'migration' is missing or of the wrong kind"),
        (within("record", migration="0001"), "numbers of rows that the manifest says"),
        (within("record", rows={}), "numbers of rows that the manifest says"),
        (within("book", version=9), "not the one that its manifest tells of"),
        (within("book", digest="0" * 64), "not the one that its manifest tells of"),
        (within("book", rows=1), "not the one that its manifest tells of"),
    ],
)
def test_a_wrong_manifest(change: Callable[[bytes], bytes], said: str, backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    pack(backup, parts | {MANIFEST: change(parts[MANIFEST])})
    refused(backup, used, said)


@pytest.mark.parametrize("name", [RECORD, BOOK])
def test_a_wrong_digest(name: str, backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    body = bytearray(parts[name])
    body[-1] ^= 1
    pack(backup, parts | {name: bytes(body)})
    refused(backup, used, f"{name} is not what the manifest says")


# Records and books that are right about their digests


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda path: path.write_bytes(b""), "no shop record"),
        (lambda path: path.write_bytes(b"no database" * 999), "file is not a database"),
        (lambda path: path.write_bytes(path.read_bytes()[:20_480]), r"malformed|disk image|Page|invalid"),
        (sql("CREATE TRIGGER t AFTER INSERT ON answer BEGIN DELETE FROM gap; END"), "has a trigger"),
        (sql("CREATE VIEW v AS SELECT 1"), "has a view"),
        (sql("CREATE TABLE evil (x TEXT)"), "a table of its own"),
        (sql("DROP TABLE membership"), "membership is missing"),
        (sql("DROP TABLE note", "CREATE TABLE note (note TEXT)"), "note is built otherwise"),
        (sql("DROP INDEX ix_gap_state_at"), "gap is built otherwise"),
        (sql("UPDATE alembic_version SET version_num = '9999'"), "migration 9999, this benchbot knows"),
        (sql("UPDATE alembic_version SET version_num = '0001'"), "a table of its own|is built otherwise"),
        (sql("DELETE FROM alembic_version"), "no shop record"),
        (sql("INSERT INTO alembic_version VALUES ('0001')"), "no shop record"),
        (sql("DROP TABLE alembic_version"), "no shop record"),
        (sql("DELETE FROM spec_revision WHERE entry = 2"), "numbers of rows that the manifest says"),
        (sql("INSERT INTO person VALUES ('telegram 1', 'x', NULL, '')"), "numbers of rows that the manifest says"),
        (sql("UPDATE spec_revision SET change = 99 WHERE entry = 2"), "points to a row of change that is not there"),
        (
            sql(
                "PRAGMA writable_schema = ON", "UPDATE sqlite_schema SET sql = 'CREATE TABLE gap (' WHERE name = 'gap'"
            ),
            "malformed",
        ),
        (
            sql("PRAGMA writable_schema = ON", "UPDATE sqlite_schema SET rootpage = 2 WHERE name = 'gap'"),
            r"malformed|page 2|Page|numbers of rows",
        ),
    ],
)
def test_a_hostile_record(change: Change, said: str, backup: Path, used: Home, tmp_path: Path) -> None:
    with_file_changed(backup, RECORD, change, tmp_path)
    refused(backup, used, said)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda path: path.write_bytes(b""), "book is refused"),
        (lambda path: path.write_bytes(b"no database" * 999), "file is not a database"),
        (sql("PRAGMA application_id = 7"), "book is refused"),
        (sql("PRAGMA user_version = 99"), "book is refused"),
        (sql("CREATE TRIGGER t AFTER INSERT ON spec BEGIN SELECT 1; END"), "has a trigger"),
        (sql("ALTER TABLE spec ADD COLUMN more TEXT"), "spec is built otherwise"),
        (sql("DROP INDEX spec_by_id"), "spec is built otherwise"),
        (sql("DELETE FROM spec WHERE row = 1"), "says that it holds"),
        (sql("UPDATE spec SET figure = 9999 WHERE row = 1"), "points to a row of figure"),
        (sql("UPDATE vocabulary SET body = '[]'"), "vocabulary cannot be read"),
        (sql("UPDATE about SET value = 'x' WHERE key = 'version'"), "book is refused"),
    ],
)
def test_a_hostile_book(change: Change, said: str, backup: Path, used: Home, tmp_path: Path) -> None:
    with_file_changed(backup, BOOK, change, tmp_path)
    refused(backup, used, said)


def test_the_record_in_the_books_place(backup: Path, used: Home) -> None:
    parts = parts_of(backup)
    pack(backup, told_again(parts | {BOOK: parts[RECORD]}))
    refused(backup, used, "book is refused")


def test_any_bit_turned(backup: Path) -> None:
    """Whatever byte is spoilt, the backup is refused or holds exactly what it held."""
    body, good = backup.read_bytes(), look_through(backup)
    chance = random.Random(7)
    # Most of the file is packed rows; what steers the reading stands at its ends.
    places = [*chance.sample(range(len(body)), 60), *range(0, 60, 3), *range(len(body) - 240, len(body), 4)]
    refusals = 0
    for place in places:
        spoilt = bytearray(body)
        spoilt[place] ^= 1 << chance.randrange(8)
        backup.write_bytes(spoilt)
        try:
            assert look_through(backup) == good
        except RecordError:
            refusals += 1
    assert refusals > len(places) / 2
