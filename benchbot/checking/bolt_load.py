"""Whether a torque can be meant for its thread and class: T = K·D·F between what clamps and what the bolt bears.

It only judges a torque that a source states. It never gives one, and its words name none but the row's own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchbot.checking.figures import Torques, torques_of
from benchbot.checking.found import Found, Level
from benchbot.checking.rows import HeldRow
from benchbot.checking.strength import Strength, strength_number, strength_of, strongest
from benchbot.checking.threads import diameter_mm, stress_area
from benchbot.quantities.amounts import Amount, Thread
from benchbot.quantities.convert import convert
from benchbot.quantities.fittings import read_thread
from benchbot.quantities.units import tidy_signs, units_of

# Range of the nut factor K for steel on steel, from the table of finishes that Zip Fastener Products prints under
# "Engineering Data": dry 0.18-0.27, zinc 0.17-0.35, phosphated and oiled 0.15-0.22, cadmium 0.15-0.19, machine oil
# 0.10-0.26. Stainless (to 0.50) is left out: ISO 898-1 does not cover it.
ANY_FINISH = (0.10, 0.35)
DRY = (0.15, 0.35)
OILED = (0.10, 0.26)
_DENIED = re.compile(r"\b(?:no|not|never|without|clean of|free of)\b")
_DRY_WORDS = ("dry",)
_OILED_WORDS = ("oil", "lubric", "greas", "anti-seize", "antiseize", "moly", "copper", "wax")

# Shares of the proof load. Shigley and Machinery's Handbook aim at 75 % for a joint that is opened again and 90 % for
# one that is not; half of it is common practice as the least that still clamps, no source.
LEAST_LOAD = 0.5
USUAL_LOAD = 0.75
MOST_LOAD = 1.0

# A snug stage below this share of the most is looked at as another unit would write it; common practice, no source.
_LEAST_SNUG = 0.05

# These seal or are hollow, so that the clamping load of a solid bolt says nothing of how little they need.
_SEALING = frozenset({"banjo", "bleeder", "fitting", "flare", "plug"})
_MEND = "compare the figure, its unit, the thread and the class with the source page"


@dataclass(frozen=True, slots=True)
class Fastener:
    """A thread of known strength: D in mm, stress area in mm², and its loads in N."""

    thread: Thread
    strength: Strength
    diameter: float
    area: float

    @property
    def proof_load(self) -> float:
        return self.area * self.strength.proof

    @property
    def breaking_load(self) -> float:
        return self.area * self.strength.tensile

    def torque(self, factor: float, load: float) -> float:
        """K·D·F in N·m."""
        return factor * self.diameter / 1000 * load


@dataclass(frozen=True, slots=True)
class Field:
    """What a torque can be, in N·m: from `least` to `most`; beyond `breaking` the bolt gives at any friction."""

    least: float
    most: float
    breaking: float

    def holds(self, low: float, high: float) -> bool:
        return self.least <= low and high <= self.most


def fastener_of(thread: Thread, strength: Strength) -> Fastener | None:
    """The fastener; None when the size has no stress area by the standards."""
    area = stress_area(thread)
    return None if area is None else Fastener(thread, strength, diameter_mm(thread), area)


def factors(condition: str) -> tuple[float, float]:
    """The range of K for what the row says of the threads; every finish when it says nothing, two things or a "not"."""
    said = condition.casefold()
    if _DENIED.search(said):
        return ANY_FINISH
    dry, oiled = any(word in said for word in _DRY_WORDS), any(word in said for word in _OILED_WORDS)
    return ANY_FINISH if dry == oiled else DRY if dry else OILED


def field_of(fastener: Fastener, k: tuple[float, float], snug: bool) -> Field:
    """The field of a torque alone, or of the torque before an angle, which must leave the bolt load to be turned in."""
    top = fastener.torque(k[1], fastener.proof_load)
    breaking = fastener.torque(k[1], fastener.breaking_load)
    if snug:
        return Field(0.0, top * USUAL_LOAD, breaking)
    return Field(fastener.torque(k[0], fastener.proof_load * LEAST_LOAD), top * MOST_LOAD, breaking)


def bolt_load(row: HeldRow, component: str) -> Found | None:
    """The verdict on a torque with a thread; None when the standards cannot judge it.

    component: the canonical name. Without a class only too much is found, measured by the strongest class there is.
    """
    torques = torques_of(row.figure()) if row.property == "torque" and row.thread else None
    if torques is None:
        return None
    thread = read_thread(row.thread)
    strength = strength_of(row.strength_class, thread)
    if strength is None and strength_number(row.strength_class):
        told = f"{row.strength_class!r} is no class of ISO 898-1 and no grade of SAE J429, so the load is not checked"
        return Found("bolt load", "warning", told, "compare the class with the source page")
    if strength is None and row.strength_class:
        return None
    fastener = fastener_of(thread, strength or strongest(thread))
    if fastener is None:
        return None
    k = factors(row.condition)
    field = field_of(fastener, k, torques.snug)
    # No class, a joint that seals, a snug stage: then little torque is no sign of a slip.
    floor = field.least if strength is not None and not _seals(component) else 0.0
    return _judged(row, torques, fastener, k, Field(floor, field.most, field.breaking), classed=strength is not None)


def _judged(
    row: HeldRow, torques: Torques, fastener: Fastener, k: tuple[float, float], field: Field, classed: bool
) -> Found | None:
    low, high = _newton_metres(torques.low), _newton_metres(torques.high)
    about = (
        f"{row.thread} {fastener.strength.name} (stress area {fastener.area:.3g} mm², "
        f"proof load {fastener.proof_load / 1000:.3g} kN, K {k[0]:.2f} to {k[1]:.2f})"
    )
    if not classed:
        about = f"{row.thread}, no class given, even as {about.removeprefix(row.thread).strip()}"
    if field.holds(low, high):
        if not classed:
            return None
        kind = "the torque before the angle fits" if torques.snug else "fits"
        return Found("bolt load", "passed", f"{row.value} {kind} {about}", "")
    level: Level = "refused" if high > field.breaking else "warning"
    if high > field.most:
        stage = f"the torque before the angle, {_said(torques.high)}," if torques.snug else _said(torques.high)
        bound = "leaves load for the angle" if torques.snug else "the bolt bears without lasting stretch"
        told = f"{stage} is {_times(high / field.most)} the most that {bound}: {about}"
        if level == "refused":
            told += "; it breaks such a bolt at any friction"
    else:
        told = f"{_said(torques.low)} is {low / field.least:.0%} of the least that clamps: {about}"
    return Found("bolt load", level, f"{told}. {_would_fit(torques, field)}", _MEND)


def _would_fit(torques: Torques, field: Field) -> str:
    least = max(field.least, field.most * _LEAST_SNUG) if torques.snug else field.least
    fitting = [
        unit
        for unit in units_of("torque")
        if unit != torques.low.unit
        and least <= _as_unit(torques.low, unit)
        and _as_unit(torques.high, unit) <= field.most
    ]
    if not fitting:
        return "It would fit in no other unit of torque"
    return f"As {' or '.join(fitting)} it would fit"


def _as_unit(amount: Amount, unit: str) -> float:
    return float(convert(amount.number, unit, "N·m"))


def _newton_metres(amount: Amount) -> float:
    return _as_unit(amount, amount.unit)


def _said(amount: Amount) -> str:
    return f"{tidy_signs(amount.text)} {amount.unit}"


def _times(ratio: float) -> str:
    return f"{ratio:.2f} times" if ratio < 10 else f"{ratio:.0f} times"


def _seals(component: str) -> bool:
    words = component.split()
    return bool(_SEALING & set(words)) and not component.endswith("fitting bolt")
