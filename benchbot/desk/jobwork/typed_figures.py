"""What is typed for a line of a job: figures that were read off, or what was set on a tool and which tool it was."""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchbot.errors import QuantityError
from benchbot.jobs.terms import When
from benchbot.quantities import read_number, read_unit
from benchbot.quantities.units import Unit, tidy_signs

_NUMBER = r"(?:\d+(?:[.,]\d+)?(?:/\d+)?|[.,]\d+)"
_FIGURE = re.compile(rf"\s*({_NUMBER})(?![\d/]|[.,]\d)\s*")
_WHEN = re.compile(r"\b(before|after|antes|despues|después)\b[ ,:]*", re.IGNORECASE)
_WHENS: dict[str, When] = {"before": "before", "antes": "before"}
_JOINT = re.compile(r"\s*(?:\+|;|then\b|and then\b|luego\b)\s*", re.IGNORECASE)
_LEADS_TO_TOOL = re.compile(
    r"^[\s,;]*(?:(?:with|on|by|using|con)\b)?[\s,;]*(?:(?:the|my|la|el|mi)\b)?\s*", re.IGNORECASE
)
_UNIT_WORDS_AT_MOST, _MOST_APART = 4, 5


@dataclass(frozen=True, slots=True)
class Figures:
    """figures: each as it was typed; unit: its symbol, "" where none was said; when: None where nothing was said."""

    figures: tuple[str, ...]
    unit: str
    when: When | None = None


@dataclass(frozen=True, slots=True)
class Setting:
    """set_to: as it was typed, with its unit; "" where the unit is missing. tool: "" where none was said."""

    set_to: str
    tool: str


def read_figures(text: str) -> Figures | None:
    """Figures of one unit, which may stand behind each or behind the last; None when the text is anything else.

    QuantityError: the unit is none of length.
    """
    tidy = tidy_signs(text)
    said = _WHEN.search(tidy)
    when: When | None = _WHENS.get(said[1].casefold(), "after") if said else None
    # a point in front is the figure's own: .004 in
    rest = _WHEN.sub(" ", tidy).lstrip(" ,;:").rstrip(" .,;")
    figures: list[str] = []
    units: list[str] = []
    while rest:
        found = _FIGURE.match(rest)
        if found is None:
            return None
        figures.append(found[1])
        rest = rest[found.end() :]
        unit, behind = _unit_before(rest)
        if unit is not None:
            if unit.dimension != "length":
                raise QuantityError(f"{unit.symbol} is no unit of length")
            units.append(unit.symbol)
            rest = behind
        elif rest and not _FIGURE.match(rest.lstrip(" ,;")):
            return None
        rest = rest.lstrip(" ,;")
    if not figures or len(set(units)) > 1 or (len(figures) > 1 and any("/" in one for one in figures)):
        return None
    if not _alike(figures):
        return None
    return Figures(tuple(figures), units[0] if units else "", when)


def read_setting(text: str) -> Setting | None:
    """What was set, in one stage or several, and the tool behind it; None when the text begins with no figure."""
    tidy = " ".join(tidy_signs(text).split())
    at = 0
    while True:
        found = _FIGURE.match(tidy, at)
        if found is None:
            break
        unit, behind = _unit_before(tidy[found.end() :])
        if unit is None or unit.dimension not in ("torque", "angle"):
            return Setting("", "") if at == 0 else None
        at = len(tidy) - len(behind)
        joint = _JOINT.match(tidy, at)
        if joint is None or _FIGURE.match(tidy, joint.end()) is None:
            break
        at = joint.end()
    if at == 0:
        return None
    return Setting(tidy[:at].strip(" ,;"), _LEADS_TO_TOOL.sub("", tidy[at:]).strip(" .,;"))


def _unit_before(text: str) -> tuple[Unit | None, str]:
    """The unit that the text begins with, the longest spelling of it, and what stands behind."""
    ends = [match.end() for match in re.finditer(r"\S+?(?=[\s,;+]|$)", text)][:_UNIT_WORDS_AT_MOST]
    for end in reversed(ends):
        unit = read_unit(text[:end])
        if unit is not None:
            return unit, text[end:]
    return None, text


def _alike(figures: list[str]) -> bool:
    """Whether they can be readings of one thing: "22 .4" is a figure with a blank in it."""
    try:
        numbers = [read_number(one) for one in figures]
    except QuantityError:
        return False
    return len(numbers) == 1 or max(numbers) <= min(numbers) * _MOST_APART
