"""benchbot chat: a chat at the terminal on the shop's own book."""

from __future__ import annotations

import argparse

from benchbot.channels.screens import open_screen
from benchbot.channels.terminal import TerminalChat
from benchbot.commands.asker import fresh_chat, person
from benchbot.conversation.conversation import Conversation
from benchbot.places import home

WELCOME = 'Ask for a figure: year, make and model, the part, front or rear. "help" says more, "quit" leaves.'


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    parser = subparsers.add_parser("chat", help="chat at the terminal")
    parser.add_argument("--chat", metavar="NAME", help="go on in the chat of that name, with the vehicle on its lift")
    parser.add_argument("--plain", action="store_true", help="no line editing, no colours")


def run(args: argparse.Namespace) -> int:
    shop = home()
    chat = f"terminal {args.chat}" if args.chat else fresh_chat("terminal")
    with Conversation.open(shop) as conversation:
        screen = open_screen(shop.chat_history, args.plain)
        screen.say(WELCOME)
        TerminalChat(conversation, screen, chat, person()).run()
    return 0
