"""Which unit a figure without one can be in, as the book's own limit has it; asked wherever two can be meant."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from benchbot.book.rows import SpecRow
from benchbot.calculators.factors import in_unit
from benchbot.measuring.limits import NOMINAL, RUNOUT, VARIATION, Limit, limit_of
from benchbot.measuring.measured import Measure, Measured
from benchbot.measuring.swings import THINNEST_ROTOR

# How far from a limit a figure can honestly lie, as a multiple of it. Wide on purpose: what lies between is asked.
# Common practice, no source.
_THICK_LOW, _THICK_HIGH = Decimal("0.5"), Decimal(2)
_LINING_LOW, _LINING_HIGH = Decimal("0.1"), Decimal(12)
_ROUND_LOW, _ROUND_HIGH = Decimal("0.8"), Decimal("1.2")
_SWING_HIGH = Decimal(25)
_LININGS = frozenset({"brake pad", "brake shoe", "parking brake shoe"})


def units_of(measure: Measure, rows: Sequence[SpecRow], deciding: Limit) -> tuple[str, ...]:
    """The units in which the figure can be meant, the row's own first; empty where it is far off in each."""
    return tuple(unit for unit in _asked(deciding) if plausible(in_unit(measure.number, unit, "mm"), rows, deciding))


def plausible(mm: Decimal, rows: Sequence[SpecRow], deciding: Limit) -> bool:
    """Whether a figure can have been taken off such a part at all, worn or new."""
    name, limit = deciding.row.property, deciding.mm
    if name in (RUNOUT, VARIATION):
        return mm <= limit * _SWING_HIGH
    if name == "maximum diameter":
        return limit * _ROUND_LOW <= mm <= limit * _ROUND_HIGH
    nominal = limit_of(rows, NOMINAL)
    if deciding.row.component in _LININGS:
        return limit * _LINING_LOW <= mm <= max(limit * _LINING_HIGH, nominal.mm * 2 if nominal else limit)
    return limit * _THICK_LOW <= mm <= (nominal.mm if nominal else limit) * _THICK_HIGH


def settled(measured: Measured, rows: Sequence[SpecRow], deciding: Limit) -> tuple[Measured, tuple[str, ...]]:
    """The figures with their unit, or the two units to choose between.

    A unit that was said stands unless the figure is far off in it and near in another; one that was not said is
    settled only where the book's limit leaves one alone.
    """
    if measured.unit_chosen:
        return measured, ()
    doubtful: tuple[str, ...] = ()
    settled_ones: set[str] = set()
    for one in measured.measures:
        can_be = units_of(one, rows, deciding)
        if one.unit:
            mm = in_unit(one.number, one.unit, "mm")
            # thicknesses around a rotor are told where its variation is meant
            near = plausible(mm, rows, deciding) or (deciding.row.property == VARIATION and mm >= THINNEST_ROTOR)
            if not near and can_be and one.unit not in can_be:
                doubtful = doubtful or (one.unit, can_be[0])
        elif len(can_be) == 1:
            settled_ones.add(can_be[0])
        else:
            doubtful = doubtful or (can_be[:2] if can_be else _asked(deciding)[:2])
    if not doubtful and len(settled_ones) > 1:
        doubtful = tuple(sorted(settled_ones, key=_asked(deciding).index))[:2]
    if doubtful:
        return measured, doubtful
    return (measured.in_unit(settled_ones.pop()) if settled_ones else measured), ()


def _asked(deciding: Limit) -> tuple[str, ...]:
    """The units that such a thing is measured in, the book's own first."""
    if deciding.row.component in _LININGS:
        units = ["mm", "32nds", "in"]
    elif deciding.row.property in (RUNOUT, VARIATION):
        units = ["mm", "in", "thou"]
    else:
        units = ["mm", "in"]
    return tuple(sorted(units, key=lambda unit: unit != deciding.unit))
