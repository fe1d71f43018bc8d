"""The limits of one part at one place, taken from the rows of the book that answer for it, exactly in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchbot.book.rows import SpecRow
from benchbot.calculators.factors import in_unit, plain, rounded
from benchbot.errors import QuantityError
from benchbot.quantities import parse_value
from benchbot.quantities.amounts import Single, Span, Tolerance

MINIMUM, MACHINE_TO, NOMINAL = "minimum thickness", "machine-to thickness", "nominal thickness"
DIAMETER, RUNOUT, VARIATION = "maximum diameter", "maximum runout", "maximum thickness variation"
THICKNESSES = (MINIMUM, MACHINE_TO, NOMINAL)
DECIDING = (MINIMUM, DIAMETER, RUNOUT, VARIATION)
"""Without one of these nothing is said of what was measured."""
LIMITS = (*THICKNESSES, DIAMETER, RUNOUT, VARIATION)

# Finer than any tool in the bay shows: a margin that is less is written with the digits that it has.
_PLACES = {"mm": "0.001", "in": "0.0001"}


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit: the row, the end of it that decides, in millimetres and as it is written with the row's unit."""

    row: SpecRow
    mm: Decimal
    unit: str
    text: str
    stamped: bool = False
    """Whether it was read off the part and is stricter than the row."""


def limit_of(rows: Sequence[SpecRow], name: str) -> Limit | None:
    """The limit of that property among rows of one part; None when no row states it, or not as a length.

    Of a range or a tolerance the stricter end decides; of a nominal thickness the thickest that is still nominal.
    """
    for row in rows:
        if row.property != name:
            continue
        value = parse_value("length", row.value)
        if isinstance(value, Single):
            low = high = value.amount.number
            unit = value.amount.unit
        elif isinstance(value, Span):
            low, high, unit = value.low.number, value.high.number, value.low.unit
        elif isinstance(value, Tolerance):
            low, high = value.middle.number - value.within.number, value.middle.number + value.within.number
            unit = value.middle.unit
        else:
            raise QuantityError(f"row {row.spec}: {row.value!r} is no length that a figure can be held against")
        number = high if name in THICKNESSES else low
        text = row.value if isinstance(value, Single) else f"{plain(number)} {unit}"
        return Limit(row, in_unit(number, unit, "mm"), unit, text)
    return None


def length_text(mm: Decimal, unit: str) -> str:
    """A length or a margin in the unit of a row, to what can be measured; never nothing where there is something."""
    shown = unit if unit in _PLACES else "mm"
    number = in_unit(mm, "mm", shown)
    step = Decimal(_PLACES[shown])
    while number and abs(number) < step / 2:
        step = step.scaleb(-1)
    return f"{plain(Decimal(rounded(number, f'{step:f}')))} {shown}"
