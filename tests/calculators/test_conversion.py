"""Conversions as a calculation or a question back; the figures themselves are tested with the quantities."""

from __future__ import annotations

import pytest

from benchbot.calculators.conversion import calculate
from benchbot.outcomes import Calculation, Choose
from benchbot.quantities import answered, asked_conversion
from benchbot.quantities.asking import BareUnitQuestion, Conversion


# NIST SP 811 appendix B.8: 1 lbf·ft = 1.355 818 N·m, 1 in = 25.4 mm exactly.
@pytest.mark.parametrize(
    ("text", "given", "result"),
    [
        ("108 nm to ft lbs", "108 N·m", "79.7 lb-ft"),
        ("53 inch lbs to nm", "53 lb-in", "6.0 N·m"),
        (".0015 in mm", ".0015 in", "0.038 mm"),
        ("pads at 4/32 how many mm", "4/32 in", "3.2 mm"),
        ("80 c to f", "80 °C", "176 °F"),
    ],
)
def test_a_conversion(text: str, given: str, result: str) -> None:
    done = calculate(text)
    assert isinstance(done, Calculation)
    assert (done.given, done.result) == (given, result)
    assert done.formula


def test_without_a_target_the_usual_units_are_given() -> None:
    done = calculate("108 nm")
    assert done == Calculation(
        "108 N·m",
        "79.7 lb-ft = 956 lb-in = 11.0 kgf·m",
        "1 N·m = 0.737562 lb-ft; 1 N·m = 8.85075 lb-in; 1 N·m = 0.101972 kgf·m",
    )


def test_bare_pounds_are_asked_about() -> None:
    asked = calculate("80 lbs to nm")
    assert isinstance(asked, Choose)
    assert (asked.about, asked.key) == ("unit", "lbs")
    assert [(option.label, option.states, option.specs) for option in asked.options] == [
        ("lb-ft", {"text": "80 lb-ft to N·m"}, ()),
        ("lb-in", {"text": "80 lb-in to N·m"}, ()),
    ]


@pytest.mark.parametrize(
    "text", ["80 lbs to nm", "108 nm in lbs", "100 to nm", "30 lbs to bar", "2 bar in lbs", "1/2 to nm", "26,5 to nm"]
)
def test_every_option_leads_to_its_conversion_and_never_to_another_question(text: str) -> None:
    question = asked_conversion(text)
    asked = calculate(text)
    assert isinstance(question, BareUnitQuestion)
    assert isinstance(asked, Choose)
    assert [option.label for option in asked.options] == list(question.choices)
    for option in asked.options:
        wanted = answered(question, option.label)
        assert isinstance(wanted, Conversion)
        done = calculate(option.states["text"])
        assert isinstance(done, Calculation)
        assert done.result == " = ".join(result.text for result in wanted.results)


@pytest.mark.parametrize("text", ["", "thanks", "16 ondrel lugs in nm", "front bracket 108 nm right?"])
def test_anything_else_is_left_alone(text: str) -> None:
    assert calculate(text) is None
