"""benchbot coverage: draws what the book holds of all that was asked."""

from __future__ import annotations

import argparse
from datetime import UTC, date, datetime, time
from typing import Any

from benchbot.commands.figures import add_options, day, location_of, png_file
from benchbot.places import home


def add_parser(subparsers: Any) -> None:
    """Adds `coverage`."""
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "coverage", help="a picture of what was asked, and what the book holds of it"
    )
    parser.add_argument("file", type=png_file, metavar="FILE.png", help="where to write it; a file there is replaced")
    parser.add_argument("--since", type=day, metavar="DATE", help="questions from that day on (default: 90 days)")
    add_options(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done. BenchbotError: there is no book, or the record cannot be read."""
    from benchbot.book.reader import Book
    from benchbot.curation.coverage import SEEN_FOR, coverage
    from benchbot.curation.coverage_picture import coverage_notes, coverage_picture
    from benchbot.curation.figure_wording import figure_wording
    from benchbot.people.register import People
    from benchbot.records.record import open_record

    shop, at = home(), now or datetime.now(UTC)
    with open_record(shop) as record, Book.open(shop.book) as book:
        place = location_of(record, args.location)
        zone = "UTC" if place is None else People(record).hours(place.number).zone
        since = at - SEEN_FOR if args.since is None else _begin(args.since, zone)
        number = None if place is None else place.number
        found = coverage(record, book, since, at, number)
    args.file.write_bytes(coverage_picture(found, args.language, "" if place is None else place.name))
    for line in coverage_notes(found, figure_wording(args.language)):
        print(line)
    print(f"{args.file}")
    return 0


def _begin(since: date, zone: str) -> datetime:
    from zoneinfo import ZoneInfo

    # left in its zone, so that the picture names that day
    return datetime.combine(since, time(), ZoneInfo(zone))
