"""A shop with the small invented fleet, published once and copied for every test, whose people sit at terminals."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import ExitStack
from datetime import UTC, datetime
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from sitting import FLEET, Shop

from benchbot.curation.importing import import_table
from benchbot.following.follow import follow
from benchbot.following.publishing import publish
from benchbot.places import Home

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)


@pytest.fixture(scope="session")
def fleet_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    before = os.environ.pop("BENCHBOT_DATABASE_URL", None)
    home = Home(tmp_path_factory.mktemp("fleet"))
    import_table(home, FLEET, False, "test", NOW)
    publish(home, NOW)
    follow(home, NOW)
    if before is not None:
        os.environ["BENCHBOT_DATABASE_URL"] = before
    return home.folder


@pytest.fixture
def empty_shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Shop]:
    """A home with nothing in it; not even its folder is there."""
    folder = tmp_path / "home"
    monkeypatch.setenv("BENCHBOT_HOME", str(folder))
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    with ExitStack() as stack:
        yield Shop(Home(folder), stack)


@pytest.fixture
def shop(empty_shop: Shop, fleet_home: Path) -> Shop:
    shutil.copytree(fleet_home, empty_shop.home.folder)
    return empty_shop


@pytest.fixture
def demo_terminals(empty_shop: Shop, demo_shop: Home) -> Shop:
    """A shop with the demo book, and nobody in it."""
    empty_shop.home.folder.mkdir()
    shutil.copy(demo_shop.book, empty_shop.home.book)
    return empty_shop
