"""Invented rows and a small invented vocabulary for replies."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from benchbot.book.rows import SpecRow
from benchbot.outcomes import Finding, Subject
from benchbot.quantities import parse_value, present
from benchbot.vocabulary.terms import Caution, Component, Vocabulary

DIMENSIONS = {"torque": "torque", "socket": "tool size", "minimum thickness": "length", "capacity": "volume"}

PLAIN_ROW = SpecRow(
    spec="T0001",
    revision=2,
    vehicle=1,
    year_from=2014,
    year_to=2020,
    only_if="engine=1.6",
    component="caliper bracket bolt",
    position="front",
    property="torque",
    value="88 lb-ft",
    second_value="",
    shown="",
    thread="",
    strength_class="",
    condition="",
    reuse="",
    order="",
    cautions=(),
    source="Invented sheet 14-8",
    source_ref="p. 168",
    checked_by="demo lead",
    checked_on="2026-01-05",
    review_by="",
)

CAUTIONS = {
    name: Caution(name, text, first, {"es": text_es})
    for name, text, first, text_es in (
        ("maker first", "The maker's own sheet comes first.", False, "La hoja del fabricante va primero."),
        ("one-time fastener", "Often a one-time fastener.", True, "Suele ser de un solo uso."),
        ("hose carries nothing", "The hose never carries the caliper.", False, "La manguera nunca carga el caliper."),
        ("brake dust", "Brake dust: wet it.", False, "Polvo de freno: mójelo."),
        ("hot parts", "Hot parts burn.", True, "Las piezas calientes queman."),
    )
}


def component(name: str, *cautions: str) -> Component:
    return Component(name, "brakes", "fastener", "both", (), ("torque", "socket"), "torque", cautions)


def row_with(**changes: object) -> SpecRow:
    """The plain row with changes; `shown` is reckoned the way a book does it."""
    row = replace(PLAIN_ROW, **changes)  # type: ignore[arg-type]
    dimension = DIMENSIONS[row.property]
    second = parse_value(dimension, row.second_value) if row.second_value else None
    return replace(row, shown=json.dumps(present(parse_value(dimension, row.value), second).to_plain()))


def finding_of(row: SpecRow) -> Finding:
    only_if = tuple(tuple(part.strip().split("=")) for part in row.only_if.split(";") if part)
    subject = Subject("Brackwell", "Ondrel", (2018,), only_if, row.component, row.position, row.property)  # type: ignore[arg-type]
    return Finding(row, subject)


@pytest.fixture
def finding() -> Callable[..., Finding]:
    return lambda **changes: finding_of(row_with(**changes))


@pytest.fixture
def vocabulary() -> Vocabulary:
    names = {
        "caliper bracket bolt": ("maker first", "hose carries nothing", "one-time fastener"),
        "caliper slide pin bolt": ("hose carries nothing", "brake dust"),
        "axle nut": ("one-time fastener",),
        "brake rotor": ("brake dust",),
        "engine oil": (),
    }
    components = {name: component(name, *cautions) for name, cautions in names.items()}
    return Vocabulary("", components, (), (), {}, {}, {}, {}, CAUTIONS)
