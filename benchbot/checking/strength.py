"""How strong a fastener is by its class or grade: proof stress and tensile strength of ISO 898-1 and SAE J429."""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchbot.checking.threads import diameter_mm, is_metric
from benchbot.quantities.amounts import Thread

MPA_PER_KSI = 6.894757293168


@dataclass(frozen=True, slots=True)
class Strength:
    """Proof stress and tensile strength in MPa; `name` as it is said: "class 10.9", "grade 8"."""

    name: str
    proof: float
    tensile: float


# ISO 898-1:2013, table 3: stress under proof load and minimum tensile strength in MPa.
_CLASSES = {
    "4.6": (225.0, 400.0), "4.8": (310.0, 420.0), "5.6": (280.0, 500.0), "5.8": (380.0, 520.0), "6.8": (440.0, 600.0),
    "8.8": (580.0, 800.0), "9.8": (650.0, 900.0), "10.9": (830.0, 1040.0), "12.9": (970.0, 1220.0),
}  # fmt: skip
_THICK_88 = (600.0, 830.0)
_THICK_MM = 16.0
# ISO 898-2: a nut of a class belongs on a bolt of that class, whose load it must bear.
_NUT_CLASSES = {"5": "5.8", "6": "6.8", "8": "8.8", "9": "9.8", "10": "10.9", "12": "12.9"}

# SAE J429, table 1, in ksi: proof and tensile up to a diameter in inches.
_GRADES: dict[str, tuple[tuple[float, float, float], ...]] = {
    "1": ((1.5, 33, 60),),
    "2": ((0.75, 55, 74), (1.5, 33, 60)),
    "4": ((1.5, 65, 115),),
    "5": ((1.0, 85, 120), (1.5, 74, 105)),
    "5.2": ((1.0, 85, 120),),
    "8": ((1.5, 120, 150),),
    "8.1": ((1.5, 120, 150),),
    "8.2": ((1.0, 120, 150),),
}

_WRITTEN = re.compile(
    r"(?:(?:property |strength )?(?:class|cl\.?)|(?:sae |j429 )?(?:grade|gr\.?)|sae|g)?\s*([0-9]{1,2}(?:[.,][0-9])?)",
    re.IGNORECASE,
)


def strength_number(text: str) -> str:
    """The number that a class or grade is written with ("Class 10,9" -> "10.9"), "" for any other text."""
    written = _WRITTEN.fullmatch(" ".join(text.split()))
    return written[1].replace(",", ".") if written else ""


def strength_of(text: str, thread: Thread) -> Strength | None:
    """The strength of a class or grade on a thread; None when the standards have no such one.

    On a metric thread a whole number is the class of a nut; on an inch thread it is a grade.
    """
    number = strength_number(text)
    if not is_metric(thread):
        for most, proof, tensile in _GRADES.get(number, ()):
            if float(thread.diameter.number) <= most:
                return Strength(f"grade {number}", proof * MPA_PER_KSI, tensile * MPA_PER_KSI)
    elif number in _NUT_CLASSES:
        return _of_class(_NUT_CLASSES[number], f"class {number}", thread)
    return _of_class(number, f"class {number}", thread) if number in _CLASSES else None


def strongest(thread: Thread) -> Strength:
    """The strongest that the standards know for such a thread."""
    found = strength_of("12.9" if is_metric(thread) else "8", thread)
    assert found is not None, "both are in the tables for every size"
    return found


def _of_class(number: str, name: str, thread: Thread) -> Strength:
    stresses = _THICK_88 if number == "8.8" and diameter_mm(thread) > _THICK_MM else _CLASSES[number]
    return Strength(name, *stresses)
