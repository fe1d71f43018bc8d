"""Conversion factors against published tables and an outside package, and the walls between dimensions."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from benchbot.errors import UnitError
from benchbot.quantities import UNITS, convert
from benchbot.quantities.convert import _DEFINITIONS, _registry, convert_step
from benchbot.quantities.rounding import round_half_up

ROOT = Path(__file__).resolve().parents[2]


# NIST SP 811 (2008), Appendix B.8, factors as printed there.
@pytest.mark.parametrize(
    ("source", "target", "printed"),
    [
        ("lb-ft", "N·m", "1.355818"),
        ("lb-in", "N·m", "0.1129848"),
        ("kgf·m", "N·m", "9.80665"),
        ("kgf·cm", "N·m", "0.0980665"),
        ("in", "mm", "25.4"),
        ("in", "cm", "2.54"),
        ("thou", "mm", "0.0254"),
        ("gal", "L", "3.785412"),
        ("qt", "L", "0.9463529"),
        ("pt", "L", "0.4731765"),
        ("fl oz", "mL", "29.57353"),
        ("imp gal", "L", "4.54609"),
        ("imp fl oz", "mL", "28.41306"),
        ("psi", "kPa", "6.894757"),
        ("bar", "kPa", "100"),
        ("kgf/cm²", "kPa", "98.0665"),
    ],
)
def test_factors_of_nist_sp_811(source: str, target: str, printed: str) -> None:
    places = Decimal(1).scaleb(int(Decimal(printed).as_tuple().exponent))
    assert round_half_up(convert(Decimal(1), source, target), places) == Decimal(printed)


# scipy.constants: CODATA and defined values.
@pytest.mark.parametrize(
    ("source", "target", "factor"),
    [
        ("lb-ft", "N·m", constants.foot * constants.lbf),
        ("lb-in", "N·m", constants.inch * constants.lbf),
        ("kgf·m", "N·m", constants.kgf),
        ("kgf·cm", "N·m", constants.kgf * constants.centi),
        ("in", "mm", constants.inch / constants.milli),
        ("thou", "mm", constants.mil / constants.milli),
        ("32nds", "mm", constants.inch / 32 / constants.milli),
        ("cm", "mm", constants.centi / constants.milli),
        ("gal", "L", constants.gallon / constants.liter),
        ("qt", "L", constants.gallon / 4 / constants.liter),
        ("pt", "L", constants.gallon / 8 / constants.liter),
        ("fl oz", "L", constants.fluid_ounce / constants.liter),
        ("imp gal", "L", constants.gallon_imp / constants.liter),
        ("imp qt", "L", constants.gallon_imp / 4 / constants.liter),
        ("imp pt", "L", constants.gallon_imp / 8 / constants.liter),
        ("imp fl oz", "L", constants.fluid_ounce_imp / constants.liter),
        ("mL", "L", constants.milli),
        ("psi", "kPa", constants.psi / constants.kilo),
        ("bar", "kPa", constants.bar / constants.kilo),
        ("MPa", "kPa", constants.mega / constants.kilo),
        ("kgf/cm²", "kPa", constants.kgf / constants.centi**2 / constants.kilo),
        ("turns", "deg", 2 * constants.pi / constants.degree),
    ],
)
def test_factors_of_scipy(source: str, target: str, factor: float) -> None:
    assert float(convert(Decimal(1), source, target)) == pytest.approx(factor, rel=1e-12)


@pytest.mark.parametrize("degrees", [-40, 0, 37, 100, 205])
def test_temperatures_of_scipy(degrees: int) -> None:
    expected = constants.convert_temperature(float(degrees), "Celsius", "Fahrenheit")
    assert float(convert(Decimal(degrees), "°C", "°F")) == pytest.approx(expected, abs=1e-9)


def test_exact_relations() -> None:
    # By definition: foot 0.3048 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2 (NIST SP 811, B.8 footnotes).
    assert convert(Decimal(1), "lb-ft", "N·m") == Decimal("1.3558179483314004")
    assert convert(Decimal(12), "lb-in", "lb-ft") == 1
    assert convert(Decimal(1), "kgf·m", "kgf·cm") == 100
    assert convert(Decimal("12.7"), "mm", "in") == Decimal("0.5")
    assert convert(Decimal("0.3333333333333333333333333333333333333333"), "turns", "deg") == 120
    assert convert(Decimal(-40), "°C", "°F") == -40
    assert convert(Decimal(212), "°F", "°C") == 100
    assert convert_step(Decimal(10), "°C", "°F") == 18


# Handbook figures computed from the NIST SP 811 B.8 factors.
@pytest.mark.parametrize(
    ("number", "source", "target", "expected"),
    [
        ("1", "N·m", "lb-ft", "0.737562"), ("1", "N·m", "lb-in", "8.850746"), ("1", "kgf·m", "lb-ft", "7.23301"),
        ("1", "lb-in", "N·m", "0.112984829"),
        ("20", "lb-ft", "N·m", "27.1"), ("80", "lb-ft", "N·m", "108.5"), ("100", "lb-ft", "N·m", "135.6"),
        ("150", "lb-ft", "N·m", "203.4"), ("8", "N·m", "lb-in", "70.8"), ("35", "N·m", "lb-ft", "25.8"),
        ("100", "N·m", "lb-ft", "73.8"), ("140", "N·m", "lb-ft", "103.3"), ("53", "lb-in", "N·m", "5.99"),
        ("96", "lb-in", "lb-ft", "8.0"), ("0.001", "in", "mm", "0.0254"), ("0.002", "in", "mm", "0.051"),
        ("0.015", "in", "mm", "0.381"), ("0.060", "in", "mm", "1.524"),
        ("1", "32nds", "mm", "0.79"), ("2", "32nds", "mm", "1.59"), ("3", "32nds", "mm", "2.38"),
        ("4", "32nds", "mm", "3.18"),
        ("5", "32nds", "mm", "3.97"), ("6", "32nds", "mm", "4.76"), ("8", "32nds", "mm", "6.35"),
        ("10", "32nds", "mm", "7.94"),
        ("12", "32nds", "mm", "9.53"), ("1.5", "mm", "32nds", "1.9"), ("2", "mm", "32nds", "2.5"),
        ("3", "mm", "32nds", "3.8"),
        ("4", "mm", "32nds", "5.0"), ("205", "°C", "°F", "401"), ("230", "°C", "°F", "446"),
        ("260", "°C", "°F", "500"),
        ("140", "°C", "°F", "284"), ("155", "°C", "°F", "311"), ("180", "°C", "°F", "356"),
    ],
)  # fmt: skip
def test_handbook_figures(number: str, source: str, target: str, expected: str) -> None:
    place = Decimal(1).scaleb(int(Decimal(expected).as_tuple().exponent))
    assert round_half_up(convert(Decimal(number), source, target), place) == Decimal(expected)


PAIRS = [(a, b) for a in UNITS for b in UNITS if UNITS[a].dimension == UNITS[b].dimension]
WALLS = [(a, b) for a in UNITS for b in UNITS if UNITS[a].dimension != UNITS[b].dimension]


@given(st.sampled_from(PAIRS), st.decimals(min_value="0.001", max_value=5000, places=3))
def test_there_and_back_gives_the_same_number(pair: tuple[str, str], number: Decimal) -> None:
    back = convert(convert(number, *pair), pair[1], pair[0])
    assert abs(back - number) <= abs(number) * Decimal("1e-20") + Decimal("1e-22")


@given(
    st.sampled_from(PAIRS),
    st.decimals(min_value="0.001", max_value=5000, places=3),
    st.decimals(min_value="0.001", max_value=5000, places=3),
)
def test_more_stays_more(pair: tuple[str, str], one: Decimal, other: Decimal) -> None:
    low, high = sorted((one, other))
    assert convert(low, *pair) <= convert(high, *pair)


def test_no_dimension_turns_into_another() -> None:
    for source, target in WALLS:
        with pytest.raises(UnitError, match="measures"):
            convert(Decimal(1), source, target)


@pytest.mark.parametrize("energy", ["J", "joule", "kJ", "cal", "BTU", "N", "kg", "m", "N·m·m", ""])
def test_torque_never_turns_into_energy_or_anything_else(energy: str) -> None:
    with pytest.raises(UnitError):
        convert(Decimal(1), "N·m", energy)


def test_pint_itself_knows_no_way_between_our_dimensions() -> None:
    import pint

    registry = _registry()
    names = {symbol: name for symbol, name, _ in _DEFINITIONS if symbol}
    for source, target in WALLS:
        with pytest.raises(pint.DimensionalityError):
            registry.Quantity(Decimal(1), names[source]).to(names[target])


# What pint's own parser makes of these with its own units is wrong without an error; in our registry they are unknown.
@pytest.mark.parametrize(
    "text", ["Nm", "ftlb", "joule", "J", "nm", "lb", "ft", "mil", "newton", "meter", "foot_pound", "cc"]
)
def test_our_registry_holds_nothing_but_our_units(text: str) -> None:
    import pint

    with pytest.raises(pint.UndefinedUnitError):
        _registry().Quantity(Decimal(1), text)


def test_importing_the_package_loads_neither_pint_nor_pydantic() -> None:
    program = (
        "import sys, benchbot.quantities as q\n"
        "assert q.parse_value('torque', '88 lb-ft').text == '88 lb-ft'\n"
        "assert q.asked_conversion('front pads 2019') is None\n"
        "assert q.asked_conversion('80 lbs to nm').said == 'lbs'\n"
        "print([m for m in ('pint', 'pydantic', 'rapidfuzz', 'sqlalchemy') if m in sys.modules])\n"
        "q.asked_conversion('80 ft lbs to nm')\n"
        "print('pint' in sys.modules)\n"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines() == ["[]", "True"]
