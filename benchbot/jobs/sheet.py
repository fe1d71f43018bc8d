"""The procedure as a job began with it: its steps, and every line that they want, wheel by wheel."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cache
from hashlib import sha256
from typing import Any

from benchbot.procedures.steps import Procedures, Step, StepPicture
from benchbot.vocabulary.terms import Component


@dataclass(frozen=True, slots=True)
class Want:
    """A line that a step wants. name: the property measured, or the words that tell the fastener ("upper").

    wheel: "" for what the vehicle has but once. where: how it is measured, "" for a fastener.
    """

    step: str
    component: str
    name: str
    wheel: str
    where: str = ""

    @property
    def key(self) -> str:
        """Names the line in an open point; the same line wanted by two steps has one key."""
        return "/".join((self.component, self.name, self.wheel))


@dataclass(frozen=True, slots=True)
class StepShown:
    """A step as it was shown. plain: all of it, as the procedures write it. shop_says: the shop's own word, or ""."""

    key: str
    title: str
    do: str
    plain: Mapping[str, Any]
    shop_says: str = ""

    @property
    def picture(self) -> StepPicture | None:
        """What shows the step; None as well in a job that began before steps had pictures."""
        return self.plain.get("picture")


@dataclass(frozen=True, slots=True)
class JobSheet:
    """A procedure, fitted to one job. wheels: those that are worked on; fitted: what is known to be fitted."""

    id: str
    title: str
    wheels: tuple[str, ...]
    fitted: tuple[str, ...]
    steps: tuple[StepShown, ...]
    measures: tuple[Want, ...]
    fasteners: tuple[Want, ...]

    def number(self, step: str) -> int:
        """Where a step stands, from 1; 0 when the job has none of that key."""
        return next((number for number, one in enumerate(self.steps, 1) if one.key == step), 0)

    def to_text(self) -> str:
        """All of it as JSON, the same text for the same sheet."""
        return json.dumps(asdict(self), ensure_ascii=False, sort_keys=True)

    @classmethod
    def from_text(cls, text: str) -> JobSheet:
        """The inverse of `to_text`."""
        plain = json.loads(text)
        return cls(
            plain["id"],
            plain["title"],
            tuple(plain["wheels"]),
            tuple(plain["fitted"]),
            tuple(StepShown(**step) for step in plain["steps"]),
            tuple(Want(**want) for want in plain["measures"]),
            tuple(Want(**want) for want in plain["fasteners"]),
        )


@cache
def sheet_of(text: str) -> JobSheet:
    """From the text of a sheet, which never changes."""
    return JobSheet.from_text(text)


def digest_of(text: str) -> str:
    """SHA-256 of a sheet's text."""
    return sha256(text.encode()).hexdigest()


def fit_sheet(
    procedures: Procedures,
    procedure: str,
    components: Mapping[str, Component],
    wheels: tuple[str, ...],
    fitted: tuple[str, ...],
    shop_says: Mapping[str, str],
) -> JobSheet:
    """Every line that each step wants: one for each wheel, or one alone for what has no axle by nature."""
    steps = procedures.steps_of(procedure, frozenset(fitted))
    return JobSheet(
        procedure,
        procedures.procedures[procedure].title,
        wheels,
        fitted,
        tuple(StepShown(s.key, s.title, s.do, asdict(s), shop_says.get(s.key, "")) for s in steps),
        tuple(want for step in steps for want in _measures(step, components, wheels)),
        tuple(want for step in steps for want in _fasteners(step, components, wheels)),
    )


def _measures(step: Step, components: Mapping[str, Component], wheels: tuple[str, ...]) -> list[Want]:
    return [
        Want(step.key, one.component, one.property, wheel, one.where)
        for one in step.measure
        for wheel in _wheels_of(one.component, components, wheels)
    ]


def _fasteners(step: Step, components: Mapping[str, Component], wheels: tuple[str, ...]) -> list[Want]:
    wants: list[Want] = []
    if _ANOTHER_DAY in step.acts:
        return wants
    for one in step.tighten:
        axle = next((word for word in one.place if word in ("front", "rear")), "")
        # the wheel says the axle already
        which = " ".join(word for word in one.place if word not in ("axle", "front", "rear"))
        for wheel in _wheels_of(one.component, components, wheels):
            if not wheel or wheel.startswith(axle):
                wants.append(Want(step.key, one.component, which, wheel))
    return wants


def _wheels_of(component: str, components: Mapping[str, Component], wheels: tuple[str, ...]) -> tuple[str, ...]:
    """The wheels that have the component; ("",) for what belongs to none of them."""
    held = components.get(component)
    if component in HELD_BY_WHEELS or held is None or held.axles != "none":
        on = "" if held is None or held.axles in ("both", "none") else held.axles
        return tuple(wheel for wheel in wheels if not on or wheel.startswith(on)) or ("",)
    return ("",)


# What such a step tightens is tightened when the vehicle comes back, not in this job.
_ANOTHER_DAY = "retorque"
# No axle has to be stated to ask for their value, and each wheel has its own all the same.
HELD_BY_WHEELS = frozenset({"wheel nut", "wheel bolt", "locking wheel nut", "wheel", "tire"})
