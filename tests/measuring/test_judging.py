"""Properties of verdicts: wear never improves one, a unit never changes one, and a word less never makes one."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import get_args

import pytest
from desk import Desk
from hypothesis import given, settings
from hypothesis import strategies as st

from benchbot.book.rows import SpecRow
from benchbot.calculators.factors import in_unit, plain
from benchbot.measuring.judging import WORST_FIRST, judge
from benchbot.measuring.limits import DIAMETER, MACHINE_TO, MINIMUM, NOMINAL, RUNOUT, length_text, limit_of
from benchbot.measuring.measured import Measure, Measured
from benchbot.measuring.saying import said_measurement
from benchbot.outcomes import Answer, Choose, Gap, Verdict

ROW = SpecRow(
    "T1", 1, 1, 2014, 2020, "", "brake rotor", "front", MINIMUM, "22.2 mm", "", "", "", "", "", "", "", (),
    "Invented sheet", "p. 1", "demo lead", "2026-01-05", "",
)  # fmt: skip
ROTOR = (ROW, replace(ROW, property=MACHINE_TO, value="22.6 mm"), replace(ROW, property=NOMINAL, value="24.0 mm"))
DRUM = (replace(ROW, component="brake drum", property=DIAMETER, value="229.0 mm"),)
SWING = (replace(ROW, property=RUNOUT, value="0.0035 in"),)

thou = st.integers(1, 1500)


def verdict(number: Decimal, unit: str, rows: tuple[SpecRow, ...], swing: str = "") -> Verdict:
    return judge(Measured((Measure(f"{number:f}", unit),)), rows, swing)[0].verdict


def badness(number: Decimal, rows: tuple[SpecRow, ...], swing: str = "") -> int:
    return -WORST_FIRST.index(verdict(number, "mm", rows, swing))


def test_every_verdict_has_its_rank() -> None:
    assert set(WORST_FIRST) == set(get_args(Verdict))


@settings(max_examples=300)
@given(st.integers(1, 24000), st.integers(1, 24000))
def test_a_thinner_rotor_never_gets_a_better_verdict(one: int, other: int) -> None:
    """In micrometres, up to what it has when new."""
    thin, thick = sorted((Decimal(one).scaleb(-3), Decimal(other).scaleb(-3)))
    assert badness(thin, ROTOR) >= badness(thick, ROTOR)


@given(st.integers(183200, 280000), st.integers(183200, 280000))
def test_a_wider_drum_never_gets_a_better_verdict(one: int, other: int) -> None:
    """From the smallest that can be such a drum."""
    small, wide = sorted((Decimal(one).scaleb(-3), Decimal(other).scaleb(-3)))
    assert badness(wide, DRUM) >= badness(small, DRUM)


@given(st.integers(0, 900), st.integers(0, 900))
def test_more_runout_never_gets_a_better_verdict(one: int, other: int) -> None:
    less, more = sorted((Decimal(one).scaleb(-3), Decimal(other).scaleb(-3)))
    assert badness(more, SWING, RUNOUT) >= badness(less, SWING, RUNOUT)


@settings(max_examples=300)
@given(thou)
def test_a_change_of_unit_changes_no_verdict(number: int) -> None:
    """A thousandth of an inch is 0.0254 mm exactly (NIST SP 811, appendix B.8: 1 in = 25.4 mm)."""
    for rows in (ROTOR, DRUM):
        ways = {
            verdict(Decimal(number), "thou", rows),
            verdict(Decimal(number).scaleb(-3), "in", rows),
            verdict(Decimal(number) * Decimal("0.0254"), "mm", rows),
            verdict(Decimal(number) * Decimal("0.00254"), "cm", rows),
        }
        assert len(ways) == 1


@given(thou)
def test_the_row_s_own_unit_changes_no_verdict(number: int) -> None:
    inches = tuple(
        replace(row, value=f"{value} in") for row, value in zip(ROTOR, ("0.875", "0.890", "0.945"), strict=True)
    )
    metric = tuple(
        replace(row, value=f"{plain(Decimal(value) * Decimal('25.4'))} mm")
        for row, value in zip(ROTOR, ("0.875", "0.890", "0.945"), strict=True)
    )
    assert verdict(Decimal(number), "thou", inches) == verdict(Decimal(number), "thou", metric)


@given(st.lists(st.integers(20000, 24000), min_size=3, max_size=8))
def test_of_readings_the_thinnest_counts_in_any_order(readings: list[int]) -> None:
    def of(numbers: list[int]) -> Verdict:
        return judge(Measured(tuple(Measure(plain(Decimal(n) / 1000), "mm") for n in numbers)), ROTOR)[0].verdict

    assert of(readings) == of(sorted(readings)) == of([min(readings)])


@given(st.integers(20000, 24000), st.integers(20000, 24000))
def test_the_worse_side_is_said_first(left: int, right: int) -> None:
    sides = (Measure(plain(Decimal(left) / 1000), "mm", "left"), Measure(plain(Decimal(right) / 1000), "mm", "right"))
    ranks = [WORST_FIRST.index(one.verdict) for one in judge(Measured(sides), ROTOR)]
    assert ranks == sorted(ranks)
    assert len(ranks) == 2


@given(st.decimals("0.00001", "30", places=5))
def test_a_margin_is_never_shown_as_nothing(margin: Decimal) -> None:
    for unit in ("mm", "in"):
        assert Decimal(length_text(margin, unit).split()[0]) > 0


@pytest.mark.parametrize(
    ("value", "name", "mm"),
    [
        ("22.2 mm", MINIMUM, "22.2"),
        ("22.0..22.4 mm", MINIMUM, "22.4"),
        ("24.0 ± 0.1 mm", NOMINAL, "24.1"),
        ("0.05..0.08 mm", RUNOUT, "0.05"),
        ("0.875 in", MINIMUM, "22.225"),
    ],
)
def test_the_stricter_end_of_a_range_decides(value: str, name: str, mm: str) -> None:
    limit = limit_of((replace(ROW, property=name, value=value),), name)
    assert limit is not None
    assert limit.mm == Decimal(mm)
    assert in_unit(limit.mm, "mm", limit.unit) >= 0


def test_limits_that_contradict_give_no_verdict() -> None:
    turned = (ROW, replace(ROW, property=MACHINE_TO, value="21.0 mm"))
    assert verdict(Decimal("22.5"), "mm", turned) == "no verdict"
    assert verdict(Decimal("22.0"), "mm", turned) == "discard"


def test_without_a_limit_nothing_is_judged() -> None:
    with pytest.raises(ValueError, match="no limit"):
        judge(Measured((Measure("22.4", "mm"),)), ROTOR[1:])


OPEN = (
    "measured 22.4 rotor 18 ondrel 2.0t",
    "measured 22.4 front rotor 18 ondrel",
    "measured 22.4 front rotor ondrel 2.0t",
    "measured 22.4 front rotor 2.0t",
    "runout .004 front rotor 18 ondrel 2.0t",
    "front pads at 3 18 ondrel 2.0t",
    "measured 26.1 front rotor 18 ondrel 1.6",
    "left 22.4 right 22.1 rotors 18 ondrel 2.0t",
    "measured 22.4 front rotor 05 ondrel 2.0t",
    "rear rotor measured 9.2 18 ondrel 1.6",
)
# Without the word that says what was measured, the figure is another thing: an answer to that other question may come.
NAMES_IT = {("runout .004 front rotor 18 ondrel 2.0t", "runout")}


@pytest.mark.parametrize("said", OPEN)
def test_taking_a_word_away_never_makes_a_verdict(desk: Desk, said: str) -> None:
    assert isinstance(desk.ask(said).outcome, (Choose, Gap))
    words = said.split()
    for at, word in enumerate(words):
        if (said, word) not in NAMES_IT:
            outcome = desk.ask(" ".join(words[:at] + words[at + 1 :])).outcome
            assert not (isinstance(outcome, Answer) and outcome.judged), word


@pytest.mark.parametrize(
    "said",
    [
        "12 ondrel front bracket bolt torque", "18 ondrel 2.0t front rotor", "front rotor min 18 ondrel 2.0t",
        "lugs 80 right? 18 ondrel", "18 ondrel with 16 in wheels front rotor min", "good morning, 18 ondrel 2.0t",
        "14 corrigal 300 mm brakes front rotor min", "got a 18 ondrel 2.0 turbo front rotor min",
        "18 ondrel 2.0 l front rotor discard", "is the 2.0 ok", "17 mm socket for the bracket bolt?", "at 2018 ondrel",
        "left 18 ondrel right 19 wendla", "108 nm to ft lbs", "left front wheel bearing 18 ondrel",
    ],
)  # fmt: skip
def test_a_message_without_a_measurement_is_left_alone(said: str) -> None:
    assert said_measurement(said, {"ondrel", "wendla", "corrigal"}.__contains__) is None


@given(st.text(max_size=80))
def test_any_text_is_read_or_left_alone(text: str) -> None:
    said = said_measurement(text, lambda word: False)
    assert said is None or all(one.number >= 0 for one in said.measured.measures)
