"""A row of the spec table, as the parts that repeat from row to row: each distinct part is checked once."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError, ValidationInfo, model_validator
from pydantic_core import PydanticCustomError

from benchbot.specs.cell import cell_fault, unshielded
from benchbot.specs.figure import Reading, check_thread, read_figure
from benchbot.specs.position import read_position
from benchbot.specs.properties import nearest_property, read_property
from benchbot.specs.scope import Scope, read_scope
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words

STATUSES = ("draft", "verified", "withdrawn")
FIRST_YEAR, LAST_YEAR = 1900, 2100


def wrong(what: str, mend: str) -> PydanticCustomError:
    return PydanticCustomError("cell", "{wrong}", {"wrong": what, "mend": mend})


def _cell(text: str) -> str:
    fault = cell_fault(text)
    if fault:
        raise wrong(*fault)
    return unshielded(text).strip()


def _filled(text: str) -> str:
    if not text:
        raise wrong("is empty", "fill it in; the column is required")
    return text


def _name(text: str) -> str:
    if not name_words(text):
        raise wrong(f"{text!r} holds no letter or digit", "write the name as the vehicle maker does")
    return " ".join(text.split())


def _year(text: str) -> str:
    if not (text.isascii() and text.isdigit() and len(text) == 4 and FIRST_YEAR <= int(text) <= LAST_YEAR):
        raise wrong(f"{text!r} is no model year", f"write four digits, {FIRST_YEAR} to {LAST_YEAR}")
    return text


def _date(text: str) -> str:
    if not text:
        return text
    try:
        day = date.fromisoformat(text)
    except ValueError:
        day = None
    if day is None or day.isoformat() != text:
        raise wrong(f"{text!r} is no date", "write it as year-month-day, for example 2026-03-31")
    return text


def _status(text: str) -> str:
    plain = text.casefold()
    if plain not in STATUSES:
        raise wrong(f"{text!r} is no status", f"write {', '.join(STATUSES[:-1])} or {STATUSES[-1]}")
    return plain


def _property(text: str) -> str:
    name = read_property(text)
    if name is None:
        raise wrong(f"{text!r} is no property", nearest_property(text))
    return name


Cell = Annotated[str, AfterValidator(_cell)]
Filled = Annotated[Cell, AfterValidator(_filled)]
Name = Annotated[Filled, AfterValidator(_name)]
Year = Annotated[Filled, AfterValidator(_year)]
Day = Annotated[Cell, AfterValidator(_date)]


class _Part(BaseModel):
    model_config = ConfigDict(strict=True, frozen=True, extra="forbid")


class VehiclePart(_Part):
    make: Name
    model: Name


class YearsPart(_Part):
    year_from: Year
    year_to: Year

    @model_validator(mode="after")
    def _in_order(self) -> YearsPart:
        if self.year_from > self.year_to:
            raise wrong(
                f"year_to: {self.year_to} lies before year_from {self.year_from}",
                f"write {self.year_from} or later, or turn the two years round",
            )
        return self


class ScopePart(_Part):
    only_if: Cell

    def scope(self) -> Scope:
        return read_scope(self.only_if)

    @model_validator(mode="after")
    def _readable(self) -> ScopePart:
        _told("only_if", read_scope, self.only_if)
        return self


class ComponentPart(_Part):
    component: Filled

    @model_validator(mode="after")
    def _known(self, info: ValidationInfo) -> ComponentPart:
        _told("component", _terms(info).component, self.component)
        return self


class PositionPart(_Part):
    position: Cell

    @model_validator(mode="after")
    def _known(self) -> PositionPart:
        _told("position", read_position, self.position)
        return self


class FigurePart(_Part):
    property: Annotated[Filled, AfterValidator(_property)]
    value: Filled
    second_value: Cell

    @model_validator(mode="after")
    def _readable(self) -> FigurePart:
        self.reading()
        return self

    def reading(self) -> Reading:
        try:
            return read_figure(self.property, self.value, self.second_value)
        except ValueError as error:
            raise wrong(*error.args) from error


class HandlingPart(_Part):
    thread: Cell
    strength_class: Cell = Field(alias="class")
    condition: Cell
    reuse: Cell
    order: Cell
    cautions: Cell

    @model_validator(mode="after")
    def _readable(self, info: ValidationInfo) -> HandlingPart:
        _told("thread", check_thread, self.thread)
        _told("cautions", _terms(info).cautions, self.cautions)
        return self


class CheckedPart(_Part):
    source: Cell
    source_ref: Cell
    checked_by: Cell
    checked_on: Day
    review_by: Day
    status: Annotated[Filled, AfterValidator(_status)]

    @model_validator(mode="after")
    def _checked(self) -> CheckedPart:
        if self.status == "verified":
            needed = ("source", "source_ref", "checked_by", "checked_on")
            empty = ", ".join(column for column in needed if not getattr(self, column))
            if empty:
                raise wrong(f"{empty}: is empty in a verified row", "fill it in, or set the status to draft")
        if self.review_by and self.checked_on and self.review_by < self.checked_on:
            raise wrong(
                f"review_by: {self.review_by} lies before checked_on {self.checked_on}", "correct one of the two dates"
            )
        return self


def faults_in(error: ValidationError) -> list[tuple[str, str, str]]:
    """(column, what is wrong, what would be right) of each fault in a part."""
    found = []
    for fault in error.errors(include_url=False, include_input=False):
        said: dict[str, Any] = fault.get("ctx", {})
        what, mend = str(said.get("wrong", fault["msg"])), str(said.get("mend", "correct the cell"))
        column = str(fault["loc"][0]) if fault["loc"] else ""
        if not column:
            column, _, what = what.partition(": ")
        found.append((column, what, mend))
    return found


def _terms(info: ValidationInfo) -> Terms:
    context = info.context
    assert isinstance(context, Terms)
    return context


def _told(column: str, read: Any, text: str) -> None:
    try:
        read(text)
    except ValueError as error:
        what, mend = error.args
        raise wrong(f"{column}: {what}", mend) from error
