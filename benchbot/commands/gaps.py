"""benchbot gaps: what the bench asked for and did not get, listed, looked at, set from state to state, filled."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.commands import gap_texts
from benchbot.commands.asker import person as account
from benchbot.errors import BenchbotError, BookError
from benchbot.places import Home, home

if TYPE_CHECKING:
    from benchbot.curation.gaps import Group
    from benchbot.records.meanings import State
    from benchbot.records.record import Record

# The rooms behind these commands load sqlite3 and the record: each is imported by the command that needs it.

_STATES = ("open", "being filled", "waiting", "filled", "set aside")
_OPEN = _STATES[:3]
_FILLING = "benchbot.curation.filling"
Handler = Callable[[Home, "Record", argparse.Namespace, datetime], int]


def add_parser(subparsers: Any) -> None:
    """Adds `gaps` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser("gaps", help="what the book could not answer")
    commands = parser.add_subparsers(dest="gaps_command", required=True, metavar="COMMAND")

    def command(name: str, about: str, run_it: Handler) -> argparse.ArgumentParser:
        made: argparse.ArgumentParser = commands.add_parser(name, help=about)
        made.add_argument("--json", action="store_true", help="for programs")
        made.set_defaults(gaps_run=run_it)
        return made

    listed = command("list", "the gaps that most people wait for first", _list)
    listed.add_argument("--state", action="append", choices=_STATES, help="only these (default: all that are open)")
    listed.add_argument("--all", action="store_true", help="filled and set aside as well")
    listed.add_argument("--most", type=int, default=50, metavar="N", help="at most so many (default: 50; 0 for all)")
    show = command("show", "one gap: the questions, how they were read, what the book holds nearby", _show)
    aside = command("set-aside", "this gap will not be filled, and why", _set_state("set aside"))
    waits = command("wait", "this gap waits for a source, and which", _set_state("waiting"))
    again = command("reopen", "this gap is to be filled after all", _set_state("open"))
    again.set_defaults(reason=[])
    fill = command("fill", "enter the row that is missing", _fill)
    fill.add_argument(
        "--set", action="append", default=[], metavar="FIELD=VALUE", help="a cell of the row", dest="cells"
    )
    for one in (show, aside, waits, again, fill):
        one.add_argument("number", type=int, metavar="N", help="the number of the gap, as the list shows it")
    for one in (aside, waits):
        one.add_argument("reason", nargs="+", metavar="REASON")
    for one in (aside, waits, again, fill):
        one.add_argument("--by", default="", metavar="NAME", help="who does it (default: the user's name)")
    out = command("export", "write the missing rows as a spec table to be filled in", _export)
    out.add_argument("file", type=Path, metavar="FILE.csv")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    from benchbot.records.record import open_record

    handler: Handler = args.gaps_run
    moment = now or datetime.now(UTC)
    try:
        place = home()
        with open_record(place) as record:
            return handler(place, record, args, moment)
    except BenchbotError as error:
        print(error, file=sys.stderr)
        return 1


def _list(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.gaps import groups

    states = _STATES if args.all else tuple(args.state or _OPEN)
    found = groups(record, now, states)
    most = args.most if args.most > 0 else len(found)
    places = _places(record)
    if args.json:
        return _as_json([gap_texts.plain(one, places) for one in found[:most]])
    for one in found[:most]:
        print(gap_texts.line(one, places))
    if len(found) > most:
        print(f"and {len(found) - most:,} more; see them all with: benchbot gaps list --most 0")
    if not found:
        print(f"no gap is {' or '.join(states)}")
    return 0


def _show(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.gaps import asked, history

    group = _group(record, args.number)
    if group is None:
        return _unknown(args.number)
    questions, changes, places = asked(record, group), history(record, group), _places(record)
    near = _nearby(place, group, now)
    if args.json:
        told = gap_texts.plain(group, places) | {
            "questions": [gap_texts.plain_question(one) for one in questions],
            "history": [gap_texts.plain_change(one) for one in changes],
            "nearby": [{"vehicle": vehicle} | gap_texts.plain_row(row) for vehicle, row in near],
        }
        return _as_json(told)
    print("\n".join(gap_texts.page(group, places, questions, changes, near)))
    return 0


def _set_state(state: State) -> Handler:
    def handler(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
        from benchbot.curation.gaps import REASONED, set_state

        group = _group(record, args.number)
        if group is None:
            return _unknown(args.number)
        reason = " ".join(" ".join(args.reason).split())
        if state in REASONED and not reason:
            print(f"gap {args.number}: say why it is {state}, so that others can tell later", file=sys.stderr)
            return 1
        set_state(record, group, state, reason, _author(args), now)
        after = _group(record, args.number)
        if args.json and after is not None:
            return _as_json(gap_texts.plain(after, _places(record)))
        print(f"gap {group.number} is {state}{f': {reason}' if reason else ''}")
        return 0

    return handler


def _fill(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    if _group(record, args.number) is None:
        return _unknown(args.number)
    cells: dict[str, str] = {}
    for one in args.cells:
        name, equals, value = one.partition("=")
        if not equals or not name.strip():
            print(f"--set {one!r}: write FIELD=VALUE, for example --set value='105 N·m'", file=sys.stderr)
            return 1
        cells[name.strip()] = value.strip()
    ask = input if sys.stdin.isatty() and not args.json else None
    lines, code = import_module(_FILLING).fill_from_command(place, args.number, cells, _author(args), now, ask)
    if args.json:
        _as_json({"group": args.number, "done": code == 0, "told": list(lines)})
    else:
        print("\n".join(lines), file=sys.stderr if code else sys.stdout)
    return int(code)


def _export(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.gap_table import write_gap_table
    from benchbot.curation.gaps import groups

    if args.file.suffix.casefold() != ".csv":
        print(f"{args.file}: name a file that ends in .csv", file=sys.stderr)
        return 1
    found = groups(record, now)
    if not found:
        print("no gap is open; nothing was written", file=sys.stderr)
        return 1
    done = write_gap_table(record, found, args.file)
    if args.json:
        left = [{"gap": number, "why": why} for number, why in done.left_out]
        return _as_json({"file": str(args.file), "rows": done.rows, "gaps": list(done.groups), "left_out": left})
    print(f"{done.rows:,} rows for {len(done.groups):,} gaps written to {args.file}")
    print("Fill in what is empty, value and source first; delete the rows that you cannot fill, and bring it in with:")
    print(f"  benchbot specs import {args.file}")
    for number, why in done.left_out:
        print(f"left out: gap {number}: {why}")
    return 0


def _group(record: Record, number: int) -> Group | None:
    from benchbot.curation.gaps import group

    return group(record, number)


def _unknown(number: int) -> int:
    print(f"there is no gap {number}; see them with: benchbot gaps list --all", file=sys.stderr)
    return 1


def _nearby(place: Home, group: Group, now: datetime) -> list[tuple[str, Any]]:
    """(vehicle, row) of what the book holds nearby; none where there is no book yet."""
    from benchbot.book.reader import Book
    from benchbot.curation.gaps import nearby

    try:
        with Book.open(place.book) as book:
            rows = nearby(group, book, book.vocabulary(), now.date())
            return [(f"{name.make} {name.model}", row) for row in rows for name in (book.vehicle(row.vehicle),)]
    except BookError as error:
        print(f"note: {error}", file=sys.stderr)
        return []


def _places(record: Record) -> dict[int | None, str]:
    from benchbot.people.register import People

    return {one.number: one.name for one in People(record).locations()}


def _author(args: argparse.Namespace) -> str:
    from benchbot.people.channels import at_terminal

    return at_terminal(args.by or account())


def _as_json(told: Any) -> int:
    print(json.dumps(told, ensure_ascii=False, indent=2))
    return 0
