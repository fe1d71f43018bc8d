"""Killed again and again while people ask, the bot answers everything, and loses and doubles nothing on record.

    pytest tests/telegram/test_kills.py -s --kills=100 --questions=2000

runs it as a whole and prints its figures.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from kill_checks import checked
from kill_run import Plan, whole_run

from benchbot.places import Home

KILLS, QUESTIONS = 12, 250


def _home(shop: Home, folder: Path) -> Home:
    """A home with the book of the demo and a record of its own."""
    folder.mkdir()
    shutil.copy(shop.book, folder / "book.sqlite")
    return Home(folder)


def test_kills_under_a_stream_of_questions(
    demo_shop: Home, tmp_path: Path, pytestconfig: pytest.Config, monkeypatch: pytest.MonkeyPatch
) -> None:
    # What is read and counted here lies in the homes of this test.
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    kills = pytestconfig.getoption("kills", default=KILLS)
    questions = pytestconfig.getoption("questions", default=QUESTIONS)
    plan = Plan(kills, questions, people=min(120, 20 + questions // 8), groups=4)
    home, aside = _home(demo_shop, tmp_path / "home"), _home(demo_shop, tmp_path / "aside")
    with whole_run(plan, home, aside, tmp_path) as run:
        figures = checked(run)
    print(f"\n{figures}")
    assert len(run.kills) == kills
