"""benchbot specs for single rows: their history, what waits for a second person, what technicians questioned."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from dataclasses import asdict
from datetime import datetime
from typing import TYPE_CHECKING, Any

from benchbot.commands.asker import person as account
from benchbot.places import Home

if TYPE_CHECKING:
    from benchbot.checking import Concern
    from benchbot.curation.approving import Denied, Waiting
    from benchbot.curation.history import Step
    from benchbot.curation.settling import Questioned
    from benchbot.records.record import Record

# The rooms behind these commands load pydantic: each is imported by the command that needs it.

_DID = ("right", "corrected", "withdrawn")
_CONCERNS: tuple[Concern, ...] = ("two units", "bolt load", "outlier", "contradiction", "scope")
Handler = Callable[["Record", argparse.Namespace, datetime], int]


def add_commands(subparsers: Any) -> None:
    """Adds the commands of single rows to those of `specs`."""
    history = _command(subparsers, "history", _history, "who changed a row, when, what and why", as_json=True)
    history.add_argument("id", metavar="ID")
    _command(subparsers, "waiting", _waiting, "rows that wait for a second person", as_json=True)
    approve = _command(subparsers, "approve", _approve, "let a row that waits into the next book", by=True)
    approve.add_argument("id", metavar="ID")
    approve.add_argument("--revision", type=int, metavar="N", help="the one you looked at (default: the newest)")
    approve.add_argument(
        "--reason", action="append", default=[], type=_reason, metavar="CONCERN=TEXT",
        help="why a warning may pass, such as “outlier=it is printed so on p. 12”",
    )  # fmt: skip
    back = _command(subparsers, "send-back", _send_back, "give a row that waits back to its author", by=True)
    back.add_argument("id", metavar="ID")
    back.add_argument("comment", nargs="+", metavar="COMMENT", help="what is to be mended")
    back.add_argument("--revision", type=int, metavar="N", help="the one you looked at (default: the newest)")
    withdraw = _command(subparsers, "withdraw", _withdraw, "let a row answer no more", by=True)
    withdraw.add_argument("id", metavar="ID")
    withdraw.add_argument("why", nargs="+", metavar="REASON")
    withdraw.add_argument("--draft", action="store_true", help="only the change that waits; the row goes on answering")
    _command(subparsers, "questioned", _questioned, "answers that technicians doubt", as_json=True)
    settle = _command(subparsers, "settle", _settle, "end a doubt, once you have looked at the source", by=True)
    settle.add_argument("note", type=int, metavar="NOTE", help="its number, as “questioned” shows it")
    settle.add_argument("did", choices=_DID, help="right: the value stands")
    settle.add_argument("why", nargs="+", metavar="REASON", help="what you found")


def _command(
    subparsers: Any, name: str, handler: Handler, about: str, as_json: bool = False, by: bool = False
) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(name, help=about)
    if as_json:
        parser.add_argument("--json", action="store_true", help="for programs")
    if by:
        parser.add_argument("--by", default="", metavar="NAME", help="who does it (default: the user's name)")

    def run(place: Home, args: argparse.Namespace, now: datetime) -> int:
        from benchbot.curation.by_name import refusal
        from benchbot.records.record import open_record

        with open_record(place) as record:
            # Whatever asks who does it changes what the book will say.
            why_not = refusal(record, _who(record, args.by)[0], "approve") if by else ""
            if why_not:
                return _told(f"{name}: {why_not}")
            return handler(record, args, now)

    parser.set_defaults(specs_run=run)
    return parser


def _history(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.history import history

    steps = history(record, args.id)
    if args.json:
        _print_json([asdict(step) for step in steps])
    else:
        for line in (line for step in steps for line in _step_lines(step)):
            print(line)
    if not steps:
        return _told(_no_row(args.id))
    return 0


def _waiting(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.approving import waiting

    found = waiting(record)
    if args.json:
        _print_json([_plain_waiting(one) for one in found])
        return 0
    # what somebody handed in first: what a table left as drafts may be many
    for line in (line for one in sorted(found, key=lambda one: one.imported) for line in _waiting_lines(one)):
        print(line)
    if not found:
        print("no row waits for approval")
    return 0


def _approve(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.approving import Denied, approve

    person, name = _who(record, args.by)
    revision = _seen(record, args)
    done = approve(record, args.id, revision, person, name, now, dict(args.reason))
    if isinstance(done, Denied):
        return _denied(args.id, done)
    alone = ", checked by one person" if done.one_person else ""
    print(f"{done.spec} revision {done.revision} is verified{alone}; it answers after: benchbot specs publish")
    for note in done.notes:
        print(f"note {note} still questions it; end that with: benchbot specs settle {note} corrected REASON")
    return 0


def _send_back(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.approving import Denied, send_back

    person, _ = _who(record, args.by)
    done = send_back(record, args.id, _seen(record, args), person, " ".join(args.comment), now)
    if isinstance(done, Denied):
        return _denied(args.id, done)
    opened = "; what they filled in is open to them again" if done.filling is not None else ""
    print(f"{done.spec} revision {done.revision} is sent back to {done.author}{opened}")
    return 0


def _withdraw(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.approving import Denied, take_back, withdraw

    person, _ = _who(record, args.by)
    why = " ".join(args.why)
    if args.draft:
        done = take_back(record, args.id, _seen(record, args), person, why, now)
    else:
        done = withdraw(record, args.id, person, why, now)
    if isinstance(done, Denied):
        return _denied(args.id, done)
    if args.draft:
        print(f"{done.spec} revision {done.revision} waits no more; what answers stays as it is")
    else:
        print(
            f"{done.spec} is withdrawn (revision {done.revision}) and answers no more; whoever was shown it is told "
            "after: benchbot specs publish"
        )
    return 0


def _questioned(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.settling import open_notes

    found = open_notes(record)
    if args.json:
        _print_json([asdict(one) for one in found])
        return 0
    for line in (line for one in found for line in _questioned_lines(one)):
        print(line)
    if not found:
        print("no answer is questioned")
    return 0


def _settle(record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.curation.settling import NotSettled, settle

    person, _ = _who(record, args.by)
    done = settle(record, args.note, args.did, " ".join(args.why), person, now)
    if isinstance(done, NotSettled):
        return _told(f"{done.reason} See the open ones with: benchbot specs questioned")
    print(f"note {done.note} is settled: {done.did}")
    return 0


def _who(record: Record, by: str) -> tuple[str, str]:
    """The person who does it, and their name."""
    from benchbot.curation.two_people import name_of
    from benchbot.people.channels import at_terminal

    said = " ".join((by or account()).split())
    person = at_terminal(said)
    return person, said if by else name_of(record, person)


def _seen(record: Record, args: argparse.Namespace) -> int:
    """The revision that is meant; the newest, unless one was named."""
    from benchbot.records import revisions

    if getattr(args, "revision", None) is not None:
        return int(args.revision)
    newest = revisions.newest(record, args.id)
    return newest.revision if newest else 0


def _step_lines(step: Step) -> Iterator[str]:
    alone = ", checked by one person" if step.one_person else ""
    head = f"{step.spec} revision {step.revision}, {step.status}{alone}, {step.at[:16]} by {step.name}"
    yield head + (f" ({step.why})" if step.why else "")
    yield from _change_lines(step.changes)
    for passed in step.passed:
        yield f"  warning let pass ({passed.concern}): {passed.told}; because: {passed.reason}"
    for picture in step.evidence:
        yield f"  picture of the source: {picture.file if picture.state == 'kept' else picture.state}"
    for review in step.reviews:
        words = "" if review.did in ("submitted", "approved") or not review.said else f": {review.said}"
        by = review.said if review.did in ("submitted", "approved") and review.said else review.person
        yield f"  {review.did} {review.at[:16]} by {by}{words}"


def _waiting_lines(one: Waiting) -> Iterator[str]:
    cells = one.cells
    part = " ".join(filter(None, (cells["position"], cells["component"], cells["property"])))
    vehicle = f"{cells['year_from']}-{cells['year_to']} {cells['make']} {cells['model']}"
    only = f", {cells['only_if']}" if cells["only_if"] else ""
    came = f"imported by {one.name}" if one.imported else f"by {one.name}"
    yield f"{one.spec} revision {one.revision}, {one.at[:16]} {came}: {vehicle}{only}, {part}: {cells['value']}"
    if one.before is not None:
        yield from _change_lines(one.changes)
    for passed in one.passed:
        yield f"  warning let pass ({passed.concern}): {passed.told}; because: {passed.reason}"


def _change_lines(changes: tuple[tuple[str, str, str], ...]) -> Iterator[str]:
    for column, before, after in changes:
        yield f"  {column}: {before or '(empty)'} → {after or '(empty)'}" if before else f"  {column}: {after}"


def _questioned_lines(one: Questioned) -> Iterator[str]:
    newer = f", revision {one.newest} by now" if one.newest > one.revision else ""
    head = f"note {one.note}, {one.at[:16]} by {one.name}: {one.vehicle}, {one.value}"
    yield f"{head} ({one.spec} revision {one.revision}{newer})"
    yield f"  asked: {one.asked}"
    yield f"  said: {one.said or '(no words)'}"


def _plain_waiting(one: Waiting) -> dict[str, Any]:
    plain = asdict(one)
    plain["before"] = one.before.revision if one.before else None
    plain["changes"] = one.changes
    return plain


def _denied(spec: str, denied: Denied) -> int:
    hints = {
        "unknown row": " See the vehicles with: benchbot specs list",
        "warnings": "\nGive a reason with: --reason “CONCERN=TEXT”",
        "own row": " (benchbot people one-person allow)",
        "own check": " (benchbot people one-person allow)",
    }
    return _told(f"{spec}: {denied.reason}{hints.get(denied.about, '')}")


def _no_row(spec: str) -> str:
    return f"no spec {spec!r} on record; see the vehicles with: benchbot specs list"


def _reason(text: str) -> tuple[Concern, str]:
    concern, _, reason = text.partition("=")
    for known in _CONCERNS:
        if concern.strip().casefold() == known and reason.strip():
            return known, reason.strip()
    raise argparse.ArgumentTypeError(
        f"{text!r} is no reason; write one of {', '.join(_CONCERNS)}, then = and the reason"
    )


def _print_json(plain: list[dict[str, Any]]) -> None:
    print(json.dumps(plain, ensure_ascii=False, indent=2))


def _told(problem: str) -> int:
    print(problem, file=sys.stderr)
    return 1
