"""Source pages over HTTP: a curator sends one, the bot fetches and keeps it, and who approves the row is shown it.

The process is started with SEND_SECONDS of patience, so that what times out does so soon.
"""

from __future__ import annotations

import hashlib
import time
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from running_bot import SECONDS
from shop import Phone, Shop, opened

from benchbot.curation.evidence_files import LARGEST, folder_of
from benchbot.places import Home
from benchbot.records import evidence

ASKED = "12 ondrel head bolt torque"
KEEP = "Keep this picture with the row as its source page?"
NOT_KEPT = "A picture could not be kept: JPEG, PNG, WebP or PDF, at most 10 MB."
PDF = b"%PDF-1.4\n1 0 obj << >> endobj\n%%EOF\n"
# an invented row, field by field
STEPS = (
    ("press", "2012"),
    ("press", "No, for all"),
    ("say", "108 N·m"),
    ("say", "80 lb-ft"),
    ("say", "M12x1.5"),
    ("press", "10.9"),
    ("say", "Invented Brackwell sheet 12-1"),
    ("say", "p. 12"),
)


def page(wide: int = 60, kind: str = "JPEG") -> bytes:
    out = BytesIO()
    Image.new("RGB", (wide, 30), (wide % 251, 200, 200)).save(out, kind)
    return out.getvalue()


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("pages")) as shop:
        shop.start(hasty=True)
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    with _shop.looked_after():
        yield _shop


@pytest.fixture
def cleo(shop: Shop) -> Phone:
    return filling(shop)


def filling(shop: Shop) -> Phone:
    """The phone of a curator who has begun to fill the row that somebody asked for in vain."""
    place = f"Bay {len(shop.people.locations()) + 1}"
    shop.phone("Ana", technician=place).say(ASKED)
    cleo = shop.phone("Cleo", curator=place)
    cleo.say("/gaps")
    if "Take over" in cleo.press("1").labels or "Take over" in cleo.press("Fill").labels:
        cleo.press("Take over")
    return cleo


def sent(cleo: Phone, kind: str, content: bytes, filename: str = "page.jpg") -> None:
    """She sends it and wants it kept."""
    count = cleo.count
    cleo.show(kind, content=content, filename=filename)
    assert cleo.answer(count + 1).text == KEEP
    cleo.press("Keep")


def state_of_last(shop: Shop) -> evidence.Evidence:
    """What came of the page sent last, once it was fetched."""
    until = time.monotonic() + SECONDS
    while True:
        [(number,)] = shop.rows("SELECT max(evidence) FROM evidence")
        held = evidence.one(shop.record, int(number))
        assert held is not None
        if held.state != "awaited":
            return held
        assert time.monotonic() < until, shop.log.text
        shop.log.pause()


@pytest.mark.parametrize(
    ("kind", "content", "filename", "kept_as"),
    [
        ("photo", page(), "", "jpg"),
        ("document", page(61), "page.jpg", "jpg"),
        ("document", page(62, "PNG"), "page.png", "png"),
        ("document", page(63, "WEBP"), "page.webp", "webp"),
        ("document", PDF, "sheet.pdf", "pdf"),
        # what it is goes by its bytes, whatever it was sent as
        ("document", page(64, "PNG"), "page.pdf", "png"),
    ],
)
def test_a_page_is_fetched_whole_and_kept(
    kind: str, content: bytes, filename: str, kept_as: str, shop: Shop, cleo: Phone
) -> None:
    """A photo comes in several sizes, each a file of its own; the largest is the page (Bot API, PhotoSize)."""
    sent(cleo, kind, content, filename)
    kept = state_of_last(shop)
    assert (kept.state, kept.kind, kept.size) == ("kept", kept_as, len(content))
    assert kept.digest == hashlib.sha256(content).hexdigest()
    file = folder_of(shop.home) / kept.file
    assert file.read_bytes() == content
    assert file.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize(
    ("content", "filename"), [(b"MZ" + bytes(500), "page.jpg"), (page()[:300], "page.jpg"), (PDF[:20], "sheet.pdf")]
)
def test_what_is_no_page_is_told(content: bytes, filename: str, shop: Shop, cleo: Phone) -> None:
    count = cleo.count
    sent(cleo, "document", content, filename)
    assert state_of_last(shop).state == "refused"
    assert cleo.answer(count + 2).text == NOT_KEPT
    assert list(folder_of(shop.home).glob(".new*")) == []


@pytest.mark.parametrize(
    ("content", "filename"), [(b"\xff\xd8" + bytes(LARGEST), "page.jpg"), (page(), "page.tiff"), (b"PK", "page.zip")]
)
def test_what_is_too_big_or_of_another_kind_is_not_even_offered(
    content: bytes, filename: str, shop: Shop, cleo: Phone
) -> None:
    downloads = len(shop.server.calls("file"))
    count = cleo.count
    cleo.show("document", content=content, filename=filename)
    assert cleo.answer(count + 1).text != KEEP
    assert len(shop.server.calls("file")) == downloads


@pytest.mark.parametrize("says", ["Bad Request: file is too big", "Bad Request: wrong file_id or the file is gone"])
def test_a_file_that_the_server_does_not_give_is_told(says: str, shop: Shop, cleo: Phone) -> None:
    """Bot API, getFile: "bots can download files of up to 20 MB"; the wordings are from memory."""
    count = cleo.count
    shop.server.fail("getFile", 400, description=says)
    sent(cleo, "photo", page())
    assert state_of_last(shop).state == "refused"
    assert cleo.answer(count + 2).text == NOT_KEPT


def test_a_file_that_is_gone_when_it_is_fetched_is_told(shop: Shop, cleo: Phone) -> None:
    """Bot API, getFile: "the link will be valid for at least 1 hour"; afterwards 404, value from memory."""
    count = cleo.count
    shop.server.fail("file", 404, description="Not Found")
    sent(cleo, "photo", page())
    assert state_of_last(shop).state == "refused"
    assert cleo.answer(count + 2).text == NOT_KEPT


@pytest.mark.parametrize(
    ("kind", "method", "handled"),
    [("cut", "getFile", False), ("cut", "file", False), ("cut", "file", True), ("hang", "file", False)],
)
def test_a_connection_that_is_cut_is_tried_again(
    kind: str, method: str, handled: bool, shop: Shop, cleo: Phone
) -> None:
    """Half a file is never kept for a whole one."""
    content = page(70 + len(shop.server.calls("file")))
    (shop.server.hang if kind == "hang" else shop.server.cut)(method, handled)
    sent(cleo, "photo", content)
    kept = state_of_last(shop)
    assert (kept.state, kept.digest) == ("kept", hashlib.sha256(content).hexdigest())
    assert (folder_of(shop.home) / kept.file).read_bytes() == content


def test_who_approves_is_shown_the_pages(demo_shop: Home, tmp_path: Path) -> None:
    with opened(demo_shop, tmp_path) as shop, shop.looked_after():
        shop.start()
        look_at_the_pages(shop, filling(shop))


def look_at_the_pages(shop: Shop, cleo: Phone) -> None:
    photo, sheet, wide = page(81), PDF + b"%%EOF", page(3000, "PNG")
    sent(cleo, "photo", photo)
    sent(cleo, "document", sheet, "sheet.pdf")
    # wider than a photo may be beside its height (Bot API, sendPhoto: 20), which a scan of a table can be
    sent(cleo, "document", wide, "wide.png")
    cleo.press("Go on")
    for how, what in STEPS:
        cleo.press(what) if how == "press" else cleo.say(what)
    cleo.press("Submit")
    spec = cleo.last.text.split()[0]
    dan = shop.phone("Dan", curator=shop.people.locations()[-1].name)
    assert "3 pages" in dan.say(f"/book {spec}").labels
    count, row = dan.count, dan.last
    dan.press_only("3 pages")
    dan.answer(count + 3)
    shop.settle()
    shown = dan.shown[-3:]
    assert [one.kind for one in shown] == ["photo", "document", "document"]
    assert [one.file for one in shown] == [photo, sheet, wide]
    assert shown[1].text == f"{spec}, page 2 of 3: Invented Brackwell sheet 12-1, p. 12"
    assert shop.refusals() == ["sendphoto: Bad Request: PHOTO_INVALID_DIMENSIONS"]
    # the row is still there to be approved
    assert dan.press("Approve", on=row).text.startswith(f"{spec} is approved.")
