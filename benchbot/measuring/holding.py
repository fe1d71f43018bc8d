"""Which limits a measurement is held against, and what the book's outcome becomes once it is."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchbot.lookup.matching import axle_of
from benchbot.measuring.damage import rule
from benchbot.measuring.judging import WORST_FIRST, advice, deciding_limit, judge
from benchbot.measuring.limits import (
    DIAMETER,
    LIMITS,
    MACHINE_TO,
    MINIMUM,
    NOMINAL,
    RUNOUT,
    THICKNESSES,
    VARIATION,
)  # fmt: skip
from benchbot.measuring.measured import Measured
from benchbot.measuring.units import settled
from benchbot.outcomes import Answer, Choose, Finding, Gap, Judged, Missing, Option, Outcome, Sentence, Subject
from benchbot.understanding.reading import Ask, Reading
from benchbot.vocabulary.terms import Vocabulary

WEAR_PARTS = ("brake rotor", "brake pad", "brake drum", "brake shoe")
_SWINGS = frozenset({RUNOUT, VARIATION})
# What a choice states of what was measured: the unit, and of several parts the one that it is about.
UNIT_STATED, PART_STATED = "measured in", "measured part"
# Which of two figures was measured, where the other is a limit on the part.
TAKEN_STATED = "measured figure"
Parts = dict[tuple[str, str], list[Finding]]


@dataclass(frozen=True, slots=True)
class Wanted:
    """The reading with the limits asked for; asked: one of them was named, and only that one is to be shown."""

    reading: Reading
    asked: bool = False


def with_limits(reading: Reading, measured: Measured, vocabulary: Vocabulary, here: bool) -> Wanted | None:
    """The reading that asks the book for the limits of what was measured; None when no such thing was named.

    here: the message itself names the figure that it asks for; one that the chat asked for before is none of it.
    """
    if measured.parts:
        asks = _of_the_parts(reading, measured, vocabulary)
        return None if asks is None or here else Wanted(replace(reading, asks=asks))
    if not reading.asks:
        if reading.unknown_part or (reading.properties and not set(reading.properties) <= _SWINGS):
            return None
        if reading.properties or (reading.vague and set(reading.vague_properties) & _SWINGS):
            return Wanted(reading)
        return Wanted(replace(reading, asks=(_ask(Ask(WEAR_PARTS, True, place=reading.place), measured, vocabulary),)))
    if len(reading.asks) > 1:
        return None
    ask = reading.asks[0]
    held = [set(vocabulary.components[name].properties) & set(LIMITS) for name in ask.components]
    if not all(held):
        return None
    if ask.vague and ask.properties and set(ask.properties) <= _SWINGS:
        return Wanted(reading)
    if ask.named and not ask.vague:
        named = set(ask.properties)
        if named <= _SWINGS:
            return Wanted(reading) if len(named) == 1 else None
        if not here:
            return Wanted(replace(reading, asks=(_ask(ask, measured, vocabulary),)))
        if not named <= {MINIMUM, MACHINE_TO, NOMINAL, DIAMETER} or not named & {MINIMUM, DIAMETER}:
            return None
        return Wanted(reading, asked=True)
    return Wanted(replace(reading, asks=(_ask(ask, measured, vocabulary),)))


def _of_the_parts(reading: Reading, measured: Measured, vocabulary: Vocabulary) -> tuple[Ask, ...] | None:
    """Each part that was measured with its limits; None where another is asked for, or one of them is not."""
    found: dict[str, list[Ask]] = {part: [] for part in measured.parts}
    for ask in reading.asks:
        parts = [part for part in measured.parts if part in ask.components]
        if len(parts) != 1:
            return None
        whole = replace(ask, components=(parts[0],), always=False)
        found[parts[0]].append(_ask(whole, measured.of_part(parts[0]), vocabulary))
    if reading.unknown_part or reading.properties or not all(found.values()):
        return None
    return tuple(ask for asks in found.values() for ask in asks)


def _ask(ask: Ask, measured: Measured, vocabulary: Vocabulary) -> Ask:
    held = {name for one in ask.components for name in vocabulary.components[one].properties}
    names = [name for name in (*THICKNESSES, DIAMETER) if name in held]
    if measured.readings and VARIATION in held:
        names.append(VARIATION)
    return replace(ask, properties=tuple(names), vague=False, named=True)


def held_against(outcome: Outcome, measured: Measured, asked: bool) -> Outcome | None:
    """The outcome with the verdict; a gap where the limit is not held, a question where the unit is open.

    asked: the limit was asked for by name; None then where nothing can be said beyond the limit itself.
    """
    if isinstance(outcome, Gap):
        return outcome if asked else Gap(tuple(_of_the_limit(one) for one in outcome.missing))
    if not isinstance(outcome, Answer):
        return outcome
    parts = _parts(outcome.findings)
    if measured.which_stamped:
        return None if asked else _which_is_stamped(measured, outcome)
    if measured.parts:
        return _each_part(outcome, parts, measured)
    lacking = [_lacking(findings) for findings in parts.values() if _deciding(findings) is None]
    missing = tuple(one for one in outcome.missing if _matters(one, outcome.findings, measured))
    if lacking:
        return None if asked else Gap((*lacking, *missing))
    if asked and len(parts) > 1:
        return None
    judged: list[Judged] = []
    lines: list[Sentence] = []
    units_read: set[str] = set()
    for (_, axle), findings in parts.items():
        rows = [finding.row for finding in findings]
        limit = deciding_limit(rows, _swing(findings))
        if limit is None:
            raise ValueError("a part without a limit was not taken out before")
        here = measured.of_axle(axle)
        known, units = settled(here, rows, limit)
        if units:
            return None if asked else _which_unit(units, measured, outcome, findings)
        verdicts = judge(known, rows, _swing(findings))
        judged += verdicts
        lines += advice(verdicts, known, rows, whole=not asked)
        if here.unsettled and not here.unit_chosen and not measured.limit_asked:
            units_read |= {one.unit for one in known.measures}
    if units_read:
        lines.append(Sentence.of("read as", figures=measured.figures(), unit=", ".join(sorted(units_read))))
    judged.sort(key=lambda one: WORST_FIRST.index(one.verdict))
    return replace(outcome, missing=missing, judged=tuple(judged), advice=tuple(dict.fromkeys(lines)))


def _each_part(answer: Answer, parts: Parts, measured: Measured) -> Outcome:
    """Each part by itself: what the book has no limit for is missing, and what has no unit beyond doubt is sent again.

    One that is unsafe is told now, whatever is open about the other.
    """
    judged: list[Judged] = []
    lines: list[tuple[int, Sentence]] = []
    shown: list[Finding] = []
    lacking: list[Missing] = []
    doubtful: list[tuple[str, Measured, tuple[str, ...], list[Finding]]] = []
    for (part, axle), findings in parts.items():
        here = measured.of_part(part).of_axle(axle)
        rows = [finding.row for finding in findings]
        limit = deciding_limit(rows)
        if limit is None or _deciding(findings) is None:
            lacking.append(_lacking(findings))
            continue
        known, units = settled(here, rows, limit)
        if units:
            doubtful.append((part, here, units, findings))
            continue
        verdicts = judge(known, rows)
        rank = min(WORST_FIRST.index(one.verdict) for one in verdicts)
        judged += [replace(one, part=part) for one in verdicts]
        lines += [(rank, one) for one in advice(verdicts, known, rows, whole=True)]
        shown += findings
        if here.unsettled and not here.unit_chosen:
            read = Sentence.of("read as", figures=here.figures(), unit=_units(known))
            lines.append((rank, read))
    missing = (*lacking, *(_of_the_limit(one) for one in answer.missing if _matters(one, answer.findings, measured)))
    if judged:
        again = [Sentence.of("part by itself", part=part, figures=here.figures()) for part, here, _, _ in doubtful]
        lines.sort(key=lambda one: one[0])
        if measured.damage:
            # whose damage it is the message leaves open: it is said once, before every figure
            judged = [one for one in judged if one.verdict != "damaged"]
            judged.append(Judged("damaged", "", rule(measured.damage, measured.damage_said, "")))
        judged.sort(key=lambda one: WORST_FIRST.index(one.verdict))
        told = dict.fromkeys((*again, *(line for _, line in lines)))
        return replace(answer, findings=tuple(shown), missing=missing, judged=tuple(judged), advice=tuple(told))
    if not doubtful:
        return Gap(missing)
    part, here, units, findings = doubtful[0]
    others = tuple(
        Sentence.of("part by itself", part=one, figures=measured.of_part(one).figures())
        for one in measured.parts
        if one != part
    )
    choose = _which_unit(units, here, replace(answer, findings=tuple(findings)), findings)
    options = (replace(one, states=one.states | {PART_STATED: part}) for one in choose.options)
    return replace(choose, options=tuple(options), advice=others)


def _units(known: Measured) -> str:
    return ", ".join(sorted({one.unit for one in known.measures}))


def _parts(findings: tuple[Finding, ...]) -> Parts:
    """(component, axle) -> its rows."""
    found: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        found.setdefault((finding.row.component, axle_of(finding.row)), []).append(finding)
    return found


def _swing(findings: list[Finding]) -> str:
    """Runout or variation, where that alone was asked for."""
    names = {finding.row.property for finding in findings}
    return names.pop() if len(names) == 1 and names <= _SWINGS else ""


def _deciding(findings: list[Finding]) -> Finding | None:
    swing = _swing(findings)
    names = (swing,) if swing else (MINIMUM, DIAMETER)
    return next((one for one in findings if one.row.property in names), None)


def _lacking(findings: list[Finding]) -> Missing:
    subject = findings[0].subject
    names = {one.row.property for one in findings}
    # beside a thickness the discard limit is lacking; variation alone was found where readings were given
    name = MINIMUM if names & {*THICKNESSES, VARIATION} else DIAMETER
    return Missing("property not held", "", replace(subject, property=name))


def _of_the_limit(missing: Missing) -> Missing:
    """What is missing is the limit, not all that is shown beside it."""
    named = missing.subject.property.split(" or ")
    limits = [name for name in named if name in (MINIMUM, DIAMETER)]
    return replace(missing, subject=replace(missing.subject, property=" or ".join(limits))) if limits else missing


def _matters(missing: Missing, findings: tuple[Finding, ...], measured: Measured) -> bool:
    name = missing.subject.property
    if name in (MACHINE_TO, NOMINAL):
        return False
    if name in (MINIMUM, DIAMETER):
        # a pad has no diameter; where a whole axle is missing its limit is
        return missing.reason == "position not held" and _has(missing, findings, name)
    return True


def _has(missing: Missing, findings: tuple[Finding, ...], name: str) -> bool:
    return any(one.row.property == name for one in findings)


def _which_is_stamped(measured: Measured, answer: Answer) -> Choose:
    specs = tuple(dict.fromkeys(finding.row.spec for finding in answer.findings))
    options = tuple(Option(one.shown(), {TAKEN_STATED: one.shown()}, specs) for one in measured.measures)
    return Choose("stamped", "", "", options, replace(answer.findings[0].subject, property=""), ("stamped",))


def _which_unit(units: tuple[str, ...], measured: Measured, answer: Answer, findings: list[Finding]) -> Choose:
    specs = tuple(dict.fromkeys(finding.row.spec for finding in answer.findings))
    options = tuple(Option(unit, {UNIT_STATED: unit}, specs) for unit in units)
    about: Subject = replace(findings[0].subject, property=findings[0].row.property if len(findings) == 1 else "")
    return Choose("unit", measured.figures(), "", options, about, ("unit",))
