"""A short load on both bots, for its counts alone: no time passes or fails."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

_SCRIPT = Path(__file__).with_name("phones.py")


def test_a_small_load_is_answered(pytestconfig: pytest.Config, tmp_path: Path) -> None:
    if pytestconfig.getoption("benchmarks", default=None) != "small":
        pytest.skip("runs with --benchmarks=small")
    told = tmp_path / "figures.json"
    words = ["--seconds", "3", "--rates", "20", "--json", str(told)]
    subprocess.run([sys.executable, str(_SCRIPT), *words], check=True, capture_output=True)
    runs = json.loads(told.read_text(encoding="utf-8"))["runs"]
    assert [run["bot"] for run in runs] == ["benchbot", "echo"]
    assert all(run["answered"] and run["asked"] > 20 for run in runs)
    # The same text has to come back from both, or the one has less to do.
    assert abs(runs[0]["text_size"] - runs[1]["text_size"]) <= 1
