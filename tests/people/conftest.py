"""A fresh shop record, its register of people, and a fixed moment."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.records.record import Record, open_record

OWNER = "telegram 11"


@pytest.fixture
def now() -> datetime:
    return datetime(2026, 3, 1, 8, 0, tzinfo=UTC)


@pytest.fixture(scope="session")
def _empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record without anything in it, made once: applying the migrations takes longer than most tests."""
    path = tmp_path_factory.mktemp("empty") / "record.sqlite"
    open_record(f"sqlite:///{path}").close()
    return path


@pytest.fixture
def path(_empty: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(_empty, tmp_path))


@pytest.fixture
def record(path: Path) -> Iterator[Record]:
    with open_record(f"sqlite:///{path}") as opened:
        yield opened


@pytest.fixture
def people(record: Record) -> People:
    return People(record)


@pytest.fixture
def shop(people: People, now: datetime) -> Location:
    """A location with one owner, telegram 11."""
    made = people.add_location("Main shop", OWNER, now)
    assert isinstance(made, Location)
    return made
