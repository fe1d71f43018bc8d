"""What a measurement comes to: held against the limits of one part, exactly, the worst place first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal

from benchbot.book.rows import SpecRow
from benchbot.calculators.factors import in_unit
from benchbot.measuring.limits import (
    DIAMETER,
    MACHINE_TO,
    MINIMUM,
    NOMINAL,
    RUNOUT,
    VARIATION,
    Limit,
    length_text,
    limit_of,
)  # fmt: skip
from benchbot.measuring.measured import FEWEST_READINGS, Measure, Measured
from benchbot.measuring.units import plausible
from benchbot.outcomes import Judged, Sentence, Verdict

WORST_FIRST: tuple[Verdict, ...] = (
    "discard", "nothing left", "out of limit", "unlikely", "above new", "no verdict", "no machining", "use",
)  # fmt: skip
_ROTOR = "brake rotor"
_LINING_ONLY = "lining"


def deciding_limit(rows: Sequence[SpecRow], swing: str = "") -> Limit | None:
    """The limit that a figure is held against: the discard limit, or that of runout or variation where one is meant."""
    names = (swing,) if swing else (MINIMUM, DIAMETER, RUNOUT, VARIATION)
    return next((limit for name in names for limit in (limit_of(rows, name),) if limit is not None), None)


def judge(measured: Measured, rows: Sequence[SpecRow], swing: str = "") -> tuple[Judged, ...]:
    """Each place measured with its verdict, the worst first; all figures must have a unit.

    rows: those of one part on one axle. swing: the property measured where it is runout or variation, else "".
    """
    deciding = deciding_limit(rows, swing)
    if deciding is None:
        raise ValueError("no limit is held: nothing can be said of a figure")
    if measured.with_plate and _LINING_ONLY in deciding.row.condition.casefold():
        return (Judged("no verdict", "", Sentence.of("with plate", measured=measured.figures())),)
    found: list[Judged] = []
    for (on, where), measures in measured.places().items():
        place = " ".join(word for word in (on, where) if word)
        largest = deciding.row.property != MINIMUM
        worst = (max if largest else min)(measures, key=_mm)
        verdict, said = _verdict(worst, rows, deciding)
        found.append(Judged(verdict, place, said))
        spread = limit_of(rows, VARIATION)
        if not swing and not largest and len(measures) >= FEWEST_READINGS and spread is not None:
            found.append(Judged(*_variation(measures, spread, place)))
    return tuple(sorted(found, key=lambda one: WORST_FIRST.index(one.verdict)))


def _mm(measure: Measure) -> Decimal:
    return in_unit(measure.number, measure.unit, "mm")


def _verdict(measure: Measure, rows: Sequence[SpecRow], deciding: Limit) -> tuple[Verdict, Sentence]:
    how: Callable[[Measure, Sequence[SpecRow], Limit], tuple[Verdict, Sentence]] = _swing
    if deciding.row.property == MINIMUM:
        how = _thickness
    elif deciding.row.property == DIAMETER:
        how = _diameter
    return how(measure, rows, deciding)


def _thickness(measure: Measure, rows: Sequence[SpecRow], limit: Limit) -> tuple[Verdict, Sentence]:
    mm, shown = _mm(measure), _shown(measure, limit)
    machine, nominal = limit_of(rows, MACHINE_TO), limit_of(rows, NOMINAL)
    margin = length_text(abs(mm - limit.mm), limit.unit)
    about = {"measured": shown, "margin": margin, "limit": limit.text}
    if mm < limit.mm:
        far = not plausible(mm, rows, limit)
        return "discard", Sentence.of("far below the limit" if far else "below the limit", **about)
    if mm == limit.mm:
        return "nothing left", Sentence.of("at the limit", measured=shown, limit=limit.text)
    contradicts = (machine and machine.mm < limit.mm) or (nominal and nominal.mm < (machine or limit).mm)
    if contradicts or (nominal and nominal.mm < limit.mm):
        return "no verdict", Sentence.of("limits contradict", measured=shown)
    if nominal is not None and mm > nominal.mm:
        above = length_text(mm - nominal.mm, nominal.unit)
        return "above new", Sentence.of("above new", measured=shown, margin=above, nominal=nominal.text)
    if not plausible(mm, rows, limit):
        return "unlikely", Sentence.of("far above the limit", measured=shown, limit=limit.text)
    if machine is None:
        return "use", Sentence.of("above the limit", **about)
    to_machine = length_text(abs(mm - machine.mm), limit.unit)
    if mm < machine.mm:
        return "no machining", Sentence.of("between the limits", short=to_machine, machine=machine.text, **about)
    if mm == machine.mm:
        return "no machining", Sentence.of("at the machine-to limit", machine=machine.text, **about)
    return "use", Sentence.of("above both limits", cut=to_machine, machine=machine.text, **about)


def _diameter(measure: Measure, rows: Sequence[SpecRow], limit: Limit) -> tuple[Verdict, Sentence]:
    mm, shown = _mm(measure), _shown(measure, limit)
    margin = length_text(abs(mm - limit.mm), limit.unit)
    if mm > limit.mm:
        far = not plausible(mm, rows, limit)
        name = "far over the diameter" if far else "over the diameter"
        return "discard", Sentence.of(name, measured=shown, margin=margin, limit=limit.text)
    if mm == limit.mm:
        return "nothing left", Sentence.of("at the diameter", measured=shown, limit=limit.text)
    if not plausible(mm, rows, limit):
        return "unlikely", Sentence.of("far under the diameter", measured=shown, limit=limit.text)
    return "use", Sentence.of("under the diameter", measured=shown, margin=margin, limit=limit.text)


def _swing(measure: Measure, rows: Sequence[SpecRow], limit: Limit) -> tuple[Verdict, Sentence]:
    return _held(_mm(measure), _shown(measure, limit), limit)


def _variation(measures: Sequence[Measure], limit: Limit, place: str) -> tuple[Verdict, str, Sentence]:
    swing = max(map(_mm, measures)) - min(map(_mm, measures))
    verdict, said = _held(swing, length_text(swing, measures[0].unit), limit)
    return verdict, place, said


def _held(mm: Decimal, shown: str, limit: Limit) -> tuple[Verdict, Sentence]:
    """Runout or thickness variation: the limit itself is still allowed."""
    kind = "runout" if limit.row.property == RUNOUT else "variation"
    margin = length_text(abs(mm - limit.mm), limit.unit)
    if mm > limit.mm:
        return "out of limit", Sentence.of(f"{kind} over", measured=shown, margin=margin, limit=limit.text)
    if mm == limit.mm:
        return "use", Sentence.of(f"{kind} at", measured=shown, limit=limit.text)
    return "use", Sentence.of(f"{kind} within", measured=shown, margin=margin, limit=limit.text)


def _shown(measure: Measure, limit: Limit) -> str:
    """As it was said, and in the unit of the limit where that is another one."""
    if measure.unit == limit.unit:
        return measure.shown()
    return f"{measure.shown()} (= {length_text(_mm(measure), limit.unit)})"


def advice(judged: Sequence[Judged], measured: Measured, rows: Sequence[SpecRow], whole: bool) -> tuple[Sentence, ...]:
    """What follows from the verdicts, what must be done first.

    whole: all limits of the part were looked up, so that one that is not among the rows is not held.
    """
    verdicts = {one.verdict for one in judged}
    components = {row.component for row in rows}
    said = {one.said.name for one in judged}
    swing_only = all(row.property in (RUNOUT, VARIATION) for row in rows)
    lines: list[Sentence] = []
    if verdicts & {"discard", "nothing left"}:
        lines.append(Sentence.of("replace as a pair"))
    if "runout over" in said:
        lines.append(Sentence.of("before a rotor is blamed"))
    if "variation over" in said:
        lines.append(Sentence.of("variation cannot stay"))
    if verdicts & {"above new", "unlikely"}:
        lines.append(Sentence.of("wrong part or wrong figure"))
    if "limits contradict" in said:
        lines.append(Sentence.of("ask your lead"))
    if "above both limits" in said:
        lines.append(Sentence.of("machine both sides"))
    machinable = any(row.property == MINIMUM for row in rows) and components == {_ROTOR}
    if whole and machinable and "above the limit" in said:
        lines.append(Sentence.of("no machine-to held"))
    if measured.readings and "runout" not in " ".join(said):
        lines.append(Sentence.of("thinnest counts"))
    linings = [row for row in rows if row.property == MINIMUM and row.component != _ROTOR]
    if linings and not all(_LINING_ONLY in row.condition.casefold() for row in linings):
        lines.append(Sentence.of("lining or plate"))
    if verdicts & {"use", "no machining"} and not swing_only:
        lines.append(Sentence.of("the figure alone"))
    return tuple(lines)
