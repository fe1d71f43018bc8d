"""How a job reads on the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchbot.jobs.sheet import Want
    from benchbot.jobs.state import JobState
    from benchbot.jobs.terms import Shown, Tightened, Verdict

_POINTS_SHOWN = 12


def line(state: JobState) -> str:
    """Example: "job 3: 2012 Brackwell Ondrel, Front disc brake service, RO-1048: 12 of 44 steps, Dana"."""
    order = f", {state.repair_order}" if state.repair_order else ""
    steps = f"{len(state.settled)} of {len(state.sheet.steps)} steps"
    names = ", ".join(dict.fromkeys(state.names.values()))
    return f"job {state.number}: {state.vehicle.said}, {state.sheet.title}{order}: {_course(state) or steps}, {names}"


def standing(state: JobState, person: str) -> list[str]:
    """The head of the job, and the step that the person is at."""
    from benchbot.jobs.walking import where

    lines = [line(state)]
    if state.finished or state.paused:
        return lines
    here = where(state, person)
    if here is None:
        return [*lines, "every step is done or skipped; see what is open with: benchbot job show"]
    done = "" if here.state == "open" else f" ({here.state})"
    lines.append(f"step {here.number} of {here.count}: {here.step.title}{done}")
    if here.step.shop_says:
        lines.append(f"  your shop says: {here.step.shop_says}")
    stop = here.step.plain["stop"]
    if stop:
        lines.append(f"  STOP: {stop['when']} {stop['do']}")
    lines.append(f"  {here.step.do}")
    return lines + [f"  wanted: {_want(want)}" for want in here.missing]


def page(state: JobState) -> list[str]:
    """What was entered, and what is open."""
    from benchbot.jobs.open_points import open_points
    from benchbot.jobs.state import differs as differs_from_book

    lines = [line(state)]
    for one in state.measured:
        body = one.body
        told = (
            f"{body['component']}, {body['property']}, {body['wheel']}, {body['when']}: {body['value']} {body['unit']}"
        )
        lines.append(f"  {one.entry}  measured {told}: {body['judged']} ({one.name})")
    for one in state.tightened:
        body = one.body
        named = " ".join(word for word in (body["which"], body["component"]) if word)
        target = body["target"]["text"] if body["target"] else "not in the book"
        second = state.confirmed.get(one.entry)
        mark = " NOT THE BOOK'S VALUE" if differs_from_book(one) else ""
        by = f"{one.name}, confirmed by {second.name}" if second else one.name
        lines.append(
            f"  {one.entry}  tightened {named}, {body['wheel']}: {body['set_to']}{mark} (book: {target}; {by})"
        )
    points = open_points(state)
    if points and not state.finished:
        lines.append(f"open: {len(points)}")
        lines += [f"  {point.text}\n    {point.key}" for point in points[:_POINTS_SHOWN]]
        if len(points) > _POINTS_SHOWN:
            lines.append(f"  and {len(points) - _POINTS_SHOWN} more")
    return lines


def verdict(found: Verdict, why: str) -> str:
    """What was found about a measurement; why: what the book says instead where it was not judged."""
    if found.judged == "not judged":
        return f"not judged: {why}"
    limits = ", ".join(f"{one.text} ({one.spec})" for one in found.limits)
    return f"{found.judged.upper()}: {found.text} [{limits}]"


def differs(line: Tightened) -> str:
    """What is told at once of a fastener that was set to anything else than the book says; "" of any other."""
    if line.target is None or not line.differs:
        return ""
    return (
        f"NOT THE BOOK'S VALUE: you set {line.set_to} where the book says {line.value or line.target.text}. It is an "
        "open point until you strike it out, or explain it, such as by an adapter"
    )


def target(found: Shown | None) -> str:
    """The value of the book."""
    if found is None:
        return "THE BOOK HOLDS NO VALUE that is beyond doubt: do not guess one; say at the end where yours came from"
    return f"the book says: {found.text} ({found.spec}, revision {found.revision})"


def _course(state: JobState) -> str:
    if state.finished:
        return f"finished {state.finished.at:%Y-%m-%d %H:%M}"
    return f"paused {state.paused.at:%Y-%m-%d %H:%M}" if state.paused else ""


def _want(want: Want) -> str:
    named = " ".join(word for word in (want.component if want.where else "", want.name) if word)
    if not want.where:
        named = f"{want.name} {want.component}".strip()
    what = "measure" if want.where else "tighten"
    return f"{what} {named}{f', {want.wheel}' if want.wheel else ''}"
