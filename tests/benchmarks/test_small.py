"""The smallest benchmark, for its counts alone: no time passes or fails."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

_SCRIPT = Path(__file__).with_name("lookup.py")


def test_a_small_book_shows_no_wrong_figure(pytestconfig: pytest.Config, tmp_path: Path) -> None:
    if pytestconfig.getoption("benchmarks", default=None) != "small":
        pytest.skip("runs with --benchmarks=small")
    told = tmp_path / "figures.json"
    words = ["--rows", "1000", "--questions", "120", "--peers", "--cold-runs", "1", "--json", str(told)]
    subprocess.run([sys.executable, str(_SCRIPT), *words], check=True, capture_output=True)
    size = json.loads(told.read_text(encoding="utf-8"))["sizes"][0]
    counts = size["book"]["counts"]
    assert size["publish"]["rows"] == 1_000
    assert counts["correct"] == {"right": 30}
    assert sum(counts["answerable"].values()) == 90
    assert "wrong" not in counts["answerable"]
    assert counts["not answerable"] == {"right": 30}
    assert set(size["peers"]) == {"rapidfuzz", "fts5", "bm25s"}
