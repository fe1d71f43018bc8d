"""A shop with a small invented fleet, published once and copied for every test."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.places import Home

FLEET = Path(__file__).with_name("fleet.csv")
NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)

Run = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="session")
def published(tmp_path_factory: pytest.TempPathFactory) -> Path:
    before = os.environ.pop("BENCHBOT_DATABASE_URL", None)
    folder = tmp_path_factory.mktemp("shop")
    import_table(Home(folder), FLEET, False, "test", NOW)
    publish(Home(folder), NOW)
    if before is not None:
        os.environ["BENCHBOT_DATABASE_URL"] = before
    return folder


@pytest.fixture
def shop(published: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    folder = tmp_path / "home"
    shutil.copytree(published, folder)
    monkeypatch.setenv("BENCHBOT_HOME", str(folder))
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    return Home(folder)


@pytest.fixture
def benchbot(monkeypatch: pytest.MonkeyPatch) -> Run:
    """Runs the command line in a process of its own, in whatever home the test has set."""
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)

    def run(*words: str, typed: str = "") -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "benchbot", *words]
        return subprocess.run(command, input=typed, capture_output=True, text=True, encoding="utf-8", check=False)

    return run
