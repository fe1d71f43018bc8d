"""Two figures that a source prints for one value must agree, and a slip between them is named."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.errors import UnitError
from benchbot.quantities import ValueKind, compare_second, parse_value, present


# Pairs as makers round them, through kgf·m or to whole lb-ft: they must pass.
@pytest.mark.parametrize(
    ("kind", "first", "second"),
    [
        ("torque", "8 N·m", "0.8 kg-m"), ("torque", "8 N·m", "69 in-lb"), ("torque", "22 N·m", "17 ft-lb"),
        ("torque", "17 ft-lb", "22 N·m"), ("torque", "128 N·m", "94 lb-ft"), ("torque", "100 N·m", "1000 kg-cm"),
        ("length", "0.015 mm", "0.0006 in"), ("length", "1.52 mm", "0.060 in"), ("length", "0.03 mm", "0.001 in"),
        ("length", "4/32 in", "3 mm"), ("volume", "6.3 L", "6.7 qt"), ("pressure", "220 kPa", "32 psi"),
        ("temperature", "205 °C", "401 °F"), ("torque", "95..105 N·m", "70-77 lb-ft"),
        ("torque", "100 ± 5 N·m", "74 ± 4 lb-ft"),
        ("torque", "95..105 N·m", "74 ± 4 lb-ft"), ("torque", "30 N·m + 90 deg", "22 lb-ft + 90°"),
        ("torque", "30 N·m + 90 deg", "22 lb-ft + 1/4 turn"),
        ("torque", "132 lb-ft; rotate; 263 lb-ft", "179 N·m; Rotate; 357 N·m"),
        ("length", "0 mm", "0 in"),
    ],
)  # fmt: skip
def test_agreeing_pairs_pass(kind: ValueKind, first: str, second: str) -> None:
    agreement = compare_second(parse_value(kind, first), parse_value(kind, second))
    assert (agreement.grade, agreement.slips, agreement.text) == ("pass", (), "")


@pytest.mark.parametrize(
    ("kind", "first", "second"),
    [
        ("torque", "100.0 N·m", "76.5 lb-ft"),  # 3.7%
        ("torque", "100.0 N·m", "78.1 lb-ft"),  # 5.9%
        ("torque", "100 ± 5 N·m", "74 lb-ft"),
        ("torque", "100 N·m", "70..77 lb-ft"),
    ],
)
def test_pairs_to_look_at(kind: ValueKind, first: str, second: str) -> None:
    agreement = compare_second(parse_value(kind, first), parse_value(kind, second))
    assert agreement.grade == "warn"
    assert agreement.text


@pytest.mark.parametrize(
    ("kind", "first", "second", "slip"),
    [
        ("length", "0.015 mm", "0.0059 in", "10 times"),
        ("length", "1.52 mm", "0.60 in", "10 times"),
        ("length", "1.52 mm", "6.0 in", "100 times"),
        ("length", "25 mm", "25 in", "25.4 times"),
        ("torque", "100 N·m", "740 lb-ft", "10 times"),
        ("torque", "108 N·m", "80 lb-in", "12 times"),
        ("torque", "10 N·m", "89 lb-ft", "12 times"),
        ("torque", "100 N·m", "100 lb-ft", "1.36 times"),
        ("torque", "74 N·m", "100 N·m", "1.36 times"),
        ("torque", "98 N·m", "98 kgf·m", "9.8 times"),
        ("torque", "118 N·m", "78 lb-ft", "swapped (87)"),
        ("torque", "182 N·m", "94 lb-ft", "swapped (128)"),
        ("volume", "4.0 L", "4.22 imp qt", "1.2 times"),
        ("torque", "95..105 N·m", "95..105 lb-ft", "1.36 times"),
        ("torque", "30 N·m + 90 deg", "30 lb-ft + 90 deg", "1.36 times"),
    ],
)
def test_slips_are_named(kind: ValueKind, first: str, second: str, slip: str) -> None:
    agreement = compare_second(parse_value(kind, first), parse_value(kind, second))
    assert agreement.grade == "reject"
    assert any(slip in named for named in agreement.slips)
    assert slip in agreement.text


def test_a_gap_without_a_known_slip_is_rejected_all_the_same() -> None:
    agreement = compare_second(parse_value("torque", "19 N·m"), parse_value("torque", "250 in-lb"))
    assert (agreement.grade, agreement.slips) == ("reject", ())
    assert "49% apart" in agreement.text


def test_just_inside_and_just_outside_the_lines() -> None:
    first = parse_value("torque", "100.00 N·m")
    # 100 N·m is 885.07 lb-in; 3% is 911.6, 6% is 938.2.
    grades = [compare_second(first, parse_value("torque", f"{n} lb-in")).grade for n in ("911", "913", "938", "940")]
    assert grades == ["pass", "warn", "warn", "reject"]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("30 N·m + 90 deg", "22 lb-ft"), ("22 lb-ft", "30 N·m + 90 deg"),
        ("30 N·m + 90 deg", "22 lb-ft + 90 deg + 90 deg"),
        ("30 N·m + 90 deg", "22 lb-ft + 95 deg"), ("30 N·m + 90 deg", "22 lb-ft + 66 lb-ft"),
        ("30 N·m; rotate", "22 lb-ft; wait"),
        ("30 N·m; rotate", "22 lb-ft; 90 deg"),
    ],
)  # fmt: skip
def test_stages_that_differ_are_rejected(first: str, second: str) -> None:
    agreement = compare_second(parse_value("torque", first), parse_value("torque", second))
    assert (agreement.grade, agreement.off) == ("reject", None)
    assert "do not agree" in agreement.text


@pytest.mark.parametrize(
    ("one", "other"),
    [(("torque", "12 N·m"), ("length", "12 mm")), (("thread", "M12x1.5"), ("thread", "M12x1.5")),
    (("words", "DOT 4"), ("torque", "12 N·m"))],
)  # fmt: skip
def test_what_cannot_be_compared(one: tuple[ValueKind, str], other: tuple[ValueKind, str]) -> None:
    with pytest.raises(UnitError):
        compare_second(parse_value(*one), parse_value(*other))


@given(st.integers(2, 500), st.sampled_from(["lb-ft", "lb-in", "kgf·m"]))
def test_our_own_conversions_always_agree(number: int, unit: str) -> None:
    first = parse_value("torque", f"{number} N·m")
    assert compare_second(first, parse_value("torque", present(first).converted[unit])).grade == "pass"
