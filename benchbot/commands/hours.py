"""benchbot people hours: when it is quiet at a location, so that nobody there is written to without having asked."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from benchbot.people.register import People
    from benchbot.people.terms import Hours, Location


def add_commands(commands: Any) -> None:
    """Adds `people hours`."""
    parser: argparse.ArgumentParser = commands.add_parser(
        "hours", help="the quiet hours of a location; recalls ignore them"
    )
    parser.add_argument("--location", required=True, metavar="NAME")
    parser.add_argument("--zone", metavar="ZONE", help="its time zone, such as America/Chicago")
    parser.add_argument("--quiet", metavar="FROM-TO", help="such as 19:00-07:00, or never")


def run(people: People, location: Location, args: argparse.Namespace) -> int:
    """Shows what is set, after setting what was given. 0 done, 1 refused."""
    from benchbot.people.terms import Refused

    held = people.hours(location.number)
    if args.zone is not None or args.quiet is not None:
        begins, ends = _quiet(args.quiet, held)
        changed = people.set_hours(location.number, args.zone or held.zone, begins, ends)
        if isinstance(changed, Refused):
            print(f"{location.name}: {changed.reason}", file=sys.stderr)
            return 1
        held = changed
    quiet = f"quiet from {held.quiet_from} to {held.quiet_to}" if held.quiet_from else "never quiet"
    print(f"{location.name}: {quiet}, by the clock of {held.zone}")
    return 0


def _quiet(said: str | None, held: Hours) -> tuple[str, str]:
    if said is None:
        return held.quiet_from, held.quiet_to
    if said == "never":
        return "", ""
    begins, _, ends = said.partition("-")
    # an end that was left out must not read as never quiet
    return begins or "?", ends or "?"
