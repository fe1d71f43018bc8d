"""The values of this vehicle that a step needs, from the book: shown, asked back, or missing and logged."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from benchbot.conversation.conversation import Turn
from benchbot.conversation.wanted import Wanted
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench, lift_of
from benchbot.desk.sheets import Button
from benchbot.jobs.judged import shown
from benchbot.jobs.learning import learned
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import Shown
from benchbot.measuring.measured import Measured
from benchbot.outcomes import Answer, Choose

TORQUE = "torque"
_CHOICES_AT_MOST = 8


@dataclass(frozen=True, slots=True)
class BookValues:
    """Everything shown is an answer on record, once for each person, step and book."""

    bench: Bench

    def of(self, handling: Handling, state: JobState, want: Want, measured: Measured | None = None) -> Turn:
        """What the book says of a line. measured: what was read, to be held against the limits."""
        place, side = _place(state, want)
        wanted = Wanted(
            lift_of(state.vehicle),
            want.component,
            want.name if want.where else TORQUE,
            place,
            side,
            tuple(learned(state, want.key)),
            measured,
        )
        about = f"{want.component}, {wanted.property}"
        told = f"job {state.number}: {' '.join((*place, about))}"
        if measured is not None:
            told, mark = f"{told}, {measured.figures()}", self.bench.once(handling)
        else:
            known = repr((wanted.lift.to_text(), place, wanted.states))
            mark = f"book {self.bench.conversation.book.version} {sha256(known.encode()).hexdigest()[:12]}"
        asker = handling.asker
        return self.bench.conversation.want(
            handling.chat, asker.person, told, f"job {state.number} {about} {mark}", wanted, asker.manner
        )


def target_of(turn: Turn) -> tuple[Shown, str] | None:
    """What a fastener is tightened to, as a job keeps it, and the value alone; None: the book gave no single one."""
    found = turn.outcome.findings if isinstance(turn.outcome, Answer) else ()
    rows = [one.row for one in found if one.row.property == TORQUE]
    return (shown(rows[0]), rows[0].value) if len(rows) == 1 else None


def questions_of(turn: Turn, want: Want, code: str = "q") -> tuple[tuple[Button, ...], dict[str, Any]]:
    """The choices of what is asked back as buttons, and what they choose from; nothing where nothing is asked."""
    if not isinstance(turn.outcome, Choose) or not turn.reply.choices:
        return (), {}
    labels = [one.label for one in turn.reply.choices[:_CHOICES_AT_MOST]]
    states = [option.states for option in turn.outcome.options[:_CHOICES_AT_MOST]]
    buttons = tuple(Button(label, f"{code}.{number}") for number, label in enumerate(labels))
    return buttons, {"asks": {"want": want.key, "states": states}}


def _place(state: JobState, want: Want) -> tuple[tuple[str, ...], str]:
    """The words of a position, and the side."""
    axle, _, side = want.wheel.partition(" ")
    axles = {wheel.partition(" ")[0] for wheel in state.sheet.wheels}
    if not axle and len(axles) == 1:
        axle = axles.pop()
    which = () if want.where else tuple(want.name.split())
    return tuple(word for word in (axle, *which) if word), side
