"""Answers plain conversion questions ("108 nm to ft lbs"), and asks back where a unit is missing or is none."""

from __future__ import annotations

from benchbot.outcomes import Calculation, Choose, Option, Subject
from benchbot.quantities.asking import BareUnitQuestion, Conversion, asked_conversion

# As a word after a figure's unit, "lb-in" could be read as pounds and the preposition "in".
_PLAINLY = {"lb-in": "inch pounds"}


def calculate(text: str) -> Calculation | Choose | None:
    """The conversion that the whole message asks for; None when it asks for anything else.

    Where the unit is open ("80 lbs to nm"), each option states the whole message anew with a unit in it.
    """
    asked = asked_conversion(text)
    if asked is None:
        return None
    return _calculation(asked) if isinstance(asked, Conversion) else _question(asked)


def _calculation(asked: Conversion) -> Calculation:
    unit = "in" if asked.source.unit == "32nds" and "/" in asked.source.text else asked.source.unit
    given = f"{asked.source.text} {unit}"
    workings = dict.fromkeys(result.working for result in asked.results)
    return Calculation(given, " = ".join(result.text for result in asked.results), "; ".join(workings))


def _question(asked: BareUnitQuestion) -> Choose:
    options = []
    for unit in asked.choices:
        source, target = (unit, asked.known) if asked.missing == "source" else (asked.known, unit)
        text = f"{asked.number} {source} to {_PLAINLY.get(target, target)}"
        options.append(Option(unit, {"text": text}, ()))
    return Choose("unit", asked.said, "", tuple(options), Subject(), ("unit",))
