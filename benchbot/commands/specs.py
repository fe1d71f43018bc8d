"""benchbot specs: bring tables in, look at what is on record, publish the book, write the table out again."""

from __future__ import annotations

import argparse
import getpass
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.errors import BenchbotError
from benchbot.places import Home, home

if TYPE_CHECKING:
    from benchbot.curation.importing import ImportReport
    from benchbot.curation.publishing import PublishReport

# The rooms behind these commands load SQLAlchemy and pydantic: each is imported by the command that needs it, so that
# naming the commands costs nothing.


def add_parser(subparsers: Any) -> None:
    """Adds `specs` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser("specs", help="import, look at, export and publish specs")
    commands = parser.add_subparsers(dest="specs_command", required=True, metavar="COMMAND")
    bring = commands.add_parser("import", help="take in a CSV table of specs, vehicle names or shop words")
    bring.add_argument("file", type=Path, metavar="FILE")
    bring.add_argument("--check", action="store_true", help="only report what is wrong; write nothing")
    bring.add_argument("--publish", action="store_true", help="publish the book afterwards")
    bring.add_argument("--by", default="", metavar="NAME", help="who brings it in (default: the user's name)")
    commands.add_parser("list", help="the vehicles on record, with counts")
    show = commands.add_parser("show", help="every revision of one spec")
    show.add_argument("id", metavar="ID")
    out = commands.add_parser("export", help="write the specs on record as a CSV table")
    out.add_argument("file", type=Path, metavar="FILE")
    commands.add_parser("publish", help="make the verified specs the book that answers")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    moment = now or datetime.now(UTC)
    try:
        place = home()
        if args.specs_command == "import":
            return _import(place, args, moment)
        if args.specs_command == "list":
            return _list(place)
        if args.specs_command == "show":
            return _show(place, args.id)
        if args.specs_command == "export":
            return _export(place, args.file)
        return _publish(place, moment)
    except BenchbotError as error:
        print(error, file=sys.stderr)
        return 1


def _import(place: Home, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.importing import import_table

    report = import_table(place, args.file, args.check, args.by or _user(), now)
    for note in report.notes:
        print(f"note: {note}")
    print(_import_text(report))
    return _publish(place, now) if args.publish and not args.check else 0


def _import_text(report: ImportReport) -> str:
    would = "" if report.written else "would be "
    counts = f"{report.new:,} {would}new, {report.changed:,} {would}changed, {report.unchanged:,} unchanged"
    told = f"{report.kind}: {report.rows:,} rows without a fault; {counts}"
    return told if report.written else f"{told}; nothing was written"


def _publish(place: Home, now: datetime) -> int:
    from benchbot.curation.publishing import publish

    print(_publish_text(publish(place, now)))
    return 0


def _publish_text(report: PublishReport) -> str:
    state = "published" if report.made else "is the newest already"
    return f"book {report.version} {state}: {report.rows:,} verified specs, digest {report.digest[:12]}"


def _list(place: Home) -> int:
    from benchbot.curation.looking import vehicle_counts

    counts = vehicle_counts(place)
    for count in counts:
        held = f"{count.verified:,} verified, {count.draft:,} draft, {count.withdrawn:,} withdrawn"
        print(f"{count.make} {count.model} {count.year_from}-{count.year_to}: {held}")
    if not counts:
        print("no specs on record yet; bring a table in with: benchbot specs import FILE", file=sys.stderr)
    return 0 if counts else 1


def _show(place: Home, spec: str) -> int:
    from benchbot.curation.looking import revisions

    found = revisions(place, spec)
    for one in found:
        print(f"{spec} revision {one.revision}, {one.at[:16]} by {one.author} ({one.why})")
        for name, cell in one.cells.items():
            if cell and name != "spec" and not name.endswith("_read"):
                print(f"  {name}: {cell}")
    if not found:
        print(f"no spec {spec!r} on record; see the vehicles with: benchbot specs list", file=sys.stderr)
    return 0 if found else 1


def _export(place: Home, file: Path) -> int:
    from benchbot.curation.exporting import export

    print(f"{export(place, file):,} specs written to {file}")
    return 0


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        # A container may run as a number without a name.
        return "curator"
