"""Invented spec tables, small and large, and an empty home to bring them into."""

from __future__ import annotations

import csv
import random
import sqlite3
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from benchbot.places import Home

HEADER = (
    "id", "make", "model", "year_from", "year_to", "only_if", "component", "position", "property", "value",
    "second_value", "thread", "class", "condition", "reuse", "order", "cautions", "source", "source_ref",
    "checked_by", "checked_on", "review_by", "status",
)  # fmt: skip

_STARTS = ("Br", "D", "Fl", "G", "Kr", "L", "M", "N", "Pl", "Qu", "St", "Tr", "V", "W", "Z")
_MIDDLES = ("a", "e", "i", "o", "u", "ai", "ou")
_ENDS = ("bent", "dax", "fol", "gurn", "lix", "mond", "nesk", "pril", "rott", "sund", "tave", "vond", "wick", "zorn")
_BOLTS = (
    "caliper bracket bolt", "caliper slide pin bolt", "bleeder screw", "brake hose banjo bolt", "axle nut",
    "stabilizer link nut", "wheel speed sensor bolt", "strut to knuckle bolt", "hub bearing bolt",
)  # fmt: skip


def fleet_rows(rows: int, seed: int = 1) -> Iterator[dict[str, str]]:
    """About 50 rows a model; each model in two spans of years, some parts split by engine."""
    choice = random.Random(seed)
    number = 0
    vehicle = 0
    while number < rows:
        make, model = _names(vehicle)
        vehicle += 1
        for first, last in ((2008, 2014), (2015, 2021)):
            for bolt in _BOLTS:
                for axle in ("front", "rear"):
                    split = choice.random() < 0.2
                    for only_if in ("engine=1.6", "engine=2.2T") if split else ("",):
                        for name, value in (
                            ("torque", f"{choice.randrange(8, 260)} N·m"),
                            ("socket", f"{choice.randrange(8, 36)} mm"),
                        ):
                            if name == "socket" and choice.random() < 0.6:
                                continue
                            number += 1
                            if number > rows:
                                return
                            yield {
                                "id": f"T{number:07d}",
                                "make": make,
                                "model": model,
                                "year_from": str(first),
                                "year_to": str(last),
                                "only_if": only_if,
                                "component": bolt,
                                "position": axle,
                                "property": name,
                                "value": value,
                                "thread": choice.choice(("M10x1.25", "M12x1.5", "M14x1.5", "M16x1.5")),
                                "reuse": choice.choice(("", "replace")),
                                "source": "Invented workshop sheet",
                                "source_ref": f"p. {choice.randrange(1, 900)}",
                                "checked_by": "bay lead",
                                "checked_on": "2026-02-03",
                                "status": "verified" if choice.random() < 0.98 else "draft",
                            }


def write_fleet(path: Path, rows: int, seed: int = 1) -> Path:
    """A spec table of invented vehicles, always the same for the same rows and seed."""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, HEADER, restval="")
        writer.writeheader()
        writer.writerows(fleet_rows(rows, seed))
    return path


def _names(vehicle: int) -> tuple[str, str]:
    words = [a + b + c for a in _STARTS for b in _MIDDLES for c in _ENDS]
    make, model = divmod(vehicle, 120)
    return words[make * 7 % len(words)], f"{words[(vehicle * 11 + make) % len(words)]} {model}"


GOOD_ROW = {
    "id": "A1",
    "make": "Drabent",
    "model": "Quilsund 3",
    "year_from": "2012",
    "year_to": "2016",
    "component": "caliper bracket bolt",
    "position": "front",
    "property": "torque",
    "value": "105 N·m",
    "source": "Invented workshop sheet",
    "source_ref": "p. 12",
    "checked_by": "bay lead",
    "checked_on": "2026-02-03",
    "status": "verified",
}

Write = Callable[..., Path]


@pytest.fixture
def now() -> datetime:
    return datetime(2026, 5, 4, 7, 30, tzinfo=UTC)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    folder = tmp_path / "home"
    folder.mkdir()
    return Home(folder)


@pytest.fixture
def table(tmp_path: Path) -> Write:
    """Writes a spec table: each row is the good row with an id of its own and the cells given."""

    def write(*changes: dict[str, str], name: str = "table.csv") -> Path:
        rows = [GOOD_ROW | {"id": f"A{number}"} | change for number, change in enumerate(changes, 1)]
        path = tmp_path / name
        with path.open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, HEADER, restval="")
            writer.writeheader()
            writer.writerows(rows)
        return path

    return write


@pytest.fixture
def fleet() -> Callable[[Path, int], Path]:
    return write_fleet


@pytest.fixture
def dump() -> Callable[[Path], list[str]]:
    """Every statement that makes a database what it is: two that dump alike hold the same."""

    def dumped(path: Path) -> list[str]:
        if not path.exists():
            return []
        connection = sqlite3.connect(path)
        try:
            return list(connection.iterdump())
        finally:
            connection.close()

    return dumped
