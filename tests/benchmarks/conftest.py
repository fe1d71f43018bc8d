"""The benchmarks run by hand; `--benchmarks=small` runs the smallest of them to see that they still work."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--benchmarks", choices=("small",), default=None, help="run the smallest benchmark as a test")
