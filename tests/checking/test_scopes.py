"""Rows that answer for more vehicles than was asked, than the book knows, or than the part can be on."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from benchbot.checking import Found, HeldRow

Checked = Callable[..., list[Found]]
Held = Callable[..., HeldRow]


def told(found: list[Found], level: str = "warning") -> str:
    assert found and {one.level for one in found} == {level}, found
    assert all(one.mend for one in found)
    return " | ".join(one.told for one in found)


def test_a_row_as_it_was_asked_passes(checked: Checked, held: Held) -> None:
    cells = {"asked_years": (2016, 2016), "asked_only_if": "engine=1.6", "only_if": "engine=1.6"}
    (found,) = checked("scope", (held(only_if="engine=1.6"),), **cells)
    assert (found.level, found.mend) == ("passed", "")


def test_years_wider_than_asked(checked: Checked) -> None:
    wide = {"year_from": "2014", "year_to": "2019"}
    assert "2016 was asked, and the row would answer for 2014 to 2019" in told(
        checked("scope", asked_years=(2016, 2016), **wide)
    )
    assert [one.level for one in checked("scope", **wide)] == ["passed"]


def test_years_without_the_one_asked(checked: Checked) -> None:
    assert "2018 was asked, and the row answers for 2016 only" in told(checked("scope", asked_years=(2018, 2018)))


def test_qualifiers_wider_or_other_than_asked(checked: Checked) -> None:
    assert "engine 1.6 was asked, and the row would answer for every engine" in told(
        checked("scope", asked_only_if="engine=1.6")
    )
    assert "engine=1.6 was asked, and the row answers for engine=2.0T" in told(
        checked("scope", asked_only_if="engine=1.6", only_if="engine=2.0T")
    )
    assert [one.level for one in checked("scope", asked_only_if="engine=1.6", only_if="engine=1.6 L")] == ["passed"]


@pytest.mark.parametrize(("last", "levels"), [("2015", ["passed"]), ("2016", ["warning"])])
def test_thirty_years_are_too_many(checked: Checked, last: str, levels: list[str]) -> None:
    assert [one.level for one in checked("scope", year_from="1987", year_to=last)] == levels


def test_a_model_year_that_is_not_built(checked: Checked) -> None:
    assert [one.level for one in checked("scope", year_to="2027")] == ["passed"]
    assert "2028 is not built yet" in told(checked("scope", year_to="2028"))


def test_years_beyond_those_of_the_model(checked: Checked, held: Held) -> None:
    rows = (held(), held(spec="K2", component="wheel nut", position="", year_from="2012", year_to="2015"))
    assert [one.level for one in checked("scope", rows, year_from="2012", year_to="2019")] == ["passed"]
    assert "the book holds Tolvane Perrin for 2012 to 2019" in told(checked("scope", rows, year_from="2011"))
    assert "and the row answers for 2016 to 2020" in told(checked("scope", rows, year_to="2020"))


def test_a_qualifier_that_the_model_does_not_have(checked: Checked, held: Held) -> None:
    rows = (held(only_if="engine=1.6"), held(spec="K2", only_if="engine=2.0T"), held(spec="K3", model="Elunor"))
    assert "engine 2.5 is new for Tolvane Perrin; the book holds engine 1.6, 2.0T" in told(
        checked("scope", rows, only_if="engine=2.5")
    )
    for known in ("engine=1.6", "engine=2.0 turbo", "drive=4WD", "build=2016-05.."):
        assert [one.level for one in checked("scope", rows, only_if=known)] == ["passed"]


@pytest.mark.parametrize(
    ("component", "position", "level"),
    [
        ("caliper bracket bolt", "front", "passed"),
        ("caliper bracket bolt", "rear left", "passed"),
        ("caliper bracket bolt", "", "warning"),
        ("caliper bracket bolt", "left", "warning"),
        ("wheel nut", "", "passed"),
        ("lower ball joint nut", "", "passed"),
        ("lower ball joint nut", "front lower", "passed"),
        ("lower ball joint nut", "rear", "warning"),
        ("lower ball joint nut", "upper", "refused"),
        ("lower ball joint nut", "front upper", "refused"),
    ],
)
def test_the_position_belongs_to_the_component(checked: Checked, component: str, position: str, level: str) -> None:
    assert [one.level for one in checked("scope", component=component, position=position)] == [level]


def test_its_own_row_is_no_measure(checked: Checked, held: Held) -> None:
    cells: dict[str, Any] = {"only_if": "engine=2.5", "year_to": "2024"}
    rows = (held(only_if="engine=1.6"),)
    assert [one.level for one in checked("scope", rows, spec="K1", **cells)] == ["passed"]
    assert [one.level for one in checked("scope", rows, spec="K9", **cells)] == ["warning", "warning"]
