"""Which vehicle a message names: in full, in part, by its make, misspelt, or none that the book has."""

from __future__ import annotations

import pytest
from desk import NOW, Desk

from benchbot.conversation.past import Past
from benchbot.understanding.reading import VehicleRead


def vehicle(desk: Desk, text: str) -> VehicleRead:
    return desk.conversation.read(text, Past(), NOW)[0][0].vehicle


def models(desk: Desk, text: str) -> list[str]:
    return [desk.conversation.book.vehicle(one).model for one in vehicle(desk, text).ids]


@pytest.mark.parametrize(
    ("text", "model"),
    [
        ("ondrel", "Ondrel"),
        ("brackwell ondrel", "Ondrel"),
        ("ONDREL brackwell", "Ondrel"),
        ("ondrels", None),
        ("ondrela", "Ondrela"),
        ("ondrel sport", "Ondrel Sport"),
        ("sport ondrel", "Ondrel Sport"),
        ("ondrel-sport", "Ondrel Sport"),
        ("wendle", "Wendle"),
        ("wendla", "Wendla"),
        ("wendle sport", "Wendle Sport"),
        ("quorrin", "Quorrin"),
        ("grand quorrin", "Grand Quorrin"),
        ("quorrin grand", "Grand Quorrin"),
        ("thresher 1750", "Thresher 1750"),
        ("1750 thresher", "Thresher 1750"),
        ("thresher seventeen fifty", "Thresher 1750"),
        ("quillane 27", "27"),
        ("27 quillane", "27"),
        ("quillane 274", "274"),
        ("27 2014", "27"),
        ("2014 72", "72"),
        ("elunor", "Elunor"),
        ("elu", "Elunor"),
        ("big quorrin", "Grand Quorrin"),
        ("g quorrin", "Grand Quorrin"),
        ("t1750", "Thresher 1750"),
        ("t 1750", "Thresher 1750"),
        ("t-1750", "Thresher 1750"),
        ("thresher half ton", "Thresher 1750"),
        ("ferry van", "Ferryman"),
        ("vanster", "Vantry"),
        ("brackwell ondrl", "Ondrel"),
        ("ondrle", "Ondrel"),
        ("brakwell ondrel", "Ondrel"),
        ("wendel", "Wendle"),
        ("qourrin", "Quorrin"),
        ("corrigl", "Corrigal"),
    ],
)
def test_named_in_full(desk: Desk, text: str, model: str | None) -> None:
    read = vehicle(desk, f"{text} lug nut torque")
    if model is None:
        assert (read.state, len(read.ids)) != ("named", 1)
        return
    assert read.state == "named"
    assert models(desk, f"{text} lug nut torque") == [model]


@pytest.mark.parametrize(
    ("text", "state", "held"),
    [
        ("brackwell", "make", {"Ondrel", "Ondrel Sport", "Ondrela"}),
        ("brackwel", "make", {"Ondrel", "Ondrel Sport", "Ondrela"}),
        ("quillane", "make", {"27", "72", "274"}),
        ("thresher", "part", {"Thresher 1750", "Thresher 2750"}),
        ("1750", "part", {"Thresher 1750"}),
        ("wexmoor 1750", "part", {"Thresher 1750"}),
        ("ferry", "part", {"Ferryman"}),
        ("ondrel or ondrela", "several", {"Ondrel", "Ondrela"}),
        ("ondrel and wendle", "several", {"Ondrel", "Wendle"}),
        ("quillane 27 or 72", "several", {"27", "72"}),
        ("brackwell wendle", "conflict", {"Wendle"}),
        ("quillane ondrel", "conflict", {"Ondrel"}),
        ("zorblax", "none", set()),
        ("", "none", set()),
        ("27 miles", "none", set()),
        ("ro 27", "none", set()),
    ],
)
def test_not_named_in_full(desk: Desk, text: str, state: str, held: set[str]) -> None:
    read = vehicle(desk, f"{text} front bracket bolt torque")
    assert read.state == state
    assert set(models(desk, f"{text} front bracket bolt torque")) == held


@pytest.mark.parametrize(
    ("typed", "held"),
    [
        ("wendl", {"Wendle", "Wendla"}),
        ("ondrell", {"Ondrel", "Ondrela"}),
        ("ondreal", {"Ondrel", "Ondrela"}),
    ],
)
def test_a_slip_between_two_siblings_keeps_both(desk: Desk, typed: str, held: set[str]) -> None:
    assert held <= set(models(desk, f"2016 {typed} lug nut torque"))


@pytest.mark.parametrize("text", ["ondrel", "ondrela", "wendle", "wendla", "ondrel sport", "quorrin"])
def test_an_exact_name_wins_outright(desk: Desk, text: str) -> None:
    read = vehicle(desk, f"2016 {text} lug nut torque")
    assert (read.state, len(read.ids), read.rescued) == ("named", 1, False)


def test_a_put_right_name_is_told(desk: Desk) -> None:
    assert vehicle(desk, "2012 ondrl lug nut torque").rescued
    assert "ondrl" in desk.ask("2012 ondrl lug nut torque").reply.text().casefold()


@pytest.mark.parametrize(
    "alias", ["Thresher half ton", "T1750", "T2750", "Ferry van", "G Quorrin", "big Quorrin", "Elu", "Vanster"]
)
def test_every_shop_name_of_a_vehicle_is_read(desk: Desk, alias: str) -> None:
    read = vehicle(desk, f"2016 {alias} lug nut torque")
    assert (read.state, len(read.ids)) == ("named", 1)


@pytest.mark.xfail(strict=True, reason="a number word in a shop name is read as a digit")
def test_a_shop_name_with_a_number_word_is_read(desk: Desk) -> None:
    assert vehicle(desk, "2016 Thresher three quarter ton lug nut torque").state == "named"
