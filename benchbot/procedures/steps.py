"""What a procedure is made of: plain values, carried as JSON by a book and read without the files they came from."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any, Literal

Axle = Literal["front", "rear", "any"]
Decides = Literal["lead tech", "rule"]
StepPicture = Literal["tightening order", "rotor points"]

COMMON = "common"


@dataclass(frozen=True, slots=True)
class Check:
    """Something to look at: what good and bad look like, and what to do when it is bad."""

    look: str
    good: str
    bad: str
    then: str


@dataclass(frozen=True, slots=True)
class Stop:
    """When the work stops, and what is done instead of going on."""

    when: str
    do: str


@dataclass(frozen=True, slots=True)
class Judge:
    """A rule of judgement. decides: "lead tech" = it is quoted and the part shown to them; "rule" = it is final."""

    rule: str
    decides: Decides


@dataclass(frozen=True, slots=True)
class Tighten:
    """A fastener whose value comes from the book. place: words of a position; "axle" stands for the procedure's own."""

    component: str
    place: tuple[str, ...]

    def position(self, axle: str) -> tuple[str, ...]:
        """The position with the axle put in ("front", "rear"); an axle not known leaves it out."""
        known = axle if axle in ("front", "rear") else ""
        return tuple(word for word in (known if said == "axle" else said for said in self.place) if word)


@dataclass(frozen=True, slots=True)
class Measure:
    """A measurement to take, held against a property of a component, and where on the part it is taken."""

    component: str
    property: str
    where: str


@dataclass(frozen=True, slots=True)
class Step:
    """One step. key: "procedure/step", or "common/step" for one that several procedures share.

    only_if: what has to be fitted for the step to apply ("cable parking brake"), "" when it always applies.
    way_of: what several steps do in different ways ("piston back"): which of them is asked where nothing tells.
    picture: the one that shows it, None where none does.
    """

    key: str
    title: str
    do: str
    because: str
    about: tuple[str, ...]
    acts: tuple[str, ...]
    asked_as: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    checks: tuple[Check, ...] = ()
    stop: Stop | None = None
    judge: Judge | None = None
    tighten: tuple[Tighten, ...] = ()
    measure: tuple[Measure, ...] = ()
    only_if: str = ""
    way_of: str = ""
    picture: StepPicture | None = None


@dataclass(frozen=True, slots=True)
class Procedure:
    """A whole job; `steps` are the keys of its steps in the order they are done."""

    id: str
    title: str
    axle: Axle
    applies_when: str
    tools: tuple[str, ...]
    consumables: tuple[str, ...]
    new_parts_always: tuple[str, ...]
    cautions: tuple[str, ...]
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sayings:
    """The words questions are made of: name -> ways of saying it.

    topics: those that by themselves say what is asked ("bed in", "crush washers").
    passing: words that say nothing.
    """

    acts: dict[str, tuple[str, ...]]
    things: dict[str, tuple[str, ...]]
    topics: dict[str, tuple[str, ...]]
    passing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Procedures:
    """All procedures of a knowledge folder, with every step by its key."""

    procedures: dict[str, Procedure]
    steps: dict[str, Step]
    sayings: Sayings
    _holding: dict[str, tuple[str, ...]] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        for procedure in self.procedures.values():
            for key in procedure.steps:
                self._holding[key] = (*self._holding.get(key, ()), procedure.id)

    def holding(self, key: str) -> tuple[str, ...]:
        """The ids of the procedures that have the step; empty for a common rule that belongs to every job."""
        return self._holding.get(key, ())

    def steps_of(self, procedure: str, fitted: frozenset[str] = frozenset()) -> tuple[Step, ...]:
        """The steps in order; those for something else than what is `fitted` are left out where that is known."""
        of = [self.steps[key] for key in self.procedures[procedure].steps]
        return tuple(step for step in of if not fitted or not step.only_if or step.only_if in fitted)

    def variants(self, procedure: str) -> tuple[str, ...]:
        """What the procedure must know to be fitted before it is walked; empty when every step always applies."""
        return tuple(dict.fromkeys(s.only_if for s in self.steps_of(procedure) if s.only_if))

    def to_plain(self) -> dict[str, Any]:
        """All of it as JSON-able values."""
        plain = asdict(self)
        del plain["_holding"]
        return plain

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Procedures:
        """The inverse of `to_plain`; the values are trusted (they were checked when they were loaded)."""
        said = plain["sayings"]
        return cls(
            procedures={name: _procedure(procedure) for name, procedure in plain["procedures"].items()},
            steps={key: _step(s) for key, s in plain["steps"].items()},
            sayings=Sayings(
                acts={name: tuple(v) for name, v in said["acts"].items()},
                things={name: tuple(v) for name, v in said["things"].items()},
                topics={name: tuple(v) for name, v in said["topics"].items()},
                passing=tuple(said["passing"]),
            ),
        )


def _procedure(plain: dict[str, Any]) -> Procedure:
    return Procedure(
        id=plain["id"],
        title=plain["title"],
        axle=plain["axle"],
        applies_when=plain["applies_when"],
        tools=tuple(plain["tools"]),
        consumables=tuple(plain["consumables"]),
        new_parts_always=tuple(plain["new_parts_always"]),
        cautions=tuple(plain["cautions"]),
        steps=tuple(plain["steps"]),
    )


def _step(plain: dict[str, Any]) -> Step:
    return Step(
        key=plain["key"],
        title=plain["title"],
        do=plain["do"],
        because=plain["because"],
        about=tuple(plain["about"]),
        acts=tuple(plain["acts"]),
        asked_as=tuple(plain["asked_as"]),
        cautions=tuple(plain["cautions"]),
        checks=tuple(Check(**check) for check in plain["checks"]),
        stop=Stop(**plain["stop"]) if plain["stop"] else None,
        judge=Judge(**plain["judge"]) if plain["judge"] else None,
        tighten=tuple(Tighten(one["component"], tuple(one["place"])) for one in plain["tighten"]),
        measure=tuple(Measure(**one) for one in plain["measure"]),
        only_if=plain["only_if"],
        way_of=plain.get("way_of", ""),
        # a book from before steps had pictures names none
        picture=plain.get("picture"),
    )
