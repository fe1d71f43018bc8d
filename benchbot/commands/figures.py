"""What the commands that draw figures share: the location they are asked for, the day since when, the file to write."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from benchbot.errors import SettingError

if TYPE_CHECKING:
    from benchbot.people.terms import Location
    from benchbot.records.record import Record


def add_options(parser: argparse.ArgumentParser) -> None:
    """--location and --language."""
    parser.add_argument("--location", default="", metavar="NAME", help="only what was asked there")
    parser.add_argument("--language", default="en", choices=("en", "es"), help="of words and pictures")


def location_of(record: Record, name: str) -> Location | None:
    """None when no name is given. SettingError: there is no location of that name."""
    from benchbot.people.names import same_name
    from benchbot.people.register import People

    if not name:
        return None
    places = People(record).locations()
    found = next((place for place in places if same_name(place.name, name)), None)
    if found is None:
        named = ", ".join(place.name for place in places) or "none yet"
        raise SettingError(f"there is no location {name!r}; there are: {named}")
    return found


def png_file(text: str) -> Path:
    """argparse says what is wrong when it is no name of a PNG picture."""
    path = Path(text)
    if path.suffix.lower() != ".png":
        raise argparse.ArgumentTypeError(f"{text!r} does not end in .png")
    return path


def day(text: str) -> date:
    """argparse says what is wrong when it is no day."""
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{text!r} is no day; write it as 2026-03-01") from error
