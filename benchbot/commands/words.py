"""benchbot words: what the shop itself says for parts and vehicles; a wrong word is taken back here."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from benchbot.commands.asker import person as account
from benchbot.errors import BenchbotError
from benchbot.places import home

if TYPE_CHECKING:
    from benchbot.curation.words_back import TakenBack
    from benchbot.records.own_words import Message, OwnWord
    from benchbot.records.record import Record

_KINDS = {"word": "part", "name": "vehicle"}


def add_parser(subparsers: Any) -> None:
    """Adds `words` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser("words", help="the shop's own words and names of vehicles")
    commands = parser.add_subparsers(dest="words_command", required=True, metavar="COMMAND")
    listed = commands.add_parser("list", help="every word and name in use, with what it means")
    listed.add_argument("--json", action="store_true", help="for programs")
    back = commands.add_parser("take-back", help="a word or name that is wrong counts no more from the next book on")
    back.add_argument("said", metavar="WORDS", help="as the shop says it, such as “dogbone bolt”")
    back.add_argument("--means", default="", metavar="NAME", help="the part or vehicle, where several are called so")
    back.add_argument("--why", default="", metavar="REASON")
    back.add_argument("--by", default="", metavar="NAME", help="who takes it back (default: this account)")
    back.add_argument("--json", action="store_true", help="for programs")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    from benchbot.records.record import open_record

    handlers: dict[str, Callable[[Record, argparse.Namespace, datetime], int]] = {
        "list": _list, "take-back": _take_back,
    }  # fmt: skip
    try:
        with open_record(home()) as record:
            return handlers[args.words_command](record, args, now or datetime.now(UTC))
    except BenchbotError as error:
        print(error, file=sys.stderr)
        return 1


def _list(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.records import own_words

    found = own_words.all_in_use(record)
    if args.json:
        print(json.dumps([_plain(one) for one in found], ensure_ascii=False, indent=2))
        return 0
    for one in found:
        print(f"{one.said} = {one.means} ({_KINDS[one.kind]}; {one.author}, {one.at:%Y-%m-%d})")
    if not found:
        print("the shop has no words of its own")
    return 0


def _take_back(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation import words_back
    from benchbot.curation.by_name import refusal
    from benchbot.people.channels import at_terminal

    person = at_terminal(" ".join((args.by or account()).split()))
    refused = refusal(record, person, "fill gap")
    if refused:
        return _told(refused)
    found = words_back.find(record, args.said, args.means)
    if not found:
        return _told(f"the shop does not say {args.said!r}; see what it says with: benchbot words list")
    if len(found) > 1:
        means = ", ".join(one.means for one in found)
        return _told(f"{args.said!r} means {means}; say which with --means NAME")
    done = words_back.take_back(record, found[0], person, " ".join(args.why.split()), now)
    if done is None:
        return _told(f"{args.said!r} was taken back by somebody else just now")
    if args.json:
        plain = _plain(done.word) | {"answers": [_plain_answer(one) for one in done.read]}
        print(json.dumps(plain, ensure_ascii=False, indent=2))
    else:
        print("\n".join(_lines(done)))
    return 0


def _lines(done: TakenBack) -> list[str]:
    from benchbot.curation.words_back import DAYS

    word = done.word
    head = f"{word.said!r} does not mean {word.means} any more, from the next book on: benchbot specs publish"
    if not done.read:
        return [head, f"no answer of the last {DAYS} days was read through it"]
    lines = [head, f"answers of the last {DAYS} days that were read through it, to be looked after:"]
    for one in done.read:
        place = f", {one.place}" if one.place else ""
        lines.append(f"  {one.at:%Y-%m-%d %H:%M}  {one.name}{place}: {one.asked}")
    return lines


def _plain(one: OwnWord) -> dict[str, Any]:
    return {
        "kind": _KINDS[one.kind],
        "said": one.said,
        "means": one.means,
        "author": one.author,
        "at": one.at.isoformat(),
    }


def _plain_answer(one: Message) -> dict[str, Any]:
    return {
        "answer": one.answer,
        "person": one.person,
        "name": one.name,
        "location": one.place,
        "asked": one.asked,
        "at": one.at.isoformat(),
    }


def _told(problem: str) -> int:
    print(problem, file=sys.stderr)
    return 1
