"""The shop of these tests, on a home of its own."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "desk"))
sys.path.insert(0, str(Path(__file__).parent))

from bay import BOT, Bay
from curators_shop import FRONT, Shop, bring
from desk import NOW

from benchbot.following.follow import follow
from benchbot.following.publishing import publish
from benchbot.people import known_bot
from benchbot.places import Home


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    return Home(tmp_path)


@pytest.fixture
def shop(home: Home) -> Iterator[Shop]:
    """Its book holds the front bolt only."""
    bring(home, 0, FRONT)
    publish(home, NOW)
    known_bot.save(home, BOT.number, BOT.username)
    bay = Bay(home)
    follow(home, NOW)
    yield Shop(bay, bay.location("Main shop"), bay.location("South shop"))
    bay.close()
