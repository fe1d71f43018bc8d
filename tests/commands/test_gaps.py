"""The command `benchbot gaps`: listed, shown, set from state to state, written as a table, filled by the curator."""

from __future__ import annotations

import argparse
import csv
import json
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from benchbot.commands import gaps as command
from benchbot.conversation.conversation import Conversation
from benchbot.places import Home

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)
Run = Callable[..., int]


@pytest.fixture
def run(shop: Home) -> Run:
    """The command in a shop where three things were asked for in vain."""
    with Conversation.open(shop, lambda: NOW) as talk:
        for person in ("terminal ana", "terminal ben"):
            talk.say(person, person, "2016 ondrel head bolts")
        talk.say("c", "terminal ana", "2016 ondrel zorvan clip bolt torque")
        talk.say("d", "terminal ana", "2016 trelmak wheel nut torque")
    parser = argparse.ArgumentParser(prog="benchbot")
    command.add_parser(parser.add_subparsers(required=True))

    def ran(*words: object) -> int:
        return command.run(parser.parse_args(["gaps", *map(str, words)]), NOW)

    return ran


def told(capsys: pytest.CaptureFixture[str]) -> Any:
    return json.loads(capsys.readouterr().out)


def test_the_list_says_what_is_missing_and_who_waits(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list") == 0
    first, *others = capsys.readouterr().out.splitlines()
    assert "2016 Brackwell Ondrel, cylinder head bolt, torque: 2 wait, asked twice, no location 2, last" in first
    assert any("what is “zorvan clip bolt”?" in line for line in others)
    assert any("which vehicle is “trelmak”?" in line for line in others)
    assert run("list", "--most", 1) == 0
    assert capsys.readouterr().out.splitlines()[1].startswith("and 2 more")


def test_the_list_for_programs(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list", "--json") == 0
    first, *_ = told(capsys)
    assert (first["kind"], first["state"], first["people"], first["asks"]) == ("row", "open", 2, 2)
    assert (first["subject"]["years"], first["subject"]["only_if"]) == ([2016], {})
    assert first["locations"] == [{"location": None, "asks": 2}]


def test_one_gap_with_its_questions_and_what_lies_near(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("show", 1) == 0
    page = capsys.readouterr().out
    assert "“2016 ondrel head bolts”" in page
    assert "terminal ben, no location" in page
    assert "read as: 2016: year 2016; ondrel: vehicle ondrel" in page
    assert "component not held" in page
    assert run("show", 1, "--json") == 0
    assert [one["person"] for one in told(capsys)["questions"]] == ["terminal ben", "terminal ana"]


def test_states_are_set_with_their_reasons(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("wait", 1, "the", "sheet", "--by", "Ana") == 0
    assert capsys.readouterr().out == "gap 1 is waiting: the sheet\n"
    assert run("set-aside", 2, "not ours", "--json") == 0
    assert told(capsys)["why"] == "not ours"
    assert run("list", "--json") == 0
    assert sorted(one["state"] for one in told(capsys)) == ["open", "waiting"]
    assert run("list", "--state", "set aside", "--json") == 0
    assert [one["gap"] for one in told(capsys)] == [2]
    assert run("reopen", 1, "--by", "Ana") == 0
    capsys.readouterr()
    assert run("show", 1, "--json") == 0
    history = [(one["state"], one["author"]) for one in told(capsys)["history"]]
    assert history == [("waiting", "terminal ana"), ("open", "terminal ana")]


def test_a_blank_reason_or_an_unknown_gap_is_told(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("set-aside", 1, " ") == 1
    assert "say why it is set aside" in capsys.readouterr().err
    assert run("wait", 99, "a sheet") == 1
    assert "there is no gap 99" in capsys.readouterr().err
    assert run("show", 99) == 1


def test_the_missing_rows_as_a_table(run: Run, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "gaps.csv"
    assert run("export", file) == 0
    said = capsys.readouterr().out
    assert f"benchbot specs import {file}" in said
    assert "left out: gap 2: nobody knows what “zorvan clip bolt” is" in said
    with file.open(encoding="utf-8", newline="") as opened:
        assert [row["component"] for row in csv.DictReader(opened)] == ["cylinder head bolt"]
    assert run("export", file, "--json") == 0
    assert told(capsys)["rows"] == 1
    assert run("export", tmp_path / "gaps.txt") == 1
    assert "ends in .csv" in capsys.readouterr().err


def test_filling_is_handed_on(run: Run, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    given: list[Any] = []

    def fill(*words: Any) -> tuple[list[str], int]:
        given.append(words[1:5])
        return ["filled"], 0

    module = ModuleType("benchbot.curation.filling")
    module.fill_from_command = fill  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "benchbot.curation.filling", module)
    assert run("fill", 1, "--set", "value=105 N·m", "--set", "only_if=engine=1.6", "--by", "Ana") == 0
    assert given == [(1, {"value": "105 N·m", "only_if": "engine=1.6"}, "terminal ana", NOW)]
    assert capsys.readouterr().out == "filled\n"
    assert run("fill", 1, "--set", "value") == 1
    assert "write FIELD=VALUE" in capsys.readouterr().err


def test_the_command_is_known(benchbot: Callable[..., Any], shop: Home) -> None:
    done = benchbot("gaps", "list")
    assert (done.returncode, done.stdout) == (0, "no gap is open or being filled or waiting\n")
