"""benchbot job rules: a second person on wheels, and when wheels are tightened again, by location."""

from __future__ import annotations

import argparse
import sys
from datetime import datetime
from typing import TYPE_CHECKING

from benchbot.commands.asker import person as account
from benchbot.places import Home

if TYPE_CHECKING:
    from benchbot.records.record import Record


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--location", metavar="NAME", help="may be left out while there is only one")
    parser.add_argument("--second-person", choices=("on", "off"), help="whether somebody else confirms wheels")
    parser.add_argument("--distance", metavar="FIGURE", help='after which wheels are tightened again, such as "80 km"')
    parser.add_argument("--days", type=int, metavar="N", help="after which the shop is reminded; 0 for never")


def run(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    """Sets what was given, and says what counts. 0 done, 1 refused."""
    from benchbot.commands.job import location_named
    from benchbot.jobs.rules import job_rules, set_days, set_distance, set_second_person

    location = location_named(record, args.location)
    if isinstance(location, str):
        print(location, file=sys.stderr)
        return 1
    number, author = (location.number if location else None), f"command line, {args.by or account()}"
    if args.second_person is not None:
        set_second_person(record, number, args.second_person == "on", author, now)
    refused = None if args.distance is None else set_distance(record, number, args.distance, author, now)
    refused = refused or (None if args.days is None else set_days(record, number, args.days, author, now))
    if refused is not None:
        print(refused.reason, file=sys.stderr)
        return 1
    rules = job_rules(record, number)
    second = "a second person confirms wheels" if rules.second_person else "nobody confirms wheels"
    again = " or ".join(
        [*([rules.distance] if rules.distance else []), *([f"{rules.days} days"] if rules.days else [])]
    )
    print(f"{second}; wheels are tightened again after {again or '... nobody has set that'}")
    return 0
