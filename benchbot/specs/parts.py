"""The parts of spec rows, each distinct one checked once and then known by number."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel, ValidationError

from benchbot.specs.figure import sameness
from benchbot.specs.position import read_position
from benchbot.specs.properties import PROPERTIES
from benchbot.specs.row import (
    CheckedPart,
    ComponentPart,
    FigurePart,
    HandlingPart,
    PositionPart,
    ScopePart,
    VehiclePart,
    YearsPart,
    faults_in,
)
from benchbot.specs.scope import Scope
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words

Told = tuple[str, str, str]
NameKey = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """A checked part: its cells as they go on record, its numbers, and what is wrong with it."""

    cells: tuple[Any, ...]
    number: int = 0
    second: int = 0
    faults: tuple[Told, ...] = ()
    doubt: str = ""


class Known(dict[Any, Part]):
    """Parts by their raw cells; one not seen yet is checked on the way."""

    def __init__(self, check: Callable[[Any], Part]) -> None:
        super().__init__()
        self._check = check

    def __missing__(self, raw: Any) -> Part:
        try:
            part = self._check(raw)
        except ValidationError as error:
            part = Part((), faults=tuple(faults_in(error)))
        self[raw] = part
        return part


@dataclass(slots=True)
class Numbers:
    """Numbers given to distinct values in the order met."""

    given: dict[Any, int] = field(default_factory=dict)

    def of(self, value: Any) -> int:
        return self.given.setdefault(value, len(self.given))


class Parts:
    """Everything known of the parts of one import."""

    def __init__(self, terms: Terms) -> None:
        self.terms = terms
        self.scopes: list[Scope] = []
        # The line being read; names remember where they were met first.
        self.line = 0
        self.makes: dict[NameKey, tuple[str, int]] = {}
        self.models: dict[tuple[NameKey, NameKey], tuple[str, int]] = {}
        self._numbers = {
            name: Numbers() for name in ("vehicle", "scope", "component", "position", "property", "figure")
        }
        self.vehicles = Known(self._vehicle)
        self.years = Known(self._years)
        self.scope = Known(self._scope)
        self.component = Known(self._component)
        self.position = Known(self._position)
        self.figures = Known(self._figure)
        self.handling = Known(self._handling)
        self.checked = Known(self._checked)

    def subject(self, vehicle: Part, component: Part, position: Part, figure: Part) -> int:
        """One number for what a row states something of."""
        return ((vehicle.number << 20 | component.number) << 8 | position.number) << 8 | figure.second

    def _model(self, model: type[BaseModel], cells: dict[str, str]) -> Any:
        return model.model_validate(cells, context=self.terms)

    def _vehicle(self, raw: tuple[str, str]) -> Part:
        part = self._model(VehiclePart, {"make": raw[0], "model": raw[1]})
        make_key, model_key = name_words(part.make), name_words(part.model)
        make, line = self.makes.setdefault(make_key, (part.make, self.line))
        if make != part.make:
            return Part((), faults=(_spelt("make", part.make, make, line),))
        model, line = self.models.setdefault((make_key, model_key), (part.model, self.line))
        if model != part.model:
            return Part((), faults=(_spelt("model", part.model, model, line),))
        return Part((part.make, part.model), self._numbers["vehicle"].of((part.make, part.model)))

    def _years(self, raw: tuple[str, str]) -> Part:
        part = self._model(YearsPart, {"year_from": raw[0], "year_to": raw[1]})
        return Part((int(part.year_from), int(part.year_to)))

    def _scope(self, raw: str) -> Part:
        part = self._model(ScopePart, {"only_if": raw})
        scope = part.scope()
        number = self._numbers["scope"].of(scope.text)
        if number == len(self.scopes):
            self.scopes.append(scope)
        return Part((part.only_if, scope.text), number)

    def _component(self, raw: str) -> Part:
        part = self._model(ComponentPart, {"component": raw})
        name = self.terms.component(part.component)
        return Part((part.component, name), self._numbers["component"].of(name))

    def _position(self, raw: str) -> Part:
        part = self._model(PositionPart, {"position": raw})
        read = read_position(part.position)
        return Part((part.position, read), self._numbers["position"].of(read))

    def _figure(self, raw: tuple[str, str, str]) -> Part:
        part = self._model(FigurePart, {"property": raw[0], "value": raw[1], "second_value": raw[2]})
        reading = part.reading()
        cells = (part.property, part.value, part.second_value)
        figure = self._numbers["figure"].of(sameness(reading.value))
        return Part(cells, figure, list(PROPERTIES).index(part.property), doubt=reading.doubt)

    def _handling(self, raw: tuple[str, str, str, str, str, str]) -> Part:
        names = ("thread", "class", "condition", "reuse", "order", "cautions")
        part = self._model(HandlingPart, dict(zip(names, raw, strict=True)))
        cautions = self.terms.cautions(part.cautions)
        return Part((part.thread, part.strength_class, part.condition, part.reuse, part.order, cautions))

    def _checked(self, raw: tuple[str, bool, str, str, str, str]) -> Part:
        source, has_ref, checked_by, checked_on, review_by, status = raw
        cells = {"source": source, "source_ref": "given" if has_ref else "", "checked_by": checked_by}
        part = self._model(CheckedPart, cells | {"checked_on": checked_on, "review_by": review_by, "status": status})
        cells_read = (part.source, part.checked_by, part.checked_on, part.review_by, part.status)
        return Part(cells_read, int(part.status == "verified"))


def _spelt(column: str, here: str, there: str, line: int) -> Told:
    return column, f"{here!r} is written {there!r} in line {line}", f"write it one way, for example {there!r}"
