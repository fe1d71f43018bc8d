"""The whole day of a curator's loop, at terminals and over HTTP, and again with its processes killed."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import at_terminals as terminals
import on_phones as phones
import pytest
from moved import POINTS
from playing import Kills, play
from script import MORNING
from shop import Shop
from stage import Stage, fresh_shop
from standin.client import StandIn
from summary import differences

from benchbot.curation.importing import import_table
from benchbot.following.follow import follow
from benchbot.following.publishing import publish
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records.record import open_record

BOOK = Path(__file__).with_name("book.csv")
pytestmark = pytest.mark.skipif(os.name == "nt", reason="there is no SIGKILL")


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> Path:
    before = os.environ.pop("BENCHBOT_DATABASE_URL", None)
    home = Home(tmp_path_factory.mktemp("published"))
    import_table(home, BOOK, False, "test", MORNING)
    publish(home, MORNING)
    follow(home, MORNING)
    if before is not None:
        os.environ["BENCHBOT_DATABASE_URL"] = before
    return home.folder


@contextmanager
def at_terminals(published: Path, folder: Path) -> Iterator[Stage]:
    home = fresh_shop(published, folder)
    with open_record(f"sqlite:///{home.record}") as record:
        stage = terminals.Terminals(folder, home, record)
        stage.move_clock(MORNING)
        stage.furnish(terminals.FOUNDER)
        try:
            yield stage
        finally:
            stage.close()


@contextmanager
def on_phones(published: Path, folder: Path) -> Iterator[Stage]:
    home = fresh_shop(published, folder)
    with StandIn.start() as server, open_record(f"sqlite:///{home.record}") as record:
        shop = Shop(folder, home, server, record, People(record))
        stage = phones.Phones(folder, home, record, shop=shop)
        try:
            stage.furnish(phones.FOUNDER)
            stage.begin()
            yield stage
            assert shop.faults() == []
        finally:
            shop.close()


STAGES = {"at terminals": at_terminals, "on phones": on_phones}
# By how often the shop is killed: whoever wants every gap between two steps and every point says --day-kills=all.
RUNS = {
    "some": (Kills(between=32, inside=16, publishing=("told and not on record", "book on record")),),
    "all": (Kills(between=1), *(Kills(inside=1, first=first) for first in range(len(POINTS))), Kills(1, 1)),
}


@pytest.mark.parametrize("how", STAGES)
def test_the_day_and_that_of_a_shop_that_is_killed(
    how: str, published: Path, tmp_path: Path, pytestconfig: pytest.Config
) -> None:
    left, _ = _played(how, published, tmp_path / "whole", Kills())
    assert [len(left[table]) for table in ("gaps", "meanings", "kept", "recalls", "notices")] == [10, 6, 10, 1, 3]
    assert {state for _, state in left["sendings"]} == {"sent"}
    for number, kills in enumerate(RUNS[pytestconfig.getoption("day_kills", default="some")]):
        found, stage = _played(how, published, tmp_path / str(number), kills)
        inside = [death for death in stage.deaths if death != "between"]
        print(f"\n{how}: {len(stage.deaths)} kills, {len(inside)} of them inside a step: {Counter(inside)}")
        # A page that was out and not noted is sent anew, and the copy that was first turns no more.
        copies = stage.copies * sum(stage.deaths.count(point) for point in ("message out", "message noted"))
        wrong = differences(left, found, copies)
        assert not wrong, "\n".join(wrong)
        assert len(stage.deaths) > 5 and (inside or not kills.inside)


def _played(how: str, published: Path, folder: Path, kills: Kills) -> tuple[dict[str, Any], Stage]:
    """What the day leaves on record and on the screens, and the stage, closed, with its deaths."""
    folder.mkdir()
    with STAGES[how](published, folder) as stage:
        play(stage, kills)
        assert kills.any or stage.deaths == []
        return stage.summary(), stage
