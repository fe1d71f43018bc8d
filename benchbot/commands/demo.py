"""benchbot demo: the same chat on invented specs, in a home that is thrown away afterwards."""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from benchbot.channels.screens import PlainScreen, open_screen
from benchbot.channels.terminal import TerminalChat
from benchbot.commands.asker import fresh_chat, person, printable
from benchbot.conversation.conversation import Conversation
from benchbot.places import Home, demo_folder

MARK = "DEMO: every make, model and figure is invented. Use none of it on a vehicle."
WELCOME = f'{MARK}\nAsk for a figure: year, make and model, the part, front or rear. "help" says more, "quit" leaves.'
EXAMPLES_HEAD = "A few questions and their answers; at a terminal, benchbot demo opens a chat."
EXAMPLES = (
    "12 ondrel frt cal brkt bolt tq",
    "ondrel bracket bolt torque",
    "12 ondrel rear bleeder socket",
    "12 ondrel head bolts",
    "108 nm to ft lbs",
    "do the slide pins get grease",
)
TABLES = ("specs.csv", "vehicle_names.csv", "words.csv")
_DATABASE = "BENCHBOT_DATABASE_URL"


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    parser = subparsers.add_parser("demo", help="the same chat on invented specs, to try it out")
    parser.add_argument("question", nargs="*", help="answer this one question and be done")
    parser.add_argument("--plain", action="store_true", help="no line editing, no colours")


def run(args: argparse.Namespace) -> int:
    question = printable(" ".join(args.question)).strip()
    with demo_home() as shop, Conversation.open(shop) as conversation:
        if question:
            _chat(conversation, PlainScreen(sys.stdin, sys.stdout)).take(question)
        elif sys.stdin.isatty():
            _serve(conversation, shop, args.plain)
        else:
            _answer_lines(conversation)
    return 0


@contextmanager
def demo_home() -> Iterator[Home]:
    """A home with the demo specs published in it, gone again afterwards."""
    from benchbot.curation.importing import import_table
    from benchbot.curation.publishing import publish

    with tempfile.TemporaryDirectory(prefix="benchbot-demo-") as folder, _own_database():
        shop = Home(Path(folder))
        now = datetime.now(UTC)
        for table in TABLES:
            import_table(shop, demo_folder() / table, False, "demo", now)
        publish(shop, now)
        yield shop


@contextmanager
def _own_database() -> Iterator[None]:
    """Nothing of the demo may reach the shop's own database, which the setting names for every home."""
    named = os.environ.pop(_DATABASE, None)
    try:
        yield
    finally:
        if named is not None:
            os.environ[_DATABASE] = named


def _chat(conversation: Conversation, screen: PlainScreen) -> TerminalChat:
    return TerminalChat(conversation, screen, fresh_chat("demo"), person(), MARK)


def _serve(conversation: Conversation, shop: Home, plain: bool) -> None:
    screen = open_screen(shop.chat_history, plain)
    screen.say(WELCOME)
    TerminalChat(conversation, screen, fresh_chat("demo"), person(), MARK).run()


def _answer_lines(conversation: Conversation) -> None:
    """Answers what standard input holds, line by line in one chat; the examples when it holds nothing."""
    screen = PlainScreen(sys.stdin, sys.stdout)
    chat = _chat(conversation, screen)
    screen.say(MARK)
    asked = 0
    while (line := screen.line()) is not None:
        if line.strip():
            asked += 1
            chat.take(printable(line.strip()))
    if asked:
        return
    screen.say(EXAMPLES_HEAD)
    for question in EXAMPLES:
        screen.say(f"> {question}")
        _chat(conversation, screen).take(question)
