"""The rows that are checked and those they are checked against: the cells of the table as text, and their readings."""

from __future__ import annotations

import builtins
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Self

from benchbot.quantities.amounts import Value
from benchbot.quantities.reading import parse_value
from benchbot.specs.position import read_position
from benchbot.specs.properties import PROPERTIES
from benchbot.specs.scope import Scope, read_scope
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

VehicleKey = tuple[tuple[str, ...], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class HeldRow:
    """A checked row of the book: its id and the cells that a check looks at, named as the columns of the table.

    `strength_class` is the column `class`. The cells must have passed the check of the table.
    """

    spec: str
    make: str
    model: str
    year_from: str
    year_to: str
    component: str
    property: str
    value: str
    only_if: str = ""
    position: str = ""
    second_value: str = ""
    thread: str = ""
    strength_class: str = ""
    condition: str = ""

    @classmethod
    def of(cls, cells: Mapping[str, str], spec: str = "") -> Self:
        """The row of a table's cells by column name; other columns are left aside. spec: where no cell `id` tells it.

        KeyError when a required column is missing.
        """
        return cls(
            spec=spec or cells.get("id", ""),
            make=cells["make"],
            model=cells["model"],
            year_from=str(cells["year_from"]),
            year_to=str(cells["year_to"]),
            component=cells["component"],
            property=cells["property"],
            value=cells["value"],
            only_if=cells.get("only_if", ""),
            position=cells.get("position", ""),
            second_value=cells.get("second_value", ""),
            thread=cells.get("thread", ""),
            strength_class=cells.get("class", ""),
            condition=cells.get("condition", ""),
        )

    @builtins.property
    def vehicle(self) -> VehicleKey:
        return _words(self.make), _words(self.model)

    @builtins.property
    def years(self) -> tuple[int, int]:
        return int(self.year_from), int(self.year_to)

    @builtins.property
    def scope(self) -> Scope:
        return _scope(self.only_if)

    @builtins.property
    def places(self) -> frozenset[str]:
        """The words of the position; none when it does not apply."""
        return _places(self.position)

    def figure(self) -> Value:
        """The value, read by the kind of quantity of the property."""
        return _figure(self.property, self.value)


@dataclass(frozen=True, slots=True)
class RowToCheck(HeldRow):
    """The row that somebody wants in the book, its id "" while it has none.

    asked_years: first and last model year that was asked for. asked_only_if: what else was said of the vehicle, as
    `engine=1.6; drive=4WD`. None and "" where the row answers no question.
    """

    asked_years: tuple[int, int] | None = None
    asked_only_if: str = ""

    @builtins.property
    def asked_scope(self) -> Scope:
        return _scope(self.asked_only_if)


class Components:
    """Names of components as one vocabulary means them."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self._terms: Terms | None = None
        self._known: dict[str, str] = {}

    def name(self, text: str) -> str:
        """The canonical name; the plain words of one that the vocabulary does not hold (any more)."""
        if text in self.vocabulary.components:
            return text
        known = self._known.get(text)
        if known is None:
            known = self._known[text] = self._looked_up(text)
        return known

    def _looked_up(self, text: str) -> str:
        if self._terms is None:
            self._terms = Terms(self.vocabulary)
        try:
            return self._terms.component(text)
        except ValueError:
            # A row may be older than the vocabulary; it still is about the same part as one of the same words.
            return " ".join(name_words(text))


def spoken_vehicle(row: HeldRow) -> str:
    return f"{row.make} {row.model}"


@lru_cache(maxsize=8192)
def _words(name: str) -> tuple[str, ...]:
    return name_words(name)


@lru_cache(maxsize=8192)
def _scope(text: str) -> Scope:
    return read_scope(text)


@lru_cache(maxsize=1024)
def _places(text: str) -> frozenset[str]:
    return frozenset(read_position(text).split())


@lru_cache(maxsize=16384)
def _figure(name: str, text: str) -> Value:
    return parse_value(PROPERTIES[name], text)
