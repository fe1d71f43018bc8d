"""Words that steer a message: not, same, next car; qualifiers by name; what sort of message it is."""

from __future__ import annotations

import pytest
from desk import NOW, Desk, shown

from benchbot.conversation.past import Past
from benchbot.understanding.reading import Reading


def read(desk: Desk, text: str) -> Reading:
    return desk.conversation.read(text, Past(), NOW)[0][0]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("same thing on a 16 wendla", "same"),
        ("same for the rear", "same"),
        ("next car 16 wendla", "next_vehicle"),
        ("thx next car", "next_vehicle"),
        ("different truck", "next_vehicle"),
        ("12 ondrel lugs 80 right?", "confirm"),
        ("whats the price on rotors", "out_of_scope"),
        ("12 ondrel lugs?", "question"),
        ("12 ondrel not the sport lugs", "negated"),
    ],
)
def test_signs(desk: Desk, text: str, sign: str) -> None:
    assert sign in read(desk, text).signs


@pytest.mark.parametrize(
    ("text", "excluded"),
    [
        ("18 ondrel not the 1.6 lugs", set()),
        ("18 ondrel not the turbo lugs", {"turbo"}),
        ("16 thresher 1750 not 4wd lugs", {"4WD"}),
        ("18 ondrel non turbo lugs", {"turbo"}),
        ("18 ferryman lugs, not the drw", {"DRW"}),
    ],
)
def test_what_is_said_not_to_be_so_is_never_stated(desk: Desk, text: str, excluded: set[str]) -> None:
    reading = read(desk, text)
    assert excluded <= {one.value for one in reading.excluded}
    assert not {one.value for one in reading.stated} & {"turbo", "4WD", "DRW", "1.6"}


@pytest.mark.parametrize(
    ("text", "component"),
    [
        ("12 ondrel front bracket bolt not the slide pin", "caliper bracket bolt"),
        ("12 ondrel front slide pin, not the bracket bolt", "caliper slide pin bolt"),
        ("12 ondrel lug not torque", "wheel nut"),
    ],
)
def test_a_part_that_is_not_meant_is_not_asked_of(desk: Desk, text: str, component: str) -> None:
    assert [ask.components[0] for ask in read(desk, text).asks] == [component]


def test_a_model_that_is_not_meant_does_not_answer(desk: Desk) -> None:
    assert set(shown(desk.ask("16 ondrel not the sport front bracket bolt torque 1.6"))) <= {"D0045"}


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        ("2wd", ("drive", "2WD")),
        ("two wheel drive", ("drive", "2WD")),
        ("4x4", ("drive", "4WD")),
        ("four wheel drive", ("drive", "4WD")),
        ("four by four", ("drive", "4WD")),
        ("4 x 4", ("drive", "4WD")),
        ("awd", ("drive", "AWD")),
        ("front wheel drive", ("drive", "FWD")),
        ("rear wheel drive", ("drive", "RWD")),
        ("dually", ("axle", "DRW")),
        ("single rear wheel", ("axle", "SRW")),
        ("2.0t", ("engine", "2.0T")),
        ("2.0 hybrid", ("engine", "2.0 Hybrid")),
        ("turbo", ("engine", "turbo")),
        ("v6", ("engine", "V6")),
        ("manual", ("transmission", "manual")),
        ("wagon", ("body", "wagon")),
        ("heavy duty brakes", ("brakes", "heavy duty")),
    ],
)
def test_qualifiers(desk: Desk, text: str, stated: tuple[str, str]) -> None:
    reading = read(desk, f"16 thresher 1750 {text} front bracket bolt torque")
    assert [(one.key, one.value) for one in reading.stated] == [stated]
    assert reading.asks[0].components == ("caliper bracket bolt",)
    assert reading.asks[0].place.axles == ("front",)


@pytest.mark.parametrize("typed", ["awdd", "4wdd", "dualy", "hybird", "diesle", "touirng"])
def test_a_misspelt_qualifier_is_never_another_one(desk: Desk, typed: str) -> None:
    """Letters swapped or doubled may be forgiven; what comes of it must be the value meant, or nothing."""
    meant = {"awdd": "AWD", "4wdd": "4WD", "dualy": "DRW", "hybird": "hybrid", "diesle": "diesel", "touirng": "Touring"}
    reading = read(desk, f"20 vantry lug nut torque {typed}")
    assert {one.value for one in reading.stated} <= {meant[typed]}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("12 ondrel front bracket bolt torque", "question"),
        ("front bracket bolt torque", "question"),
        ("socket?", "question"),
        ("12 ondrel", "vehicle only"),
        ("brackwell", "vehicle only"),
        ("in nm?", "slots only"),
        ("rear", "slots only"),
        ("2016", "slots only"),
        ("2.0t", "slots only"),
        ("thanks", "small talk"),
        ("good morning", "small talk"),
        ("lol ok", "small talk"),
        ("whats the price on rotors", "out of scope"),
        ("zorblax", "nothing"),
        ("x" * 5000, "too long"),
        ("front " * 400, "too long"),
    ],
)
def test_kinds_of_message(desk: Desk, text: str, kind: str) -> None:
    assert read(desk, text).kind == kind


@pytest.mark.parametrize("text", ["thanks", "hola", "ok", "lunch?", "you there", "👍", "...", ""])
def test_small_talk_shows_nothing(desk: Desk, text: str) -> None:
    assert shown(desk.ask(text)) == []
