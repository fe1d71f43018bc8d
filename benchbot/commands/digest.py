"""benchbot digest: the figures of a week, in words, as a chart, and for programs."""

from __future__ import annotations

import argparse
import json
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from benchbot.commands.figures import add_options, location_of, png_file
from benchbot.places import home

if TYPE_CHECKING:
    from benchbot.curation.weeks import Week


def add_parser(subparsers: Any) -> None:
    """Adds `digest`."""
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "digest", help="what was asked and answered in a week, and what is missing most"
    )
    parser.add_argument("--week", type=_week, metavar="WEEK", help="such as 2026-W47 (default: this week so far)")
    parser.add_argument("--chart", type=png_file, metavar="FILE.png", help="draw the replies as well")
    parser.add_argument("--json", action="store_true", help="for programs")
    add_options(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done. BenchbotError: the record cannot be read."""
    from benchbot.curation.digest import digest
    from benchbot.curation.digest_text import digest_plain, digest_text
    from benchbot.curation.weeks import Week
    from benchbot.people.register import People
    from benchbot.records.record import open_record

    at = now or datetime.now(UTC)
    with open_record(home()) as record:
        place = location_of(record, args.location)
        zone = "UTC" if place is None else People(record).hours(place.number).zone
        found = digest(record, args.week or Week.at(at, zone), at, place)
    if args.chart is not None:
        from benchbot.curation.week_chart import week_chart

        args.chart.write_bytes(week_chart(found, args.language))
    if args.json:
        print(json.dumps(digest_plain(found), ensure_ascii=False, indent=2))
    else:
        print("\n".join(digest_text(found, args.language)))
    return 0


def _week(text: str) -> Week:
    from benchbot.curation.weeks import Week

    try:
        return Week.read(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from error
