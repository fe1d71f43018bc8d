"""Gaps as the command line tells them, in words and for programs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from benchbot.book.reader import SpecRow
    from benchbot.curation.gap_questions import Asked
    from benchbot.curation.gaps import Group
    from benchbot.records.meanings import Change

Places = Mapping[int | None, str]


def title(group: Group) -> str:
    """What is missing: a row by what it is about, a word or vehicle as it was written."""
    from benchbot.reply.subjects import subject_words

    about = subject_words(group.subject)
    if group.kind == "word":
        return f"what is “{group.words}”?" + (f" (asked of {about})" if about else "")
    if group.kind == "vehicle":
        return f"which vehicle is “{group.words}”?" + (f" (asked: {about})" if about else "")
    return about + (f", with “{group.words}” not read" if group.words else "")


def line(group: Group, places: Places) -> str:
    """One gap in a line of the list."""
    people = "nobody waits" if not group.people else "1 waits" if group.people == 1 else f"{group.people} wait"
    state = "" if group.state == "open" else f" [{_state(group)}]"
    return (
        f"{group.number:>5}  {title(group)}{state}: {people}, asked {_times(group.asks)}, "
        f"{_where(group, places)}, last {_when(group.last_at)}"
    )


def page(
    group: Group,
    places: Places,
    questions: Sequence[Asked],
    changes: Sequence[Change],
    near: Sequence[tuple[str, SpecRow]],
) -> list[str]:
    """One gap as a page of lines."""
    told = [line(group, places).strip(), f"  {_state(group)}, first asked {_when(group.first_at)}", "", "Asked:"]
    for one in questions:
        waits = "" if one.waits else ", does not wait"
        told.append(f"  “{one.question}”")
        told.append(f"      {one.name}, {one.place or 'no location'}, {_when(one.at)}: {one.reason}{waits}")
        told.append(f"      read as: {'; '.join(one.words) or 'nothing'}")
    if len(questions) < group.asks:
        told.append(f"  and {group.asks - len(questions)} before these")
    if changes:
        told += ["", "History:"]
        told += [f"  {_when(one.at)} {one.state}, by {one.author}{_because(one.why)}" for one in changes]
    told += ["", "In the book nearby (for you alone, no answer to these questions):" if near else "Nothing nearby."]
    for vehicle, row in near:
        years = f"{row.year_from}-{row.year_to}"
        what = " ".join(word for word in (row.position, row.component, row.property) if word)
        told.append(f"  {row.spec}  {vehicle} {years}{_because(row.only_if)}, {what}: {row.value}")
    return told


def plain(group: Group, places: Places) -> dict[str, Any]:
    """A gap for programs; times are ISO 8601 in UTC."""
    subject = asdict(group.subject)
    subject["years"] = list(group.subject.years)
    subject["only_if"] = dict(group.subject.only_if)
    return {
        "gap": group.number,
        "kind": group.kind,
        "title": title(group),
        "subject": subject,
        "words": group.words,
        "state": group.state,
        "why": group.why,
        "people": group.people,
        "asks": group.asks,
        "locations": [{"location": places.get(number), "asks": asks} for number, asks in group.locations],
        "first_at": group.first_at.isoformat(),
        "last_at": group.last_at.isoformat(),
        "questions_on_record": list(group.gaps),
    }


def plain_question(one: Asked) -> dict[str, Any]:
    return {
        "question": one.question,
        "person": one.person,
        "name": one.name,
        "location": one.place or None,
        "at": one.at.isoformat(),
        "words": list(one.words),
        "reason": one.reason,
        "waits": one.waits,
    }


def plain_change(one: Change) -> dict[str, str]:
    return {"state": one.state, "why": one.why, "author": one.author, "at": one.at.isoformat()}


def plain_row(row: SpecRow) -> dict[str, Any]:
    return {
        "id": row.spec,
        "year_from": row.year_from,
        "year_to": row.year_to,
        "only_if": row.only_if,
        "component": row.component,
        "position": row.position,
        "property": row.property,
        "value": row.value,
    }


def _state(group: Group) -> str:
    return group.state + _because(group.why)


def _because(why: str) -> str:
    return f" ({why})" if why else ""


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count:,} times")


def _where(group: Group, places: Places) -> str:
    found = (f"{places.get(number) or 'no location'} {asks}" for number, asks in group.locations)
    return ", ".join(found)


def _when(at: datetime) -> str:
    return f"{at.astimezone():%Y-%m-%d %H:%M}"
