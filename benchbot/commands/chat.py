"""benchbot chat: a chat at the terminal on the shop's own book, alone or as one of the shop's people."""

from __future__ import annotations

import argparse

from benchbot.commands.asker import fresh_chat, person, printable
from benchbot.places import home

WELCOME = 'Ask for a figure: year, make and model, the part, front or rear. "help" says more, "quit" leaves.'


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    parser = subparsers.add_parser("chat", help="chat at the terminal")
    which = parser.add_mutually_exclusive_group()
    which.add_argument("--chat", metavar="NAME", help="go on in the chat of that name, with the vehicle on its lift")
    which.add_argument(
        "--as",
        dest="name",
        type=_name,
        metavar="NAME",
        help="as that member of the shop, with all that a phone can do: gaps, filling, approving, publishing",
    )
    parser.add_argument("--plain", action="store_true", help="no line editing, no colours")


def run(args: argparse.Namespace) -> int:
    return _alone(args) if args.name is None else _as_member(args)


def _alone(args: argparse.Namespace) -> int:
    from benchbot.channels.screens import open_screen
    from benchbot.channels.terminal import TerminalChat
    from benchbot.conversation.conversation import Conversation

    shop = home()
    chat = f"terminal {args.chat}" if args.chat else fresh_chat("terminal")
    with Conversation.open(shop) as conversation:
        screen = open_screen(shop.chat_history, args.plain)
        screen.say(WELCOME)
        TerminalChat(conversation, screen, chat, person()).run()
    return 0


def _as_member(args: argparse.Namespace) -> int:
    from benchbot.channels.screens import DESK_HINT, open_screen
    from benchbot.channels.terminal_desk import terminal_desk

    shop = home()
    screen = open_screen(shop.chat_history, args.plain, DESK_HINT)
    with terminal_desk(shop, args.name, screen) as desk:
        desk.run()
    return 0


def _name(text: str) -> str:
    """As it is shown to others; ArgumentTypeError when nothing of it can be."""
    from benchbot.people.names import NO_NAME, shown_name

    name = shown_name(printable(text))
    if name == NO_NAME:
        raise argparse.ArgumentTypeError(f"{text!r} is no name that others could read")
    return name
