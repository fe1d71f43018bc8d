"""benchbot chat --as: typed into the real process, the same desk as on the phones."""

from __future__ import annotations

import os
import re
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sitting import Shop

from benchbot.desk.bookwork.wording import bookwords_of
from benchbot.desk.wording import ENGLISH
from benchbot.people import known_bot
from benchbot.people.channels import at_terminal, channel_of, name_there
from benchbot.records import errands
from benchbot.records.record import open_record

BRACKET = "16 ondrel frt caliper bracket bolt torque"
TORQUE = "fit new, dry: 88 lb-ft = 119 N·m"
MISSING = "16 ondrel rear caliper guide pin torque"
ESCAPES = re.compile(r"\x1b\[[0-9;?]*[a-zA-Z]|\x1b[=>]|\r")
ASKED = "SELECT asked, outcome FROM answer ORDER BY answer"


@pytest.mark.parametrize(
    ("person", "channel", "name"),
    [
        ("telegram 123", "telegram", "123"),
        ("terminal ana of the north", "terminal", "ana of the north"),
        ("command line, ana", "", "command line, ana"),
        ("terminal ", "", "terminal "),
        ("", "", ""),
    ],
)
def test_the_channel_stands_in_the_id(person: str, channel: str, name: str) -> None:
    assert (channel_of(person), name_there(person)) == (channel, name)


def test_capitals_and_blanks_make_no_other_person() -> None:
    assert at_terminal("  Ana   TOLVANE ") == "terminal ana tolvane"


def test_the_first_owner_comes_in_by_the_printed_code(shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    from benchbot.__main__ import main

    assert main(["people", "invite", "--role", "owner"]) == 0
    out = capsys.readouterr().out
    way = re.search(r"benchbot chat --as NAME, and there: (/start \S+)", out)
    assert way is not None
    ana = shop.sit("Ana Tolvane")
    assert "Ask your shop for an invite." in ana.say(BRACKET)
    shown = ana.say(way[1])
    assert "You are in: owner at Main shop." in shown
    assert "[commands: /vehicle /job /gaps /book /people /invite /locations /help]" in shown
    assert ana.say(BRACKET).startswith(TORQUE)
    assert ana.leave().rstrip().endswith("Bye.")
    assert shop.rows("SELECT person, name FROM person WHERE person LIKE 'terminal a%'") == [
        ("terminal ana tolvane", "Ana Tolvane")
    ]
    assert shop.rows("SELECT chat, person FROM answer WHERE outcome = 'answer'") == [("terminal ana tolvane",) * 2]


def test_buttons_are_pressed_by_number_and_the_message_shown_again(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    first = ana.say(BRACKET)
    number = re.search(r"^\(message (\d+)\)$", first, re.MULTILINE)
    assert number is not None
    more = ana.press("More")
    assert more.startswith(f"(changed) message {number[1]}\n{TORQUE}")
    assert "Row F0001, revision 1" in more
    assert "Row F0001" not in ana.press("Less")
    assert "105 N·m" in ana.say("16 ondrel lugs torque")
    older = ana.say(f"#2 of {number[1]}")
    assert older.startswith(f"(changed) message {number[1]}\n{TORQUE}")
    assert f"[no such button: message {number[1]} has #1 to #4]" in ana.say("#9")
    assert "[no button to press: message 77 has none" in ana.say("#1 of 77")


def test_a_bare_number_goes_to_the_desk_as_on_a_phone(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    assert "Which engine" in ana.say("16 ondrel axle nut front torque")
    assert "90 N·m + 60 deg" in ana.say("2")
    assert [row[0] for row in shop.rows(ASKED)] == ["16 ondrel axle nut front torque", "2"]


def test_a_choice_is_pressed_and_what_a_phone_shows_for_a_moment_stands_in_brackets(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    question = "16 ondrel axle nut front torque"
    older = re.search(r"\(message (\d+)\)", ana.say(question))
    assert older is not None
    ana.say(question)
    assert ana.say(f"#1 of {older[1]}") == f"[{ENGLISH.pressed_old}]"
    shown = ana.press("2.0T")
    assert shown.startswith("(changed)")
    assert "90 N·m + 60 deg" in shown


def test_the_last_question_is_changed(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    assert "there is no question yet" in ana.say("e/ lugs")
    ana.say(BRACKET)
    ana.say("/vehicle")
    shown = ana.say("e/ 16 ondrel rear caliper bracket bolt torque")
    assert shown.startswith("(changed)")
    assert "60 N·m" in shown
    assert "[nothing changes" in ana.say("e/")
    assert "[nothing changes" in ana.say("e/ 16 ondrel rear caliper bracket bolt torque")
    assert "e/ and a text changes your last question" in ana.say("/help")


def test_two_terminals_of_one_name(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    code, said = shop.refused("--as", "ANA")
    assert (code, said) == (
        1, "benchbot: “ANA” sits at another terminal of this shop already; leave that one, or take another name\n"
    )  # fmt: skip
    assert ana.say(BRACKET).startswith(TORQUE)
    ana.leave()
    assert shop.sit("ana").say(BRACKET).startswith(TORQUE)


@pytest.mark.parametrize("words", [("--as", "\u202e"), ("--as", " "), ("--as", "ana", "--chat", "x")])
def test_names_that_nobody_could_read(shop: Shop, words: tuple[str, ...]) -> None:
    assert shop.refused(*words)[0] == 2


def test_what_waited_is_shown_at_the_start_and_what_comes_meanwhile_at_the_next_line(shop: Shop) -> None:
    shop.at_terminal("Olga", "owner")
    shop.at_terminal("Rosa", "technician")
    shop.let_in("telegram 55", "Pim", "technician")
    known_bot.save(shop.home, "900", "baybot")
    rosa, olga = shop.sit("Rosa"), shop.sit("Olga")
    olga.say("/people")
    olga.press("Rosa (technician)")
    olga.press("Make curator")
    assert rosa.say("") == (
        "Meanwhile:\n\nYou are curator at Main shop now.\n\n[commands: /vehicle /job /gaps /book /help]"
    )
    assert rosa.say("") == ""
    rosa.leave()
    olga.press("Make technician")
    rosa = shop.sit("Rosa")
    assert "While you were away:\n\nYou are technician at Main shop now." in rosa.text
    rosa.leave()
    assert "While you were away:" not in shop.sit("Rosa").text
    # who has a phone hears of it there
    olga.say("/people")
    olga.press("Pim (technician)")
    olga.press("Make curator")
    assert {row[0] for row in shop.rows("SELECT chat FROM sending WHERE bot = '900'")} == {"55"}


def test_an_invite_is_a_picture_in_the_home_where_a_bot_answers_phones(shop: Shop) -> None:
    pytest.importorskip("segno")
    shop.at_terminal("Olga", "owner")
    olga = shop.sit("Olga")
    olga.say("/invite")
    olga.press("technician")
    shown = olga.press("One person, 2 days")
    assert "benchbot chat --as NAME, then /start " in shown
    assert "picture" not in shown
    olga.leave()
    known_bot.save(shop.home, "900", "baybot")
    olga = shop.sit("Olga")
    olga.say("/invite")
    olga.press("technician")
    shown = olga.press("One person, 2 days")
    assert "https://t.me/baybot?start=" in shown
    told = re.search(r"^\[picture: (.+)\]$", shown, re.MULTILINE)
    assert told is not None
    picture = Path(told[1])
    assert picture.parent == shop.home.folder / "pictures"
    # ISO/IEC 15948 (PNG), 5.2: the signature of a PNG file
    assert picture.read_bytes().startswith(b"\x89PNG\r\n\x1a\n")
    assert os.name == "nt" or picture.stat().st_mode & 0o077 == 0


def test_an_errand_is_done_before_the_next_line(shop: Shop) -> None:
    shop.at_terminal("Olga", "owner")
    olga = shop.sit("Olga")
    with open_record(shop.home) as record, record.writing() as store:
        errands.put(store, "publish", {"by": "terminal olga"}, datetime.now(UTC))
    assert re.search(r"book 1|Book 1", olga.say(""))
    assert shop.rows("SELECT state FROM errand WHERE what = 'publish'") == [("done",)]


def test_a_page_is_sent_while_a_row_is_filled_in(shop: Shop, tmp_path: Path) -> None:
    shop.at_terminal("Cleo", "curator")
    page = tmp_path / "page 12.pdf"
    page.write_bytes(b"%PDF-1.4\ninvented\n%%EOF\n")
    cleo = shop.sit("Cleo")
    assert "there is no such file" in cleo.say(f"/file {tmp_path}")
    assert "Not in our book" in cleo.say(MISSING)
    cleo.say("/gaps")
    cleo.press("1")
    cleo.press("Fill")
    cleo.say(f"/file {page}")
    cleo.press("Keep")
    assert [row[0] for row in shop.rows("SELECT state FROM evidence")] == ["kept"]
    page.unlink()
    assert [file.suffix for file in (shop.home.folder / "evidence").iterdir()] == [".pdf"]


def test_lines_that_no_phone_could_send(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    assert "[too long: 5,000 characters where a message has 4,096 at most]" in ana.say("x" * 4999)
    # a machine takes many lines at once
    for _ in range(40):
        assert ana.say(BRACKET).startswith(TORQUE)


def test_at_a_terminal_with_line_editing(shop: Shop) -> None:
    pexpect = pytest.importorskip("pexpect", reason="a pseudo-terminal is needed to type into")
    pytest.importorskip("prompt_toolkit")
    shop.at_terminal("Ana", "technician")
    environment = {**os.environ, "PROMPT_TOOLKIT_NO_CPR": "1", "TERM": "xterm", "COLUMNS": "120", "LINES": "40"}
    child = pexpect.spawn(
        sys.executable, ["-m", "benchbot", "chat", "--as", "Ana"], env=environment, encoding="utf-8", timeout=60,
        dimensions=(40, 120),
    )  # fmt: skip
    child.delaybeforesend = None
    child.expect("You are Ana at this terminal")
    child.expect(">")
    child.send(f"{BRACKET}\r")
    child.expect("88 lb-ft")
    child.expect("#2 More")
    child.send("#2\r")
    child.expect_exact("(changed)")
    child.expect("Row F0001")
    child.send("quit\r")
    child.expect(pexpect.EOF)
    assert ESCAPES.sub("", child.before).strip().endswith("Bye.")
    child.close()
    assert child.exitstatus == 0


def test_a_day_at_three_terminals(shop: Shop) -> None:
    shop.at_terminal("Rosa", "technician")
    shop.at_terminal("Cleo", "curator")
    shop.at_terminal("Dan", "owner")
    rosa = shop.sit("Rosa")
    assert "Not in our book" in rosa.say(MISSING)
    rosa.leave()
    cleo = shop.sit("Cleo")
    assert "1 waiting, asked 1x" in cleo.say("/gaps")
    for label in ("1", "Fill", "2016", "No, for all"):
        cleo.press(label)
    cleo.say("27")
    cleo.press("N·m")
    cleo.say("20 lb-ft")
    cleo.say("M8x1.25")
    cleo.press("8.8")
    cleo.say("Invented sheet 16")
    # interrupted in the middle of a row, and taken up again
    cleo.leave()
    cleo = shop.sit("Cleo")
    assert "27 N·m (20 lb-ft, as the source prints it too)" in cleo.say("p. 4")
    cleo.press("Submit")
    dan = shop.sit("Dan")
    dan.say("/book")
    dan.press("To approve 1")
    dan.press("1")
    dan.press("Approve")
    dan.press("Publish")
    # the book is made before the next line can be typed, and its errand tells of it
    shown = dan.press("Yes, publish")
    assert bookwords_of("en").publish_asked in shown
    assert "ook 2" in shown.split("\n\n", 1)[1]
    assert shop.rows("SELECT state FROM errand WHERE what = 'publish'") == [("done",)]
    rosa = shop.sit("Rosa")
    told = rosa.text[rosa.text.index("While you were away:") :]
    assert f"“{MISSING}”" in told
    assert "27 N·m (20 lb-ft, as the source prints it too)" in told
    rosa.press("Not right?")
    rosa.leave()
    assert "27 N·m" not in shop.sit("Rosa").text
