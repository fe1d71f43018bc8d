"""benchbot ask, typed at the command line of a shop with an invented fleet."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from benchbot.__main__ import main
from benchbot.places import Home

Run = Callable[..., "subprocess.CompletedProcess[str]"]
HEAVY = {
    "pint", "pydantic", "sqlalchemy", "alembic", "sqlite_utils", "yaml", "prompt_toolkit", "rich", "telegram",
}  # fmt: skip
BRACKET = "16 ondrel front caliper bracket bolt torque"


def asked(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["ask", *words]) == 0
    return capsys.readouterr().out


def test_the_first_line_is_the_value(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    lines = asked(capsys, BRACKET).splitlines()
    assert lines[0] == "fit new, dry: 88 lb-ft = 119 N·m (converted)"
    assert lines[1] == "2016 Brackwell Ondrel, FRONT caliper bracket bolt, torque"
    assert "Source: Invented sheet 14, p. 1; checked by first checker on 2026-01-05." in lines
    assert "current service information" in lines[-1]


def test_the_question_needs_no_quotes(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    assert asked(capsys, *BRACKET.split()) == asked(capsys, BRACKET)


def test_more_and_why(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    text = asked(capsys, "--more", "--why", BRACKET)
    assert "1056 lb-in" in text
    assert "Row F0001, revision 1, holds for 2014-2020." in text
    assert "“16”: model year 2016" in text


def test_the_unit_asked_for_comes_first(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    text = asked(capsys, "--unit", "inch pounds", BRACKET)
    assert text.startswith("fit new, dry: 88 lb-ft = 1056 lb-in, 119 N·m (converted)")


def test_a_unit_changes_nothing_but_an_answer(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    assert asked(capsys, "--unit", "Nm", "16 ondrel front axle nut") == asked(capsys, "16 ondrel front axle nut")


def test_a_named_chat_goes_on(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    first = asked(capsys, "--chat", "bay 3", "16 ondrel axle nut front torque")
    assert first.splitlines()[0] == "Which engine?"
    second = asked(capsys, "--chat", "bay 3", "2")
    assert second.splitlines()[0] == "fit new: 90 N·m + 60 deg = 66 lb-ft + 60 deg (converted)"
    assert "current service information" in first
    assert "current service information" not in second


def test_a_question_without_a_chat_stands_alone(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    asked(capsys, BRACKET)
    assert json.loads(asked(capsys, "--json", "socket?"))["specs"] == []


def test_json_is_the_contract(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    plain = json.loads(asked(capsys, "--json", BRACKET))
    text = plain.pop("text")
    assert text.startswith("fit new, dry: 88 lb-ft")
    assert plain == {
        "outcome": "answer",
        "specs": ["F0001"],
        "choices": [],
        "gap": None,
        "reading": {
            "make": "Brackwell",
            "model": "Ondrel",
            "year": 2016,
            "only_if": {},
            "component": "caliper bracket bolt",
            "position": "front",
            "property": "torque",
        },
    }


def test_json_with_more_and_why(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    plain = json.loads(asked(capsys, "--json", "--more", "--why", BRACKET))
    assert "1056 lb-in" in plain["more"]
    assert plain["why"].startswith("How I read that:")


def test_a_gap_is_no_failure(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    text = asked(capsys, "16 ondrel rear axle nut torque 1.6")
    assert text.startswith("Not in our book: ")
    assert "Logged as no. 1 for the curator. I will not estimate." in text


def test_half_characters_do_no_harm(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    assert asked(capsys, "thanks \udcff\ud800")


@pytest.mark.parametrize(
    "words",
    [
        ["ask"],
        ["ask", "   "],
        ["ask", "--unit", "furlong", BRACKET],
        ["ask", "--unit", "lbs", BRACKET],
        ["ask", "--batch", "-", BRACKET],
        ["ask", "--batch", "-", "--more"],
        ["ask", "--no-such-flag", BRACKET],
        ["no-such-command"],
        [],
    ],
)
def test_wrong_usage(shop: Home, capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(words)
    assert left.value.code == 2
    assert "usage: benchbot" in capsys.readouterr().err


def test_no_book_yet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path))
    assert main(["ask", BRACKET]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert "there is no book yet" in told.err
    assert "benchbot specs" in told.err


def test_version_and_help(capsys: pytest.CaptureFixture[str]) -> None:
    for words, start in ((["--version"], "benchbot "), (["--help"], "usage: benchbot"), (["ask", "-h"], "usage: ")):
        with pytest.raises(SystemExit) as left:
            main(words)
        assert left.value.code == 0
        assert capsys.readouterr().out.startswith(start)


@pytest.mark.parametrize("question", [BRACKET, "16 ondrel front axle nut", "16 ondrel rear axle nut"])
def test_asking_loads_nothing_heavy(shop: Home, question: str) -> None:
    code = (
        "import sys; from benchbot.__main__ import main; "
        f"status = main(['ask', {question!r}]); print(sorted(set(sys.modules) & {HEAVY!r}), status, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[] 0"


def test_output_is_utf8_whatever_the_platform_says(shop: Home, benchbot: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONIOENCODING", "ascii")
    assert "119 N·m" in benchbot("ask", BRACKET).stdout
