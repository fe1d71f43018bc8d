"""A whole front brake job over HTTP, by two people, with a kill in the middle: the record says what they entered."""

from __future__ import annotations

import json
import signal
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from shop import Phone, Shop, later, opened

from benchbot.jobs import rules
from benchbot.places import Home

BEGAN = datetime(2026, 11, 24, 9, tzinfo=UTC)
PLACE, TOOL = "North bay", "wrench 4"
FIGURES = {"maximum runout": ".002 in", "maximum thickness variation": "0.01 mm", "brake pad": "8 mm"}
ROTOR = "19.61 19.60 mm"
ASKS, SETS, OVER = "what did you read?", "what did you set", "Every step is done"


@pytest.fixture(scope="module")
def shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("jobs")) as opening:
        opening.start(at=BEGAN)
        with opening.looked_after():
            yield opening


def say(phone: Phone, text: str) -> str:
    later(phone.shop, seconds=20)
    return phone.say(text).text


def press(phone: Phone, label: str) -> str:
    later(phone.shop, seconds=20)
    return phone.press(label).text


def step(phone: Phone) -> None:
    """All that the step on the page asks for, and done."""
    labels = phone.last.labels
    if "Measured" in labels:
        text = press(phone, "Measured")
        while ASKS in text:
            line = next(one for one in text.splitlines() if ASKS in one)
            text = say(phone, next((figure for name, figure in FIGURES.items() if name in line), ROTOR))
    if "Tightened" in labels:
        text = press(phone, "Tightened")
        while SETS in text:
            value = "79 lb-ft" if "79 lb-ft" in text else "50 lb-ft" if "50 lb-ft" in text else "16 lb-ft"
            text = say(phone, f"{value}, {TOOL}")
    if {"Measured", "Tightened"} & set(labels):
        press(phone, "To the step")
    say(phone, "done")


def walk(phone: Phone, until: str) -> None:
    for _ in range(60):
        if until in phone.last.text:
            return
        step(phone)
    raise AssertionError(f"{until!r} never came: {phone.last.text}")


def test_a_front_brake_job_by_two_people_and_a_kill(shop: Shop) -> None:
    ana, ben = shop.phone("Ana", technician=PLACE), shop.phone("Ben", technician=PLACE)
    place = shop.location(PLACE).number
    rules.set_second_person(shop.record, place, True, "test", shop.now())
    rules.set_days(shop.record, place, 3, "test", shop.now())
    say(ana, "/job 12 ondrel")
    say(ana, "front brakes")
    assert "is begun" in say(ana, "RO-77")
    press(ana, "To the step")
    walk(ana, "Measure the rotor")
    press(ana, "Measured")
    # what is written while nobody is there is taken once somebody is again
    assert shop.stop(signal.SIGKILL) != 0
    sent = ana.count
    ana.write(ROTOR)
    shop.start(at=shop.now())
    assert "FRONT LEFT brake rotor, minimum thickness: 19.61 19.60 mm (before), good, Ana" in ana.answer(sent + 1).text
    # the page may have been changed just when the process died, which is then done once more
    assert all("message is not modified" in one for one in shop.refusals())
    say(ana, ROTOR)
    press(ana, "To the step")
    say(ana, "done")
    assert "rests" in say(ana, "pause")
    later(shop, days=1)
    assert "paused by Ana" in say(ben, "/job")
    press(ben, "1")
    walk(ben, OVER)
    say(ana, "/job")
    press(ana, "1")
    press(ana, "Confirm wheels")
    assert press(ana, "Checked, all of them") == "Confirmed, with your name."
    press(ben, "Finish")
    while "1" in ben.last.labels:
        press(ben, "1")
        press(ben, "Say why")
        say(ben, "the book lacks it; shown to the lead tech")
    sent = ben.count
    assert "is finished" in press(ben, "Yes, finish")
    ben.answer(sent + 3)
    papers = {one.filename: one.file or b"" for one in ben.shown if one.kind == "document"}
    assert set(papers) == {"job-1.json", "job-1.pdf", "job-1-slip.pdf"}
    # ISO 32000-1, 7.5.2: a file begins with the version of PDF that it conforms to
    assert papers["job-1.pdf"].startswith(b"%PDF-1.") and papers["job-1-slip.pdf"].startswith(b"%PDF-1.")
    told = json.loads(papers["job-1.json"])
    assert (told["repair_order"], told["open_points"]) == ("RO-77", [])
    assert {one["state"] for one in told["steps"]} == {"done"}
    rotors = [one for one in told["measurements"] if one["property"] == "minimum thickness" and one["value"] != "8"]
    assert [(one["wheel"], one["value"], one["unit"], one["judged"], one["name"]) for one in rotors] == [
        ("front left", "19.61 19.60", "mm", "good", "Ana"), ("front right", "19.61 19.60", "mm", "good", "Ana"),
    ]  # fmt: skip
    assert len(told["measurements"]) == len(told["tightened"]) == 8
    nuts = [one for one in told["tightened"] if one["component"] == "wheel nut"]
    assert [(one["wheel"], one["set_to"], one["name"], one["confirmed"]["name"]) for one in nuts] == [
        ("front left", "79 lb-ft", "Ben", "Ana"), ("front right", "79 lb-ft", "Ben", "Ana"),
    ]  # fmt: skip
    assert [one["what"] for one in told["course"]] == ["begun", "paused", "resumed", "joined", "finished"]
