"""What a typed line means, what a terminal remembers of its buttons, and how its screens show a message."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from benchbot.channels.posted import Posted
from benchbot.channels.screens import ComfortableScreen, PlainScreen
from benchbot.channels.terminal_shown import KEPT, Offered, Shown
from benchbot.channels.typed_lines import Change, File, Message, Press, Typed, typed
from benchbot.desk.sheets import Button
from benchbot.reply.reply import Block

CHANGED = Posted(
    (Block("condition", "dry:"), Block("value", "88 lb-ft", beside=True), Block("note", "as [b]is[/b]")),
    ("More", "[red]"),
    14,
    ("(changed)",),
    ("[picture: a.png]",),
)
TEXT = "(changed) message 14\ndry: 88 lb-ft\nas [b]is[/b]\n[picture: a.png]\n#1 More\n#2 [red]\n(message 14)\n\n"


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("#1", Press(1)),
        (" # 12 ", Press(12)),
        ("#2 of 14", Press(2, 14)),
        ("#2 OF 14\n", Press(2, 14)),
        ("#2/14", Press(2, 14)),
        ("#2 14", Press(2, 14)),
        ("2", Message("2")),
        ("#", Message("#")),
        ("#8 screw", Message("#8 screw")),
        ("#10-32", Message("#10-32")),
        ("#1234", Message("#1234")),
        ("e/ 12 ondrel lugs", Change(Message("12 ondrel lugs"))),
        ("E/  /ask lugs", Change(Message("lugs", "ask"))),
        ("e/", Change(Message(""))),
        ("e/brake cable bolt", Message("e/brake cable bolt")),
        ("/start AB-CD", Message("AB-CD", "start")),
        ("/GAPS", Message("", "gaps")),
        ("/vehicle  12 ondrel ", Message("12 ondrel", "vehicle")),
        ("/file ~/a b.pdf", File("~/a b.pdf")),
        ("1/2 in drive", Message("1/2 in drive")),
        ("/ 3", Message("/ 3")),
        ("lugs\x00\x1b[2J\ud800", Message("lugs  [2J?")),
        ("caliper → ¿par?", Message("caliper → ¿par?")),
    ],
)
def test_a_line(line: str, meant: Typed) -> None:
    assert typed(line) == meant


@pytest.mark.parametrize("line", ["", "  \n", "\t", "\x07"])
def test_an_empty_line(line: str) -> None:
    assert typed(line) is None


def test_buttons_are_remembered_by_the_next_process(tmp_path: Path) -> None:
    shown = Shown.load(tmp_path / "one.json")
    first = Offered(shown.begin(900), 3, (Button("More", "more"),))
    shown.put(first)
    shown.put(Offered(shown.begin(901), 4, ()))
    again = Shown.load(tmp_path / "one.json")
    assert (again.offers, again.last) == ({1: first}, 1)
    # it may stand on the screen already, with that handle
    assert again.begin(901) == 2
    assert again.begin(902) == 3
    assert again.begin(903, 1) == 1


def test_a_message_without_buttons_any_more_is_the_last_no_longer(tmp_path: Path) -> None:
    shown = Shown.load(tmp_path / "one.json")
    for card in (1, 2):
        shown.put(Offered(shown.begin(card), card, (Button("More", "more"),)))
    shown.put(Offered(2, 2, ()))
    assert (list(shown.offers), shown.last) == ([1], 0)
    shown.put(Offered(1, 1, (Button("Less", "main"),)))
    assert shown.last == 1


def test_only_the_last_messages_can_be_pressed(tmp_path: Path) -> None:
    shown = Shown.load(tmp_path / "one.json")
    for sending in range(1, KEPT + 11):
        shown.put(Offered(shown.begin(sending), sending, (Button("More", "more"),)))
    assert list(Shown.load(shown.file).offers) == list(range(11, KEPT + 11))


@pytest.mark.parametrize("text", ["", "{", "[]", '{"offers": 3}', '{"offers": [[1]], "last": 1}', "\udcff"])
def test_a_torn_file_loses_old_buttons_only(tmp_path: Path, text: str) -> None:
    file = tmp_path / "one.json"
    file.write_bytes(text.encode("utf-8", "surrogateescape"))
    shown = Shown.load(file)
    assert (shown.offers, shown.last, shown.begin(7)) == ({}, 0, 1)


def test_the_plain_screen() -> None:
    out = io.StringIO()
    PlainScreen(io.StringIO(), out).post(CHANGED)
    assert out.getvalue() == TEXT


def test_the_comfortable_screen_shows_the_same_in_colours() -> None:
    console = pytest.importorskip("rich.console")
    out, coloured = io.StringIO(), io.StringIO()
    ComfortableScreen(None, console.Console(file=out, width=60, highlight=False)).post(CHANGED)  # type: ignore[arg-type]
    assert out.getvalue() == TEXT
    screen = console.Console(file=coloured, force_terminal=True, color_system="standard")
    ComfortableScreen(None, screen).post(CHANGED)  # type: ignore[arg-type]
    assert "\x1b[1;32m88 lb-ft" in coloured.getvalue()
    assert "\x1b[36m#1 More" in coloured.getvalue()
