"""Plays a whole job as two people on any channel, with a kill in the middle; its record must have every entry."""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol

from benchbot.jobs import rules
from benchbot.records.record import Record

VEHICLE, ORDER, NOT_HELD = "12 ondrel", "RO-77", "12 N·m"
OVER = "Every step is done"
_MOST_STEPS = 60
_READ = re.compile(
    r"^([A-Z]+ [A-Z]+) ([^,:\n]+, [^,:\n]+), (?:before|after the work): what did you read\?", re.MULTILINE
)
_SET = re.compile(r"^(?:([A-Z]+ [A-Z]+) )?([^,:\n]+): what did you set, and with which tool\?", re.MULTILINE)
_VALUE = re.compile(r"\b\d+ lb-(?:ft|in)\b")


class Person(Protocol):
    """Somebody at their own terminal or phone; what they do gives all that is shown for it."""

    name: str

    @property
    def labels(self) -> Collection[str]:
        """Of the buttons shown last."""

    def say(self, text: str) -> str: ...

    def press(self, label: str) -> str: ...

    def say_over_a_kill(self, text: str) -> str:
        """The process is killed while its question stands, and they answer it all the same."""

    def papers(self, label: str) -> dict[str, bytes]:
        """Presses what ends the job; every file that comes, by its name."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line as somebody entered it. wheel: "" of what belongs to none. tool: "" of a measurement."""

    wheel: str
    what: str
    figure: str
    tool: str
    who: str


@dataclass(frozen=True, slots=True)
class Job:
    """killed_at: the step at which the process dies. figures: "WHEEL part, property" -> what is read there."""

    work: str
    title: str
    killed_at: str
    figures: Mapping[str, str]


# Within the limits of the invented vehicle, each in a unit of its own, and no two of them the same.
FRONT = Job(
    "front brakes",
    "Front disc brake service",
    "Measure the rotor",
    {
        "FRONT LEFT brake pad, minimum thickness": "8 mm",
        "FRONT RIGHT brake pad, minimum thickness": ".31 in",
        "FRONT LEFT brake rotor, minimum thickness": "19.61 19.60 mm",
        "FRONT RIGHT brake rotor, minimum thickness": ".773 in",
        "FRONT LEFT brake rotor, maximum thickness variation": "0.01 mm",
        "FRONT RIGHT brake rotor, maximum thickness variation": ".3 thou",
        "FRONT LEFT brake rotor, maximum runout": ".002 in",
        "FRONT RIGHT brake rotor, maximum runout": "0.04 mm",
    },
)
REAR = Job(
    "drum brake",
    "Drum brake service",
    "Measure the drum",
    {
        "REAR LEFT brake drum, maximum diameter": "200.4 mm",
        "REAR RIGHT brake drum, maximum diameter": "7.885 in",
        "REAR LEFT brake shoe, minimum thickness": "4 mm",
        "REAR RIGHT brake shoe, minimum thickness": ".16 in",
    },
)


def with_rules(record: Record, location: int, now: datetime) -> None:
    """The location wants a second person on wheels, and them tightened again after three days."""
    rules.set_second_person(record, location, True, "test", now)
    rules.set_days(record, location, 3, "test", now)


def play(job: Job, ana: Person, ben: Person) -> dict[str, bytes]:
    """From /job to the papers, which must say what was entered; the files by their names."""
    entered: list[Entry] = []
    ana.say(f"/job {VEHICLE}")
    ana.say(job.work)
    shown = ana.say(ORDER)
    begun = re.search(rf"Job (\d+) is begun: {job.title}, 2012 Brackwell Ondrel\.", shown)
    assert begun is not None, shown
    _walk(job, ana, ana.press("To the step"), entered, job.killed_at)
    asked = ana.press("Measured")
    figure = _read_there(job, ana, asked, entered)
    shown = ana.say_over_a_kill(figure)
    # the answer to the question that stood is on record, once, and the next one is asked
    assert shown.count(f"{figure} (before), good, Ana") == 1, shown
    ana.say(_read_there(job, ana, shown, entered))
    ana.say("done")
    assert "rests" in ana.say("pause")
    assert "paused by Ana" in ben.say("/job")
    _walk(job, ben, ben.press(begun[1]), entered, OVER)
    # a question in between is answered
    assert "79 lb-ft" in ben.say("lug nut torque")
    ana.say("/job")
    ana.press(begun[1])
    ana.press("Confirm wheels")
    assert "Confirmed, with your name." in ana.press("Checked, all of them")
    shown = ben.say("finish")
    while "Open before" in shown:
        ben.press("1")
        ben.press("Say why")
        shown = ben.say("the book lacks it; shown to the lead tech")
        if "Who decided that" in shown:
            shown = ben.say("Olga")
    papers = ben.papers("Yes, finish")
    kinds = sorted(re.sub(r"^job-\d+", "", name) for name in papers)
    assert kinds == ["-slip.pdf", ".json", ".pdf"]
    # ISO 32000-1, 7.5.2: a file begins with the version of PDF that it conforms to
    assert all(file.startswith(b"%PDF-1.") for name, file in papers.items() if name.endswith(".pdf"))
    _hold_against(job, json.loads(next(file for name, file in papers.items() if name.endswith(".json"))), entered)
    return papers


def _walk(job: Job, person: Person, shown: str, entered: list[Entry], until: str) -> None:
    for _ in range(_MOST_STEPS):
        if until in shown:
            return
        shown = _step(job, person, entered)
    raise AssertionError(f"{until!r} never came: {shown}")


def _step(job: Job, person: Person, entered: list[Entry]) -> str:
    """All that the step on the page asks for, and done; what is shown then."""
    labels = set(person.labels)
    if "Measured" in labels:
        shown = person.press("Measured")
        while _READ.search(shown):
            shown = person.say(_read_there(job, person, shown, entered))
    if "Tightened" in labels:
        shown = person.press("Tightened")
        while _SET.search(shown):
            shown = person.say(_set_there(person, shown, entered))
    return person.say("done")


def _read_there(job: Job, person: Person, shown: str, entered: list[Entry]) -> str:
    """The figure of the line that the page asks for."""
    asked = _READ.search(shown)
    assert asked is not None, shown
    figure = job.figures[f"{asked[1]} {asked[2]}"]
    entered.append(Entry(asked[1].lower(), asked[2], figure, "", person.name))
    return figure


def _set_there(person: Person, shown: str, entered: list[Entry]) -> str:
    """The value that stands above the question, with a tool that tells one side from the other."""
    asked = _SET.search(shown)
    assert asked is not None, shown
    # the line that was entered before stands above the page and has a value as well
    values = _VALUE.findall(shown[shown.rindex("Tighten ", 0, asked.start()) : asked.start()])
    setting = values[0] if values else NOT_HELD
    wheel = (asked[1] or "").lower()
    tool = f"wrench {2 if wheel.endswith('left') else 4}"
    entered.append(Entry(wheel, asked[2], setting, tool, person.name))
    return f"{setting} {tool}"


def _hold_against(job: Job, told: dict[str, Any], entered: list[Entry]) -> None:
    measured = [(one["entry"], _measured(one)) for one in told["measurements"]]
    tightened = [(one["entry"], _tightened(one)) for one in told["tightened"]]
    lines = [line for _, line in sorted([*measured, *tightened], key=lambda one: one[0])]
    for line, entry in zip(lines, entered, strict=True):
        assert line == entry, f"on record stands {line}, entered was {entry}"
    assert len(measured) == len(job.figures) and {line.wheel for _, line in tightened} == set(
        told["procedure"]["wheels"]
    )
    assert {one.who for one in entered} == {"Ana", "Ben"}
    assert all(one["judged"] == "good" and one["when"] == "before" for one in told["measurements"])
    # what was set is what the book holds of it, and what it does not hold has no target
    for line in told["tightened"]:
        shown = None if line["target"] is None else _VALUE.findall(line["target"]["text"])[0]
        assert shown == (None if line["set_to"] == NOT_HELD else line["set_to"])
    nuts = [one for one in told["tightened"] if one["component"] == "wheel nut"]
    assert {one["set_to"] for one in nuts} == {"79 lb-ft"} and len(nuts) == 2
    assert {(one["name"], one["confirmed"]["name"]) for one in nuts} == {("Ben", "Ana")}
    assert {one["state"] for one in told["steps"]} == {"done"} and told["open_points"] == []
    assert told["repair_order"] == ORDER and told["procedure"]["title"] == job.title
    assert [one["what"] for one in told["course"]] == ["begun", "paused", "resumed", "joined", "finished"]


def _measured(line: dict[str, Any]) -> Entry:
    what = f"{line['component']}, {line['property']}"
    return Entry(line["wheel"], what, f"{line['value']} {line['unit']}", "", line["name"])


def _tightened(line: dict[str, Any]) -> Entry:
    what = " ".join(word for word in (line["which"], line["component"]) if word)
    return Entry(line["wheel"], what, line["set_to"], line["tool"], line["name"])
