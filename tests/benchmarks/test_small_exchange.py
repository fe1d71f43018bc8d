"""The smallest exchange of books, for its counts alone: no time passes or fails."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

_SCRIPT = Path(__file__).with_name("exchange.py")


def test_a_small_book_goes_there_whole(pytestconfig: pytest.Config, tmp_path: Path) -> None:
    if pytestconfig.getoption("benchmarks", default=None) != "small":
        pytest.skip("runs with --benchmarks=small")
    told = tmp_path / "figures.json"
    command = [sys.executable, str(_SCRIPT), "--rows", "1000", "--json", str(told)]
    subprocess.run(command, check=True, capture_output=True)
    size = json.loads(told.read_text(encoding="utf-8"))[0]
    assert {step: size[step]["count"] for step in size if step != "rows"} == dict.fromkeys(
        ("table", "import csv", "export csv", "export db", "import db", "import db again"), 1_000
    )
