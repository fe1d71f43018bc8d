"""Source pages travel with the record: into a backup, out of it, and never by a way that a hostile file makes up."""

from __future__ import annotations

import hashlib
import json
import shutil
import zipfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from benchbot.curation.backup import back_up
from benchbot.curation.evidence_files import folder_of, keep_file
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.curation.restoring import look_through, restore
from benchbot.desk.picture_files import keep_picture
from benchbot.desk.sheets import Parcel
from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records import evidence, fillings, outbox
from benchbot.records.fillings import Fields
from benchbot.records.record import open_record

NOW, LATER = datetime(2026, 3, 1, 12, tzinfo=UTC), datetime(2026, 3, 2, 12, tzinfo=UTC)
FLEET = Path(__file__).parent.parent / "commands" / "fleet.csv"
MANIFEST = "manifest.json"
PDF = b"%PDF-1.4\n%%EOF\n"
FIGURES = b"\x89PNG\r\n\x1a\n figures of a week"


def picture(colour: str) -> bytes:
    out = BytesIO()
    Image.new("RGB", (20, 30), colour).save(out, "PNG")
    return out.getvalue()


def keep(home: Home, content: bytes, handle: str) -> str:
    """The name of the page in a backup."""
    kept = keep_file(home, content)
    assert kept is not None
    with open_record(home) as record:
        number, _ = evidence.put(record, 1, handle, "terminal cleo", NOW)
        evidence.kept(record, number, kept.digest, kept.kind, kept.size)
    return f"evidence/{kept.digest}.{kept.kind}"


@pytest.fixture(scope="module")
def _made(tmp_path_factory: pytest.TempPathFactory) -> Home:
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("BENCHBOT_DATABASE_URL", raising=False)
        home = Home(tmp_path_factory.mktemp("made"))
        import_table(home, FLEET, False, "curator", NOW)
        publish(home, NOW)
    return home


@pytest.fixture
def used(_made: Home, home: Home) -> Home:
    """A home with two pages, one of them kept twice, one that was refused, and a picture that waits to be sent."""
    for file in (_made.record, _made.book):
        shutil.copyfile(file, home.folder / file.name)
    with open_record(home) as record:
        fillings.put(record, None, "", "terminal cleo", None, Fields(), NOW)
    for handle, content in (("A", picture("red")), ("B", PDF), ("C", picture("red"))):
        keep(home, content, handle)
    with open_record(home) as record, record.writing() as store:
        evidence.refused(record, evidence.put(record, 1, "D", "terminal cleo", NOW)[0])
        for name, state in (("week-1.png", ""), ("week-2.png", "sent")):
            code = keep_picture(home, name, FIGURES + name.encode())
            number = outbox.add(store, "900", "7", Parcel("picture", "7", code=code).to_text(), NOW)
            if state:
                outbox.sent(record, number, "5", NOW)
    return home


@pytest.fixture
def fresh(tmp_path: Path) -> Iterator[Home]:
    folder = tmp_path / "fresh"
    folder.mkdir()
    yield Home(folder)


@pytest.fixture
def backup(used: Home, tmp_path: Path) -> Path:
    back_up(used, tmp_path / "shop.backup", False, NOW)
    return tmp_path / "shop.backup"


def pages(home: Home) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder_of(home).glob("*")}


def test_pages_come_back_as_they_were(used: Home, fresh: Home, backup: Path) -> None:
    manifest = look_through(backup)
    assert (len(manifest.pages), len(manifest.pictures), manifest.lost) == (2, 1, ())
    restore(fresh, backup, False, LATER)
    assert pages(fresh) == pages(used)
    assert len(pages(fresh)) == 2
    assert {file.stat().st_mode & 0o777 for file in folder_of(fresh).iterdir()} == {0o600}
    assert folder_of(fresh).stat().st_mode & 0o777 == 0o700
    # what was sent before is nobody's to wait for any more
    assert [file.name for file in (fresh.folder / "pictures").iterdir()] == ["week-1.png"]
    again = back_up(fresh, backup.with_name("again.backup"), False, LATER)
    assert (again.pages, again.pictures) == (manifest.pages, manifest.pictures)


def test_pages_of_before_stay_beside_those_that_come(used: Home, backup: Path) -> None:
    """The record that is put aside still speaks of them."""
    keep(used, picture("blue"), "E")
    before = pages(used)
    torn = next(iter(sorted(before)))
    (folder_of(used) / torn).write_bytes(b"half a p")
    week = used.folder / "pictures" / "week-1.png"
    week.write_bytes(b"\x89PNG\r\n\x1a\n another one")
    restore(used, backup, True, LATER)
    assert pages(used) | {torn: b""} == before | {torn: b""}
    assert week.read_bytes() == FIGURES + b"week-1.png"


def test_a_page_that_is_gone_or_altered_hinders_no_backup(used: Home, fresh: Home, tmp_path: Path) -> None:
    red, sheet = sorted(folder_of(used).iterdir(), key=lambda file: file.suffix, reverse=True)
    red.unlink()
    sheet.write_bytes(b"%PDF-1.7 other")
    manifest = back_up(used, tmp_path / "shop.backup", False, NOW)
    assert manifest.pages == ()
    assert set(manifest.lost) == {f"evidence/{red.name}", f"evidence/{sheet.name}"}
    restore(fresh, tmp_path / "shop.backup", False, LATER)
    assert not folder_of(fresh).exists()


def test_a_backup_of_before_pages_is_taken(_made: Home, fresh: Home, tmp_path: Path) -> None:
    file = tmp_path / "shop.backup"
    back_up(_made, file, False, NOW)
    changed(file, {}, layout=1)
    restore(fresh, file, False, LATER)
    assert fresh.book.exists()


# Hostile ones


def changed(file: Path, parts: dict[str, bytes | None], listed: bool = True, **manifest: Any) -> None:
    """Packs it again with other parts (None: without it), and with a manifest that is right about them if listed."""
    with zipfile.ZipFile(file) as archive:
        held: dict[str, bytes | None] = {name: archive.read(name) for name in archive.namelist()}
    told = json.loads(held.pop(MANIFEST) or b"") | manifest
    held |= parts
    if listed:
        told["parts"] = [
            {"file": name, "size": len(body), "sha256": hashlib.sha256(body).hexdigest()}
            for name, body in held.items()
            if body is not None
        ]
    if manifest.get("layout") == 1:
        del told["lost"]
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, body in {**held, MANIFEST: json.dumps(told).encode()}.items():
            if body is not None:
                archive.writestr(name, body)


def refused(file: Path, home: Home, said: str) -> None:
    def tree() -> dict[str, bytes]:
        files = (path for path in home.folder.parent.rglob("*") if path.is_file() and path.name != "curation.lock")
        return {str(path): path.read_bytes() for path in files}

    before = tree()
    for work in (lambda: look_through(file), lambda: restore(home, file, True, LATER)):
        with pytest.raises(RecordError, match=said):
            work()
    assert tree() == before


DIGEST = hashlib.sha256(PDF).hexdigest()


@pytest.mark.parametrize("listed", [True, False])
@pytest.mark.parametrize(
    "name",
    [
        "evidence/../../evil.pdf", f"evidence/../{DIGEST}.pdf", f"/evidence/{DIGEST}.pdf", f"evidence\\{DIGEST}.pdf",
        f"evidence/sub/{DIGEST}.pdf", f"evidence/{DIGEST}.exe", f"evidence/{DIGEST}.pdf/", f"evidence/{DIGEST}",
        f"evidence/{DIGEST.upper()}.pdf", f"evidence/{DIGEST}.pdf\n", f"EVIDENCE/{DIGEST}.pdf", "pictures/../x.png",
        "pictures/.png", "pictures/a/b.png", "pictures/a.svg", "C:/evil.pdf", "evidence/CON.pdf", "record.sqlite-wal",
    ],
)  # fmt: skip
def test_a_name_that_no_page_has(name: str, listed: bool, backup: Path, used: Home) -> None:
    changed(backup, {name: PDF}, listed)
    refused(backup, used, "its parts are not|does not belong there")


def test_a_page_of_other_bytes_than_its_name_says(backup: Path, used: Home) -> None:
    changed(backup, {f"evidence/{DIGEST}.pdf": PDF + b"more"})
    refused(backup, used, "its parts are not")
    changed(backup, {f"evidence/{DIGEST}.pdf": PDF + b"more"}, listed=False)
    refused(backup, used, "is wrong|the manifest says")


Change = Callable[[Path, str], None]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda file, page: changed(file, {page: None}), "which is not in the backup"),
        (lambda file, page: changed(file, {page: None}, listed=False), "is missing"),
        (lambda file, page: changed(file, {f"evidence/{'0' * 64}.pdf": b"x"}), "its parts are not"),
        (lambda file, page: changed(file, {"pictures/another.png": FIGURES}), "does not speak of pictures/another"),
        (lambda file, page: changed(file, {page: b""}), "its parts are not"),
        (lambda file, page: changed(file, {page: bytes(11 << 20)}), "its parts are not"),
        (lambda file, page: changed(file, {}, lost=["../x"]), "calls lost is no page"),
        (lambda file, page: changed(file, {}, lost="x"), "'lost' is missing or of the wrong kind"),
        (lambda file, page: changed(file, {}, lost=[f"evidence/{'0' * 64}.pdf"]), "does not speak of"),
    ],
)
def test_pages_that_are_not_those_of_the_record(change: Change, said: str, backup: Path, used: Home) -> None:
    change(backup, f"evidence/{DIGEST}.pdf")
    refused(backup, used, said)


def test_a_record_that_speaks_of_a_way_out(used: Home, tmp_path: Path) -> None:
    with open_record(used) as record, record.writing() as store:
        store.run("UPDATE evidence SET kind = '/../../x' WHERE kind = 'pdf'", {})
    with pytest.raises(RecordError, match="it speaks of a file"):
        back_up(used, tmp_path / "shop.backup", False, NOW)
