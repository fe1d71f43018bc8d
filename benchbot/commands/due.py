"""benchbot specs due: the rows that stop answering soon, or have stopped, until their source is read again."""

from __future__ import annotations

import argparse
import json
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from benchbot.places import Home

if TYPE_CHECKING:
    from benchbot.curation.ageing import Due


def add_commands(subparsers: Any) -> None:
    """Adds `due` to the commands of `specs`."""
    parser: argparse.ArgumentParser = subparsers.add_parser("due", help="rows that have to be looked at again soon")
    parser.add_argument("--days", type=int, default=30, metavar="N", help="how far to look ahead (default: 30)")
    parser.add_argument("--json", action="store_true", help="for programs")
    parser.set_defaults(specs_run=run)


def run(place: Home, args: argparse.Namespace, now: datetime) -> int:
    """0 done. RecordError: the record cannot be read."""
    from benchbot.curation.ageing import due
    from benchbot.records.record import open_record

    with open_record(place) as record:
        found = due(record, now.astimezone(UTC).date(), args.days)
    if args.json:
        print(json.dumps([_plain(one) for one in found], ensure_ascii=False, indent=2))
        return 0
    for one in found:
        print(_line(one))
    if not found:
        print(f"no row has to be looked at again within {args.days} days")
    return 0


def _line(one: Due) -> str:
    from benchbot.reply.subjects import subject_words

    stands = "DOES NOT ANSWER after" if one.past else "answers until"
    in_hand = " (a change waits)" if one.in_hand else ""
    years = f"{one.year_from}-{one.year_to}"
    return f"{one.spec}  {stands} {one.review_by}: {years} {subject_words(one.subject)}: {one.value}{in_hand}"


def _plain(one: Due) -> dict[str, Any]:
    subject = one.subject
    return {
        "id": one.spec,
        "revision": one.revision,
        "make": subject.make,
        "model": subject.model,
        "year_from": one.year_from,
        "year_to": one.year_to,
        "only_if": dict(subject.only_if),
        "component": subject.component,
        "position": subject.position,
        "property": subject.property,
        "value": one.value,
        "review_by": one.review_by.isoformat(),
        "past": one.past,
        "change_waits": one.in_hand,
    }
