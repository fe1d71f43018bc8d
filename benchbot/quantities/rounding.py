"""Rounding of converted figures: half up, to what the tool in hand can set, and never far from the exact figure."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

# The coarsest step of each unit's tool: torque wrench, caliper and micrometer, measuring jug, gauge, protractor.
COARSEST_STEP: dict[str, Decimal] = {
    "N\u00b7m": Decimal(1),
    "lb-ft": Decimal(1),
    "lb-in": Decimal(1),
    "kgf\u00b7m": Decimal("0.1"),
    "kgf\u00b7cm": Decimal(1),
    "mm": Decimal("0.01"),
    "cm": Decimal("0.01"),
    "in": Decimal("0.001"),
    "thou": Decimal(1),
    "32nds": Decimal("0.1"),
    "L": Decimal("0.1"),
    "mL": Decimal(1),
    "qt": Decimal("0.1"),
    "pt": Decimal("0.1"),
    "gal": Decimal("0.1"),
    "fl oz": Decimal("0.1"),
    "imp qt": Decimal("0.1"),
    "imp pt": Decimal("0.1"),
    "imp gal": Decimal("0.1"),
    "imp fl oz": Decimal("0.1"),
    "deg": Decimal(1),
    "turns": Decimal("0.01"),
    "kPa": Decimal(1),
    "MPa": Decimal("0.1"),
    "psi": Decimal(1),
    "bar": Decimal("0.1"),
    "kgf/cm\u00b2": Decimal("0.1"),
    "\u00b0C": Decimal(1),
    "\u00b0F": Decimal(1),
}

# Below so many of a unit, a tenth of the coarsest step is given.
_FINER_BELOW: dict[str, Decimal] = {"N\u00b7m": Decimal(50), "lb-ft": Decimal(50)}
# A calculated figure keeps that place longer, because somebody may go on reckoning with it.
_FINER_BELOW_CALCULATED: dict[str, Decimal] = {
    "N\u00b7m": Decimal(1000),
    "lb-ft": Decimal(1000),
    "lb-in": Decimal(100),
    "mm": Decimal(10),
}

_MOST_OFF = Decimal("0.01")
# One per cent means nothing near the zero of a thermometer; no thermometer in the bay shows a twentieth of a degree.
_MOST_DEGREES_OFF = Decimal("0.05")
_DEGREES = frozenset({"\u00b0C", "\u00b0F"})


def allowed_error(exact: Decimal, unit: str, tolerance: Decimal | None = None) -> Decimal:
    """How far a rounded figure may lie from the exact one: 1% of it, or half the stated tolerance if that is less."""
    allowed = abs(exact) * _MOST_OFF
    if unit in _DEGREES:
        allowed = max(allowed, _MOST_DEGREES_OFF)
    return allowed if tolerance is None else min(allowed, tolerance / 2)


def rounding_step(
    exact: Decimal, unit: str, *, source: str = "", tolerance: Decimal | None = None, calculated: bool = False
) -> Decimal:
    """The coarsest sensible step that keeps the figure within `allowed_error`.

    unit: symbol of the figure's unit. source: symbol of the unit it came from. tolerance: in the figure's unit.
    calculated: the figure answers a question of reckoning and is not the conversion of a spec.
    """
    allowed = allowed_error(exact, unit, tolerance)
    step = COARSEST_STEP[unit]
    finer_below = (_FINER_BELOW_CALCULATED if calculated else _FINER_BELOW).get(unit)
    if unit == "mm" and source == "32nds":
        # 32nds are read off a pad gauge; hundredths of a millimetre would pretend to a reading nobody took.
        step = Decimal("0.1")
    elif finer_below is not None and abs(exact) < finer_below:
        step = step.scaleb(-1)
    while abs(round_half_up(exact, step) - exact) > allowed:
        step = step.scaleb(-1)
    return step


def round_half_up(exact: Decimal, step: Decimal) -> Decimal:
    """The figure at the nearest multiple of a power of ten; a figure half way between two goes away from zero."""
    return exact.quantize(step, rounding=ROUND_HALF_UP)
