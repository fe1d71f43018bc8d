"""Pictures of source pages: told by their bytes, kept once, readable by the owner alone."""

from __future__ import annotations

import hashlib
import stat
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from benchbot.curation.evidence_files import LARGEST, folder_of, keep_file, kind_of
from benchbot.places import Home

PDF = b"%PDF-1.4\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\n%%EOF\n"


def picture(form: str, size: tuple[int, int] = (12, 9)) -> bytes:
    out = BytesIO()
    Image.new("RGB", size, "white").save(out, form)
    return out.getvalue()


@pytest.mark.parametrize(
    ("content", "kind"),
    [(picture("JPEG"), "jpg"), (picture("PNG"), "png"), (picture("WEBP"), "webp"), (PDF, "pdf")],
)
def test_a_page_is_kept_under_its_digest(home: Home, content: bytes, kind: str) -> None:
    kept = keep_file(home, content)
    assert kept is not None
    digest = hashlib.sha256(content).hexdigest()
    assert (kept.digest, kept.kind, kept.size) == (digest, kind, len(content))
    file = folder_of(home) / f"{digest}.{kind}"
    assert file.read_bytes() == content
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(folder_of(home).stat().st_mode) == 0o700


def test_the_same_page_is_kept_once(home: Home) -> None:
    assert keep_file(home, PDF) == keep_file(home, PDF)
    assert len(list(folder_of(home).iterdir())) == 1


# beginnings by which a format is told: PNG, "PNG specification", 5.2; GIF89a; ISO 32000-1, 7.5.2; PKZIP, 4.3.7
REFUSED = {
    "empty": b"",
    "text": b"just words",
    "gif": picture("GIF"),
    "bmp": picture("BMP"),
    "tiff": picture("TIFF"),
    "a zip": b"PK\x03\x04" + bytes(40),
    "half a png": picture("PNG", (200, 200))[:60],
    "a png in name only": b"\x89PNG\r\n\x1a\n" + bytes(40),
    "a torn pdf": PDF[:20],
    "too large": PDF[:9] + bytes(LARGEST) + b"%%EOF",
    "a script": b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>",
}


@pytest.mark.parametrize("what", REFUSED)
def test_what_is_no_page_is_not_kept(home: Home, what: str) -> None:
    assert kind_of(REFUSED[what]) is None
    assert keep_file(home, REFUSED[what]) is None
    assert not folder_of(home).exists()


def test_a_picture_made_to_burst_memory_is_not_kept(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 100)
    assert keep_file(home, picture("PNG", (15, 10))) is None
    assert keep_file(home, picture("PNG", (150, 100))) is None


def test_nothing_half_written_stays(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(self: Path, target: Path) -> Path:
        raise OSError("the disk is full")

    monkeypatch.setattr(Path, "replace", fails)
    with pytest.raises(OSError, match="disk is full"):
        keep_file(home, PDF)
    assert list(folder_of(home).iterdir()) == []
