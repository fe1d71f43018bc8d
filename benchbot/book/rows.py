"""What the book says, as the path of an answer carries it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NameHit:
    """A make or vehicle with a name that holds the word looked up.

    of: "make" or "vehicle". form: 0 the name itself, 1.. the shop's other names. words: how many words that form has.
    """

    of: str
    id: int
    form: int
    words: int


@dataclass(frozen=True, slots=True)
class VehicleName:
    """As the maker writes it."""

    make: str
    model: str


@dataclass(frozen=True, slots=True)
class SpecRow:
    """A published row.

    only_if: canonical text ("engine=1.5; drive=4WD"), "" when nothing narrows it. position: canonical, "" when it does
    not apply. value, second_value: exactly as entered. shown: JSON of the value and its conversions. cautions: ids.
    checked_on, review_by: ISO dates, review_by "" when there is none. one_person: nobody but its author has checked it.
    """

    spec: str
    revision: int
    vehicle: int
    year_from: int
    year_to: int
    only_if: str
    component: str
    position: str
    property: str
    value: str
    second_value: str
    shown: str
    thread: str
    strength_class: str
    condition: str
    reuse: str
    order: str
    cautions: tuple[str, ...]
    source: str
    source_ref: str
    checked_by: str
    checked_on: str
    review_by: str
    one_person: bool = False
