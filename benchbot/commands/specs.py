"""benchbot specs: bring tables and books in, look at what is on record, publish the book, write it out again."""

from __future__ import annotations

import argparse
import getpass
import os
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.commands import due, exchange, publishing, rows
from benchbot.errors import BenchbotError
from benchbot.places import Home, home

if TYPE_CHECKING:
    from benchbot.curation.importing import ImportReport

# The rooms behind these commands load SQLAlchemy and pydantic: each is imported by the command that needs it, so that
# naming the commands costs nothing.


_LONGEST_SHOP = 200
Handler = Callable[[Home, argparse.Namespace, datetime], int]


def add_parser(subparsers: Any) -> None:
    """Adds `specs` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser("specs", help="import, look at, export and publish specs")
    commands = parser.add_subparsers(dest="specs_command", required=True, metavar="COMMAND")
    for add_commands in (_add_tables, *_MORE):
        add_commands(commands)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    moment = now or datetime.now(UTC)
    handler: Handler = args.specs_run
    try:
        return handler(home(), args, moment)
    except BenchbotError as error:
        print(error, file=sys.stderr)
        return 1


def _add_tables(commands: Any) -> None:
    bring = commands.add_parser("import", help="take in a CSV table, or a whole book from another shop")
    bring.add_argument("file", type=Path, metavar="FILE", help="FILE.csv, or a book: a folder or FILE.db")
    bring.add_argument("--check", action="store_true", help="only report what is wrong; write nothing")
    bring.add_argument("--publish", action="store_true", help="publish the book afterwards")
    bring.add_argument("--by", default="", metavar="NAME", help="who brings it in (default: the user's name)")
    exchange.add_import_options(bring)
    bring.set_defaults(specs_run=_import)
    listed = commands.add_parser("list", help="the vehicles on record, with counts")
    listed.set_defaults(specs_run=lambda place, args, now: _list(place))
    show = commands.add_parser("show", help="every revision of one spec")
    show.add_argument("id", metavar="ID")
    show.set_defaults(specs_run=lambda place, args, now: _show(place, args.id))
    out = commands.add_parser("export", help="write the specs on record as a CSV table, or the whole book")
    out.add_argument("file", metavar="FILE", help="FILE.csv: the specs; FOLDER/ or FILE.db: the book for another shop")
    out.add_argument("--shop", default="", metavar="TEXT", help="what a whole book says of where it comes from")
    out.set_defaults(specs_run=_export)


# Further modules of `specs` commands: each has add_commands(commands), which adds its parsers, and gives each of them
# its handler with set_defaults(specs_run=handler).
_MORE: tuple[Callable[[Any], None], ...] = (rows.add_commands, publishing.add_commands, due.add_commands)


def _import(place: Home, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.foreign_book import is_book
    from benchbot.curation.importing import import_table

    author = args.by or _user()
    if is_book(args.file):
        done = exchange.import_book(place, args, author, now)
        only_looked = args.check or args.differences
        return publishing.run(place, args, now) if args.publish and not only_looked and not done else done
    exchange.refuse_options(args)
    report = import_table(place, args.file, args.check, author, now, importer=args.by)
    for note in report.notes:
        print(f"note: {note}")
    print(_import_text(report))
    return publishing.run(place, args, now) if args.publish and not args.check else 0


def _import_text(report: ImportReport) -> str:
    would = "" if report.written else "would be "
    counts = f"{report.new:,} {would}new, {report.changed:,} {would}changed, {report.unchanged:,} unchanged"
    left = f", {report.left:,} left out" if report.left else ""
    told = f"{report.kind}: {report.rows:,} rows without a fault; {counts}{left}"
    return told if report.written else f"{told}; nothing was written"


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


def _export(place: Home, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.exporting import export, export_file, export_folder
    from benchbot.curation.foreign_book import DATABASE

    path, shop = Path(args.file), " ".join(args.shop.split())[:_LONGEST_SHOP]
    if args.file.endswith(("/", os.sep)) or path.is_dir():
        print(exchange.label_text(export_folder(place, path, shop, now), path))
    elif path.suffix.casefold() == DATABASE:
        print(exchange.label_text(export_file(place, path, shop, now), path))
    else:
        print(f"{export(place, path):,} specs written to {path}")
    return 0


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        # A container may run as a number without a name.
        return "curator"
