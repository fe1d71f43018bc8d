"""benchbot specs import of a whole book: shows what it says otherwise, asks a person, takes what was chosen."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator
from datetime import datetime
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from benchbot.errors import SettingError
from benchbot.places import Home

if TYPE_CHECKING:
    from benchbot.curation.book_label import Label
    from benchbot.curation.comparing import Comparison
    from benchbot.curation.decisions import Decisions
    from benchbot.curation.differences import Difference
    from benchbot.curation.exchange import Exchanged

_KINDS = ("new", "changed", "conflicting")
_SHOWN = 20
_ASK = "take (t), leave (l), take or leave all {kind} ones from here (at, al), stop (q)? "
_ASK_LEAVE = "it can only be left: leave (l), leave all {kind} ones from here (al), stop (q)? "


def add_import_options(parser: argparse.ArgumentParser) -> None:
    """What a whole book needs beside the options of a table."""
    whole = parser.add_argument_group("a whole book (a folder or FILE.db, from: benchbot specs export)")
    whole.add_argument("--differences", type=Path, metavar="CSV", help="write what differs there, to be decided")
    whole.add_argument("--decisions", type=Path, metavar="CSV", help="carry out that table, filled in: take or leave")
    whole.add_argument("--take", action="append", default=[], choices=_KINDS, help="take every row of that kind")
    whole.add_argument("--leave", action="append", default=[], choices=_KINDS, help="leave every row of that kind")


def refuse_options(args: argparse.Namespace) -> None:
    """SettingError when an option for whole books is given with a single table."""
    if args.differences or args.decisions or args.take or args.leave:
        raise SettingError(
            f"{args.file}: --differences, --decisions, --take and --leave are for a whole book (a folder or FILE.db); "
            "a CSV table is taken as it is"
        )


def import_book(place: Home, args: argparse.Namespace, author: str, now: datetime) -> int:
    """0: all that differs is decided and done, or was only looked at; 1: differences wait to be decided."""
    from benchbot.curation.decisions import Decisions, read_decisions, read_kinds, write_differences
    from benchbot.curation.exchange import compared, left_before, take

    kinds = read_kinds(args.take, args.leave)
    marks = read_decisions(args.decisions) if args.decisions else {}
    with compared(place, args.file) as comparison:
        decisions = Decisions(marks, kinds, left_before(place))
        for note in comparison.notes:
            print(f"note: {note}")
        for line in _found(comparison):
            print(line)
        if args.differences:
            count = write_differences(args.differences, comparison.each(), decisions)
            print(f"{count:,} differences in {args.differences}: fill in its column decision; nothing was taken")
            return 0
        _show(comparison, decisions)
        if args.check:
            print("nothing was written")
            return 0
        done = take(place, comparison, decisions, author, now, args.by)
        if done.undecided and sys.stdin.isatty() and not args.decisions:
            if not _ask(comparison, decisions):
                print("stopped; nothing was written")
                return 1
            done = take(place, comparison, decisions, author, now, args.by)
    for line in done.refused.lines():
        print(f"note: {line}")
    print(_done_text(done, args.file))
    return 1 if done.undecided else 0


def label_text(label: Label, path: Path) -> str:
    """What an export of a whole book tells."""
    specs, names, words = (counted.rows for counted in label.tables)
    return f"{specs:,} specs, {names:,} vehicle names and {words:,} words written to {path}"


def _found(comparison: Comparison) -> Iterator[str]:
    counts = comparison.counts()
    label = comparison.book.label
    yield f"{comparison.book.name}: a whole book, {label.origin}"
    for table, counted in zip(("specs", "vehicle names", "words"), label.tables, strict=True):
        if counted.rows:
            told = ", ".join(f"{counts[table, kind]:,} {kind}" for kind in _KINDS)
            yield f"{table}: {told}, {comparison.unchanged[table]:,} unchanged"


def _show(comparison: Comparison, decisions: Decisions) -> None:
    fresh = (one for one in comparison.each() if one.mark not in decisions.before)
    for one in islice(fresh, _SHOWN):
        print(f"  {_line(one)}")
    if next(fresh, None) is not None:
        print("  ... and more; write them all out with --differences FILE.csv")


def _line(one: Difference) -> str:
    table = "" if one.table == "specs" else f"{one.table}, "
    return f"{one.kind}: {table}{one.name}: {one.told}"


def _ask(comparison: Comparison, decisions: Decisions, say: Callable[[str], str] = input) -> bool:
    """Asks about whatever is undecided, one by one; false when the person stops."""
    for_all: dict[str, str] = {}
    number = 0
    for one in comparison.each():
        if decisions.of(one) is not None:
            continue
        number += 1
        answer = for_all.get(one.kind, "")
        if not answer or (answer == "t" and not one.takeable):
            answer = _answer(f"[{number}] {_line(one)}", one, say)
        if answer == "q":
            return False
        if answer[0] == "a":
            answer = for_all[one.kind] = answer[1]
        decisions.marks[one.mark] = "take" if answer == "t" else "leave"
    return True


def _answer(told: str, one: Difference, say: Callable[[str], str]) -> str:
    question = (_ASK if one.takeable else _ASK_LEAVE).format(kind=one.kind)
    known = ("t", "l", "at", "al", "q") if one.takeable else ("l", "al", "q")
    print(told)
    while True:
        try:
            answer = say(question).strip().casefold()
        except EOFError:
            return "q"
        if answer in known:
            return answer
        print(f"write {', '.join(known[:-1])} or {known[-1]}")


def _done_text(done: Exchanged, file: Path) -> str:
    if done.undecided:
        return (
            f"{done.undecided:,} differences wait for a decision; nothing was written. Decide them one by one at a "
            f"terminal, all of a kind with --take or --leave, or in a table: benchbot specs import {file} "
            "--differences FILE.csv, then --decisions FILE.csv"
        )
    taken, left = sum(done.taken.values()), sum(done.left.values())
    if not (taken or left):
        before = f"; {done.left_before:,} were left at another time" if done.left_before else ""
        return f"nothing to decide{before}; nothing was written"
    told = [f"{taken:,} taken", f"{left:,} left"]
    if done.left_before:
        told.append(f"{done.left_before:,} left at another time")
    if done.waiting:
        told.append(f"{done.waiting:,} of them as drafts: they wait for a second person (benchbot specs waiting)")
    if done.withdrawn:
        told.append(f"{done.withdrawn:,} of our own rows withdrawn for them")
    return ", ".join(told)
