"""What a measurement comes to: held against the limits of one part, exactly, the worst place first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from benchbot.book.rows import SpecRow
from benchbot.calculators.factors import in_unit
from benchbot.measuring.damage import rule
from benchbot.measuring.differences import differences
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
from benchbot.measuring.swings import held, in_mm, judge_swing, shown_beside
from benchbot.measuring.units import plausible
from benchbot.outcomes import Judged, Sentence, Verdict

WORST_FIRST: tuple[Verdict, ...] = (
    "damaged", "discard", "nothing left", "out of limit", "unlikely", "above new", "no verdict", "nearly worn",
    "no machining", "use",
)  # fmt: skip
_ROTOR = "brake rotor"
_LINING_ONLY = "lining"
# What is left of all that may wear, and where the book has no figure for a new part, in millimetres: less does not last
# until the next service. Common practice, no source.
_LAST_PART = Decimal("0.1")
_LITTLE = {_ROTOR: Decimal("0.15"), "brake drum": Decimal("0.2")}
_LITTLE_LINING = Decimal("0.6")


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
    book = deciding
    deciding, also = _with_the_stamped(measured, rows, book)
    found: list[Judged] = []
    for (on, where), measures in measured.places().items():
        place = " ".join(word for word in (on, where) if word)
        if deciding.row.property in (RUNOUT, VARIATION):
            found.append(judge_swing(measures, deciding, place))
            continue
        largest = deciding.row.property != MINIMUM
        worst = (max if largest else min)(measures, key=in_mm)
        verdict, said = _verdict(worst, rows, deciding)
        if also is not None and also.name == "stamped far off" and verdict not in ("discard", "nothing left"):
            far = Sentence.of("stamped far off", measured=worst.shown(), **dict(also.values))
            found.append(Judged("no verdict", place, far))
            continue
        found.append(Judged(verdict, place, said, also=None if also and also.name == "stamped far off" else also))
        spread = limit_of(rows, VARIATION)
        if not swing and not largest and len(measures) >= FEWEST_READINGS and spread is not None:
            found.append(Judged(*_variation(measures, spread, place)))
    if measured.target is not None and deciding.row.property == MINIMUM:
        found.append(_target(measured.target, rows, deciding))
    failed = {one.where for one in found if one.verdict == "out of limit"}
    found = [_beside_a_failed_check(one) if one.where in failed else one for one in found]
    if measured.damage:
        damaged = rule(measured.damage, measured.damage_said, deciding.row.component)
        # what a crack does to a part is said before what its figure does
        return (Judged("damaged", "", damaged), *map(_figure_alone, _worst_first(found)))
    return _worst_first(found)


def _with_the_stamped(measured: Measured, rows: Sequence[SpecRow], book: Limit) -> tuple[Limit, Sentence | None]:
    """The stricter of the book's limit and the one on the part, and what is said of the two."""
    stamped = measured.stamped
    if stamped is None or book.row.property not in (MINIMUM, DIAMETER):
        return book, None
    mm = in_mm(stamped)
    text = stamped.shown() if stamped.unit == book.unit else f"{stamped.shown()} (= {length_text(mm, book.unit)})"
    if not plausible(mm, rows, book):
        return book, Sentence.of("stamped far off", stamped=text, limit=book.text)
    if mm == book.mm:
        return book, Sentence.of("both the same")
    if (mm > book.mm) != (book.row.property == MINIMUM):
        return book, Sentence.of("book decides", stamped=text)
    machine = limit_of(rows, MACHINE_TO)
    limit = replace(book, mm=mm, text=text, stamped=True)
    if machine is not None and book.row.property == MINIMUM and machine.mm < mm:
        return limit, Sentence.of("stamped, no machining", book=book.text, machine=machine.text)
    return limit, Sentence.of("stamped decides", book=book.text)


def _worst_first(found: Sequence[Judged]) -> tuple[Judged, ...]:
    return tuple(sorted(found, key=lambda one: WORST_FIRST.index(one.verdict)))


# What a sentence that lets a part go on becomes where damage was said of it.
_ALONE = {
    "above the limit": "above, figure alone",
    "above both limits": "above, figure alone",
    "above, check failed": "above, figure alone",
    "above both, check failed": "above, figure alone",
    "no machining, check failed": "above, figure alone",
    "target within": "target, figure alone",
    "between the limits": "above, figure alone",
    "at the machine-to limit": "above, figure alone",
    "under the diameter": "under, figure alone",
    "runout within": "under, figure alone",
    "variation within": "under, figure alone",
    "runout at": "at, figure alone",
    "variation at": "at, figure alone",
}


# And what it becomes where another check of the same part has failed.
_FAILED_BESIDE = {
    "above the limit": "above, check failed",
    "above both limits": "above both, check failed",
    "between the limits": "no machining, check failed",
    "at the machine-to limit": "no machining, check failed",
}


def _beside_a_failed_check(judged: Judged) -> Judged:
    name = _FAILED_BESIDE.get(judged.said.name)
    return judged if name is None else replace(judged, said=Sentence(name, judged.said.values))


def _figure_alone(judged: Judged) -> Judged:
    """The figure without a word that lets the part go on."""
    name = _ALONE.get(judged.said.name)
    if name is None:
        return judged
    told = {key: text for key, text in judged.said.values if key in ("measured", "margin", "limit", "machine")}
    return replace(judged, verdict="no verdict", said=Sentence.of(name, **told))


def _verdict(measure: Measure, rows: Sequence[SpecRow], deciding: Limit) -> tuple[Verdict, Sentence]:
    how = _thickness if deciding.row.property == MINIMUM else _diameter
    return how(measure, rows, deciding)


def _thickness(measure: Measure, rows: Sequence[SpecRow], limit: Limit) -> tuple[Verdict, Sentence]:
    mm, shown = in_mm(measure), shown_beside(measure, limit)
    machine, nominal = limit_of(rows, MACHINE_TO), limit_of(rows, NOMINAL)
    if limit.stamped and machine is not None and machine.mm < limit.mm:
        machine = None
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
    near = _nearly_worn(measure, mm - limit.mm, rows, limit)
    if near:
        if machine is not None and mm <= machine.mm:
            return "nearly worn", Sentence.of(f"{near}, no machining", machine=machine.text, **about)
        return "nearly worn", Sentence.of(near, **about)
    if machine is None:
        return "use", Sentence.of("above the limit", **about)
    to_machine = length_text(abs(mm - machine.mm), limit.unit)
    if mm < machine.mm:
        return "no machining", Sentence.of("between the limits", short=to_machine, machine=machine.text, **about)
    if mm == machine.mm:
        return "no machining", Sentence.of("at the machine-to limit", machine=machine.text, **about)
    return "use", Sentence.of("above both limits", cut=to_machine, machine=machine.text, **about)


def _diameter(measure: Measure, rows: Sequence[SpecRow], limit: Limit) -> tuple[Verdict, Sentence]:
    mm, shown = in_mm(measure), shown_beside(measure, limit)
    margin = length_text(abs(mm - limit.mm), limit.unit)
    if mm > limit.mm:
        far = not plausible(mm, rows, limit)
        name = "far over the diameter" if far else "over the diameter"
        return "discard", Sentence.of(name, measured=shown, margin=margin, limit=limit.text)
    if mm == limit.mm:
        return "nothing left", Sentence.of("at the diameter", measured=shown, limit=limit.text)
    if not plausible(mm, rows, limit):
        return "unlikely", Sentence.of("far under the diameter", measured=shown, limit=limit.text)
    near = _nearly_worn(measure, limit.mm - mm, rows, limit)
    if near:
        about = {"measured": shown, "margin": margin, "limit": limit.text}
        return "nearly worn", Sentence.of(f"{near}, diameter", **about)
    return "use", Sentence.of("under the diameter", measured=shown, margin=margin, limit=limit.text)


def _target(target: Measure, rows: Sequence[SpecRow], limit: Limit) -> Judged:
    """What the part is to be machined to, held against the machine-to limit; without one nothing is to be machined."""
    mm, shown = in_mm(target), shown_beside(target, limit)
    machine = limit_of(rows, MACHINE_TO)
    if machine is None:
        return Judged("no machining", "", Sentence.of("target without a limit", measured=shown))
    lowest = max(machine.mm, limit.mm)
    text = machine.text if lowest == machine.mm else limit.text
    margin = length_text(abs(mm - lowest), limit.unit)
    if mm < lowest:
        return Judged("no machining", "", Sentence.of("target below", measured=shown, margin=margin, machine=text))
    return Judged("use", "", Sentence.of("target within", measured=shown, margin=margin, machine=text))


def _nearly_worn(measure: Measure, left: Decimal, rows: Sequence[SpecRow], limit: Limit) -> str:
    """The sentence for what has little left to wear, or less than was read; "" where there is enough. left: in mm."""
    if left < in_unit(measure.step, measure.unit, "mm"):
        return "finer than the reading"
    nominal = limit_of(rows, NOMINAL)
    if nominal is not None and nominal.mm > limit.mm:
        little = (nominal.mm - limit.mm) * _LAST_PART
    else:
        little = _LITTLE.get(limit.row.component, _LITTLE_LINING)
    return "nearly worn" if left < little else ""


def _variation(measures: Sequence[Measure], limit: Limit, place: str) -> tuple[Verdict, str, Sentence]:
    swing = max(map(in_mm, measures)) - min(map(in_mm, measures))
    verdict, said = held(swing, length_text(swing, measures[0].unit), limit)
    return verdict, place, said


def advice(judged: Sequence[Judged], measured: Measured, rows: Sequence[SpecRow], whole: bool) -> tuple[Sentence, ...]:
    """What follows from the verdicts, what must be done first.

    whole: all limits of the part were looked up, so that one that is not among the rows is not held.
    """
    verdicts = {one.verdict for one in judged}
    components = {row.component for row in rows}
    said = {one.said.name for one in judged}
    swing_only = all(row.property in (RUNOUT, VARIATION) for row in rows)
    lines: list[Sentence] = []
    unusable = bool(verdicts & {"discard", "nothing left"})
    if unusable:
        lines.append(Sentence.of("replace as a pair"))
    if "runout over" in said:
        lines.append(Sentence.of("before a rotor is blamed"))
    if "variation over" in said and not unusable and not measured.damage:
        no_room = verdicts & {"no machining", "nearly worn"} or "above, check failed" in said
        lines.append(Sentence.of("variation, new pair" if no_room else "variation cannot stay"))
    if verdicts & {"above new", "unlikely"}:
        lines.append(Sentence.of("wrong part or wrong figure"))
    if "limits contradict" in said:
        lines.append(Sentence.of("ask your lead"))
    if "above both limits" in said:
        lines.append(Sentence.of("machine both sides"))
    machinable = any(row.property == MINIMUM for row in rows) and components == {_ROTOR}
    if whole and machinable and "above the limit" in said and limit_of(rows, MACHINE_TO) is None:
        lines.append(Sentence.of("no machine-to held"))
    if measured.readings and "runout" not in " ".join(said):
        lines.append(Sentence.of("thinnest counts"))
    if components and not swing_only:
        lines += differences(measured, rows[0].component)
    linings = [row for row in rows if row.property == MINIMUM and row.component != _ROTOR]
    if linings and not all(_LINING_ONLY in row.condition.casefold() for row in linings):
        lines.append(Sentence.of("lining or plate"))
    if verdicts & {"use", "no machining", "nearly worn"} and not swing_only:
        lines.append(Sentence.of("the figure alone"))
    return tuple(lines)
