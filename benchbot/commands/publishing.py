"""benchbot specs publish: makes the checked specs the book that answers, and tells everybody whom that concerns."""

from __future__ import annotations

import argparse
import sys
from datetime import datetime
from typing import Any

from benchbot.commands.asker import person as account
from benchbot.places import Home


def add_commands(commands: Any) -> None:
    """Adds `specs publish`."""
    parser: argparse.ArgumentParser = commands.add_parser(
        "publish", help="make the verified specs the book that answers"
    )
    parser.add_argument(
        "--accept", default="", metavar="REASON", help="publish although kept questions come to something else, and why"
    )
    parser.add_argument("--by", default="", metavar="NAME", help="who publishes (default: the user's name)")
    parser.set_defaults(specs_run=run)


def run(place: Home, args: argparse.Namespace, now: datetime) -> int:
    """Publishes with what the options of a command say, as far as it has them."""
    from benchbot.curation.by_name import refusal
    from benchbot.people.channels import at_terminal
    from benchbot.records.record import open_record

    person, accept = at_terminal(getattr(args, "by", "") or account()), getattr(args, "accept", "")
    if accept.strip():
        with open_record(place) as record:
            why_not = refusal(record, person, "approve")
        if why_not:
            print(f"--accept: {why_not}", file=sys.stderr)
            return 1
    return publish(place, now, accept, person)


def publish(place: Home, now: datetime, accept: str = "", by: str = "") -> int:
    """0 published, or the newest already; 1 stopped by kept questions, which are told on standard error."""
    from benchbot.following.errands import published_lines, stopped_lines
    from benchbot.following.follow import follow
    from benchbot.following.publishing import PublishStopped
    from benchbot.following.publishing import publish as publish_book
    from benchbot.following.wording import ENGLISH

    done = publish_book(place, now, accept, by)
    if isinstance(done, PublishStopped):
        print("\n".join(stopped_lines(done, ENGLISH)), file=sys.stderr)
        return 1
    state = "published" if done.made else "is the newest already"
    print(f"book {done.version} {state}: {done.rows:,} verified specs, digest {done.digest[:12]}")
    for line in published_lines(done, follow(place, now), ENGLISH)[1:]:
        print(line)
    return 0
