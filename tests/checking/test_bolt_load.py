"""Torques against thread and class: worked examples, the ends of the field, slips, stages, and that none is given."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from benchbot.checking import Found, RowToCheck
from benchbot.checking.bolt_load import (
    ANY_FINISH,
    DRY,
    OILED,
    Fastener,
    Field,
    bolt_load,
    factors,
    fastener_of,
    field_of,
)
from benchbot.checking.strength import strength_of
from benchbot.checking.threads import MM_PER_INCH
from benchbot.quantities import convert
from benchbot.quantities.fittings import read_thread
from benchbot.quantities.units import units_of

Checked = Callable[..., list[Found]]
RowOf = Callable[..., RowToCheck]

LBF = constants.pound_force


def bolt(thread: str, strength: str) -> Fastener:
    read = read_thread(thread)
    known = strength_of(strength, read)
    assert known is not None
    found = fastener_of(read, known)
    assert found is not None
    return found


def field(thread: str, strength: str, k: tuple[float, float] = ANY_FINISH, snug: bool = False) -> Field:
    return field_of(bolt(thread, strength), k, snug)


# Worked examples of T = K·D·F as handbooks and makers print them.
def test_three_eighths_grade_5_at_three_quarters_of_proof() -> None:
    """mobiletechengineering.com on the nut factor: 4,940 lb of preload at 30 lb-ft (K 0.20) or 23 lb-ft (K 0.15)."""
    fastener = bolt("3/8-16", "5")
    load = 0.75 * fastener.proof_load
    assert load / LBF == pytest.approx(4940, rel=0.002)
    for factor, pound_feet in ((0.20, 30.9), (0.15, 23.2)):
        assert fastener.torque(factor, load) / (LBF * constants.foot) == pytest.approx(pound_feet, rel=0.003)


def test_m12_class_8_8_at_seven_tenths_of_proof() -> None:
    """aionlinecalculator.com, bolt torque: stress area 84.3 mm², 580 MPa, 34 kN, K 0.2, about 82 N·m."""
    fastener = bolt("M12", "8.8")
    load = 0.7 * fastener.proof_load
    assert load == pytest.approx(34_200, rel=0.002)
    assert fastener.torque(0.2, load) == pytest.approx(82, rel=0.005)


def test_m10_class_8_8_at_a_stress() -> None:
    """engitoolbox.org, bolt torque: 50 N·m at K 0.20 is 25 kN and 431 MPa on 58 mm²."""
    fastener = bolt("M10", "8.8")
    assert fastener.torque(0.2, 25_000) == pytest.approx(50)
    assert 25_000 / fastener.area == pytest.approx(431, rel=0.001)


@pytest.mark.parametrize(
    ("factor", "pound_inches"), [(0.30, 72.7), (0.25, 60.6), (0.20, 48.5), (0.15, 36.3), (0.10, 24.2)]
)
def test_one_preload_under_five_frictions(factor: float, pound_inches: float) -> None:
    """Mechanical Fastening, Joining, and Assembly, p. 85: 0.190 in and 1,275 lb."""
    plain = bolt("1/4-20", "5")
    screw = Fastener(plain.thread, plain.strength, 0.190 * MM_PER_INCH, plain.area)
    assert screw.torque(factor, 1275 * LBF) / (LBF * constants.inch) == pytest.approx(pound_inches, rel=0.003)


@pytest.mark.parametrize(
    ("value", "thread", "strength"),
    [
        # Common figures for such threads, invented rows, common practice, no source.
        ("105 N·m", "M12x1.5", "10.9"), ("27 N·m", "M8x1.25", "8.8"), ("9 N·m", "M6", "8.8"), ("80 lb-in", "M6", "8.8"),
        ("140 N·m", "M14x1.5", "10.9"), ("95..105 N·m", "M12x1.5", "10"), ("100 lb-ft", "1/2-20", "8"),
        ("30 N·m + 90 deg", "M10", "10.9"), ("100 ± 5 N·m", "M12x1.25", "10.9"), ("2.5 kgf·m", "M8", "8.8"),
    ],
)  # fmt: skip
def test_what_a_bay_sees_fits(checked: Checked, value: str, thread: str, strength: str) -> None:
    (found,) = checked("bolt load", value=value, thread=thread, strength_class=strength)
    assert (found.level, found.mend) == ("passed", "")
    assert "stress area" in found.told and "kN" in found.told


# Each slip on 105 N·m (77 lb-ft) for an M12x1.5 of class 10.9, and on 9 N·m (80 lb-in) for an M6 of class 8.8.
@pytest.mark.parametrize(
    ("value", "thread", "strength", "level", "units"),
    [
        ("1050 N·m", "M12x1.5", "10.9", "refused", "lb-in or kgf·cm"),
        ("10.5 N·m", "M12x1.5", "10.9", "warning", "kgf·m"),
        ("77 lb-in", "M12x1.5", "10.9", "warning", "N·m or lb-ft"),
        ("924 lb-ft", "M12x1.5", "10.9", "refused", "lb-in or kgf·cm"),
        ("10.7 N·m", "M12x1.5", "10.9", "warning", "kgf·m"),
        ("105 kgf·m", "M12x1.5", "10.9", "refused", "N·m or lb-ft"),
        ("80 lb-ft", "M6", "8.8", "refused", "lb-in or kgf·cm"),
        ("9 kgf·m", "M6", "8.8", "refused", "N·m or lb-ft"),
        ("90 N·m", "M6", "8.8", "refused", "lb-in or kgf·cm"),
    ],
)
def test_slips_are_found_and_the_unit_that_fits_is_named(
    checked: Checked, value: str, thread: str, strength: str, level: str, units: str
) -> None:
    (found,) = checked("bolt load", value=value, thread=thread, strength_class=strength)
    assert found.level == level
    assert f"As {units} it would fit" in found.told
    assert value in found.told
    assert found.mend


def test_it_says_by_how_much(checked: Checked) -> None:
    most = field("M12x1.5", "10.9").most
    (found,) = checked("bolt load", value=f"{most * 1.2:.1f} N·m", thread="M12x1.5", strength_class="10.9")
    assert found.level == "warning"
    assert "1.20 times the most" in found.told
    least = field("M12x1.5", "10.9").least
    (found,) = checked("bolt load", value=f"{least / 2:.2f} N·m", thread="M12x1.5", strength_class="10.9")
    assert "50% of the least" in found.told


@pytest.mark.parametrize(("share", "level"), [(0.999, "passed"), (1.001, "warning")])
def test_the_upper_end(checked: Checked, share: float, level: str) -> None:
    most = field("M10x1.25", "8.8").most
    (found,) = checked("bolt load", value=f"{most * share:.4f} N·m", thread="M10x1.25", strength_class="8.8")
    assert found.level == level


@pytest.mark.parametrize(("share", "level"), [(1.001, "passed"), (0.999, "warning")])
def test_the_lower_end(checked: Checked, share: float, level: str) -> None:
    least = field("M10x1.25", "8.8").least
    (found,) = checked("bolt load", value=f"{least * share:.4f} N·m", thread="M10x1.25", strength_class="8.8")
    assert found.level == level


@pytest.mark.parametrize(("share", "level"), [(0.999, "warning"), (1.001, "refused")])
def test_what_breaks_the_bolt_is_refused(checked: Checked, share: float, level: str) -> None:
    breaking = field("M10x1.25", "8.8").breaking
    (found,) = checked("bolt load", value=f"{breaking * share:.4f} N·m", thread="M10x1.25", strength_class="8.8")
    assert found.level == level


def test_the_snug_stage_must_leave_load_for_the_angle(checked: Checked) -> None:
    alone, snug = field("M10", "10.9"), field("M10", "10.9", snug=True)
    assert snug.most == pytest.approx(0.75 * alone.most)
    for share, level in ((0.99, "passed"), (1.01, "warning")):
        value = f"{snug.most * share:.2f} N·m + 90 deg"
        (found,) = checked("bolt load", value=value, thread="M10", strength_class="10.9")
        assert found.level == level
        assert "before the angle" in found.told


def test_a_small_snug_stage_is_no_slip(checked: Checked) -> None:
    (found,) = checked("bolt load", value="15 N·m + 90 deg + 90 deg", thread="M10", strength_class="10.9")
    assert found.level == "passed"
    (found,) = checked("bolt load", value="15 N·m", thread="M10", strength_class="10.9")
    assert found.level == "warning"


def test_the_last_of_several_torques_counts(checked: Checked) -> None:
    (found,) = checked("bolt load", value="20 lb-ft; 77 lb-ft", thread="M12x1.5", strength_class="10.9")
    assert found.level == "passed"
    (found,) = checked("bolt load", value="77 lb-ft; 924 lb-ft", thread="M12x1.5", strength_class="10.9")
    assert found.level == "refused"


def test_both_ends_of_a_range_count(checked: Checked) -> None:
    most = field("M12x1.5", "10.9").most
    (found,) = checked("bolt load", value=f"100..{most + 5:.0f} N·m", thread="M12x1.5", strength_class="10.9")
    assert found.level == "warning"


def test_without_a_class_only_too_much_is_found(checked: Checked) -> None:
    assert checked("bolt load", value="2 N·m", thread="M12x1.5") == []
    assert checked("bolt load", value="105 N·m", thread="M12x1.5") == []
    (found,) = checked("bolt load", value="105 N·m", thread="M6")
    assert found.level == "refused"
    assert "no class given, even as class 12.9" in found.told


def test_a_joint_that_seals_may_need_little(checked: Checked) -> None:
    cells = {"value": "15 N·m", "thread": "M12x1.5", "strength_class": "8.8"}
    assert checked("bolt load", component="brake hose banjo bolt", **cells)[0].level == "passed"
    assert checked("bolt load", **cells)[0].level == "warning"


def test_a_class_that_is_none_is_told(checked: Checked) -> None:
    (found,) = checked("bolt load", thread="M12x1.5", strength_class="10.8")
    assert found.level == "warning" and "'10.8' is no class of ISO 898-1" in found.told


@pytest.mark.parametrize(
    "cells",
    [
        {}, {"thread": "M12", "strength_class": "A2-70"}, {"thread": "M42x3", "strength_class": "8.8"},
        {"property": "socket", "value": "18 mm", "thread": "M12", "strength_class": "8.8"},
    ],
)  # fmt: skip
def test_what_cannot_be_judged_gives_no_verdict(checked: Checked, cells: dict[str, str]) -> None:
    assert checked("bolt load", **cells) == []


@pytest.mark.parametrize(
    ("condition", "wanted"),
    [
        ("", ANY_FINISH), ("dry", DRY), ("threads oiled", OILED), ("lightly lubricated", OILED), ("moly grease", OILED),
        ("dry threads, oiled head", ANY_FINISH), ("do not oil", ANY_FINISH), ("without lubricant", ANY_FINISH),
        ("threadlocker", ANY_FINISH), ("wheels on the ground", ANY_FINISH),
    ],
)  # fmt: skip
def test_the_condition_narrows_the_friction(condition: str, wanted: tuple[float, float]) -> None:
    assert factors(condition) == wanted


_FIGURE = re.compile(r"([0-9][0-9.]*) ?(?:N·m|lb-ft|lb-in|kgf·m|kgf·cm)")

# Up to what the table takes in any unit.
values = st.builds(
    lambda number, unit: (Decimal(number) / 10, unit), st.integers(1, 40000), st.sampled_from(units_of("torque"))
).filter(lambda value: convert(value[0], value[1], "N·m") <= 4900)
threads = st.sampled_from(["M6", "M8x1.25", "M10x1.25", "M12x1.5", "M14x1.5", "M20", "3/8-16", "1/2-20", "5/8-18"])


@given(values, threads, st.sampled_from(["", "8.8", "10.9", "12.9"]), st.sampled_from(["", "dry", "oiled"]))
def test_no_torque_but_the_rows_own_is_ever_named(
    row: RowOf, value: tuple[Decimal, str], thread: str, strength: str, condition: str
) -> None:
    number, unit = value
    cells = {"value": f"{number} {unit}", "thread": thread, "strength_class": strength, "condition": condition}
    found = bolt_load(row(**cells), "caliper bracket bolt")
    if found is not None:
        assert set(_FIGURE.findall(found.told + found.mend)) <= {str(number)}


@given(values, threads, st.sampled_from(["8.8", "10.9"]), st.sampled_from(units_of("torque")))
def test_the_verdict_does_not_hang_on_the_unit(
    row: RowOf, value: tuple[Decimal, str], thread: str, strength: str, unit: str
) -> None:
    number, first = value
    one = bolt_load(row(value=f"{number} {first}", thread=thread, strength_class=strength), "caliper bracket bolt")
    turned = round(convert(number, first, unit), 12)
    other = bolt_load(row(value=f"{turned:f} {unit}", thread=thread, strength_class=strength), "caliper bracket bolt")
    assert one is not None and other is not None
    assert one.level == other.level


@given(st.sampled_from(["8.8", "9.8", "10.9", "12.9"]), st.integers(5, 20), st.integers(1, 10), st.booleans())
def test_a_larger_bolt_takes_more_and_needs_more(strength: str, size: int, more: int, snug: bool) -> None:
    small, large = (field(f"M{d}x{size * 0.15:.2f}", strength, snug=snug) for d in (size, size + more))
    assert small.most < large.most and small.breaking < large.breaking
    assert (small.least < large.least) is not snug


@given(threads, st.booleans())
def test_a_stronger_class_takes_more(thread: str, snug: bool) -> None:
    fields = [field(thread, number, snug=snug) for number in ("8.8", "9.8", "10.9", "12.9")]
    assert [one.most for one in fields] == sorted(one.most for one in fields)
    assert all(one.least < one.most < one.breaking for one in fields)
