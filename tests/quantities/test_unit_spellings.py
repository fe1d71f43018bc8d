"""Every spelling of every unit is read as that unit, and nothing near one is."""

from __future__ import annotations

import pytest

from benchbot.errors import UnitError
from benchbot.quantities.convert import _PINT_NAMES
from benchbot.quantities.presentation import _FIRST_LINE
from benchbot.quantities.rounding import COARSEST_STEP
from benchbot.quantities.units import (
    ALSO_WORDS,
    BARE,
    LONGEST_SPELLING,
    SPELLINGS,
    UNITS,
    fold_spelling,
    read_unit,
    unit_named,
    units_of,
)

WRITTEN = {
    "N·m": "N·m|Nm|nm|NM|N.m|N-m|N m|N*m|N×m|n.m.|newton meters|newton metres|Newton-metre|newtonmeters|newton-meter",
    "lb-ft": "ft-lb|lb-ft|ft lbs|ft.lb|ft. lbs.|ftlb|ftlbs|lbf·ft|lbf ft|lbft|lb ft|lbs ft|lbs-ft|foot pounds|"
    "foot-pounds|foot pound|pound feet|pounds foot|pound-feet|FT-LBS|Ft·Lb|ft/lb|ft/lbs|lb/ft|feet pounds|ft pounds|"
    "foot lbs|ft·lbf|foot-pounds-force",
    "lb-in": "in-lb|inlb|in lbs|in.lb|in. lbs.|inch pounds|inch-pounds|lb-in|lbf·in|lbf in|inch lbs|inlbs|"
    "pound inches|in/lbs",
    "kgf·m": "kgf·m|kgm|kg-m|kg·m|kgf-m|kgf m|kgfm|mkg|m·kg|kg m",
    "kgf·cm": "kgf·cm|kg-cm|kg·cm|kgcm|kgf cm|cm·kg",
    "mm": "mm|MM|millimeter|millimeters|millimetre|millimetres|mm.",
    "cm": "cm|centimeters|centimetres",
    "in": "in|in.|inch|inches|\"|″|”|''|IN",
    "thou": "thou|mil|mils|thousandths|thousandths of an inch",
    "32nds": "32nds|32nd|32nds of an inch",
    "L": "L|l|ltr|ltrs|liter|liters|litre|litres|Litres",
    "mL": "ml|mL|mls|cc|ccs|milliliters|millilitres|cm3|cm³|cubic centimeters",
    "qt": "qt|qts|quart|quarts|US qt|U.S. quarts",
    "pt": "pt|pts|pint|pints|US pt|US pint",
    "gal": "gal|gallon|gallons|US gal",
    "fl oz": "fl oz|fl. oz.|floz|fluid ounces|US fl oz",
    "imp qt": "imp qt|imp. qt|imperial quarts|UK quarts",
    "imp pt": "imp pt|imperial pint",
    "imp gal": "imp gal|imperial gallons",
    "imp fl oz": "imp fl oz",
    "deg": "deg|deg.|degs|degree|degrees|°|º|˚",
    "turns": "turn|turns",
    "kPa": "kPa|kpa|KPA|kilopascals",
    "MPa": "MPa",
    "psi": "psi|PSI|psig",
    "bar": "bar|bars",
    "kgf/cm²": "kgf/cm²|kgf/cm2|kg/cm²|kg/cm2",
    "°C": "°C|ºC|℃|C|c|deg C|degrees C|celsius|degrees celsius",
    "°F": "°F|℉|F|deg F|degrees Fahrenheit",
}


@pytest.mark.parametrize(
    ("symbol", "spelling"), [(symbol, one) for symbol, spellings in WRITTEN.items() for one in spellings.split("|")]
)
def test_what_people_write_is_read(symbol: str, spelling: str) -> None:
    unit = read_unit(spelling)
    assert unit is not None
    assert unit.symbol == symbol


def test_every_unit_is_written_above_and_has_a_factor_a_step_and_a_first_line() -> None:
    assert set(WRITTEN) == set(UNITS) == set(_PINT_NAMES) == set(COARSEST_STEP) == set(_FIRST_LINE)


@pytest.mark.parametrize("symbol", sorted(UNITS))
def test_every_spelling_in_the_table_is_in_folded_form_and_is_read_in_any_case(symbol: str) -> None:
    for spelling in UNITS[symbol].spellings:
        assert fold_spelling(spelling) == spelling
        for written in (spelling, spelling.upper(), spelling.title(), f" {spelling} ", spelling.replace(" ", "-")):
            unit = read_unit(written)
            assert unit is not None, written
            assert unit.symbol == symbol, written
    assert read_unit(symbol) == UNITS[symbol]


def test_no_spelling_stands_for_two_units() -> None:
    assert sum(len(set(unit.spellings)) for unit in UNITS.values()) == len(SPELLINGS)


def test_words_beside_the_table() -> None:
    assert set(SPELLINGS) >= ALSO_WORDS
    assert not BARE & set(SPELLINGS)
    assert LONGEST_SPELLING == 4  # "thousandths of an inch"


# Each of these is a unit, or near one, and reading it as ours would give a wrong figure.
@pytest.mark.parametrize(
    "text",
    [
        "lb", "lbs", "pounds", "#", "kg", "kgf", "N", "m", "ft", "J", "joule", "joules", "kJ", "daN·m", "dNm",
        "cNm", "kNm",
        "N·mm", "N/m", "oz-in", "ozf in", "oz", "um", "km", "yd", "Pa", "ksi", "psi/ft", "lb/in2", "K", "rad",
        "rpm", "nms",
        "N·m·s", "ft-lb/s", "ft ibs", "mn", "n", "", " ", "-", "·", "Nm2", "mm2", "mm²", "in lb ft", "5 mm", "мм",
        "ニュートン",
        "nm🔧", "N_m", "N^m", "N**m!", "newton", "mm..", "mm -", "- mm", ".mm", "·mm", "m·n",
    ],
)  # fmt: skip
def test_what_is_no_unit_of_ours(text: str) -> None:
    assert read_unit(text) is None


def test_a_symbol_that_is_not_ours() -> None:
    assert unit_named("lb-ft").dimension == "torque"
    with pytest.raises(UnitError, match="no unit of ours"):
        unit_named("J")


def test_the_units_of_a_dimension() -> None:
    assert units_of("torque") == ("N·m", "lb-ft", "lb-in", "kgf·m", "kgf·cm")
