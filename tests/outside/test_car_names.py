"""Vehicle names as people really wrote them: each leads to its own row or to a question, never to another's row.

Source of the names: vega_datasets 0.9.0 `cars.json` (the Auto MPG list), read from the installed package, with the five
misspelt makes that it is known for. Years and figures in the rows are invented: none was built in those years.
"""

from __future__ import annotations

import csv
import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
import vega_datasets
from desk import Desk, published

from benchbot.outcomes import Answer, Gap
from benchbot.specs.columns import SPECS, VEHICLE_NAMES

CARS = Path(vega_datasets.__file__).parent / "_data" / "cars.json"
# As the list writes some makes -> the maker's own way.
MISSPELT = {"toyouta": "toyota", "chevroelt": "chevrolet", "vokswagen": "volkswagen", "maxda": "mazda"}
SHORT = {"vw": "volkswagen", "chevy": "chevrolet"}
CHECKED = {"source": "Invented sheet", "source_ref": "p. 1", "checked_by": "test", "checked_on": "2026-01-15"}
# Beside "dodge colt" and "chevrolet cavalier" these two are taken for the shorter name; see the last test.
FAULTY = (("dodge", "colt m/m"), ("chevrolet", "cavalier 2-door"))
THING = "front caliper bracket bolt torque"

Name = tuple[str, str]


def listed() -> list[Name]:
    """(make, model) as the list writes them, each once; a name of one word is no make and model, and left out."""
    names = dict.fromkeys(car["Name"] for car in json.loads(CARS.read_text(encoding="utf-8")))
    return [(make, model) for make, _, model in (name.partition(" ") for name in names) if model]


def proper(name: Name) -> Name:
    make, model = name
    return MISSPELT.get(make, SHORT.get(make, make)), model


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """A desk on every name of the list under its proper make, with an invented figure; vw and chevy are short names."""
    folder = tmp_path_factory.mktemp("cars")
    specs, names = folder / "specs.csv", folder / "names.csv"
    with specs.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, SPECS.columns)
        writer.writeheader()
        for n, (make, model) in enumerate(dict.fromkeys(map(proper, listed()))):
            row = {"id": f"V{n:04}", "make": make, "model": model, "year_from": 2011, "year_to": 2019}
            bolt = {"component": "caliper bracket bolt", "position": "front", "property": "torque"}
            writer.writerow(row | bolt | {"value": f"{20 + n} N·m", "status": "verified"} | CHECKED)
    with names.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, VEHICLE_NAMES.columns)
        writer.writeheader()
        for short, make in SHORT.items():
            for model in dict.fromkeys(model for of, model in map(proper, listed()) if of == make):
                writer.writerow({"make": make, "model": model, "alias": f"{short} {model}"})
    desk = Desk(published(folder, specs, names))
    yield desk
    desk.conversation.close()


def came(bench: Desk, text: str, meant: Name) -> str:
    """right, asked (no figure shown) or wrong: another vehicle's figure."""
    outcome = bench.ask(text).outcome
    if not isinstance(outcome, Answer):
        return "gap" if isinstance(outcome, Gap) else "asked"
    vehicles = {(finding.subject.make, finding.subject.model) for finding in outcome.findings}
    return "right" if vehicles == {meant} else f"wrong: {text!r} shows {vehicles}"


def counted(bench: Desk, asked: list[tuple[str, Name]]) -> Counter[str]:
    counts: Counter[str] = Counter(came(bench, text, meant) for text, meant in asked if meant not in FAULTY)
    print(f"{dict(counts)} of {len(asked)}")
    assert not [one for one in counts if one.startswith("wrong")]
    return counts


def test_the_list_still_holds_its_misspellings() -> None:
    assert len(listed()) > 290
    assert {make for make, _ in listed()} >= {*MISSPELT, *SHORT}


def test_each_name_as_spelt_leads_to_its_own_row_or_a_question(bench: Desk) -> None:
    asked = [(f"2014 {make} {model} {THING}", proper((make, model))) for make, model in listed()]
    assert counted(bench, asked)["right"] >= 0.9 * len(asked)


def test_each_model_without_its_make(bench: Desk) -> None:
    counted(bench, [(f"{model} 2014 {THING}", proper((make, model))) for make, model in listed()])


def test_real_misspellings_of_makes(bench: Desk) -> None:
    """Every model of the make, with the make as it was misspelt."""
    wrong = {make: wrong for wrong, make in MISSPELT.items()}
    models = dict.fromkeys(map(proper, listed()))
    asked = [(f"2014 {wrong[m]} {model} {THING}", (m, model)) for m, model in models if m in wrong]
    assert counted(bench, asked)["right"] >= 0.8 * len(asked)


def test_short_makes(bench: Desk) -> None:
    """Every model of the make under vw and chevy, which the shop's own names give."""
    short = {make: short for short, make in SHORT.items()}
    models = dict.fromkeys(map(proper, listed()))
    asked = [(f"2014 {short[m]} {model} {THING}", (m, model)) for m, model in models if m in short]
    assert counted(bench, asked)["right"] >= 0.9 * len(asked)


def test_a_year_outside_the_rows_shows_nothing(bench: Desk) -> None:
    asked = [(f"2008 {make} {model} {THING}", ("", "")) for make, model in listed()]
    assert counted(bench, asked)["right"] == 0


@pytest.mark.parametrize("name", FAULTY)
def test_the_shorter_name_does_not_answer(bench: Desk, name: Name) -> None:
    assert not came(bench, f"2014 {name[0]} {name[1]} {THING}", name).startswith("wrong")
