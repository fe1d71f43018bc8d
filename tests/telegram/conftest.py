"""Lets the tests of this folder import the modules beside them, and says how long the run of kills is."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--kills", type=int, default=12, help="how often test_kills.py kills the bot")
    parser.addoption("--questions", type=int, default=250, help="how much it is asked meanwhile")
