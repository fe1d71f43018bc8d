"""Each table against its source: units, fluid grades, hexes, bolts."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest
import scipy.constants
from hypothesis import given
from hypothesis import strategies as st

from benchbot.calculators.bolts import ANY_FINISH, fastener, load
from benchbot.calculators.factors import KINDS, in_unit
from benchbot.calculators.fluids import GRADES, fahrenheit, mixes, reaches
from benchbot.calculators.heads import STANDARDS, heads_of, threads_of
from benchbot.errors import QuantityError, UnitError
from benchbot.quantities.convert import convert
from benchbot.quantities.units import UNITS

D = Decimal
SHARED = [
    (one, other) for one in KINDS for other in KINDS if KINDS[one] == KINDS[other] and one in UNITS and other in UNITS
]


@pytest.mark.parametrize(("one", "other"), SHARED)
def test_factors_are_those_of_the_units_library(one: str, other: str) -> None:
    """pint, through the registry that the book's conversions are made with."""
    for number in (D(1), D("17.3"), D(400)):
        assert in_unit(number, one, other) == pytest.approx(convert(number, one, other), rel=D("1e-15"))


@pytest.mark.parametrize(
    ("unit", "base", "value"),
    [
        ("lb-ft", "N·m", scipy.constants.lbf * scipy.constants.foot),
        ("lb-in", "N·m", scipy.constants.lbf * scipy.constants.inch),
        ("kgf·m", "N·m", scipy.constants.kgf),
        ("in", "mm", scipy.constants.inch * 1000),
        ("thou", "mm", scipy.constants.mil * 1000),
        ("miles", "km", scipy.constants.mile / 1000),
        ("years", "weeks", 365.2425 / 7),
    ],
)
def test_factors_are_those_of_scipy(unit: str, base: str, value: float) -> None:
    assert float(in_unit(D(1), unit, base)) == pytest.approx(value, rel=1e-12)


@given(st.sampled_from(sorted(KINDS)), st.sampled_from(sorted(KINDS)), st.decimals(0, 1000, places=3))
def test_no_unit_becomes_one_of_another_kind(one: str, other: str, number: Decimal) -> None:
    if KINDS[one] == KINDS[other]:
        assert in_unit(in_unit(number, one, other), other, one) == pytest.approx(number)
    else:
        with pytest.raises(UnitError, match="do not measure the same"):
            in_unit(number, one, other)


# 49 CFR 571.116: S5.1.1 dry ERBP, S5.1.2 wet ERBP, both in °C and °F as printed, S5.1.3 viscosity at -40 °C. The
# figures were taken from secondary copies that agree with each other, not from the printed rule.
@pytest.mark.parametrize(
    ("grade", "dry", "dry_f", "wet", "wet_f", "viscosity"),
    [
        ("3", 205, 401, 140, 284, 1500),
        ("4", 230, 446, 155, 311, 1800),
        ("5", 260, 500, 180, 356, 900),
        ("5.1", 260, 500, 180, 356, 900),
    ],
)
def test_fluid_grades(grade: str, dry: int, dry_f: int, wet: int, wet_f: int, viscosity: int) -> None:
    held = GRADES[grade]
    assert (held.dry, held.wet, held.viscosity) == (dry, wet, viscosity)
    assert (fahrenheit(held.dry), fahrenheit(held.wet)) == (dry_f, wet_f)
    kelvin = scipy.constants.convert_temperature([dry, wet], "Celsius", "Fahrenheit")
    assert [round(one) for one in kelvin] == [dry_f, wet_f]


def test_what_may_be_mixed() -> None:
    """DOT 5 is silicone based by 49 CFR 571.116 S4 (at least 70 % by weight); the others are not."""
    for one in GRADES.values():
        for other in GRADES.values():
            assert mixes(one, other) == mixes(other, one) == ((one.name == "5") == (other.name == "5"))
            assert not reaches(one, other) or mixes(one, other)
        assert reaches(one, one)
    better = [
        (one, other) for one in GRADES for other in GRADES if reaches(GRADES[one], GRADES[other]) and one != other
    ]
    assert better == [("4", "3"), ("5.1", "3"), ("5.1", "4")]


def test_hexes_are_those_of_the_standards() -> None:
    """hex_sizes.csv: taken from the tables of the package bd-warehouse 0.4.0 (Apache-2.0), M5 to M24."""
    with Path(__file__).with_name("hex_sizes.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) > 55
    checked = set()
    for row in rows:
        held = next(one for one in STANDARDS if row["standard"] in one.name)
        assert held.flats[int(row["thread"])] == int(row["flats"]), row
        checked.add((held.name, int(row["thread"])))
    from_memory = {"JIS B 1180 (small)", "ISO 15071 (small flange)"}
    assert {(one.name, d) for one in STANDARDS if one.name not in from_memory for d in one.flats} == checked


def test_a_hex_and_a_thread_name_each_other() -> None:
    for standard in STANDARDS:
        for diameter, flats in standard.flats.items():
            assert standard.name in heads_of(diameter)[flats]
            assert standard.name in threads_of(flats)[diameter]
    assert len(heads_of(12)) > 1 < len(threads_of(17)), "which is why neither tells the other"
    assert heads_of(13) == threads_of(11) == {}


# ISO 898-1, tables of stress areas, proof and breaking loads, as mechanical handbooks reprint them; to 0.5 %.
@pytest.mark.parametrize(
    ("thread", "strength", "proof", "breaking"),
    [
        ("M8x1.25", "8.8", 21.2, 29.2),
        ("M10x1.5", "10.9", 48.1, 60.3),
        ("M12x1.75", "8.8", 48.9, 67.4),
        ("M12x1.75", "10.9", 70.0, 87.7),
        ("M16x2", "8.8", 91.0, 125),
    ],
)
def test_bolts(thread: str, strength: str, proof: float, breaking: float) -> None:
    bolt = fastener(thread, strength)
    assert bolt is not None
    assert bolt.proof_load / 1000 == pytest.approx(proof, rel=0.005)
    assert bolt.breaking_load / 1000 == pytest.approx(breaking, rel=0.005)


def test_the_load_of_a_torque() -> None:
    """Reckoned by hand: M12, K 0.20, 52.5 kN take 0.20 · 0.012 m · 52 500 N = 126 N·m; K 0.12: 87.5 kN."""
    may = load(126, 12, (0.12, 0.20))
    assert (may.least, may.most) == (pytest.approx(52500), pytest.approx(87500))


@given(st.floats(1, 500), st.floats(5, 24), st.floats(0.08, 0.2), st.floats(0.21, 0.4))
def test_more_friction_clamps_less(torque: float, diameter: float, low: float, high: float) -> None:
    may = load(torque, diameter, (low, high))
    assert may.least < may.most
    assert load(torque * 2, diameter, (low, high)).least == pytest.approx(may.least * 2)
    assert may.least * high * diameter / 1000 == pytest.approx(torque)


def test_what_is_no_bolt() -> None:
    assert fastener("M12x1.75", "11.3") is None
    with pytest.raises(QuantityError):
        fastener("12 mm", "10.9")
    assert ANY_FINISH[0] < ANY_FINISH[1]
