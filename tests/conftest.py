"""The demo book, published once for all tests, and a desk on it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from desk import NOW, TABLES, Desk, published

from benchbot.places import Home, demo_folder


@pytest.fixture(scope="session")
def demo_shop(tmp_path_factory: pytest.TempPathFactory) -> Home:
    """A home with the demo book; tests that write to its record do so in chats of their own."""
    return published(tmp_path_factory.mktemp("demo"), *(demo_folder() / name for name in TABLES))


@pytest.fixture(scope="session")
def _demo_desk(demo_shop: Home) -> Iterator[Desk]:
    desk = Desk(demo_shop)
    yield desk
    desk.conversation.close()


@pytest.fixture
def desk(_demo_desk: Desk) -> Desk:
    """A desk on the demo book, its clock at a fixed moment."""
    _demo_desk.clock.moment = NOW
    return _demo_desk


@pytest.fixture(scope="session")
def _sibling_desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    table = Path(__file__).with_name("lookup") / "siblings.csv"
    desk = Desk(published(tmp_path_factory.mktemp("siblings"), table))
    yield desk
    desk.conversation.close()


@pytest.fixture
def sibling_desk(_sibling_desk: Desk) -> Desk:
    """A desk on a small invented book of vehicles, bolts and places that are easily taken for one another."""
    _sibling_desk.clock.moment = NOW
    return _sibling_desk
