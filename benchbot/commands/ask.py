"""benchbot ask: one question from the command line, or a file of them."""

from __future__ import annotations

import argparse
import json
import sys
from contextlib import nullcontext
from dataclasses import replace
from typing import Any

from benchbot.commands.asker import fresh_chat, person, printable
from benchbot.commands.batch import answer_batch
from benchbot.commands.contract import of_turn
from benchbot.conversation.conversation import Conversation, Turn
from benchbot.errors import SettingError
from benchbot.outcomes import Answer
from benchbot.places import home
from benchbot.quantities.units import read_unit
from benchbot.reply.compose import compose
from benchbot.reply.why import why


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    parser = subparsers.add_parser("ask", help="answer one question, or a file of questions")
    parser.add_argument("question", nargs="*", help="the question, as one would type it in a chat")
    parser.add_argument("--batch", metavar="FILE", help="a question a line, plain or as JSON; - reads standard input")
    parser.add_argument("--json", action="store_true", help="print the outcome as a JSON object")
    parser.add_argument("--why", action="store_true", help="say how each word was read")
    parser.add_argument("--short", action="store_true", help="one line, for a phone")
    parser.add_argument("--more", action="store_true", help="show further units, and where the row holds")
    parser.add_argument("--chat", metavar="NAME", help="go on in the chat of that name")
    parser.add_argument("--unit", help='the unit that comes first among the conversions, such as "lb-in"')
    parser.set_defaults(parser=parser)


def run(args: argparse.Namespace) -> int:
    """0: answered, whatever the outcome. 1: a line of the batch was no question. Wrong usage ends with 2."""
    question = printable(" ".join(args.question)).strip()
    if args.batch is not None:
        if question or args.chat or args.unit or args.more:
            args.parser.error("--batch reads its questions from the file; the only flag beside it is --why")
        return _batch(args.batch, args.why)
    if not question:
        args.parser.error('say what to look up, for example: benchbot ask "16 make model front bracket bolt torque"')
    unit = read_unit(args.unit) if args.unit else None
    if args.unit and unit is None:
        args.parser.error(
            f"{args.unit!r} is no unit I know; write it as N·m, lb-ft, lb-in, mm, in, L, qt, kPa, psi ..."
        )
    chat = f"command line {args.chat}" if args.chat else fresh_chat("command line")
    with Conversation.open(home()) as conversation:
        turn = conversation.say(chat, person(), question)
        if unit is not None and isinstance(turn.outcome, Answer):
            turn = _in_unit(turn, unit.symbol, conversation)
    _print(turn, args)
    return 0


def _in_unit(turn: Turn, unit: str, conversation: Conversation) -> Turn:
    """The same answer with another unit first; what was looked up and put on record stays."""
    if not isinstance(turn.outcome, Answer):
        return turn
    outcome = replace(turn.outcome, unit=unit)
    reply = compose(outcome, turn.reading, turn.gap, conversation.lexicon.vocabulary, turn.first)
    return replace(turn, outcome=outcome, reply=reply)


def _print(turn: Turn, args: argparse.Namespace) -> None:
    if args.json:
        plain: dict[str, Any] = of_turn(turn)
        if args.more:
            plain["more"] = turn.reply.more_text()
        if args.why:
            plain["why"] = why(turn.reading)
        print(json.dumps(plain, ensure_ascii=False))
        return
    print(turn.reply.short if args.short and turn.reply.short else turn.reply.text())
    if args.more and turn.reply.more:
        print(f"\n{turn.reply.more_text()}")
    if args.why:
        print(f"\n{why(turn.reading)}")


def _batch(file: str, with_why: bool) -> int:
    try:
        source = nullcontext(sys.stdin.buffer) if file == "-" else open(file, "rb")  # noqa: PTH123, SIM115
    except OSError as error:
        raise SettingError(f"{file}: the questions cannot be read ({error.strerror}); name a file that can") from error
    with source as lines, Conversation.open(home()) as conversation:
        return answer_batch(conversation, lines, sys.stdout, person(), with_why)
