"""benchbot telegram: answers on Telegram, by long polling."""

from __future__ import annotations

import argparse
import json
import os
import sys
from datetime import UTC, datetime
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.errors import RecordBusyError, SettingError
from benchbot.places import home

if TYPE_CHECKING:
    from benchbot.channels.telegram.settings import Settings

_NEEDED = ("telegram", "aiolimiter", "segno", "PIL")


def add_parser(subparsers: Any) -> None:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "telegram",
        help="answer on Telegram",
        epilog="Exit codes: 0 asked to stop, 1 a person must act first, 2 wrong usage, 75 start it again.",
    )
    parser.add_argument("--check", action="store_true", help="look whether everything is in order, and say what is not")
    parser.add_argument("--json", action="store_true", help="with --check: as a JSON object")
    parser.add_argument("--token-file", type=Path, metavar="FILE", help="a file that holds the bot's token")
    parser.add_argument("--log-json", action="store_true", help="log JSON objects, for machines")
    parser.add_argument(
        "--polling-timeout", type=_whole, default=50, metavar="S",
        help="seconds that the server may hold a poll open (default: 50)",
    )  # fmt: skip
    parser.add_argument(
        "--give-up-after", type=_positive, default=180.0, metavar="S",
        help="end with 75 after so many seconds without one good poll (default: 180)",
    )  # fmt: skip
    parser.add_argument(
        "--sends-per-second", type=_rate, default=30.0, metavar="N",
        help="to all chats together, 0 for no limit (default: 30, which is Telegram's)",
    )  # fmt: skip
    parser.add_argument(
        "--sends-per-minute-in-a-group", type=_rate, default=20.0, metavar="N",
        help="to one group, 0 for no limit (default: 20, which is Telegram's)",
    )  # fmt: skip
    parser.set_defaults(parser=parser)


def run(args: argparse.Namespace) -> int:
    """Runs until it is stopped, or checks once. Exit codes: see the help."""
    if args.json and not args.check:
        args.parser.error("--json goes with --check; for the log it is --log-json")
    for name in _NEEDED:
        if find_spec(name) is None:
            raise SettingError(
                f"the part for Telegram is not installed ({name} is missing); install benchbot[telegram]"
            )
    if args.polling_timeout >= args.give_up_after and not args.check:
        args.parser.error("--give-up-after must be longer than --polling-timeout: a quiet poll lasts that long")
    return _check(args) if args.check else _serve(_settings(args), args.log_json)


def _serve(settings: Settings, log_json: bool) -> int:
    from benchbot.channels.telegram.leaving import AGAIN
    from benchbot.channels.telegram.logs import logging_to
    from benchbot.channels.telegram.running import run as run_bot

    with logging_to(sys.stderr, settings.token, log_json):
        try:
            return run_bot(settings, home())
        except RecordBusyError as error:
            # such as a database server that starts later than the bot does
            print(f"benchbot: {error}", file=sys.stderr)
            return AGAIN


def _check(args: argparse.Namespace) -> int:
    from benchbot.channels.telegram.health import findings

    settings: Settings | SettingError
    try:
        settings = _settings(args)
    except SettingError as error:
        settings = error
    found = findings(settings, home(), datetime.now(UTC))
    ok = all(finding.ok for finding in found)
    if args.json:
        print(json.dumps({"ok": ok, "checks": [finding.to_plain() for finding in found]}, ensure_ascii=False))
    else:
        for finding in found:
            print(finding.line())
    return 0 if ok else 1


def _settings(args: argparse.Namespace) -> Settings:
    from benchbot.channels.telegram.settings import Settings, read_api_url
    from benchbot.channels.telegram.token import read_token

    return Settings(
        token=read_token(args.token_file, os.environ),
        api_url=read_api_url(os.environ),
        polling_seconds=args.polling_timeout,
        sends_per_second=args.sends_per_second,
        group_sends_per_minute=args.sends_per_minute_in_a_group,
        give_up_seconds=args.give_up_after,
    )


def _whole(text: str) -> int:
    number = int(text)
    if number < 0:
        raise argparse.ArgumentTypeError("write 0 or more seconds")
    return number


def _positive(text: str) -> float:
    number = float(text)
    if not 0 < number < float("inf"):
        raise argparse.ArgumentTypeError("write a number of seconds above 0")
    return number


def _rate(text: str) -> float:
    number = float(text)
    if not 0 <= number < float("inf"):
        raise argparse.ArgumentTypeError("write 0 or more")
    return number
