"""Figures that lie far from what other vehicles have for the same part."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import median_abs_deviation

from benchbot.checking import Found, HeldRow, RowToCheck
from benchbot.checking.outliers import FEWEST_VEHICLES, LEAST_SPREAD, MOST_SCORE, outlier
from benchbot.checking.rows import Components
from benchbot.vocabulary.terms import Vocabulary

Checked = Callable[..., list[Found]]
Held = Callable[..., HeldRow]

MODELS = ("Ondrel", "Vantry", "Elunor", "Ferryman", "Thresher", "Quorrin", "Sellick", "Maddow", "Tarn", "Ibry", "Oste")
FIGURES = (88, 95, 98, 100, 102, 105, 108, 110, 118, 121, 130)


@pytest.fixture(scope="module")
def others(held: Held) -> tuple[HeldRow, ...]:
    return tuple(
        held(spec=f"K{at}", model=model, value=f"{figure} N·m")
        for at, (model, figure) in enumerate(zip(MODELS, FIGURES, strict=True), 1)
    )


@pytest.mark.parametrize("value", ["105 N·m", "77 lb-ft", "70 N·m", "150 N·m", "95..110 N·m", "10.7 kgf·m"])
def test_a_usual_figure_passes(checked: Checked, others: tuple[HeldRow, ...], value: str) -> None:
    (found,) = checked("outlier", others, value=value)
    assert found.level == "passed"
    assert "11 other vehicles" in found.told


@pytest.mark.parametrize(
    ("value", "unit"),
    [
        ("1050 N·m", "lb-in or kgf·cm"), ("77 lb-in", "N·m or lb-ft"), ("105 kgf·m", "N·m or lb-ft"),
        ("10.7 N·m", "kgf·m"), ("930 lb-ft", "lb-in or kgf·cm"),
    ],
)  # fmt: skip
def test_a_slip_lies_far_off(checked: Checked, others: tuple[HeldRow, ...], value: str, unit: str) -> None:
    (found,) = checked("outlier", others, value=value)
    assert found.level == "warning"
    assert f"As {unit} it would lie among them" in found.told
    assert found.mend


def test_too_few_vehicles_say_nothing(checked: Checked, held: Held, others: tuple[HeldRow, ...]) -> None:
    few = others[: FEWEST_VEHICLES - 1]
    many_rows = tuple(held(spec=f"L{n}", model="Ondrel", year_from=f"20{n}", year_to=f"20{n}") for n in range(10, 22))
    assert checked("outlier", few, value="1050 N·m") == []
    assert checked("outlier", (*few, *many_rows), value="1050 N·m") == []
    assert len(checked("outlier", others[:FEWEST_VEHICLES], value="1050 N·m")) == 1


def test_its_own_vehicle_and_other_places_do_not_count(checked: Checked, held: Held) -> None:
    own = tuple(held(spec=f"L{n}", make="TOLVANE", model="perrin") for n in range(20))
    rear = tuple(held(spec=f"R{n}", model=model, position="rear") for n, model in enumerate(MODELS))
    socket = tuple(held(spec=f"S{n}", model=model, property="socket", value="18 mm") for n, model in enumerate(MODELS))
    other = tuple(held(spec=f"O{n}", model=model, component="axle nut") for n, model in enumerate(MODELS))
    assert checked("outlier", (*own, *rear, *socket, *other), value="1050 N·m") == []


def test_a_torque_before_an_angle_is_compared_with_its_like(
    checked: Checked, held: Held, others: tuple[HeldRow, ...]
) -> None:
    assert checked("outlier", others, value="30 N·m + 90 deg") == []
    staged = tuple(held(spec=f"A{n}", model=model, value=f"{30 + n} N·m + 90 deg") for n, model in enumerate(MODELS))
    assert [one.level for one in checked("outlier", staged, value="34 N·m + 90 deg")] == ["passed"]
    assert [one.level for one in checked("outlier", staged, value="340 N·m + 90 deg")] == ["warning"]


def test_synonyms_are_the_same_part(checked: Checked, held: Held) -> None:
    said = tuple(held(spec=f"A{n}", model=model, component="caliper carrier bolt") for n, model in enumerate(MODELS))
    assert [one.level for one in checked("outlier", said, value="106 N·m")] == ["passed"]


def test_words_have_no_size(checked: Checked, held: Held) -> None:
    cells = {"component": "brake fluid", "property": "fluid", "value": "DOT 4", "position": ""}
    assert checked("outlier", tuple(held(model=model, **cells) for model in MODELS), **cells) == []


@given(st.lists(st.integers(20, 400), min_size=8, max_size=11), st.integers(1, 4000))
def test_the_verdict_is_that_of_scipy(
    row: Callable[..., RowToCheck], held: Held, vocabulary: Vocabulary, figures: list[int], mine: int
) -> None:
    rows = [
        held(spec=f"K{n}", model=m, value=f"{f} N·m") for n, (m, f) in enumerate(zip(MODELS, figures, strict=False))
    ]
    logs = np.log(figures)
    spread = max(float(median_abs_deviation(logs, scale="normal")), LEAST_SPREAD)
    score = abs(log(mine) - float(np.median(logs))) / spread
    found = outlier(row(value=f"{mine} N·m"), rows, Components(vocabulary))
    assert found is not None
    if abs(score - MOST_SCORE) > 1e-3:
        assert (found.level == "warning") == (score > MOST_SCORE)


def test_equal_figures_in_the_book_leave_room(checked: Checked, held: Held) -> None:
    same = tuple(held(spec=f"K{n}", model=model, value="100 N·m") for n, model in enumerate(MODELS))
    edge = exp(MOST_SCORE * LEAST_SPREAD) * 100
    assert checked("outlier", same, value=f"{edge * 0.99:.1f} N·m")[0].level == "passed"
    assert checked("outlier", same, value=f"{edge * 1.01:.1f} N·m")[0].level == "warning"
