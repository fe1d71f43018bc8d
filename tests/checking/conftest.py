"""Rows of invented vehicles to be checked, on the shipped vocabulary."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from benchbot.checking import Found, HeldRow, RowToCheck, check_row
from benchbot.places import knowledge_folder
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary

TODAY = date(2026, 6, 1)

Checked = Callable[..., list[Found]]
Held = Callable[..., HeldRow]


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return load_vocabulary(knowledge_folder())


@pytest.fixture(scope="session")
def row() -> Callable[..., RowToCheck]:
    """A row to check: a front bracket bolt of 105 N·m on an invented vehicle, with any cell changed."""
    plain = RowToCheck(
        spec="", make="Tolvane", model="Perrin", year_from="2016", year_to="2016",
        component="caliper bracket bolt", property="torque", value="105 N·m", position="front",
    )  # fmt: skip
    return lambda **changed: replace(plain, **changed)


@pytest.fixture(scope="session")
def held() -> Held:
    """A checked row of the book for the same place, with any cell changed."""
    plain = HeldRow(
        spec="K1", make="Tolvane", model="Perrin", year_from="2014", year_to="2019",
        component="caliper bracket bolt", property="torque", value="105 N·m", position="front",
    )  # fmt: skip
    return lambda **changed: replace(plain, **changed)


@pytest.fixture(scope="session")
def checked(vocabulary: Vocabulary, row: Callable[..., RowToCheck]) -> Checked:
    """What is found of one concern on a row with these cells, beside the held rows."""

    def found(concern: str, held: tuple[HeldRow, ...] = (), **cells: Any) -> list[Found]:
        return [one for one in check_row(row(**cells), held, vocabulary, TODAY) if one.concern == concern]

    return found
