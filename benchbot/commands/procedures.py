"""benchbot procedures: the steps, what a shop itself says to them at a location, and how people ask for them."""

from __future__ import annotations

import argparse
import sys
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from benchbot.errors import BenchbotError
from benchbot.places import home, knowledge_folder

if TYPE_CHECKING:
    from benchbot.people.terms import Location
    from benchbot.procedures.steps import Procedures
    from benchbot.records.record import Record

# The rooms behind these commands load what reads the procedure files: each is imported by the command that needs it.

AUTHOR = "command line"


def add_parser(subparsers: Any) -> None:
    """Adds `procedures` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "procedures", help="what the shop itself says to a step of the work"
    )
    commands = parser.add_subparsers(dest="procedures_command", required=True, metavar="COMMAND")
    steps = commands.add_parser("steps", help="the procedures, or the steps of one, with their keys")
    steps.add_argument("procedure", nargs="?", metavar="PROCEDURE")
    commands.add_parser("learn", help="learn anew from knowledge/asked which step a question means")
    override = commands.add_parser("override", help="show the shop's own word above a step, at a location")
    _about(override)
    override.add_argument("text", metavar="TEXT", help="what the shop says; no torques, which come from the book alone")
    overrides = commands.add_parser("overrides", help="what the shop says to steps now")
    overrides.add_argument("--location", metavar="NAME", help="of one location only")
    _about(commands.add_parser("end-override", help="show it no more"))
    parser.set_defaults(run=run)


def _about(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--location", required=True, metavar="NAME")
    parser.add_argument("procedure", metavar="PROCEDURE", help="such as disc-brake-front")
    parser.add_argument("step", metavar="STEP", help="its key, such as common/lift-and-support")


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    from benchbot.records.record import open_record

    moment = now or datetime.now(UTC)
    try:
        if args.procedures_command == "steps":
            return _steps(_procedures(), args.procedure)
        if args.procedures_command == "learn":
            return _learn(_procedures())
        with open_record(home()) as record:
            location = _location(record, args.location)
            if isinstance(location, str):
                return _told(location)
            if args.procedures_command == "overrides":
                return _overrides(record, location)
            if location is None:
                return _told("say which location, with --location NAME")
            if args.procedures_command == "override":
                return _override(record, location, args, moment)
            return _end(record, location, args, moment)
    except BenchbotError as error:
        return _told(str(error))


def _steps(procedures: Procedures, name: str | None) -> int:
    if name is None:
        for one in procedures.procedures.values():
            print(f"{one.id}: {one.title}")
        return 0
    if name not in procedures.procedures:
        return _told(f"there is no procedure {name!r}; there are: {', '.join(procedures.procedures)}")
    for number, key in enumerate(procedures.procedures[name].steps, 1):
        print(f"{number:2} {key}: {procedures.steps[key].title}")
    return 0


def _learn(procedures: Procedures) -> int:
    from benchbot.procedures.asked import FOLDER, LEARNED, digest_of, load_asked

    folder = knowledge_folder()
    asked = load_asked(folder, procedures)
    try:
        from benchbot.procedures.learning import learn
    except ImportError:
        return _told("learning needs scikit-learn: install benchbot with its extra `learn`")
    file = folder / FOLDER / LEARNED
    text = learn(asked, digest_of(folder)).to_text()
    file.write_text(text + "\n", encoding="ascii")
    print(f"{len(asked)} questions learned, {len(text) // 1024} kB; publish, and the next book carries it")
    return 0


def _override(record: Record, location: Location, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.jobs.shop_words import say
    from benchbot.jobs.terms import Refused

    made = say(record, _procedures(), location.number, args.procedure, args.step, args.text, AUTHOR, now)
    if isinstance(made, Refused):
        return _told(made.reason)
    print(f"{location.name}, {args.procedure}, {args.step}: “{made}”; shown in jobs that begin from now on")
    return 0


def _end(record: Record, location: Location, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.records.step_overrides import end

    if not end(record, location.number, args.procedure, args.step, AUTHOR, now):
        return _told(f"{location.name} says nothing of its own to {args.step} of {args.procedure}")
    print(f"{location.name}, {args.procedure}, {args.step}: ended")
    return 0


def _overrides(record: Record, location: Location | None) -> int:
    from benchbot.curation.two_people import name_of
    from benchbot.people.register import People
    from benchbot.records.step_overrides import in_force

    names = {one.number: one.name for one in People(record).locations()}
    held = in_force(record, None if location is None else location.number)
    if not held:
        print("no step has a word of the shop")
    for one in held:
        who = name_of(record, one.author) or one.author
        place = names.get(one.location, str(one.location))
        print(f"{place}, {one.procedure}, {one.step}: “{one.text}” ({who}, {one.at:%Y-%m-%d})")
    return 0


def _procedures() -> Procedures:
    from benchbot.procedures.loading import load_procedures
    from benchbot.vocabulary.knowledge import load_vocabulary

    folder = knowledge_folder()
    return load_procedures(folder, load_vocabulary(folder))


def _location(record: Record, name: str | None) -> Location | str | None:
    """The location of that name, None where none was asked for, or why there is none."""
    from benchbot.people.register import People

    if name is None:
        return None
    held = People(record).locations()
    found = [one for one in held if one.name.casefold() == name.casefold()]
    if not found:
        return f"there is no location {name!r}; there are: {', '.join(one.name for one in held) or 'none yet'}"
    return found[0]


def _told(problem: str) -> int:
    print(problem, file=sys.stderr)
    return 1
