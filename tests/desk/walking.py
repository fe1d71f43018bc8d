"""Walks a job at the desk: says or presses what a page asks for until nothing is left, a minute for each thing."""

from __future__ import annotations

from bay import Bay, Message, Phone, later

from benchbot.jobs.open_points import open_points
from benchbot.jobs.state import JobState, job_state
from benchbot.records import jobs

TOOL = "wrench 4"


def say(phone: Phone, text: str) -> Message:
    later(phone.bay, seconds=20)
    return phone.say(text)


def press(phone: Phone, label: str, on: Message | None = None) -> Message:
    later(phone.bay, seconds=20)
    return phone.press(label, on)


def state_of(bay: Bay, number: int = 0) -> JobState:
    newest = jobs.newest(bay.record, None)[0].number
    state = job_state(bay.record, number or newest)
    assert state is not None
    return state


def begun(phone: Phone, vehicle: str = "12 ondrel", work: str = "front brakes", order: str = "RO-10482") -> JobState:
    """A job that this phone has just begun and whose first step it shows."""
    say(phone, f"/job {vehicle}")
    say(phone, work)
    say(phone, order) if order else press(phone, "Without a number")
    assert "is begun" in phone.last.text, phone.last.text
    press(phone, "To the step")
    return state_of(phone.bay)


def measured(phone: Phone, figures: dict[tuple[str, str], str], when: str = "") -> None:
    """Whatever the step on the page asks to be measured, by (wheel, property)."""
    press(phone, "Measured")
    while phone.last.text.rstrip().split("\n")[-1] != "" and "It is" in " ".join(phone.last.labels):
        state = state_of(phone.bay)
        line = next(one for one in reversed(phone.last.text.split("\n")) if "what did you read" in one)
        want = next(
            w for w in state.sheet.measures
            if w.name in line and (not w.wheel or w.wheel.upper() in line) and w.component in line
        )  # fmt: skip
        say(phone, f"{when} {figures[want.wheel, want.name]}".strip())


def tightened(phone: Phone, as_shown: bool = False) -> None:
    """Whatever the step on the page tightens, set to what the page says."""
    press(phone, "Tightened")
    while "what did you set" in phone.last.text:
        value = next((b.text for b in phone.last.sheet.blocks if b.kind == "value"), "30 N·m")
        shown = [label for label in phone.last.labels if label.endswith(f", {TOOL}")]
        if shown and as_shown:
            press(phone, shown[0])
        else:
            say(phone, f"{value} {TOOL}")


def step(phone: Phone, figures: dict[tuple[str, str], str]) -> None:
    """All that the step on the page asks for, and done."""
    labels = phone.last.labels
    if "Measured" in labels:
        measured(phone, figures)
        press(phone, "To the step")
    if "Tightened" in labels:
        tightened(phone)
        press(phone, "To the step")
    say(phone, "done")


def points(bay: Bay) -> list[str]:
    return [point.text for point in open_points(state_of(bay))]
