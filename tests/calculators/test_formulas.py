"""Each formula against worked examples that were published, and the properties that it must have."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.calculators.adapter import ACROSS, IN_LINE, REVERSED, cosine, reached, setting
from benchbot.calculators.pads import difference, of_ends, of_pair
from benchbot.calculators.readings import spread, thinnest
from benchbot.calculators.wear import Reading, lasts, left, share_left
from benchbot.calculators.wrench import click, deviation, fits
from benchbot.errors import QuantityError

D = Decimal
SIZES = st.decimals(min_value="1", max_value="2000", places=2)
TORQUES = st.decimals(min_value="1", max_value="1000", places=1)
SHARES = st.decimals(min_value="0.01", max_value="0.75", places=2)
ANGLES = st.decimals(min_value="0", max_value="180", places=1)


@pytest.mark.parametrize(
    ("target", "lever", "length", "degrees", "wanted"),
    [
        # manual of the torque wrench Performance Tool M199, "Extensions": 44.44 ft.lbs
        ("50", "16", "2", "0", "44.44"),
        # torqwrench.com, "How to compute torque when using adaptors": 20 pound foot
        ("30", "12", "6", "0", "20"),
        # leaflet of the torque adaptor Motion Pro 08-0134: 16 ft.-lb.
        ("20", "12", "3", "0", "16"),
        # FAA AC 43.13-1B, figure on torque wrenches with adapters, value from memory: 117.39 and, turned back, 158.82
        ("135", "10", "1.5", "0", "117.39"),
        ("135", "10", "1.5", "180", "158.82"),
        # reckoned by hand from the formula
        ("100", "450", "50", "45", "92.72"),
        ("100", "450", "50", "90", "100"),
        ("80", "40", "5", "0", "71.11"),
    ],
)
def test_setting_with_an_adapter(target: str, lever: str, length: str, degrees: str, wanted: str) -> None:
    assert round(setting(D(target), D(lever), D(length), D(degrees)), 2) == D(wanted)


def test_what_a_setting_gives() -> None:
    """TM 9-254, figure 45: wrench 12 in, extension 2 in, set to 60 in.lbs: 70 in.lbs at the extension."""
    assert reached(D(60), D(12), D(2)) == 70


@given(TORQUES, SIZES, SHARES, ANGLES)
def test_setting_and_what_it_gives_undo_each_other(target: Decimal, lever: Decimal, share: Decimal, a: Decimal) -> None:
    length = lever * share
    assert reached(setting(target, lever, length, a), lever, length, a) == pytest.approx(target)


@given(TORQUES, SIZES, SHARES)
def test_in_line_is_less_across_the_same_reversed_more(target: Decimal, lever: Decimal, share: Decimal) -> None:
    length = lever * share
    one, same, other = (setting(target, lever, length, a) for a in (IN_LINE, ACROSS, REVERSED))
    assert one < same == target < other


@given(TORQUES, SIZES, SHARES, SHARES)
def test_a_longer_adapter_takes_a_lower_setting(target: Decimal, lever: Decimal, one: Decimal, two: Decimal) -> None:
    short, long = sorted((lever * one, lever * two))
    assert setting(target, lever, long) <= setting(target, lever, short)


@given(TORQUES, SIZES, SHARES, ANGLES, st.decimals(min_value="0.1", max_value="30", places=2))
def test_only_the_ratio_of_the_lengths_counts(
    target: Decimal, lever: Decimal, share: Decimal, a: Decimal, unit: Decimal
) -> None:
    """Dimensions: both lengths in another unit change nothing, twice the target is twice the setting."""
    length = lever * share
    once = setting(target, lever, length, a)
    assert setting(target, lever * unit, length * unit, a) == pytest.approx(once)
    assert setting(target * 2, lever, length, a) == pytest.approx(once * 2)


@pytest.mark.parametrize(
    ("lever", "length", "a"), [("0", "2", "0"), ("18", "-1", "0"), ("18", "2", "181"), ("18", "17", "180")]
)
def test_what_cannot_be_is_refused(lever: str, length: str, a: str) -> None:
    with pytest.raises(QuantityError):
        setting(D(80), D(lever), D(length), D(a))


def test_cosine_is_exact_where_it_must_be() -> None:
    assert (cosine(D(0)), cosine(D(90)), cosine(D(180))) == (1, 0, -1)
    assert cosine(D(60)) == pytest.approx(D("0.5"))


@pytest.mark.parametrize(
    ("kind", "most", "percent"),
    [
        # ISO 6789 as extracted in the manual of Facom S.325DA: class A of type II 4 % above 10 N.m, 6 % up to 10 N.m
        ("click", "200", "4"),
        ("click", "10.1", "4"),
        ("click", "10", "6"),
        ("click", "5", "6"),
        # the other classes: values from memory
        ("dial", "100", "4"),
        ("electronic", "100", "4"),
        ("beam", "200", "6"),
        ("screwdriver", "8", "6"),
    ],
)
def test_deviations(kind: str, most: str, percent: str) -> None:
    assert deviation(kind, D(most)) == D(percent)  # type: ignore[arg-type]


def test_what_a_click_can_mean() -> None:
    may = click(D(100), D(4))
    assert (may.least, may.most) == (96, 104)


@given(TORQUES, st.sampled_from([D(3), D(4), D(6)]))
def test_a_click_lies_around_its_setting(set_: Decimal, percent: Decimal) -> None:
    may = click(set_, percent)
    assert may.least < set_ < may.most
    assert may.most - set_ == set_ - may.least


@given(TORQUES, TORQUES, TORQUES)
def test_a_torque_has_one_place_in_a_range(torque: Decimal, one: Decimal, other: Decimal) -> None:
    least, most = sorted((one, other))
    assert (fits(torque, least, most) == "within") == (least <= torque <= most)
    assert fits(least, least, most) == fits(most, least, most) == "within"


@given(st.lists(SIZES, min_size=2, max_size=12), SIZES)
def test_variation_does_not_depend_on_order_or_zero(readings: list[Decimal], zero: Decimal) -> None:
    assert spread(readings) == spread(sorted(readings)) >= 0
    assert spread([one - zero for one in readings]) == spread(readings)
    assert spread([*readings, thinnest(readings)]) == spread(readings)
    assert all(thinnest(readings) <= one for one in readings)


def test_one_reading_has_no_variation() -> None:
    with pytest.raises(QuantityError, match="two or more"):
        spread([D(22)])


def test_how_long_it_lasts() -> None:
    """Reckoned by hand: 4.5 mm wore in 30 000 km, 3.5 mm are left: 23 333 km; each reading 0.05 mm off at most."""
    done = lasts(Reading(D(11), D("0.05")), Reading(D("6.5"), D("0.05")), D(3), D(30000))
    assert done is not None
    assert done.most is not None
    assert (round(done.least), round(done.likely), round(done.most)) == (22500, 23333, 24205)


@given(SIZES, SHARES, SHARES, st.decimals(min_value="0", max_value="0.5", places=2), TORQUES)
def test_the_likely_figure_lies_between_the_ends(
    was: Decimal, worn: Decimal, limit: Decimal, off: Decimal, ran: Decimal
) -> None:
    now = was * (1 - worn)
    done = lasts(Reading(was, off), Reading(now, off), now * limit, ran)
    assert done is not None
    assert done.least <= done.likely
    assert done.most is None or done.likely <= done.most
    exact = lasts(Reading(was, D(0)), Reading(now, D(0)), now * limit, ran)
    assert exact is not None
    assert exact.least == exact.likely == exact.most == done.likely


@given(SIZES, SHARES, SHARES, TORQUES, st.sampled_from([D("25.4"), D("0.79375")]))
def test_how_long_it_lasts_does_not_depend_on_the_unit(
    was: Decimal, worn: Decimal, limit: Decimal, ran: Decimal, unit: Decimal
) -> None:
    now, end = was * (1 - worn), was * (1 - worn) * limit
    one = lasts(Reading(was, D(0)), Reading(now, D(0)), end, ran)
    other = lasts(Reading(was * unit, D(0)), Reading(now * unit, D(0)), end * unit, ran)
    assert one is not None
    assert other is not None
    assert one.likely == pytest.approx(other.likely)


def test_no_wear_gives_no_figure_and_a_limit_leaves_nothing() -> None:
    assert lasts(Reading(D(12), D("0.5")), Reading(D(12), D("0.5")), D(3), D(5000)) is None
    hardly = lasts(Reading(D(12), D("0.5")), Reading(D("11.8"), D("0.05")), D(3), D(5000))
    assert hardly is not None
    assert hardly.most is None
    assert left(D(2), D(3)) == left(D(3), D(3)) == 0
    assert share_left(D(11), D(7), D(3)) == 50


@pytest.mark.parametrize(
    ("inner", "outer", "sign"), [(4, 9, "inner worn more"), (9, 4, "outer worn more"), (5, 5, "even")]
)
def test_which_pad_is_worn_more(inner: int, outer: int, sign: str) -> None:
    """Tomorrow's Technician, "Brake pad wear guide": inner, outer and tapered wear, each with its causes."""
    assert of_pair(D(inner), D(outer)) == sign
    assert difference(D(inner), D(outer)) == abs(inner - outer)


def test_a_wedge() -> None:
    assert (of_ends(D(8), D(5)), of_ends(D(5), D(5))) == ("taper", "even")
