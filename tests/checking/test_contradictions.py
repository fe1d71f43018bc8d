"""Rows that state another figure, or the same one twice, for one vehicle, part and place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from benchbot.checking import Found, HeldRow

Checked = Callable[..., list[Found]]
Held = Callable[..., HeldRow]


def levels(found: list[Found]) -> list[str]:
    return [one.level for one in found]


def test_another_figure_is_refused_and_shown(checked: Checked, held: Held) -> None:
    (found,) = checked("contradiction", (held(only_if="engine=1.6", value="118 N·m"),))
    assert found.level == "refused"
    assert "K1 (2014 to 2019, engine=1.6) states 118 N·m" in found.told and "105 N·m" in found.told


def test_the_same_figure_twice_is_a_warning(checked: Checked, held: Held) -> None:
    assert levels(checked("contradiction", (held(),))) == ["warning"]
    assert levels(checked("contradiction", (held(value="105.0 nm"),))) == ["warning"]


@pytest.mark.parametrize(
    "apart",
    [
        {"year_from": "2010", "year_to": "2015"}, {"year_from": "2017"}, {"model": "Perrin XL"}, {"make": "Brackwell"},
        {"component": "axle nut"}, {"position": "rear"}, {"property": "socket", "value": "18 mm"},
    ],
)  # fmt: skip
def test_rows_about_something_else_do_not_meet(checked: Checked, held: Held, apart: dict[str, str]) -> None:
    assert checked("contradiction", (held(**{"value": "118 N·m", **apart}),)) == []


def test_scopes_that_no_vehicle_shares_do_not_meet(checked: Checked, held: Held) -> None:
    other = (held(only_if="engine=2.0T", value="118 N·m"),)
    assert checked("contradiction", other, only_if="engine=1.6") == []
    assert levels(checked("contradiction", other, only_if="drive=4WD")) == ["refused"]
    early = (held(only_if="build=..2016-05", value="118 N·m"),)
    assert checked("contradiction", early, only_if="build=2016-06..") == []
    assert levels(checked("contradiction", early, only_if="build=2016-05..")) == ["refused"]


def test_a_row_does_not_contradict_its_own_revisions(checked: Checked, held: Held) -> None:
    assert checked("contradiction", (held(value="118 N·m"),), spec="K1") == []
    assert levels(checked("contradiction", (held(value="118 N·m"),), spec="K2")) == ["refused"]


def test_a_place_inside_another_place_is_a_warning(checked: Checked, held: Held) -> None:
    wider = (held(value="118 N·m"),)
    assert levels(checked("contradiction", wider, position="front left")) == ["warning"]
    assert levels(checked("contradiction", wider, position="")) == ["warning"]
    assert checked("contradiction", wider, position="left rear") == []


def test_names_are_compared_as_they_are_meant(checked: Checked, held: Held) -> None:
    other = (held(make="TOLVANE", model="perrin", component="caliper carrier bolt", value="118 N·m"),)
    assert levels(checked("contradiction", other)) == ["refused"]


def test_notes_never_contradict(checked: Checked, held: Held) -> None:
    cells = {"property": "note", "component": "brake rotor"}
    assert checked("contradiction", (held(value="vented", **cells),), value="solid", **cells) == []


@pytest.mark.parametrize(
    ("mine", "value", "theirs", "other", "wanted"),
    [
        ("minimum thickness", "24.0 mm", "nominal thickness", "22.0 mm", ["refused"]),
        ("minimum thickness", "22.0 mm", "nominal thickness", "22.0 mm", ["refused"]),
        ("minimum thickness", "20.0 mm", "nominal thickness", "22.0 mm", []),
        ("minimum thickness", "0.787 in", "nominal thickness", "22.0 mm", []),
        ("minimum thickness", "0.945 in", "nominal thickness", "22.0 mm", ["refused"]),
        ("nominal thickness", "20.0 mm", "machine-to thickness", "20.4 mm", ["refused"]),
        ("machine-to thickness", "20.0 mm", "minimum thickness", "20.0 mm", []),
        ("machine-to thickness", "19.6 mm", "minimum thickness", "20.0 mm", ["refused"]),
    ],
)
def test_the_worn_part_is_thinner_than_the_new_one(
    checked: Checked, held: Held, mine: str, value: str, theirs: str, other: str, wanted: list[str]
) -> None:
    beside = (held(component="brake rotor", property=theirs, value=other),)
    assert levels(checked("contradiction", beside, component="brake rotor", property=mine, value=value)) == wanted


def test_every_row_that_meets_is_told(checked: Checked, held: Held) -> None:
    changed: list[dict[str, Any]] = [{"value": "118 N·m"}, {"spec": "K2", "value": "120 N·m"}, {"spec": "K3"}]
    found = checked("contradiction", tuple(held(**cells) for cells in changed))
    assert levels(found) == ["refused", "refused", "warning"]
    assert [one.told.split()[0] for one in found] == ["K1", "K2", "K3"]
