"""benchbot picture: draws a picture of the work into a file, as the chats send it."""

from __future__ import annotations

import argparse
from typing import Any

from benchbot.commands.figures import png_file
from benchbot.pictures.rotor import rotor_picture
from benchbot.pictures.tightening import STUDS, tightening_picture
from benchbot.pictures.wording import picture_words


def add_parser(subparsers: Any) -> None:
    """Adds `picture` and what it draws."""
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "picture", help="a picture of the work: the tightening order of a wheel, where a rotor is measured"
    )
    commands = parser.add_subparsers(dest="shown", required=True, metavar="WHAT")
    studs = commands.add_parser("studs", help="in which order the studs of a wheel are tightened")
    studs.add_argument("studs", type=int, choices=STUDS, metavar="COUNT", help=", ".join(map(str, STUDS)))
    _to_file(studs)
    _to_file(commands.add_parser("rotor", help="where a rotor is measured"))
    parser.set_defaults(run=run)


def _to_file(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=png_file, metavar="FILE.png", help="where to write it; a file there is replaced")
    parser.add_argument("--language", default="en", choices=("en", "es"), help="of its words")


def run(args: argparse.Namespace) -> int:
    """0 done. SettingError: what draws is not installed."""
    words = picture_words(args.language)
    drawn = rotor_picture(words) if args.shown == "rotor" else tightening_picture(args.studs, words)
    args.file.write_bytes(drawn)
    print(f"{args.file}")
    return 0
