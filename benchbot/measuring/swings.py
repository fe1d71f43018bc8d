"""Runout and thickness variation: the whole swing of several readings is judged, never one reading as the whole."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from benchbot.calculators.factors import in_unit
from benchbot.measuring.limits import RUNOUT, Limit, length_text
from benchbot.measuring.measured import Measure
from benchbot.outcomes import Judged, Sentence, Verdict

# No variation and no runout is as large, and no rotor of a road vehicle as thin: common practice, no source.
THINNEST_ROTOR = Decimal(4)
"""In millimetres."""


def in_mm(measure: Measure) -> Decimal:
    return in_unit(measure.number, measure.unit, "mm")


def shown_beside(measure: Measure, limit: Limit) -> str:
    """As it was said, and in the unit of the limit where that is another one."""
    if measure.unit == limit.unit:
        return measure.shown()
    return f"{measure.shown()} (= {length_text(in_mm(measure), limit.unit)})"


def held(mm: Decimal, shown: str, limit: Limit) -> tuple[Verdict, Sentence]:
    """Runout or thickness variation: the limit itself is still allowed."""
    kind = "runout" if limit.row.property == RUNOUT else "variation"
    margin = length_text(abs(mm - limit.mm), limit.unit)
    if mm > limit.mm:
        return "out of limit", Sentence.of(f"{kind} over", measured=shown, margin=margin, limit=limit.text)
    if mm == limit.mm:
        return "use", Sentence.of(f"{kind} at", measured=shown, limit=limit.text)
    return "use", Sentence.of(f"{kind} within", measured=shown, margin=margin, limit=limit.text)


def judge_swing(measures: Sequence[Measure], limit: Limit, place: str) -> Judged:
    """What was read at one place, in units, held against the limit of runout or variation."""
    if limit.row.property == RUNOUT:
        return _runout(measures, limit, place)
    sizes = [one for one in measures if in_mm(one) >= THINNEST_ROTOR]
    if not sizes:
        return _worst(measures, limit, place)
    if len(sizes) == len(measures) > 1:
        return _whole(measures, limit, place)
    name = "one thickness" if len(measures) == 1 else "thickness and variation"
    return Judged("no verdict", place, Sentence.of(name, measured=_all(measures)))


def _runout(measures: Sequence[Measure], limit: Limit, place: str) -> Judged:
    around_zero = any(one.number < 0 for one in measures)
    if len(measures) == 1:
        if around_zero:
            return Judged("no verdict", place, Sentence.of("one reading of the dial", measured=_all(measures)))
        return _worst(measures, limit, place)
    if around_zero or any(one.number == 0 for one in measures):
        return _whole(measures, limit, place)
    # readings of a dial that was not set to zero, or the runout of several rotors: judged where it makes no difference
    worst, whole = _worst(measures, limit, place), _whole(measures, limit, place)
    if worst.verdict != whole.verdict:
        return Judged("no verdict", place, Sentence.of("dial or runouts", measured=_all(measures)))
    return worst


def _worst(measures: Sequence[Measure], limit: Limit, place: str) -> Judged:
    worst = max(measures, key=in_mm)
    verdict, said = held(in_mm(worst), shown_beside(worst, limit), limit)
    return Judged(verdict, place, said)


def _whole(measures: Sequence[Measure], limit: Limit, place: str) -> Judged:
    high, low = max(measures, key=in_mm), min(measures, key=in_mm)
    mm = in_mm(high) - in_mm(low)
    swing = Measure(f"{mm:f}", "mm")
    if high.unit == low.unit:
        difference = high.number - low.number
        swing = Measure(f"{difference:f}", high.unit)
    verdict, said = held(mm, shown_beside(swing, limit), limit)
    return Judged(verdict, place, said, also=Sentence.of("whole swing", low=low.shown(), high=high.shown()))


def _all(measures: Sequence[Measure]) -> str:
    return ", ".join(one.shown() for one in measures)
