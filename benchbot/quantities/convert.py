"""Conversion between two units of one dimension, through pint with a registry that holds our units and no other."""

from __future__ import annotations

from decimal import Decimal, localcontext
from functools import cache
from typing import Any

from benchbot.errors import UnitError
from benchbot.quantities.units import UNITS, Unit, unit_named

# Working digits are well beyond the digits of a result, so that 12.7 mm comes out as 0.5 in and not a hair beside it.
_WORKING_DIGITS = 60
_RESULT_DIGITS = 28

# Each dimension has a base of its own. Torque is no product of force and length here, so it has no way to become
# energy, and an angle no way to become a plain number. The factors are the defining constants: foot, inch, pound,
# standard gravity, US and imperial gallon.
_DEFINITIONS: tuple[tuple[str, str, str], ...] = (
    ("N\u00b7m", "newton_metre", "[torque]"),
    ("lb-ft", "pound_foot", "0.45359237 * 9.80665 * 0.3048 * newton_metre"),
    ("lb-in", "pound_inch", "0.45359237 * 9.80665 * 0.0254 * newton_metre"),
    ("kgf\u00b7m", "kilogram_force_metre", "9.80665 * newton_metre"),
    ("kgf\u00b7cm", "kilogram_force_centimetre", "0.0980665 * newton_metre"),
    ("mm", "millimetre", "[length]"),
    ("cm", "centimetre", "10 * millimetre"),
    ("in", "inch", "25.4 * millimetre"),
    ("thou", "thousandth_inch", "0.0254 * millimetre"),
    ("32nds", "thirtysecond_inch", "0.79375 * millimetre"),
    ("L", "litre", "[volume]"),
    ("mL", "millilitre", "0.001 * litre"),
    ("gal", "us_gallon", "3.785411784 * litre"),
    ("qt", "us_quart", "us_gallon / 4"),
    ("pt", "us_pint", "us_gallon / 8"),
    ("fl oz", "us_fluid_ounce", "us_gallon / 128"),
    ("imp gal", "imperial_gallon", "4.54609 * litre"),
    ("imp qt", "imperial_quart", "imperial_gallon / 4"),
    ("imp pt", "imperial_pint", "imperial_gallon / 8"),
    ("imp fl oz", "imperial_fluid_ounce", "imperial_gallon / 160"),
    ("deg", "degree_of_turn", "[angle]"),
    ("turns", "turn", "360 * degree_of_turn"),
    ("kPa", "kilopascal", "[pressure]"),
    ("MPa", "megapascal", "1000 * kilopascal"),
    ("bar", "bar", "100 * kilopascal"),
    ("psi", "pound_per_square_inch", "0.45359237 * 9.80665 / 0.0254 ** 2 / 1000 * kilopascal"),
    ("kgf/cm\u00b2", "kilogram_force_per_square_centimetre", "98.0665 * kilopascal"),
    ("", "kelvin", "[temperature]; offset: 0"),
    ("\u00b0C", "degree_celsius", "kelvin; offset: 273.15"),
    ("\u00b0F", "degree_fahrenheit", "5 / 9 * kelvin; offset: 459.67 * 5 / 9"),
)
_PINT_NAMES: dict[str, str] = {symbol: name for symbol, name, _ in _DEFINITIONS if symbol}


def convert(number: Decimal, source: str, target: str) -> Decimal:
    """The number of `target` units (a symbol) that `number` of `source` units is, to 28 digits.

    UnitError when a symbol is unknown or the two are of different dimensions.
    """
    scale, offset = _line(source, target)
    with localcontext() as context:
        context.prec = _WORKING_DIGITS
        exact = number * scale + offset
        context.prec = _RESULT_DIGITS
        return +exact


def convert_step(step: Decimal, source: str, target: str) -> Decimal:
    """Like `convert`, for a difference: a step of 10 \u00b0C is a step of 18 \u00b0F."""
    scale, _ = _line(source, target)
    return step * scale


@cache
def _line(source: str, target: str) -> tuple[Decimal, Decimal]:
    """Scale and offset of the straight line from one unit to the other; pint is asked once for each pair."""
    one, other = unit_named(source), unit_named(target)
    if one.dimension != other.dimension:
        raise UnitError(
            f"{source} measures {one.dimension} and {target} measures {other.dimension}; "
            f"name a unit of {one.dimension} instead"
        )
    with localcontext() as context:
        context.prec = _WORKING_DIGITS
        at_zero = _through_pint(Decimal(0), one, other)
        at_one = _through_pint(Decimal(1), one, other)
        return at_one - at_zero, at_zero


def _through_pint(number: Decimal, source: Unit, target: Unit) -> Decimal:
    magnitude = _registry().Quantity(number, _PINT_NAMES[source.symbol]).to(_PINT_NAMES[target.symbol]).magnitude
    if not isinstance(magnitude, Decimal):
        raise UnitError(f"{source.symbol} to {target.symbol} left exact arithmetic; mend its definition")
    return magnitude


@cache
def _registry() -> Any:
    """Our registry: built on the first conversion, because importing pint costs more than an answer takes."""
    import pint

    registry: Any = pint.UnitRegistry(None, non_int_type=Decimal, on_redefinition="raise")
    with localcontext() as context:
        context.prec = _WORKING_DIGITS
        for _, name, meaning in _DEFINITIONS:
            registry.define(f"{name} = {meaning}")
    missing = sorted(set(UNITS) - set(_PINT_NAMES))
    if missing:
        raise UnitError(f"no factor is defined for {', '.join(missing)}; add it beside the others")
    return registry
