"""The command line of the bot: its settings, its help, and what it says when a part is missing."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
from importlib.machinery import ModuleSpec
from pathlib import Path

import pytest
from parts import TOKEN
from sqlalchemy import text
from sqlalchemy.dialects import postgresql

from benchbot.__main__ import main
from benchbot.channels.telegram import health
from benchbot.channels.telegram.settings import Settings
from benchbot.commands import telegram


@pytest.fixture(autouse=True)
def _nothing_set(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in ("TELEGRAM_TOKEN", "TELEGRAM_TOKEN_FILE", "TELEGRAM_API_URL", "DATABASE_URL"):
        monkeypatch.delenv(f"BENCHBOT_{name}", raising=False)
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path))


def test_the_settings_of_the_command_line_arrive(monkeypatch: pytest.MonkeyPatch) -> None:
    used: list[tuple[Settings, bool]] = []
    monkeypatch.setenv("BENCHBOT_TELEGRAM_TOKEN", TOKEN)
    monkeypatch.setenv("BENCHBOT_TELEGRAM_API_URL", "http://localhost:8081/")
    monkeypatch.setattr(telegram, "_serve", lambda settings, log_json: used.append((settings, log_json)) or 75)
    assert main(["telegram"]) == 75
    words = ["--polling-timeout", "7", "--give-up-after", "60", "--sends-per-second", "0", "--log-json"]
    assert main(["telegram", *words, "--sends-per-minute-in-a-group", "5"]) == 75
    assert used == [
        (Settings(TOKEN, "http://localhost:8081", 50, 30.0, 20.0, 180.0), False),
        (Settings(TOKEN, "http://localhost:8081", 7, 0.0, 5.0, 60.0), True),
    ]


@pytest.mark.parametrize("missing", ["telegram", "aiolimiter", "segno", "PIL"])
def test_a_missing_part_is_named_with_what_to_install(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], missing: str
) -> None:
    def find(name: str) -> ModuleSpec | None:
        return None if name == missing else importlib.util.find_spec(name)

    monkeypatch.setattr(telegram, "find_spec", find)
    monkeypatch.setenv("BENCHBOT_TELEGRAM_TOKEN", TOKEN)
    assert main(["telegram"]) == 1
    assert "install benchbot[telegram]" in capsys.readouterr().err


def test_without_a_token_it_says_where_to_put_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["telegram"]) == 1
    assert "BENCHBOT_TELEGRAM_TOKEN" in capsys.readouterr().err


def test_a_wrong_token_is_not_shown(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setenv("BENCHBOT_TELEGRAM_TOKEN", TOKEN[:-8])
    assert main(["telegram"]) == 1
    assert TOKEN[:-8] not in "".join(capsys.readouterr())


@pytest.mark.parametrize(
    "words",
    [
        ["--give-up-after", "50"],
        ["--polling-timeout", "200"],
        ["--polling-timeout", "x"],
        ["--sends-per-second", "-1"],
        ["--sends-per-second", "inf"],
        ["--give-up-after", "nan"],
    ],
)
def test_what_cannot_work_is_wrong_usage(monkeypatch: pytest.MonkeyPatch, words: list[str]) -> None:
    monkeypatch.setenv("BENCHBOT_TELEGRAM_TOKEN", TOKEN)
    with pytest.raises(SystemExit) as ended:
        main(["telegram", *words])
    assert ended.value.code == 2


def test_a_check_says_all_that_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["telegram", "--check"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 3
    assert all(line.startswith("not ok  ") for line in lines)
    assert main(["telegram", "--check", "--json"]) == 1
    plain = json.loads(capsys.readouterr().out)
    assert plain["ok"] is False
    assert [check["name"] for check in plain["checks"]] == ["settings", "database", "book"]


def test_naming_the_command_loads_nothing_heavy() -> None:
    code = "import sys, benchbot.commands.telegram; print({'telegram', 'httpx', 'PIL', 'asyncio'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"


@pytest.mark.parametrize("statement", [health.WAITING, health.UNSURE])
def test_the_statements_of_the_check_are_understood_by_both_databases(statement: str) -> None:
    """SQLite runs them in the tests of the check; for PostgreSQL the values must be named ones and nothing else."""
    compiled = text(statement).compile(dialect=postgresql.dialect())
    assert compiled.params.keys() == {"bot"}
