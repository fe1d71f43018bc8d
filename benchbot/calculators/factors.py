"""What one unit is of another, exactly, for sums that must not wait for a units library."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from benchbot.errors import UnitError

# The defining constants: inch, pound, standard gravity (NIST SP 811, appendix B.8) and the international mile.
_POUND_FORCE = Decimal("0.45359237") * Decimal("9.80665")
_FACTORS: dict[str, dict[str, Decimal]] = {
    "torque": {
        "N·m": Decimal(1),
        "lb-ft": _POUND_FORCE * Decimal("0.3048"),
        "lb-in": _POUND_FORCE * Decimal("0.0254"),
        "kgf·m": Decimal("9.80665"),
        "kgf·cm": Decimal("0.0980665"),
    },
    "length": {
        "mm": Decimal(1),
        "cm": Decimal(10),
        "in": Decimal("25.4"),
        "thou": Decimal("0.0254"),
        "32nds": Decimal("0.79375"),
    },
    "distance": {"km": Decimal(1), "miles": Decimal("1.609344")},
    "time": {"weeks": Decimal(7), "months": Decimal("30.436875"), "years": Decimal("365.2425")},
    "temperature": {"°C": Decimal(1), "°F": Decimal(1)},
    "share": {"%": Decimal(1)},
    "angle": {"deg": Decimal(1)},
}
KINDS: dict[str, str] = {unit: kind for kind, units in _FACTORS.items() for unit in units}
"""Symbol of a unit -> what it measures; units of other things are none of a calculator's."""


def in_unit(number: Decimal, unit: str, target: str) -> Decimal:
    """The number in the target unit (symbols). UnitError when they measure different things.

    Two units that are the same, "" included (a unit that was not said), need no factor.
    """
    if unit == target:
        return number
    if KINDS.get(unit) is None or KINDS.get(unit) != KINDS.get(target):
        raise UnitError(f"{unit!r} and {target!r} do not measure the same; name units of one kind")
    if KINDS[unit] == "temperature":
        nine_fifths = Decimal("1.8")
        return (number - 32) / nine_fifths if target == "°C" else number * nine_fifths + 32
    factors = _FACTORS[KINDS[unit]]
    return number * factors[unit] / factors[target]


def rounded(number: Decimal, step: str) -> str:
    """The number at the nearest multiple of the step ("0.1"), half away from zero, as people write it."""
    held = number.quantize(Decimal(step), rounding=ROUND_HALF_UP)
    return f"{abs(held) if held.is_zero() else held:f}"


def plain(number: Decimal) -> str:
    """The number without zeros at its end and without an exponent."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def with_unit(figure: str, unit: str) -> str:
    """ "72.0 lb-ft", or the figure alone where no unit was said."""
    return f"{figure} {unit}" if unit else figure


SETTING_STEP: dict[str, str] = {"kgf·m": "0.01", "lb-in": "1", "kgf·cm": "1"}
"""What the figure of a torque is rounded to, where it is not a tenth."""


def torque_text(number: Decimal, unit: str) -> str:
    """A torque to the place that matters on a wrench; unit "" where none was said."""
    return with_unit(rounded(number, SETTING_STEP.get(unit, "0.1")), unit)
