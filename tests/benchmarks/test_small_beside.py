"""The smallest run of what is answered beside the book's figures, for its kinds alone: no time passes or fails."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest


def test_each_kind_is_timed(pytestconfig: pytest.Config) -> None:
    if pytestconfig.getoption("benchmarks", default=None) != "small":
        pytest.skip("runs with --benchmarks=small")
    words = [sys.executable, str(Path(__file__).with_name("beside.py")), "--rounds", "1"]
    done = subprocess.run(words, check=True, capture_output=True, text=True)
    told = json.loads(done.stdout)
    assert list(told) == ["sum", "verdict", "step", "job in hand"]
    assert all(0 < one["p50"] <= one["p99"] for one in told.values())
