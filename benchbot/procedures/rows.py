"""The shape of each procedure file; every value is text as it stands in the file."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints

from benchbot.procedures.steps import StepPicture
from benchbot.vocabulary.rows import Row, Text, Texts

Id = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")]
PlaceWord = Literal["axle", "front", "rear", "upper", "lower", "inner", "outer"]


class CheckRow(Row):
    look: Text
    good: Text
    bad: Text
    then: Text


class StopRow(Row):
    when: Text
    do: Text


class JudgeRow(Row):
    rule: Text
    decides: Literal["lead tech", "rule"]


class TightenRow(Row):
    component: Text
    position: list[PlaceWord] = Field(default_factory=list)


class MeasureRow(Row):
    component: Text
    property: Text
    where: Text


class StepRow(Row):
    """`tighten` and `measure` are lists: one entry a fastener, one entry a measurement. picture: where one shows it."""

    id: Id
    title: Text
    do: Text
    because: Text
    about: Texts = Field(default_factory=list)
    act: Texts = Field(default_factory=list)
    asked_as: Texts
    cautions: Texts = Field(default_factory=list)
    checks: Annotated[list[CheckRow], Field(min_length=1)] = Field(default_factory=list)
    stop: StopRow | None = None
    judge: JudgeRow | None = None
    tighten: Annotated[list[TightenRow], Field(min_length=1)] = Field(default_factory=list)
    measure: Annotated[list[MeasureRow], Field(min_length=1)] = Field(default_factory=list)
    only_if: str = ""
    way_of: str = ""
    picture: StepPicture | None = None


class SharedRow(Row):
    """A step of common.yaml, done at this place of the procedure."""

    shared: Id


class ProcedureFile(Row):
    """The head of a procedure; each of its steps is a SharedRow or a StepRow, checked by itself."""

    id: Id
    title: Text
    axle: Literal["front", "rear", "any"]
    applies_when: Text
    tools: Texts
    consumables: Texts
    new_parts_always: Texts
    cautions: Texts
    steps: Annotated[list[dict[str, Any]], Field(min_length=1)]


class CommonFile(Row):
    steps: Annotated[list[StepRow], Field(min_length=1)]


class ActFile(Row):
    """acts.yaml: what is done and what it is done to, each with the ways of saying it."""

    acts: Annotated[dict[str, Texts], Field(min_length=1)]
    things: Annotated[dict[str, Texts], Field(min_length=1)]
    topics: Annotated[dict[str, Texts], Field(min_length=1)]
    passing: Texts
