"""The source is shown as entered; conversions are rounded half up to what a tool can set, and stay close."""

from __future__ import annotations

import json
import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.errors import UnitError
from benchbot.quantities import (
    UNITS,
    Presentation,
    Single,
    Tolerance,
    ValueKind,
    convert,
    converted_text,
    parse_value,
    present,
)
from benchbot.quantities.rounding import round_half_up, rounding_step


@pytest.mark.parametrize(
    ("kind", "text", "primary"),
    [
        ("torque", "88 lb-ft", ("119 N·m",)),
        ("torque", "10 N·m", ("7.4 lb-ft", "89 lb-in")),
        ("torque", "19.9 N·m", ("14.7 lb-ft", "176 lb-in")),
        ("torque", "20 N·m", ("14.8 lb-ft",)),
        ("torque", "8 lb-ft", ("10.8 N·m", "96 lb-in")),
        ("torque", "128 N·m", ("94 lb-ft",)),
        ("torque", "53 lb-in", ("6.0 N·m",)),
        ("torque", "300 lb-in", ("33.9 N·m", "25.0 lb-ft")),
        ("torque", "10 kgf·m", ("98 N·m", "72 lb-ft")),
        ("torque", "80 kgf·cm", ("7.8 N·m", "69 lb-in")),
        ("torque", "30 N·m + 90 deg + 90 deg", ("22.1 lb-ft + 90 deg + 90 deg",)),
        ("torque", "98 N·m + 90°", ("72 lb-ft + 90°",)),
        ("torque", "132 lb-ft; rotate; 263 lb-ft", ("179 N·m; rotate; 357 N·m",)),
        ("torque", "50 N·m then back off 1/2 turn then 20 N·m", ("36.9 lb-ft; back off 1/2 turn; 14.8 lb-ft",)),
        ("torque", "95..105 N·m", ("70 to 77 lb-ft",)),
        ("torque", "100 ± 5 N·m", ("73.8 ± 3.7 lb-ft",)),
        ("torque", "100 ± 1 N·m", ("73.76 ± 0.74 lb-ft",)),
        ("length", "2.0 mm", ("0.079 in",)),
        ("length", "22.0 mm", ("0.866 in",)),
        ("length", "0.05 mm", ("0.00197 in",)),
        ("length", "0.002 in", ("0.051 mm",)),
        ("length", "0.866 in", ("22.00 mm",)),
        ("length", "15 thou", ("0.38 mm", "0.015 in")),
        ("length", "4/32", ("3.2 mm",)),
        ("length", "1 1/8 in", ("28.58 mm",)),
        ("length", "22.0 ± 0.2 mm", ("0.866 ± 0.008 in",)),
        ("length", "0 mm", ("0.000 in",)),
        ("volume", "6.3 L", ("6.7 qt",)),
        ("volume", "500 mL", ("16.9 fl oz",)),
        ("volume", "4 imp qt", ("4.55 L",)),
        ("volume", "5 qt", ("4.7 L",)),
        ("pressure", "32 psi", ("221 kPa",)),
        ("pressure", "220 kPa", ("32 psi",)),
        ("pressure", "2.2 bar", ("32 psi",)),
        ("temperature", "205 °C", ("401 °F",)),
        ("temperature", "0 °F", ("-17.8 °C",)),
        ("temperature", "31 °F", ("-0.6 °C",)),
        ("angle", "1/3 turn", ("120 deg",)),
        ("angle", "90 deg", ()),
    ],
)
def test_the_first_line(kind: ValueKind, text: str, primary: tuple[str, ...]) -> None:
    shown = present(parse_value(kind, text))
    assert shown.primary == primary
    assert shown.source == text
    assert set(primary) <= set(shown.converted.values())


def test_the_source_is_shown_as_entered_but_for_outer_spaces() -> None:
    assert present(parse_value("torque", "  26,50 Nm ")).source == "26,50 Nm"


def test_every_usual_unit_is_there_and_the_sources_own_is_not() -> None:
    shown = present(parse_value("torque", "128 N·m"))
    assert shown.converted == {"lb-ft": "94 lb-ft", "lb-in": "1133 lb-in", "kgf·m": "13.1 kgf·m"}
    assert set(present(parse_value("length", "2.0 mm")).converted) == {"in", "thou", "32nds"}
    assert set(present(parse_value("length", "320 mm")).converted) == {"in"}
    assert set(present(parse_value("volume", "6.3 L")).converted) == {"mL", "qt", "pt", "gal", "imp qt", "imp pt"}


def test_a_second_unit_of_the_source_is_shown_as_printed() -> None:
    shown = present(parse_value("torque", "22 N·m"), parse_value("torque", "17 lb-ft"))
    assert shown.second == "17 lb-ft"
    assert shown.primary == ("17 lb-ft",)
    assert shown.converted["lb-ft"] == "17 lb-ft"
    assert shown.converted["lb-in"] == "195 lb-in"


def test_a_second_unit_comes_first_on_the_first_line() -> None:
    shown = present(parse_value("torque", "8 N·m"), parse_value("torque", "0.8 kg-m"))
    assert shown.primary == ("0.8 kg-m", "5.9 lb-ft", "71 lb-in")


def test_a_second_value_of_another_dimension_is_refused() -> None:
    for second in (parse_value("length", "12 mm"), parse_value("words", "DOT 4")):
        with pytest.raises(UnitError):
            present(parse_value("torque", "22 N·m"), second)


@pytest.mark.parametrize(
    ("kind", "text"), [("thread", "M12x1.5"), ("tool size", "18 mm"), ("tool size", "E14"), ("words", "DOT 4")]
)
def test_threads_sizes_and_words_are_never_converted(kind: ValueKind, text: str) -> None:
    value = parse_value(kind, text)
    assert present(value) == Presentation(text, None, {}, ())
    with pytest.raises(UnitError):
        converted_text(value, "in")


def test_a_presentation_goes_through_json() -> None:
    shown = present(parse_value("torque", "10 N·m"), parse_value("torque", "89 lb-in"))
    assert Presentation.from_plain(json.loads(json.dumps(shown.to_plain()))) == shown


def test_a_staged_value_keeps_every_stage_in_every_unit() -> None:
    for text in present(parse_value("torque", "30 N·m + 90 deg + 45 deg")).converted.values():
        assert text.count(" + ") == 2
        assert text.endswith(" + 90 deg + 45 deg")


@pytest.mark.parametrize(
    ("exact", "step", "rounded"),
    [
        ("2.5", "1", "3"),
        ("3.5", "1", "4"),
        ("0.25", "0.1", "0.3"),
        ("-2.5", "1", "-3"),
        ("2.4999", "1", "2"),
        ("9.96", "0.1", "10.0"),
    ],
)
def test_half_goes_up(exact: str, step: str, rounded: str) -> None:
    assert str(round_half_up(Decimal(exact), Decimal(step))) == rounded


QUANTITY_UNITS = [symbol for symbol, unit in UNITS.items() if unit.dimension not in ("temperature", "angle")]
FIGURES = st.decimals(min_value="0.01", max_value="190", places=2)


def _figures(text: str) -> list[Decimal]:
    return [Decimal(figure) for figure in re.findall(r"(?<![a-z/])[0-9]+(?:\.[0-9]+)?", text)]


@given(st.sampled_from(QUANTITY_UNITS), FIGURES)
def test_no_shown_conversion_is_more_than_one_per_cent_off(unit: str, number: Decimal) -> None:
    value = parse_value(UNITS[unit].dimension, f"{min(number, UNITS[unit].most)} {unit}")
    assert isinstance(value, Single)
    for target, text in present(value).converted.items():
        exact = convert(value.amount.number, unit, target)
        assert abs(Decimal(text.split()[0]) - exact) <= exact / 100


@given(
    st.sampled_from(["N·m", "lb-ft", "lb-in", "mm", "in"]),
    st.decimals(min_value=5, max_value=190, places=1),
    st.decimals(min_value="0.1", max_value=4, places=1),
)
def test_a_tolerance_is_never_shifted_by_half_of_itself(unit: str, middle: Decimal, within: Decimal) -> None:
    value = parse_value(UNITS[unit].dimension, f"{middle} ± {within} {unit}")
    assert isinstance(value, Tolerance)
    for target, text in present(value).converted.items():
        shown_middle, shown_within = (Decimal(figure) for figure in text.removesuffix(f" {target}").split(" ± "))
        exact, exact_within = convert(middle, unit, target), convert(within, unit, target)
        assert abs(shown_middle - exact) <= min(exact / 100, exact_within / 2)
        assert abs(shown_within - exact_within) <= exact_within / 20


@given(
    st.sampled_from(["N·m", "lb-ft", "mm"]),
    st.decimals(min_value=5, max_value=150, places=1),
    st.decimals(min_value="0.1", max_value=40, places=1),
)
def test_a_range_stays_a_range(unit: str, low: Decimal, width: Decimal) -> None:
    value = parse_value(UNITS[unit].dimension, f"{low}..{low + width} {unit}")
    for target, text in present(value).converted.items():
        shown_low, shown_high = (Decimal(figure) for figure in text.removesuffix(f" {target}").split(" to "))
        assert shown_low < shown_high
        for shown, exact in ((shown_low, convert(low, unit, target)), (shown_high, convert(low + width, unit, target))):
            assert abs(shown - exact) <= min(exact / 100, convert(width, unit, target) / 4)


@given(st.integers(1, 400), st.integers(1, 180), st.integers(1, 400))
def test_the_torques_of_stages_stay_within_one_per_cent(first: int, angle: int, last: int) -> None:
    value = parse_value("torque", f"{first} N·m + {angle} deg; {last} N·m")
    shown_first, shown_angle, shown_last = _figures(present(value).converted["lb-ft"])
    assert shown_angle == angle
    for shown, source in ((shown_first, first), (shown_last, last)):
        exact = convert(Decimal(source), "N·m", "lb-ft")
        assert abs(shown - exact) <= exact / 100


@given(st.sampled_from(QUANTITY_UNITS), FIGURES, FIGURES, st.booleans())
def test_rounding_never_turns_the_order_round(unit: str, one: Decimal, other: Decimal, calculated: bool) -> None:
    low, high = sorted((one, other))
    shown = [round_half_up(n, rounding_step(n, unit, calculated=calculated)) for n in (low, high)]
    assert shown[0] <= shown[1]
