"""Lets the tests of this folder import the modules beside them and those of the messenger's tests."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parent.parent / "telegram")]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--day-kills", default="some", choices=("some", "all"), help="how often the day's shop is killed")
