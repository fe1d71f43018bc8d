"""A whole rear drum job at two terminals, with a kill in the middle: the record on the disk says what they entered."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from sitting import Shop, Sitting

from benchbot.places import Home

ASKS, SETS, OVER = "what did you read?", "what did you set", "Every step is done"
FIGURES = {
    "REAR LEFT brake drum": "200.4 mm", "REAR RIGHT brake drum": "7.9 in", "REAR LEFT brake shoe": "4 mm",
    "REAR RIGHT brake shoe": "4.1 mm",
}  # fmt: skip
TOOL = "wrench 2"
_VALUE = re.compile(r"\b(\d+ lb-(?:ft|in))\b")


@pytest.fixture
def shop(demo_shop: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Shop]:
    folder = tmp_path / "home"
    folder.mkdir()
    shutil.copy(demo_shop.book, folder / "book.sqlite")
    monkeypatch.setenv("BENCHBOT_HOME", str(folder))
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    with ExitStack() as stack:
        yield Shop(Home(folder), stack)


def step(sitting: Sitting, shown: str, entered: list[str]) -> str:
    """All that the step on the screen asks for, and done; what is shown then."""
    buttons = dict(sitting.buttons)
    if "Measured" in buttons:
        text = sitting.press("Measured")
        while ASKS in text:
            line = next(one for one in text.splitlines() if ASKS in one)
            figure = next(figure for name, figure in FIGURES.items() if name in line)
            entered.append(figure)
            text = sitting.say(figure)
    if "Tightened" in buttons:
        text = sitting.press("Tightened")
        while SETS in text:
            # what was entered before stands above the page, so the last value is that of this fastener
            found = _VALUE.findall(text)
            setting = found[-1] if found else "12 N·m"
            entered.append(setting)
            text = sitting.say(f"{setting} {TOOL}")
    return sitting.say("done")


def walk(sitting: Sitting, shown: str, entered: list[str], until: str) -> None:
    for _ in range(40):
        if until in shown:
            return
        shown = step(sitting, shown, entered)
    raise AssertionError(f"{until!r} never came: {shown}")


def test_a_rear_drum_job_at_two_terminals_and_a_kill(shop: Shop) -> None:
    shop.at_terminal("Ana", "technician")
    shop.at_terminal("Ben", "technician")
    entered: list[str] = []
    ana = shop.sit("Ana")
    ana.say("/job 12 ondrel")
    ana.say("drum brake")
    assert "Job 1 is begun: Drum brake service, 2012 Brackwell Ondrel." in ana.press("Without a number")
    walk(ana, ana.press("To the step"), entered, "Measure the drum")
    ana.process.kill()
    ana.read()
    # it stood on the screen, and its buttons can still be pressed
    ana = shop.sit("Ana")
    shown = ana.say("where am i")
    assert "You are at step" in shown and "Measure the drum" in shown
    assert "rests" in ana.say("pause")
    ben = shop.sit("Ben")
    assert "paused by Ana" in ben.say("/job")
    walk(ben, ben.press("1"), entered, OVER)
    # a question in between is answered
    assert "79 lb-ft" in ben.say("lug nut torque")
    shown = ben.say("finish")
    while "1" in ben.buttons and "Open before" in shown:
        ben.press("1")
        ben.press("Say why")
        shown = ben.say("no value in the book, the lead tech gave it")
    shown = ben.press("Yes, finish")
    assert "Job 1 is finished." in shown
    files = [Path(one) for one in re.findall(r"^\[file: (.+)\]$", shown, re.MULTILINE)]
    assert {file.name for file in files} >= {"job-1.json", "job-1.pdf"}
    assert {file.parent for file in files} == {shop.home.folder / "papers"}
    told = json.loads(next(file for file in files if file.suffix == ".json").read_bytes())
    lines = sorted([*told["measurements"], *told["tightened"]], key=lambda one: one["entry"])
    assert [f"{one['value']} {one['unit']}" if "value" in one else one["set_to"] for one in lines] == entered
    assert {one["name"] for one in lines} == {"Ben"}
    assert {one["state"] for one in told["steps"]} == {"done"} and told["open_points"] == []
    assert all(one["judged"] == "good" for one in told["measurements"])
    assert [one["what"] for one in told["course"]] == ["begun", "paused", "resumed", "finished"]
