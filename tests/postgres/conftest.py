"""A throw-away server for all tests of this folder; each gets a record of its own on it."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "desk"))
sys.path.insert(0, str(Path(__file__).parent.parent / "following"))
sys.path.insert(0, str(Path(__file__).parent.parent / "jobs"))
sys.path.insert(0, str(Path(__file__).parent))

from bay import BOT, Bay
from curators_shop import FRONT, Shop, bring
from desk import NOW
from throwaway import Server, throwaway_server

from benchbot.following.follow import follow
from benchbot.following.publishing import publish
from benchbot.people import known_bot
from benchbot.places import Home
from benchbot.records.record import Record, open_record


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    with throwaway_server() as running:
        yield running


@pytest.fixture(autouse=True)
def _dropped(server: Server) -> Iterator[None]:
    yield
    server.drop()


@pytest.fixture(scope="session")
def begun(server: Server) -> str:
    """The name of a database with an empty record, to make others from."""
    server.run("CREATE DATABASE begun")
    open_record(server.url("begun")).close()
    return "begun"


@pytest.fixture
def url(server: Server, begun: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """An empty record, and the setting that names it to every home."""
    made = server.database(begun)
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", made)
    return made


@pytest.fixture
def record(url: str) -> Iterator[Record]:
    with open_record(url) as opened:
        yield opened


@pytest.fixture
def demo_home(url: str, demo_shop: Home, tmp_path: Path) -> Home:
    """With the demo book, and the server's record."""
    shutil.copy(demo_shop.book, tmp_path / "book.sqlite")
    return Home(tmp_path)


@pytest.fixture(scope="session")
def stocked(server: Server, begun: str, tmp_path_factory: pytest.TempPathFactory) -> Home:
    """The curator's small shop, its record in the database `stocked`: its book holds the front bolt only."""
    home = Home(tmp_path_factory.mktemp("stocked"))
    server.run(f"CREATE DATABASE stocked TEMPLATE {begun}")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BENCHBOT_DATABASE_URL", server.url("stocked"))
        bring(home, 0, FRONT)
        publish(home, NOW)
        known_bot.save(home, BOT.number, BOT.username)
        follow(home, NOW)
    return home


@pytest.fixture
def shop(server: Server, stocked: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Shop]:
    home = Home(tmp_path / "shop")
    shutil.copytree(stocked.folder, home.folder)
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", server.database("stocked"))
    bay = Bay(home)
    yield Shop(bay, bay.location("Main shop"), bay.location("South shop"))
    bay.close()
    assert not home.record.exists(), "nothing of the record went elsewhere"
