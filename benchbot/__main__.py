"""The command line: finds the sub-command and runs it; a sub-command's modules load only when it is called."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

from benchbot.errors import BenchbotError

COMMANDS = {
    "ask": "answer one question, or a file of questions",
    "backup": "write record and book into one file",
    "chat": "chat at the terminal",
    "coverage": "a picture of what was asked, and what the book holds of it",
    "demo": "the same chat on invented specs, to try it out",
    "digest": "what was asked and answered in a week, and what is missing most",
    "gaps": "what the book could not answer, and what becomes of it",
    "job": "the record of a job, step by step",
    "people": "invite the first owner, see and remove members",
    "picture": "a picture of the work: tightening order, where a rotor is measured",
    "procedures": "what the shop itself says to a step of the work",
    "recalls": "shown values that are other ones now, and who has confirmed",
    "restore": "bring a backup back, or look it through",
    "specs": "import, look at and publish the shop's specs",
    "telegram": "answer on Telegram",
    "words": "what the shop itself says for parts and vehicles, and taking it back",
}
_DONE, _PROBLEM, _INTERRUPTED = 0, 1, 130


class _Version(argparse.Action):
    """Looks the version up only when it is asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_: Any, **__: Any) -> None:
        from importlib.metadata import version

        print(f"benchbot {version('benchbot')}")
        parser.exit(_DONE)


def main(argv: Sequence[str] | None = None) -> int:
    """Exit codes: 0 done, 1 the check or question found a problem, 2 wrong usage."""
    words = list(sys.argv[1:] if argv is None else argv)
    _speak_utf8()
    args = _parser(words).parse_args(words)
    try:
        return int(import_module(f"benchbot.commands.{args.command}").run(args))
    except BenchbotError as error:
        print(f"benchbot: {error}", file=sys.stderr)
        return _PROBLEM
    except OSError as error:
        if isinstance(error, BrokenPipeError):
            return _reader_left()
        print(f"benchbot: {error}; look at that file or folder and try again", file=sys.stderr)
        return _PROBLEM
    except KeyboardInterrupt:
        return _INTERRUPTED


def _reader_left() -> int:
    """Whoever read our output has left; what is still buffered must not raise again at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return _PROBLEM


def _parser(words: list[str]) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="benchbot",
        description="Answers bay-side brake and undercar spec questions from the shop's own checked book.",
        epilog="The vehicle maker's current service information, local codes and licensed practice come first.",
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version and leave")
    subparsers = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    called = next((word for word in words if not word.startswith("-")), None)
    for name, about in COMMANDS.items():
        if name == called:
            import_module(f"benchbot.commands.{name}").add_parser(subparsers)
        else:
            subparsers.add_parser(name, help=about)
    return parser


def _speak_utf8() -> None:
    """N·m must survive a pipe or a file, whatever the platform's own encoding is."""
    for stream in (sys.stdout, sys.stdin):
        if isinstance(stream, io.TextIOWrapper) and not stream.isatty():
            stream.reconfigure(encoding="utf-8", errors="replace")


if __name__ == "__main__":
    sys.exit(main())
