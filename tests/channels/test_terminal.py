"""The terminal channel by itself: a scripted conversation, and screens that a test can type into."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from typing import Any, get_args

import pytest

from benchbot.channels import terminal
from benchbot.channels.screens import STYLES, ComfortableScreen, PlainScreen, open_screen
from benchbot.channels.terminal import TerminalChat
from benchbot.conversation.conversation import Turn
from benchbot.errors import RecordError
from benchbot.outcomes import Other
from benchbot.reply.reply import Block, Choice, Kind, Reply
from benchbot.understanding.reading import Reading, WordNote

VALUE = Reply(
    "answer",
    (Block("condition", "dry:"), Block("value", "88 lb-ft", beside=True), Block("subject", "an axle nut")),
    more=(Block("note", "Row F1."),),
    specs=("F1",),
)
QUESTION = Reply(
    "choose",
    (Block("question", "Front or rear?"),),
    choices=(Choice("front", {}), Choice("rear", {})),
    below=(Block("note", "The maker comes first."),),
)
BARE = Reply("other", (Block("note", "Hello."),))


@dataclass
class Scripted:
    """A conversation that gives prepared replies and notes what it was asked."""

    replies: list[Reply | Exception]
    heard: list[Any] = field(default_factory=list)

    def say(self, chat: str, person: str, text: str) -> Turn:
        return self._turn((chat, person, text))

    def press(self, chat: str, person: str, number: int) -> Turn:
        return self._turn((chat, person, number))

    def _turn(self, heard: Any) -> Turn:
        self.heard.append(heard)
        reply = self.replies.pop(0)
        if isinstance(reply, Exception):
            raise reply
        return Turn(Other("small talk"), Reading(notes=(WordNote("hi", "noise"),)), None, reply, False)


class Keyboard(io.StringIO):
    """A terminal's keyboard."""

    def isatty(self) -> bool:
        return True


class Interrupted(Keyboard):
    def readline(self, *_: Any) -> str:
        raise KeyboardInterrupt


def typed(lines: str, *replies: Reply | Exception, mark: str = "") -> tuple[str, list[Any]]:
    conversation = Scripted(list(replies))
    out = io.StringIO()
    screen = PlainScreen(io.StringIO(lines), out)
    TerminalChat(conversation, screen, "c", "p", mark).run()  # type: ignore[arg-type]
    return out.getvalue(), conversation.heard


def test_a_message_and_its_reply() -> None:
    shown, heard = typed("lugs\n", VALUE)
    assert shown == "dry: 88 lb-ft\nan axle nut\n\nBye.\n\n"
    assert heard == [("c", "p", "lugs")]


def test_a_number_takes_a_choice_only_while_there_is_one() -> None:
    _, heard = typed("axle nut\n2\n2\n", QUESTION, VALUE, BARE)
    assert heard == [("c", "p", "axle nut"), ("c", "p", 2), ("c", "p", "2")]


@pytest.mark.parametrize("number", ["0", "3", "16", "2015", "²", "٢", "-1", "1.5"])
def test_other_numbers_are_messages(number: str) -> None:
    _, heard = typed(f"axle nut\n{number}\n", QUESTION, BARE)
    assert heard[1] == ("c", "p", number)


def test_the_choices_are_numbered() -> None:
    shown, _ = typed("axle nut\n", QUESTION)
    assert shown.startswith("Front or rear?\n1  front\n2  rear\nThe maker comes first.\n\n")


@pytest.mark.parametrize("word", sorted(terminal.MORE))
def test_more(word: str) -> None:
    assert "Row F1." in typed(f"lugs\n{word}\n", VALUE)[0]
    assert terminal.NO_MORE in typed(f"hi\n{word.upper()}\n", BARE)[0]
    assert terminal.NOTHING_YET in typed(f"{word}\n")[0]


@pytest.mark.parametrize("word", sorted(terminal.WHY))
def test_why(word: str) -> None:
    assert "“hi”: left out of account" in typed(f"hi\n{word}\n", BARE)[0]
    assert terminal.NOTHING_YET in typed(f"{word}\n")[0]


@pytest.mark.parametrize("word", sorted(terminal.HELP))
def test_help_says_that_the_maker_comes_first(word: str) -> None:
    shown, heard = typed(f"{word}\n")
    assert "current service information, local codes and licensed practice come first" in shown
    assert heard == []


@pytest.mark.parametrize("word", sorted(terminal.LEAVE))
def test_leaving(word: str) -> None:
    shown, heard = typed(f"{word}\nlugs\n")
    assert (shown, heard) == ("Bye.\n\n", [])


def test_empty_lines_are_passed_over() -> None:
    assert typed("\n   \nlugs\n", VALUE)[1] == [("c", "p", "lugs")]


def test_a_mark_stands_under_values_and_what_more_says_of_them_only() -> None:
    shown, _ = typed("lugs\nmore\nhi\n", VALUE, BARE, mark="ALL INVENTED")
    assert shown.count("ALL INVENTED") == 2
    assert "Hello.\n\nBye." in shown


def test_what_goes_wrong_with_one_message_is_shown_and_the_chat_goes_on() -> None:
    shown, heard = typed("lugs\nhi\n", RecordError("the record is locked; try again"), BARE)
    assert "the record is locked; try again" in shown
    assert len(heard) == 2


def test_a_person_gets_a_prompt_and_a_pipe_does_not() -> None:
    out = io.StringIO()
    assert PlainScreen(Keyboard("a\n"), out).line() == "a\n"
    assert out.getvalue() == "> "
    assert PlainScreen(io.StringIO("a\n"), out).line() == "a\n"
    assert out.getvalue() == "> "


def test_the_end_of_input_and_an_interrupt_both_leave() -> None:
    assert PlainScreen(io.StringIO(""), io.StringIO()).line() is None
    assert PlainScreen(Interrupted(), io.StringIO()).line() is None


def test_without_a_terminal_the_screen_is_plain(tmp_path: Any) -> None:
    assert isinstance(open_screen(tmp_path / "history"), PlainScreen)


def test_every_kind_of_block_has_its_style() -> None:
    assert set(STYLES) == set(get_args(Kind))


def test_the_comfortable_screen_shows_the_same_text_in_colours() -> None:
    console = pytest.importorskip("rich.console")
    out = io.StringIO()
    screen = ComfortableScreen(None, console.Console(file=out, width=60, highlight=False))  # type: ignore[arg-type]
    odd = Reply("choose", (Block("question", "Is it [b]front[/b]?"),), (), (Choice("[red]", {}),))
    for reply in (VALUE, QUESTION, odd):
        screen.show(reply)
        assert out.getvalue() == reply.text() + "\n\n"
        out.seek(0)
        out.truncate()
    screen.say("as [b]is[/b]")
    assert out.getvalue() == "as [b]is[/b]\n\n"
    coloured = io.StringIO()
    screen = ComfortableScreen(None, console.Console(file=coloured, force_terminal=True, color_system="standard"))  # type: ignore[arg-type]
    screen.show(VALUE)
    assert "\x1b[1;32m88 lb-ft" in coloured.getvalue()
