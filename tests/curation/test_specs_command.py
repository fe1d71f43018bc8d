"""The command `benchbot specs`: what it prints, and its exit codes."""

from __future__ import annotations

import argparse
import subprocess
import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from benchbot.commands import specs
from benchbot.places import Home


@pytest.fixture
def run(home: Home, monkeypatch: pytest.MonkeyPatch, now: datetime) -> Callable[..., int]:
    monkeypatch.setenv("BENCHBOT_HOME", str(home.folder))
    parser = argparse.ArgumentParser(prog="benchbot")
    specs.add_parser(parser.add_subparsers(required=True))

    def ran(*words: object) -> int:
        args = parser.parse_args(["specs", *map(str, words)])
        return specs.run(args, now)

    return ran


def test_import_publish_list_show_export(
    run: Callable[..., int], table: Callable[..., Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = table({}, {"position": "rear", "status": "draft"})
    assert run("import", path, "--check") == 0
    assert run("import", path, "--publish", "--by", "lead") == 0
    assert run("publish") == 0
    assert run("list") == 0
    assert run("show", "A1") == 0
    assert run("export", tmp_path / "out.csv") == 0
    out, err = capsys.readouterr()
    assert err == ""
    lines = out.splitlines()
    assert lines[0] == (
        "specs: 2 rows without a fault; 2 would be new, 0 would be changed, 0 unchanged; nothing was written"
    )
    assert lines[1] == "specs: 2 rows without a fault; 2 new, 0 changed, 0 unchanged"
    assert lines[2].startswith("book 1 published: 1 verified specs, digest ")
    assert lines[3].startswith("book 1 is the newest already: 1 verified specs")
    assert lines[4] == "Drabent Quilsund 3 2012-2016: 1 verified, 1 draft, 0 withdrawn"
    assert lines[5] == "A1 revision 1, 2026-05-04T07:30 by lead (import of table.csv)"
    assert "  value: 105 N·m" in lines
    assert lines[-1] == f"2 specs written to {tmp_path / 'out.csv'}"


def test_notes_are_printed(
    run: Callable[..., int], table: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("import", table({}, {}), "--check") == 0
    assert capsys.readouterr().out.startswith("note: A2 and A1 (line 2) state the same value")


def test_problems_are_told_and_end_with_1(
    run: Callable[..., int], table: Callable[..., Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("list") == 1
    assert run("show", "A1") == 1
    assert run("publish") == 1
    assert run("export", tmp_path / "out.csv") == 1
    assert run("import", tmp_path / "gone.csv") == 1
    assert run("import", table({"value": "105"}, {"year_to": "x"}), "--publish") == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "no specs on record yet" in err
    assert "no spec 'A1' on record" in err
    assert "there are no specs to publish" in err
    assert "table.csv: 2 faults" in err
    assert "  line 3, year_to: 'x' is no model year. write four digits, 1900 to 2100" in err


@pytest.mark.parametrize("words", [[], ["import"], ["show"], ["paint"], ["import", "a.csv", "--maybe"]], ids=str)
def test_wrong_usage_ends_with_2(run: Callable[..., int], words: list[str]) -> None:
    with pytest.raises(SystemExit) as end:
        run(*words)
    assert end.value.code == 2


def test_naming_the_command_stays_light() -> None:
    code = """
import argparse, sys
from benchbot.commands import specs
specs.add_parser(argparse.ArgumentParser().add_subparsers())
print(sorted({"sqlalchemy", "alembic", "pydantic", "pint", "sqlite_utils", "sqlite3"} & set(sys.modules)))
"""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
