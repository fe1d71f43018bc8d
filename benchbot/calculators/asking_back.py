"""The one question that a calculator asks back when a piece is missing: a unit to choose, or something to type."""

from __future__ import annotations

from collections.abc import Sequence

from benchbot.calculators.said import Message, Piece
from benchbot.outcomes import Choose, Option, Subject

LENGTHS = ("mm", "in")
GAUGED = ("mm", "32nds", "in")
DIALLED = ("mm", "in", "thou")
TORQUES = ("N·m", "lb-ft", "lb-in")
DISTANCES = ("km", "miles")

# A word behind "in lb" could be read as a preposition; said so it cannot.
_PLAINLY = {"lb-in": "inch pounds", "lb-ft": "foot pounds"}

ADAPTER_ALL = (
    "What torque must the fastener get, how long is the wrench (drive to hand), and how long the adapter "
    "(drive to fastener), each with its unit?"
)
ADAPTER_LENGTH = "How long is the adapter, from the centre of the drive to the centre of the fastener?"
WRENCH_LENGTH = "How long is the wrench, from the centre of the drive to where the hand pulls?"
BOTH_LENGTHS = "How long are the wrench (drive to hand) and the adapter (drive to fastener), each with its unit?"
ADAPTER_TARGET = "What torque must the fastener get?"
WHICH_IS_WHICH = "Which length is the wrench and which the adapter (say it like: wrench 450 mm, adapter 50 mm)?"
WHICH_EXTENSION = (
    "Is it a straight socket extension between wrench and socket, or an adapter that moves the fastener "
    "away from the drive?"
)
WRENCH_RANGE = "What is the lowest and the highest mark of the wrench?"
WEAR_ALL = (
    "What was it new, what does it measure now, how far did it run between, and what is the limit, each with its unit?"
)
WEAR_ROLES = "What was it new, what does it measure now, and what is the limit, each with its unit?"
WEAR_LIMIT = "Down to what limit, the vehicle's or the one stamped on the part, with its unit?"
WEAR_RAN = "How far did it run to wear from new to now, in km or miles?"
WEAR_WAS = "What was it new, or at the last measurement, and how far did it run since?"
PAD_ENDS = "Which figure is which (say it like: inner 4 mm, outer 9 mm)?"
BOLT_CLASS = "Which class or grade is marked on the head, such as 8.8 or 10.9?"
READINGS_AGAIN = "What are all the readings again, with their unit, since one does not fit the others?"
FLUID_IN_IT = "What does the cap of the reservoir say: DOT 3, DOT 4, DOT 5 or DOT 5.1?"

QUESTIONS = (
    ADAPTER_ALL, ADAPTER_LENGTH, WRENCH_LENGTH, BOTH_LENGTHS, ADAPTER_TARGET, WHICH_IS_WHICH, WHICH_EXTENSION,
    WRENCH_RANGE, WEAR_ALL, WEAR_ROLES, WEAR_LIMIT, WEAR_RAN, WEAR_WAS, PAD_ENDS, BOLT_CLASS, FLUID_IN_IT,
    READINGS_AGAIN,
)  # fmt: skip
"""Every question with words of its own."""


def which_unit(message: Message, figures: Sequence[Piece], units: Sequence[str]) -> Choose:
    """Asks the unit of figures, which it names; each choice says the whole message anew with it."""
    options = tuple(Option(unit, {"text": message.with_unit(_PLAINLY.get(unit, unit), *figures)}, ()) for unit in units)
    said = ", ".join(figure.raw for figure in figures)
    return Choose("unit", said, "", options, Subject(), ("unit",))


def which_gauge(message: Message, figures: Sequence[Piece]) -> Choose:
    """Asks the unit of thicknesses; no rotor is read in 32nds."""
    return which_unit(message, figures, LENGTHS if message.says("rotor") else GAUGED)


def again(question: str, begun: str) -> Choose:
    """Asks for all figures anew; begun: what the answer is about, without any of them."""
    return Choose("sum", begun, question, (), Subject(), ("sum",))


def missing(question: str, message: Message, role: str = "") -> Choose:
    """Asks for a piece. The key is the message so far, ending in the word that the piece belongs to."""
    begun = " ".join(piece.raw for piece in message.pieces)
    return Choose("sum", f"{begun} , {role}".rstrip(" ,") if role else begun, question, (), Subject(), ("sum",))


def either(question: str, *options: tuple[str, str]) -> Choose:
    """Asks which of two things is meant: label -> the message that says so."""
    return Choose("sum", "", question, tuple(Option(label, {"text": text}, ()) for label, text in options), Subject())
