"""A page on its way from the messenger into the home: fetched once, kept, or refused and told so."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from bay import BOT, Bay, Phone
from PIL import Image
from telegram.error import BadRequest, InvalidToken, NetworkError, TelegramError

from benchbot.channels.telegram.sending import FILE_AT_MOST, Sender
from benchbot.curation.evidence_files import folder_of
from benchbot.desk.bookwork.fetching import keep_fetched
from benchbot.desk.sheets import Parcel
from benchbot.records import evidence, fillings
from benchbot.records.evidence import Evidence


def page() -> bytes:
    out = BytesIO()
    Image.new("RGB", (20, 30), "white").save(out, "JPEG")
    return out.getvalue()


@pytest.fixture
def cleo(bay: Bay) -> Phone:
    """She is filling a row and has sent a page."""
    north = bay.location("North")
    bay.phone("Ana", technician=north).say("12 ondrel head bolt torque")
    phone = bay.phone("Cleo", curator=north)
    phone.say("/gaps")
    phone.press("1")
    phone.press("Fill")
    phone.send("media", kind="photo", file="FILE1")
    phone.press("Keep")
    return phone


@pytest.fixture
def fetch(bay: Bay, cleo: Phone) -> Iterator[Parcel]:
    yield bay.fetches[-1]


def held(bay: Bay, cleo: Phone) -> Evidence:
    return evidence.of_filling(bay.record, fillings.open_of(bay.record, cleo.person)[0].number)[0]


def test_a_page_is_kept_with_the_row(bay: Bay, cleo: Phone, fetch: Parcel) -> None:
    assert keep_fetched(bay.record, bay.home, BOT.number, fetch, page(), bay.clock())
    kept = held(bay, cleo)
    assert (kept.state, kept.kind, kept.size) == ("kept", "jpg", len(page()))
    assert (folder_of(bay.home) / kept.file).read_bytes() == page()
    before = len(cleo.shown)
    # a kill between the two makes it come again
    assert keep_fetched(bay.record, bay.home, BOT.number, fetch, page(), bay.clock())
    bay.deliver()
    assert len(cleo.shown) == before


@pytest.mark.parametrize("content", [None, b"MZ" + bytes(90), b""])
def test_what_is_no_page_is_told_once(bay: Bay, cleo: Phone, fetch: Parcel, content: bytes | None) -> None:
    for _ in range(2):
        assert not keep_fetched(bay.record, bay.home, BOT.number, fetch, content, bay.clock())
        bay.deliver()
    told = [one.text for one in cleo.shown if "could not be kept" in one.text]
    assert told == ["A picture could not be kept: JPEG, PNG, WebP or PDF, at most 10 MB."]
    assert held(bay, cleo).state == "refused"


def test_a_page_of_nothing_on_record_is_dropped(bay: Bay, fetch: Parcel) -> None:
    assert not keep_fetched(bay.record, bay.home, BOT.number, replace(fetch, code="999"), page(), bay.clock())


class File:
    """A file as the library gives it; `gives` is its bytes, or what getting them raises."""

    def __init__(self, gives: bytes | Exception, size: int | None = None) -> None:
        self.gives, self.file_path = gives, "photos/1.jpg"
        self.file_size = size if size is not None else len(gives) if isinstance(gives, bytes) else 10

    async def download_as_bytearray(self) -> bytearray:
        if isinstance(self.gives, Exception):
            raise self.gives
        return bytearray(self.gives)


class Server:
    """As much of a bot as fetching needs."""

    def __init__(self, file: File | TelegramError) -> None:
        self.file = file
        self.asked: list[str] = []

    async def get_file(self, handle: str) -> File:
        self.asked.append(handle)
        if isinstance(self.file, TelegramError):
            raise self.file
        return self.file


def fetched(server: Server, parcel: Parcel) -> list[bytes | None]:
    got: list[bytes | None] = []

    async def keep(_: Parcel, content: bytes | None) -> None:
        got.append(content)

    bot: Any = server
    asyncio.run(Sender(bot, lambda *_: b"", keep).send(parcel, parcel.chat, ""))
    return got


@pytest.mark.parametrize(
    ("file", "got"),
    [
        (File(b"bytes"), b"bytes"),
        (File(b"bytes", FILE_AT_MOST + 1), None),
        (File(InvalidToken("Not Found")), None),
        (BadRequest("wrong file_id or the file is temporarily unavailable"), None),
        (BadRequest("file is too big"), None),
    ],
)
def test_what_the_server_gives_is_handed_on(file: File | TelegramError, got: bytes | None) -> None:
    server = Server(file)
    assert fetched(server, Parcel("fetch", "71", code="3", title="FILE1")) == [got]
    assert server.asked == ["FILE1"]


@pytest.mark.parametrize("file", [File(NetworkError("gone")), NetworkError("gone"), InvalidToken("Unauthorized")])
def test_a_server_that_fails_is_asked_again_later(file: File | TelegramError) -> None:
    with pytest.raises(TelegramError):
        fetched(Server(file), Parcel("fetch", "71", code="3", title="FILE1"))


def test_a_page_that_is_gone_from_the_home_is_told(bay: Bay, cleo: Phone, fetch: Parcel) -> None:
    assert keep_fetched(bay.record, bay.home, BOT.number, fetch, page(), bay.clock())
    for how, what in (
        ("Go on", ""), ("2012", ""), ("No, for all", ""), ("", "108 N·m"), ("Not printed", ""), ("", "M12x1.5"),
        ("10.9", ""), ("", "Invented sheet"), ("", "p. 1"), ("Submit", ""),
    ):  # fmt: skip
        cleo.press(how) if how else cleo.say(what)
    spec = cleo.last.text.split()[0]
    dan = bay.phone("Dan", curator=bay.people.locations()[0])
    row = dan.say(f"/book {spec}")
    dan.press("Page", on=row)
    assert dan.last.picture == f"page:{evidence.of_spec(bay.record, spec)[0].file}"
    count = len(dan.shown)
    for file in folder_of(bay.home).iterdir():
        file.unlink()
    dan.press("Page", on=row)
    assert (row.text.startswith("The file of a page is gone"), len(dan.shown)) == (True, count)
