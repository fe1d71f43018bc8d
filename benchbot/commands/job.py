"""benchbot job: begin a job, walk its steps, put on record what is done, and write its record for the file."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.commands import job_rules, job_texts
from benchbot.commands.asker import person as account
from benchbot.commands.asker import printable
from benchbot.errors import BenchbotError
from benchbot.places import Home, home

if TYPE_CHECKING:
    from benchbot.jobs.doing import Result
    from benchbot.jobs.state import JobState
    from benchbot.jobs.terms import Who
    from benchbot.people.terms import Location
    from benchbot.records.record import Record

# The rooms behind these commands load the record and the book: each is imported by the command that needs it.

Handler = Callable[[Home, "Record", argparse.Namespace, datetime], int]
# Of what module, of which job, by whom and when, with what was given.
Act = Callable[[Any, "tuple[Record, int, Who, datetime]", argparse.Namespace], "Result"]
_CHOICES_SHOWN = 12
_WHEELS = ("front left", "front right", "rear left", "rear right")


def add_parser(subparsers: Any) -> None:
    """Adds `job` and its own commands."""
    parser: argparse.ArgumentParser = subparsers.add_parser("job", help="the record of a job, step by step")
    commands = parser.add_subparsers(dest="job_command", required=True, metavar="COMMAND")

    def command(name: str, about: str, run_it: Handler, of_job: bool = True) -> argparse.ArgumentParser:
        made: argparse.ArgumentParser = commands.add_parser(name, help=about)
        made.set_defaults(job_run=run_it)
        made.add_argument("--by", default="", metavar="NAME", help="who does it (default: the user's name)")
        if of_job:
            made.add_argument("--job", type=int, metavar="N", help="which job (default: the one you have in hand)")
        return made

    begin = command("begin", "begin a job on a vehicle", _begin, of_job=False)
    begin.add_argument("vehicle", help='as in a question: "2012 Brackwell Ondrel"')
    begin.add_argument("procedure", help="which one; a wrong name lists them all")
    begin.add_argument("--repair-order", default="", metavar="NUMBER", help="the shop's number, no names")
    begin.add_argument("--wheel", action="append", default=[], choices=_WHEELS, help="what is worked on")
    begin.add_argument("--fitted", action="append", default=[], metavar="WHAT", help="where the procedure asks for it")
    begin.add_argument("--location", metavar="NAME", help="where; may be left out while there is only one")
    command("where", "the step that you are at", _where)
    command("next", "go on to the next open step", _does(lambda doing, job, args: doing.go_on(*job)))
    command("back", "go back one step", _does(lambda doing, job, args: doing.go_back(*job)))
    command("pause", "the job rests until somebody resumes it", _does(lambda doing, job, args: doing.pause(*job)))
    command("resume", "take the job in hand: resume it, or join in", _does(lambda doing, job, args: doing.resume(*job)))
    command(
        "finish", "close the job; refused while something is open", _does(lambda doing, job, args: doing.finish(*job))
    )
    done = command("done", "the step is done", _does(lambda doing, job, args: doing.done(*job, args.step)))
    done.add_argument("--step", default="", metavar="KEY", help="another one than where you are")
    skip = command(
        "skip",
        "the step is left out, and why",
        _does(lambda doing, job, args: doing.skip(*job, _reason(args), args.step)),
    )
    skip.add_argument("reason", nargs="+", metavar="REASON")
    skip.add_argument("--step", default="", metavar="KEY", help="another one than where you are")
    measure = command("measure", "a measurement, held against the book at once", _measure)
    measure.add_argument("component", help='such as "brake rotor"')
    measure.add_argument("property", help='such as "minimum thickness"')
    measure.add_argument("value", help="as read: 22.4, or several readings in quotes")
    measure.add_argument("unit", help="mm, in ...")
    measure.add_argument("--wheel", default="", metavar="WHEEL")
    measure.add_argument("--after", action="store_true", help="after the work (default: before it)")
    tighten = command("tighten", "one fastener's own line", _tighten)
    tighten.add_argument("component", help='such as "caliper bracket bolt"')
    tighten.add_argument("--set", required=True, metavar="VALUE", dest="set_to", help="what was set, with its unit")
    tighten.add_argument("--tool", required=True, help="which wrench")
    tighten.add_argument("--wheel", default="", metavar="WHEEL")
    tighten.add_argument("--which", default="", metavar="WORDS", help="upper, lower ...")
    confirm = command(
        "confirm",
        "a second person has checked the wheels",
        _does(lambda doing, job, args: doing.confirm(*job, args.lines)),
    )
    confirm.add_argument("lines", nargs="*", type=int, metavar="LINE", help="default: all that wait for it")
    strike = command(
        "strike",
        "a line was entered wrong",
        _does(lambda doing, job, args: doing.strike(*job, args.line, _reason(args))),
    )
    strike.add_argument("line", type=int)
    strike.add_argument("reason", nargs="+", metavar="REASON")
    explain = command(
        "explain",
        "why an open point stays open",
        _does(lambda doing, job, args: doing.explain(*job, args.points, args.because, decided_by=args.decided_by)),
    )
    explain.add_argument("points", nargs="+", metavar="POINT", help="as show lists it")
    explain.add_argument("--because", required=True, metavar="REASON", help="two words at least")
    explain.add_argument("--decided-by", default="", metavar="NAME", help="for a bad figure or a value not the book's")
    order = command(
        "repair-order",
        "the repair order number was entered wrong",
        _does(lambda doing, job, args: doing.correct_order(*job, args.number)),
    )
    order.add_argument("number", help="the right one, no names")
    over = command(
        "hand-over",
        "somebody else has it in hand from now on",
        _does(lambda doing, job, args: doing.hand_over(*job, _named(args.to))),
    )
    over.add_argument("to", metavar="NAME")
    show = command("show", "where the job stands, and what is open", _show)
    show.add_argument("--json", action="store_true", help="the whole record, for programs")
    listed = command("list", "the jobs that are not finished", _list, of_job=False)
    listed.add_argument("--all", action="store_true", help="finished ones as well")
    export = command("export", "write the record: a .json or a .pdf file", _export)
    export.add_argument("file", type=Path, metavar="FILE")
    export.add_argument("--page", choices=("A4", "Letter"), default="A4", help="of a PDF (default: A4)")
    slip = command("slip", "write the re-torque slip as a PDF", _slip)
    slip.add_argument("file", type=Path, metavar="FILE.pdf")
    job_rules.add_arguments(command("rules", "what a location has settled about jobs", job_rules.run, of_job=False))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 refused or a problem was found, which is told on standard error."""
    from benchbot.records.record import open_record

    handler: Handler = args.job_run
    for name, given in vars(args).items():
        if isinstance(given, str):
            setattr(args, name, printable(given))
    try:
        place = home()
        with open_record(place) as record:
            return handler(place, record, args, now or datetime.now(UTC))
    except BenchbotError as error:
        return _told(str(error))


def _begin(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.commands.job_values import Bench
    from benchbot.jobs.beginning import begin
    from benchbot.jobs.terms import Refused
    from benchbot.records.step_overrides import shop_says

    location = location_named(record, args.location)
    if isinstance(location, str):
        return _told(location)
    with Bench(place, _who(args)) as bench:
        vehicle, vocabulary = bench.vehicle(args.vehicle), bench.vocabulary
        if isinstance(vehicle, Refused):
            return _told(vehicle.reason)
        said = shop_says(record, location.number if location else None, args.procedure)
        done = begin(
            record, bench.procedures(), vocabulary, vehicle, args.procedure, _who(args), now, location,
            args.repair_order, args.wheel, args.fitted, said, bench.book_version,
        )  # fmt: skip
    return _say(done, _who(args))


def _does(act: Act) -> Handler:
    """What `jobs.doing` does with the job that is meant."""

    def handler(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
        from benchbot.jobs import doing

        number, who = _number(record, args), _who(args)
        return _no_job() if number is None else _say(act(doing, (record, number, who, now), args), who)

    return handler


def _measure(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.commands.job_values import Bench
    from benchbot.jobs.doing import measure
    from benchbot.jobs.terms import Measured

    state = _state(record, args)
    if state is None:
        return _no_job()
    measured = Measured(
        args.component, args.property, args.value, args.unit, "after" if args.after else "before", args.wheel
    )
    with Bench(place, _who(args)) as bench:
        refused = bench.unknown(args.component, args.property)
        if refused is not None:
            return _say(refused, _who(args))
        verdict, why = bench.verdict(state.vehicle, measured)
    done = measure(record, state.number, _who(args), now, measured, verdict)
    return _say(done, _who(args), job_texts.verdict(verdict, why))


def _tighten(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.commands.job_values import Bench
    from benchbot.jobs.doing import tighten
    from benchbot.jobs.terms import Tightened

    state = _state(record, args)
    if state is None:
        return _no_job()
    with Bench(place, _who(args)) as bench:
        refused = bench.unknown(args.component, "torque")
        if refused is not None:
            return _say(refused, _who(args))
        target, value = bench.target(state.vehicle, args.component, args.wheel, args.which) or (None, "")
    line = Tightened(args.component, args.set_to, args.tool, args.wheel, args.which, target, value)
    done = tighten(record, state.number, _who(args), now, line)
    return _say(done, _who(args), job_texts.differs(line), job_texts.target(target))


def _where(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:

    state = _state(record, args)
    return _no_job() if state is None else _say(state, _who(args))


def _show(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.jobs.record_json import record_bytes

    state = _state(record, args)
    if state is None:
        return _no_job()
    print(
        record_bytes(state).decode() if args.json else "\n".join(job_texts.page(state)), end="" if args.json else "\n"
    )
    return 0


def _list(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.jobs.state import job_state
    from benchbot.records import jobs

    found = [job_state(record, row.number) for row in jobs.newest(record, only_open=not args.all)]
    for state in found:
        if state is not None:
            print(job_texts.line(state))
    if not found:
        print("no job is open" if not args.all else "no job has begun")
    return 0


def _export(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.jobs.record_json import record_bytes, record_digest

    state = _state(record, args)
    if state is None:
        return _no_job()
    kind = args.file.suffix.casefold()
    if kind not in (".json", ".pdf"):
        return _told(f"{args.file}: name a file that ends in .json or .pdf")
    written = record_bytes(state)
    if kind == ".pdf":
        from benchbot.jobs.record_pdf import record_pdf

        args.file.write_bytes(record_pdf(state, args.page))
    else:
        args.file.write_bytes(written)
    print(f"job {state.number} is in {args.file}; SHA-256 of the JSON record: {record_digest(written)}")
    return 0


def _slip(place: Home, record: Record, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.jobs.retorque import slip
    from benchbot.jobs.slip_pdf import slip_pdf
    from benchbot.jobs.terms import Refused

    state = _state(record, args)
    if state is None:
        return _no_job()
    found = slip(state)
    if isinstance(found, Refused):
        return _told(found.reason)
    args.file.write_bytes(slip_pdf(found))
    print(f"the slip of job {state.number} is in {args.file}")
    return 0


def _say(done: Result, who: Who, *first: str) -> int:
    from benchbot.jobs.terms import Refused

    if isinstance(done, Refused):
        more = len(done.choices) - _CHOICES_SHOWN
        listed = [f"  {one}" for one in done.choices[:_CHOICES_SHOWN]] + ([f"  and {more} more"] if more > 0 else [])
        return _told("\n".join((done.reason, *listed)))
    print("\n".join((*(one for one in first if one), *job_texts.standing(done, who.person))))
    return 0


def _number(record: Record, args: argparse.Namespace) -> int | None:
    from benchbot.jobs.walking import in_hand

    return in_hand(record, _who(args).person) if args.job is None else int(args.job)


def _state(record: Record, args: argparse.Namespace) -> JobState | None:
    from benchbot.jobs.state import job_state

    number = _number(record, args)
    return None if number is None else job_state(record, number)


def location_named(record: Record, name: str | None) -> Location | str | None:
    from benchbot.people.names import same_name
    from benchbot.people.register import People

    held = People(record).locations()
    if name is None and len(held) < 2:
        return held[0] if held else None
    found = [one for one in held if name is not None and same_name(one.name, name)]
    names = ", ".join(one.name for one in held) or "none yet"
    return found[0] if found else f"say which location with --location: {names}"


def _reason(args: argparse.Namespace) -> str:
    return printable(" ".join(args.reason))


def _who(args: argparse.Namespace) -> Who:
    return _named(args.by or account())


def _named(name: str) -> Who:
    from benchbot.jobs.terms import Who
    from benchbot.people.channels import at_terminal

    return Who(at_terminal(name), " ".join(name.split()))


def _no_job() -> int:
    return _told("you have no such job in hand; name one with --job, or see them with: benchbot job list")


def _told(why: str) -> int:
    print(why, file=sys.stderr)
    return 1
