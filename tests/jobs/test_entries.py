"""What may be entered: figures with a unit, repair orders that look like one, and nothing about a customer."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from job_bay import DANA, ONDREL, Bay, knowledge, measured, tightened

from benchbot.jobs.beginning import begin
from benchbot.jobs.entries import read_repair_order, read_text
from benchbot.jobs.record_json import plain_record
from benchbot.jobs.terms import Refused, Vehicle


@pytest.mark.parametrize("number", ["", "RO-10482", "7", "a1-b2-c3", "12345678901234567890"[:9], " RO77 "])
def test_repair_orders(number: str) -> None:
    assert read_repair_order(number) == number.strip()


@pytest.mark.parametrize(
    "number",
    [
        "Mrs Lindqvist",
        "RO 10482",
        "RO/1",
        "-1",
        "1-",
        "x" * 21,
        "MILLER",
        "next",
        "listo",
        "555-123-4567",
        "4155550132",
        "1M8GDM9AXKP042788",
        "é1",
    ],
)
def test_no_repair_orders(number: str) -> None:
    assert isinstance(read_repair_order(number), Refused)


# The VIN is the example of 49 CFR 565's check digit as handbooks print it (value from memory).
@pytest.mark.parametrize(
    "text",
    [
        "call 415-555-0132", "ring (415) 555 0132", "+49 30 1234567", "tel 4155550132", "owner is jo@example.org",
        "VIN 1M8GDM9AXKP042788", "1m8gdm9axkp042788", "customer Bob Tellrick did not want it",
        "Mr. Tellrick comes back",
        "MRS Tellrick's car", "owner: Tellrick", "el cliente Tellrick no quiso", "Sra. Tellrick", "plate 7ABC123",
        "license plate no. 7-ABC-12", "placa ABC123",
    ],
)  # fmt: skip
def test_what_tells_a_customer_is_refused(bay: Bay, text: str) -> None:
    bay.begin()
    assert bay.refuse("skip", DANA, text).about == "customer"
    assert bay.refuse("tighten", DANA, replace(tightened(), tool=text)).about == "customer"


@pytest.mark.parametrize(
    "text",
    [
        "22.41 22.40 22.43 22.41 22.40 22.42",
        "torn boot, left, 3 mm",
        "D0001-3",
        "2026-03-02 08:31",
        "0.0005 in 8 places",
        "customer declined it",
        "the owner wants his own pads on",
        "el cliente no quiere",
        "backing plate bent",
        "plate 3 mm thick",
        "waited 5 ms too long",
    ],
)
def test_what_tells_none_is_taken(text: str) -> None:
    assert read_text(text, "a reason") == text


def test_a_repair_order_is_put_right(bay: Bay) -> None:
    bay.begin(repair_order="RO-7")
    assert bay.refuse("correct_order", DANA, "next").about == "repair order"
    told = plain_record(bay.do("correct_order", DANA, "RO-8"))
    assert told["repair_order"] == "RO-8" and [one["what"] for one in told["course"]] == ["begun", "repair order"]
    assert "RO-7" not in str(told)


def test_a_vehicle_is_no_customer(bay: Bay) -> None:
    vocabulary, procedures = knowledge()
    for said in (
        "1M8GDM9AXKP042788",
        "",
        "2018 Ondrel Mrs Tellrick",
        "09 zorblatt the car of bob tellrick",
        "call 415-555-0132",
    ):
        vehicle = Vehicle(said)
        assert isinstance(begin(bay.record, procedures, vocabulary, vehicle, "drum-brake", DANA, bay.tick()), Refused)


@pytest.mark.parametrize(
    ("procedure", "more", "about"),
    [
        ("nonsense", {}, "procedure"),
        ("wheel-fitting", {}, "wheel"),
        ("disc-brake-front", {"wheels": ("rear left",)}, "wheel"),
        ("disc-brake-rear", {}, "fitted"),
        ("disc-brake-rear", {"fitted": ("hand brake",)}, "fitted"),
        ("drum-brake", {"repair_order": "Mr Okafor"}, "repair order"),
    ],
)
def test_what_is_not_said_is_asked_for(bay: Bay, procedure: str, more: dict[str, object], about: str) -> None:
    vocabulary, procedures = knowledge()
    found = begin(bay.record, procedures, vocabulary, ONDREL, procedure, DANA, bay.tick(), **more)  # type: ignore[arg-type]
    assert isinstance(found, Refused)
    assert found.about == about
    assert found.choices or about == "repair order"


@pytest.mark.parametrize(
    ("changed", "about"),
    [
        ({"value": "22,4x"}, "figure"),
        ({"value": ""}, "figure"),
        ({"unit": ""}, "unit"),
        ({"unit": "furlong"}, "unit"),
        ({"wheel": "rear left"}, "wheel"),
        ({"wheel": ""}, "wheel"),
        ({"value": "22.41 22.40 2.24"}, "figure"),
        ({"when": "during"}, "judgement"),
        ({"component": " "}, "empty"),
    ],
)
def test_measurements_that_are_refused(bay: Bay, changed: dict[str, str], about: str) -> None:
    bay.begin()
    assert bay.refuse("measure", DANA, replace(measured(), **changed)).about == about  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changed", "about"),
    [
        ({"wheel": ""}, "wheel"),
        ({"set_to": "105"}, "unit"),
        ({"set_to": ""}, "empty"),
        ({"tool": ""}, "empty"),
        ({"tool": "w" * 61}, "too long"),
    ],
)
def test_lines_that_are_refused(bay: Bay, changed: dict[str, str], about: str) -> None:
    bay.begin()
    assert bay.refuse("tighten", DANA, replace(tightened(), **changed)).about == about  # type: ignore[arg-type]


@given(st.text(max_size=80))
def test_any_text_comes_back_in_one_line_or_is_refused(text: str) -> None:
    found = read_text(text, "a reason")
    assert isinstance(found, Refused) or (found == " ".join(found.split()) and found.isprintable())
