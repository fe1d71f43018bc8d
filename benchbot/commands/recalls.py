"""benchbot recalls: which shown values are other ones now, and who has not confirmed that they know."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from benchbot.commands.asker import person as account
from benchbot.errors import BenchbotError
from benchbot.places import home

if TYPE_CHECKING:
    from benchbot.curation.recalling import RecallState
    from benchbot.records.recalls import Notice
    from benchbot.records.record import Record


def add_parser(subparsers: Any) -> None:
    """Adds `recalls` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser("recalls", help="shown values that are other ones now")
    commands = parser.add_subparsers(dest="recalls_command", required=True, metavar="COMMAND")
    listed = commands.add_parser("list", help="every recall, and who has not confirmed it")
    listed.add_argument("--open", action="store_true", help="only those that somebody has not confirmed")
    listed.add_argument("--json", action="store_true", help="for programs")
    days = commands.add_parser("days", help="how many days back a recall goes; with a number, sets it")
    days.add_argument("days", nargs="?", type=int, metavar="DAYS")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    from benchbot.curation.recalling import recall_list
    from benchbot.records.record import open_record

    try:
        with open_record(home()) as record:
            if args.recalls_command == "days":
                return _days(record, args.days, now or datetime.now(UTC))
            states = [state for state in recall_list(record) if state.open or not args.open]
    except BenchbotError as error:
        print(error, file=sys.stderr)
        return 1
    if args.json:
        print(json.dumps([_plain(state) for state in states], ensure_ascii=False, indent=2))
        return 0
    for state in states:
        print("\n".join(_lines(state)))
    if not states:
        print("no recall is open" if args.open else "nothing was ever recalled")
    return 0


def _days(record: Record, days: int | None, now: datetime) -> int:
    from benchbot.curation.recalling import recall_days, set_recall_days
    from benchbot.people.channels import at_terminal

    if days is not None:
        try:
            set_recall_days(record, days, at_terminal(account()), now)
        except ValueError as error:
            print(error, file=sys.stderr)
            return 1
    print(f"a recall goes to whoever was shown the value in the last {recall_days(record)} days")
    return 0


def _lines(state: RecallState) -> list[str]:
    from benchbot.following.recalled import values_of

    recall = state.recall
    values = values_of(state, None)
    overtaken = ", overtaken by a later one" if state.overtaken else ""
    lines = [
        f"recall {recall.number}, {recall.at:%Y-%m-%d}: {recall.spec} revision {recall.revision}, {recall.what}"
        + overtaken,
        f"  {values.subject}: now {values.new or 'withdrawn'}",
    ]
    for notice, old in state.shown:
        shown = values_of(state, old).old or "withdrawn"
        place = f", {notice.place}" if notice.place else ""
        asked = f"shown {shown} on {notice.asked_at:%Y-%m-%d}"
        lines.append(f"  {notice.name} ({notice.person}){place}: {asked}, {_standing(notice)}")
    return lines


def _standing(notice: Notice) -> str:
    if notice.seen_at is not None:
        return f"confirmed {notice.seen_at:%Y-%m-%d %H:%M} UTC"
    told = "not told" if notice.told_at is None else f"told {notice.told_at:%Y-%m-%d %H:%M} UTC"
    if not notice.member:
        return f"{told}, no member any more: reach them another way"
    return f"{told}, NOT CONFIRMED"


def _plain(state: RecallState) -> dict[str, Any]:
    from benchbot.following.recalled import values_of

    recall, values = state.recall, values_of(state, None)
    return {
        "recall": recall.number,
        "spec": recall.spec,
        "revision": recall.revision,
        "what": recall.what,
        "at": recall.at.isoformat(),
        "subject": values.subject,
        "new": values.new,
        "overtaken": state.overtaken,
        "people": [_person(state, notice, values_of(state, old).old) for notice, old in state.shown],
    }


def _person(state: RecallState, notice: Notice, old: str) -> dict[str, Any]:
    times: Sequence[tuple[str, datetime | None]] = (
        ("asked_at", notice.asked_at), ("told_at", notice.told_at), ("seen_at", notice.seen_at),
    )  # fmt: skip
    return {
        "person": notice.person,
        "name": notice.name,
        "location": notice.place,
        "member": notice.member,
        "shown_revision": notice.revision,
        "shown": old,
        "asked": notice.asked,
        **{name: None if at is None else at.isoformat() for name, at in times},
    }
