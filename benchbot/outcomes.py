"""What can come of a message: plain values, with no wording before them and no parsing after them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from benchbot.book.reader import SpecRow
from benchbot.procedures.steps import Step, StepPicture, Tighten

About = Literal[
    "vehicle", "model", "year", "component", "axle", "side", "height", "depth", "qualifier", "property", "row",
    "left over", "unit", "stamped", "sum", "step", "likely step",
]  # fmt: skip
Reason = Literal[
    "unknown vehicle", "unknown model", "unknown component", "component not held", "year not covered",
    "position not held", "qualifier not held", "property not held", "withdrawn", "no such choice",
]  # fmt: skip
PictureKind = StepPicture | Literal["wear"]
Verdict = Literal[
    "discard", "nothing left", "damaged", "out of limit", "unlikely", "above new", "no verdict", "nearly worn",
    "no machining", "use",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Subject:
    """What a figure, a question back or a gap is about, as far as it is known; echoed to whoever asked."""

    make: str = ""
    model: str = ""
    years: tuple[int, ...] = ()
    only_if: tuple[tuple[str, str], ...] = ()
    component: str = ""
    position: str = ""
    property: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing asked for that the book does not hold, and why.

    detail: the words that nobody knows, the values held instead ..., of what was withdrawn the ISO date.
    """

    reason: Reason
    detail: str
    subject: Subject


@dataclass(frozen=True, slots=True)
class Finding:
    """One checked row that answers, with the year the technician named.

    questioned: the ISO date since when somebody doubts it and no curator has settled it, "" when nobody does.
    """

    row: SpecRow
    subject: Subject
    questioned: str = ""


@dataclass(frozen=True, slots=True)
class Option:
    """One way to go on: its label, what choosing it states, and every row still possible behind it."""

    label: str
    states: dict[str, Any]
    specs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sentence:
    """A plain sentence, worded later: its name among the wordings, and the figures and names that it holds."""

    name: str
    values: tuple[tuple[str, str], ...] = ()

    @classmethod
    def of(cls, name: str, **values: str) -> Sentence:
        return cls(name, tuple(values.items()))


@dataclass(frozen=True, slots=True)
class Judged:
    """What was measured at one place, held against the rows of an answer.

    where: "left", "front right", "inner" ..., "" where none was said. said: the verdict in a sentence. part: the
    component, where several were measured, else "". also: what belongs to the verdict itself and is said with it.
    """

    verdict: Verdict
    where: str
    said: Sentence
    part: str = ""
    also: Sentence | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """Values to show; `missing` are things asked in the same message that the book does not hold.

    unit: the unit asked for, or None. units: those that the place likes best, shown first among the conversions.
    judged: what was measured, the worst first; advice: what follows from it.
    """

    findings: tuple[Finding, ...]
    missing: tuple[Missing, ...] = ()
    unit: str | None = None
    said_values: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    judged: tuple[Judged, ...] = ()
    advice: tuple[Sentence, ...] = ()

    @property
    def units_first(self) -> tuple[str, ...]:
        """Units to convert to before all others, in this order."""
        return ((self.unit,) if self.unit else ()) + self.units


@dataclass(frozen=True, slots=True)
class Choose:
    """A question back: what decides and is not stated, with at most eight options (none when it must be typed).

    advice: what of the message it leaves out, and how to ask for that. unsafe: what must be said before the question.
    """

    about: About
    key: str
    question: str
    options: tuple[Option, ...]
    subject: Subject
    open_facets: tuple[str, ...] = ()
    advice: tuple[Sentence, ...] = ()
    unsafe: tuple[Sentence, ...] = ()


@dataclass(frozen=True, slots=True)
class Gap:
    """Nothing in the book answers; logged for the curator. unsafe: what must be said all the same, and first."""

    missing: tuple[Missing, ...]
    unsafe: tuple[Sentence, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """What is better looked at than read, as the figures that are drawn of it; whoever shows it draws it.

    studs: how many the question names, 0 where it names none that there is a picture for. The others are of wear:
    part: "lining", "rotor", or "" where neither is said; unit: that of all values; readings: the oldest first, each as
    how far the part had run ("20000 miles", "" where nobody says) and its value.
    """

    kind: PictureKind
    studs: int = 0
    part: str = ""
    unit: str = ""
    readings: tuple[tuple[str, str], ...] = ()
    limit: str = ""


@dataclass(frozen=True, slots=True)
class Calculation:
    """A sum that needs no book: what was given, what comes out, and how.

    given, result, formula, source: figures, units, signs and names of standards, the same in every language; formula
    has the person's own numbers put in. title: the result in a sentence, None for a plain conversion. lines: what
    follows from it. cautions: what is said before that. refused: nothing was calculated, and the title says so.
    picture: what shows it as well.
    """

    given: str
    result: str
    formula: str
    title: Sentence | None = None
    lines: tuple[Sentence, ...] = ()
    cautions: tuple[Sentence, ...] = ()
    source: str = ""
    refused: bool = False
    picture: Picture | None = None


@dataclass(frozen=True, slots=True)
class Other:
    """Nothing was asked of the book: small talk, a vehicle set, something out of our scope, a message too long."""

    what: Literal["small talk", "vehicle set", "out of scope", "too long", "not understood", "nothing asked"]
    subject: Subject = Subject()
    held: tuple[str, ...] = field(default=())
    options: tuple[Option, ...] = ()


@dataclass(frozen=True, slots=True)
class Pulled:
    """What the book says of a fastener that a step tightens; found None: no vehicle is known."""

    tighten: Tighten
    found: Answer | Choose | Gap | None


@dataclass(frozen=True, slots=True)
class Procedure:
    """A step of a procedure, or the list of all its steps.

    procedure: the procedure's id, "" where several have the step and none was named; title: of the procedure; number,
    of: which step of how many it is (0 where no procedure is known). axle: "front", "rear", or "any" when it is not
    known. shop_says: the shop's own wording of this step. pulled: one for each fastener that it tightens.
    listed: the titles of all steps, where these are asked for. options: how to go on. picture: what shows the step.
    """

    step: Step
    procedure: str = ""
    title: str = ""
    number: int = 0
    of: int = 0
    axle: str = "any"
    shop_says: str = ""
    pulled: tuple[Pulled, ...] = ()
    listed: tuple[str, ...] = ()
    options: tuple[Option, ...] = ()
    picture: Picture | None = None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every row whose value the step shows."""
        return tuple(finding for found in self.answers for finding in found.findings)

    @property
    def answers(self) -> tuple[Answer, ...]:
        return tuple(one.found for one in self.pulled if isinstance(one.found, Answer))

    @property
    def missing(self) -> tuple[Missing, ...]:
        """Everything that the step needs and the book does not hold."""
        held = (one.found for one in self.pulled)
        return tuple(m for found in held if isinstance(found, (Answer, Gap)) for m in found.missing)

    def with_answers(self, change: Callable[[Answer], Answer | Gap]) -> Procedure:
        """The same with each of its answers changed."""
        pulled = (
            replace(one, found=change(one.found)) if isinstance(one.found, Answer) else one for one in self.pulled
        )
        return replace(self, pulled=tuple(pulled))


Outcome = Answer | Choose | Gap | Calculation | Procedure | Other


def findings_of(outcome: Outcome) -> tuple[Finding, ...]:
    """Every row whose value the outcome shows."""
    return outcome.findings if isinstance(outcome, (Answer, Procedure)) else ()


def picture_of(outcome: Outcome) -> Picture | None:
    """The picture that shows it better, where there is one."""
    return outcome.picture if isinstance(outcome, (Calculation, Procedure)) else None


def missing_of(outcome: Outcome) -> tuple[Missing, ...]:
    """Everything that the outcome says the book does not hold."""
    return outcome.missing if isinstance(outcome, (Answer, Gap, Procedure)) else ()
