"""The shape of each knowledge file; every value is text as it stands in the file."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

Text = Annotated[str, StringConstraints(min_length=1, strip_whitespace=False)]
Texts = Annotated[list[Text], Field(min_length=1)]
YesNo = Literal["yes", "no"]
PropertyName = Literal[
    "torque", "socket", "thread", "minimum thickness", "nominal thickness", "machine-to thickness",
    "maximum diameter", "maximum runout", "maximum thickness variation", "capacity", "fluid", "gap", "pressure",
    "note",
]  # fmt: skip
Dimension = Literal["torque", "tool size", "thread", "length", "volume", "words", "pressure"]
Token = Literal["front", "rear", "left", "right", "upper", "lower", "inner", "outer", "side", "r?"]
QualifierKey = Literal["engine", "drive", "brakes", "body", "trim", "axle", "transmission", "market", "build"]


class Row(BaseModel):
    """No key but the known ones, no value turned into another kind."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, populate_by_name=True)


class ComponentRow(Row):
    name: Text
    kind: Literal["fastener", "part", "fluid"] = "fastener"
    axles: Literal["both", "front", "rear", "none"] | None = None
    fastens: Texts = Field(default_factory=list)
    properties: Annotated[list[PropertyName], Field(min_length=1)] | None = None
    default: PropertyName | None = None
    said: Texts = Field(default_factory=list)
    cautions: Texts = Field(default_factory=list)


class ComponentFile(Row):
    """components/*.yaml: components of one group; `axles` holds for those that do not say their own."""

    group: Text
    axles: Literal["both", "front", "rear", "none"]
    components: Annotated[list[ComponentRow], Field(min_length=1)]


class WordRow(Row):
    """One canonical word and how else it is written; `also` = a form that is a word of its own as well."""

    word: Text
    short: Texts = Field(default_factory=list)
    variant: Texts = Field(default_factory=list)
    spanish: Texts = Field(default_factory=list)
    also: Texts = Field(default_factory=list)
    heard: Texts = Field(default_factory=list)


class WordFile(Row):
    words: Annotated[list[WordRow], Field(min_length=1)]


class ShorthandRow(Row):
    """One word that stands for several ("lbj"); `trade` = said, never written that way ("tyrod")."""

    short: Text
    stands_for: Text = Field(alias="stands for")


class ShorthandFile(Row):
    shorthand: Annotated[list[ShorthandRow], Field(min_length=1)]


class DoubtfulRow(Row):
    said: Texts
    could_be: Texts = Field(alias="could be")
    ask: str = ""
    always: YesNo


class DoubtfulFile(Row):
    doubtful: Annotated[list[DoubtfulRow], Field(min_length=1)]


class ClearProperty(Row):
    name: PropertyName
    dimension: Dimension
    said: Texts


class VagueProperty(Row):
    said: Texts
    could_be: Annotated[list[PropertyName], Field(min_length=1)] = Field(alias="could be")
    ask: str = ""
    always: YesNo


class PropertyFile(Row):
    clear: Annotated[list[ClearProperty], Field(min_length=1)]
    vague: Annotated[list[VagueProperty], Field(min_length=1)]


class PositionRow(Row):
    """`tokens` may be empty: words that look like a position and are none ("back of the knuckle")."""

    said: Texts
    tokens: list[Token]


class PositionFile(Row):
    positions: Annotated[list[PositionRow], Field(min_length=1)]


class QualifierRow(Row):
    said: Texts
    key: QualifierKey
    value: Text
    part: YesNo = "no"


class QualifierFile(Row):
    qualifiers: Annotated[list[QualifierRow], Field(min_length=1)]


class ListFile(Row):
    """lists.yaml: name -> words or phrases."""

    lists: Annotated[dict[str, Texts], Field(min_length=1)]


class CautionRow(Row):
    """A warning in every language of the replies: nobody is to miss one for the language they read."""

    name: Text
    text: Text
    text_es: Text
    groups: Texts = Field(default_factory=list)
    always: YesNo = "no"
    first: YesNo = "no"


class CautionFile(Row):
    cautions: Annotated[list[CautionRow], Field(min_length=1)]
