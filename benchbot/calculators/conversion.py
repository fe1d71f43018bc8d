"""Answers plain conversion questions ("108 nm to ft lbs"), and asks back where a unit is missing or is none."""

from __future__ import annotations

import re

from benchbot.outcomes import Calculation, Choose, Option, Subject
from benchbot.quantities.asking import BareUnitQuestion, Conversion, asked_conversion

# As a word after a figure's unit, "lb-in" could be read as pounds and the preposition "in".
_PLAINLY = {"lb-in": "inch pounds"}
# A thickness that is asked for in another unit, whatever it is one of: "pad 8/32 how many mm".
_OF_A_PART = re.compile(
    r"^(?:(?:the|my|las?|los?|el) )?(?:brake )?(?:pads?|linings?|shoes?|rotors?|discs?|balatas?|pastillas?|discos?) "
    r"(?:(?:is|are|at|of|de) )?(?=[0-9.])",
    re.IGNORECASE,
)
_ASKS_HOW_MANY = re.compile(r"\b(?:how many|how much|convert|cuantos?|cuantas?)\b", re.IGNORECASE)
_IN_SPANISH = tuple(
    (re.compile(pattern, re.IGNORECASE), said)
    for pattern, said in (
        (r"\blibras?[ -](?:por[ -])?pies?\b|\bpies?[ -]libras?\b", "lb-ft"),
        (r"\blibras?[ -](?:por[ -])?pulgadas?\b|\bpulgadas?[ -]libras?\b", "lb-in"),
        (r"\bnewtons?[ -](?:por[ -])?metros?\b", "nm"), (r"\bpulgadas?\b", "inches"),
        (r"\bmil[ií]metros?\b", "mm"), (r"\bcu[aá]nt[oa]s?\b", "how many"), (r"\b(?:son|es)\b", "is"),
        (r"\b(?:en|a)(?= (?:nm|n\.m|mm|lb|inches|how|psi|kpa|bar)\b)", "to"),
    )
)  # fmt: skip


def calculate(text: str) -> Calculation | Choose | None:
    """The conversion that the whole message asks for; None when it asks for anything else.

    Where the unit is open ("80 lbs to nm"), each option states the whole message anew with a unit in it.
    """
    asked = asked_conversion(text) or asked_conversion(_plain(text))
    if asked is None:
        return None
    return _calculation(asked) if isinstance(asked, Conversion) else _question(asked)


def _plain(text: str) -> str:
    """The text in English, without the part that the figure was measured on."""
    for pattern, said in _IN_SPANISH:
        text = pattern.sub(said, text)
    return _OF_A_PART.sub("", text.strip()) if _ASKS_HOW_MANY.search(text) else text


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
