"""The second unit: the lines at 3 % and 6 %, the last printed digit, and the slips by name."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.checking import Found, RowToCheck
from benchbot.checking.two_units import two_units

Checked = Callable[..., list[Found]]
RowOf = Callable[..., RowToCheck]


def level(checked: Checked, value: str, second: str, **cells: str) -> str:
    (found,) = checked("two units", value=value, second_value=second, **cells)
    return found.level


# 10 kgf·m is 98.0665 N·m (standard gravity 9.80665 m/s², CGPM 1901), so 3 % and 6 % above it are exact decimals.
@pytest.mark.parametrize(
    ("second", "wanted"),
    [
        ("98.0665 N·m", "passed"),
        ("101.008495 N·m", "passed"),  # exactly 3 % above
        ("101.008496 N·m", "warning"),
        ("103.950490 N·m", "warning"),  # exactly 6 % above
        ("103.950491 N·m", "refused"),
        ("95.124505 N·m", "passed"),  # exactly 3 % below
        ("95.124504 N·m", "warning"),
        ("92.182510 N·m", "warning"),  # exactly 6 % below
        ("92.182509 N·m", "refused"),
    ],
)
def test_the_lines_lie_at_three_and_six_percent(checked: Checked, second: str, wanted: str) -> None:
    assert level(checked, "10.0000 kgf·m", second) == wanted


@pytest.mark.parametrize(
    ("value", "second", "wanted"),
    [
        ("9 lb-ft", "12 N·m", "passed"),  # 12.2 N·m
        ("12 N·m", "9 lb-ft", "passed"),
        ("6 lb-ft", "9 N·m", "passed"),  # 8.1 N·m: 10 % off, but less than the 1.36 N·m of one lb-ft
        ("6 lb-ft", "10 N·m", "refused"),  # 1.9 N·m off
        ("6.0 lb-ft", "9.0 N·m", "refused"),  # the same figures printed to a tenth
        ("0.8 kgf·m", "7 N·m", "passed"),  # 7.85 N·m, one printed step is 1 N·m
        ("0.015 mm", "0.0006 in", "passed"),
    ],
)
def test_one_step_of_the_last_printed_digit_passes(checked: Checked, value: str, second: str, wanted: str) -> None:
    cells = {"property": "maximum runout", "component": "brake rotor"} if "mm" in value else {}
    assert level(checked, value, second, **cells) == wanted


@pytest.mark.parametrize(
    ("value", "second", "slip"),
    [
        ("105 N·m", "775 lb-ft", "10 times"),
        ("105 N·m", "7.75 lb-ft", "10 times"),
        ("105 N·m", "77 lb-in", "12 times"),
        ("10.5 N·m", "93 lb-ft", "12 times"),
        ("105 N·m", "105 lb-ft", "1.36 times"),
        ("77 N·m", "105 N·m", "1.36 times"),
        ("105 N·m", "105 kgf·m", "9.8 times"),
        ("10.7 N·m", "10.7 kgf·m", "9.8 times"),
    ],
)
def test_a_slip_is_refused_by_name(checked: Checked, value: str, second: str, slip: str) -> None:
    (found,) = checked("two units", value=value, second_value=second)
    assert found.level == "refused"
    assert slip in found.told and value in found.told and second in found.told
    assert found.mend


def test_a_second_value_of_words_is_refused(checked: Checked) -> None:
    (found,) = checked("two units", property="note", component="brake rotor", value="vented", second_value="solid")
    assert found.level == "refused"


def test_a_single_value_is_not_judged(checked: Checked) -> None:
    assert checked("two units") == []


def test_stages_are_compared_one_by_one(checked: Checked) -> None:
    assert level(checked, "60 N·m + 90 deg", "44 lb-ft + 90 deg") == "passed"
    assert level(checked, "60 N·m + 90 deg", "60 lb-ft + 90 deg") == "refused"


_FACTORS = {"lb-ft": "foot * pound_force", "lb-in": "inch * pound_force", "kgf·m": "kilogram_force * meter"}
_PINT: pint.UnitRegistry[float] = pint.UnitRegistry()


@given(
    st.integers(1000, 99999),
    st.sampled_from(sorted(_FACTORS)),
    st.floats(0.8, 1.25).filter(lambda r: all(abs(abs(r - 1) - line) > 0.002 for line in (0.03, 0.06))),
)
def test_the_level_is_what_pint_and_the_rule_say(row: RowOf, hundredths: int, unit: str, ratio: float) -> None:
    """Figures are printed to four places, so that the last digit never decides."""
    number = Decimal(hundredths) / 100
    factor = float(_PINT.Quantity(1, "newton * meter").to(_FACTORS[unit]).magnitude)
    second = f"{float(number) * factor * ratio:.4f} {unit}"
    apart = abs(ratio - 1)
    wanted = "passed" if apart < 0.03 else "warning" if apart < 0.06 else "refused"
    found = two_units(row(value=f"{number:.4f} N·m", second_value=second))
    assert found is not None and found.level == wanted
