"""Screens for the terminal channel: plain lines for pipes and bare installs, a comfortable one on a terminal."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from benchbot.channels.posted import Posted
from benchbot.desk.pages import Blocks, laid_out
from benchbot.reply.reply import Kind, Reply
from benchbot.reply.wording import NUMBERED

if TYPE_CHECKING:
    from prompt_toolkit import PromptSession
    from rich.console import Console
    from rich.text import Text

PROMPT = "> "
DESK_HINT = '#1 = press that button · "e/ new text" = change the last question · "/help" · "quit"'
HINT = 'number = take that choice · "more" · "why" · "help" · "quit"'
STYLES: dict[Kind, str] = {
    "said": "italic",
    "label": "bold",
    "condition": "bold yellow",
    "value": "bold green",
    "converted": "green",
    "subject": "bold",
    "before": "yellow",
    "caution": "yellow",
    "source": "dim",
    "missing": "bold red",
    "question": "bold cyan",
    "calculation": "bold green",
    "verdict": "bold yellow",
    "echo": "italic",
    "note": "none",
}


class PlainScreen:
    """Reads lines and writes lines; shows a prompt only to a person at a terminal."""

    def __init__(self, source: TextIO, out: TextIO) -> None:
        self._source = source
        self._out = out
        self._prompts = source.isatty()

    def line(self) -> str | None:
        if self._prompts:
            self._out.write(PROMPT)
            self._out.flush()
        try:
            line = self._source.readline()
        except KeyboardInterrupt:
            return None
        return line if line else None

    def show(self, reply: Reply) -> None:
        self.say(reply.text())

    def post(self, posted: Posted) -> None:
        lines = [" ".join(block.text for block in line) for line in laid_out(posted.blocks)]
        self.say("\n".join((*_head(posted), *lines, *_foot(posted))))

    def say(self, text: str) -> None:
        self._out.write(f"{text}\n\n")
        self._out.flush()


class ComfortableScreen:
    """Line editing with a history that outlives the chat, and colours; needs the extra `chat`."""

    def __init__(self, session: PromptSession[str], console: Console) -> None:
        self._session = session
        self._console = console

    @classmethod
    def open(cls, history: Path, hint: str = HINT) -> ComfortableScreen:
        """On this process's terminal. ImportError when the extra `chat` is not installed."""
        from prompt_toolkit import PromptSession
        from prompt_toolkit.auto_suggest import AutoSuggestFromHistory
        from prompt_toolkit.history import FileHistory
        from rich.console import Console

        session: PromptSession[str] = PromptSession(
            PROMPT, history=FileHistory(str(history)), auto_suggest=AutoSuggestFromHistory(), bottom_toolbar=hint
        )
        return cls(session, Console(highlight=False, emoji=False))

    def line(self) -> str | None:
        try:
            return self._session.prompt()
        except (EOFError, KeyboardInterrupt):
            return None

    def show(self, reply: Reply) -> None:
        from rich.text import Text

        shown = Text()
        for block in reply.blocks:
            shown.append("" if not shown else " " if block.beside else "\n")
            shown.append(block.text, STYLES[block.kind])
        for number, choice in enumerate(reply.choices, 1):
            shown.append("\n")
            shown.append(NUMBERED.format(number=number, label=choice.label), "cyan")
        for block in reply.below:
            shown.append(f"\n{block.text}", STYLES[block.kind])
        self._console.print(shown)
        self._console.print()

    def post(self, posted: Posted) -> None:
        from rich.text import Text

        lines: list[Text] = [Text(mark, "bold yellow") for mark in _head(posted)]
        lines += [_styled(line, Text()) for line in laid_out(posted.blocks)]
        lines += [Text(line, "cyan") for line in _foot(posted)]
        self._console.print(Text("\n").join(lines))
        self._console.print()

    def say(self, text: str) -> None:
        self._console.print(text, markup=False)
        self._console.print()


def _head(posted: Posted) -> tuple[str, ...]:
    """Which message it is that is shown again, and other marks, on one line."""
    if not posted.marks:
        return ()
    return (" ".join((*posted.marks, f"message {posted.handle}") if posted.handle else posted.marks),)


def _foot(posted: Posted) -> tuple[str, ...]:
    """The buttons below a message, each with the number that presses it, and the handle of the message."""
    buttons = [f"#{number} {label}" for number, label in enumerate(posted.labels, 1)]
    return (*posted.foot, *buttons, *((f"(message {posted.handle})",) if buttons else ()))


def _styled(line: Blocks, shown: Text) -> Text:
    for block in line:
        shown.append(" " if shown else "")
        shown.append(block.text, STYLES[block.kind])
    return shown


def open_screen(history: Path, plain: bool = False, hint: str = HINT) -> PlainScreen | ComfortableScreen:
    """The screen that suits this process: comfortable at a terminal where its libraries are there, else plain."""
    at_terminal = sys.stdin.isatty() and sys.stdout.isatty()
    if at_terminal and not plain and find_spec("prompt_toolkit") and find_spec("rich"):
        return ComfortableScreen.open(history, hint)
    return PlainScreen(sys.stdin, sys.stdout)
