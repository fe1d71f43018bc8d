"""Plain conversion questions are answered, bare pounds are asked about, and anything else is left alone."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.quantities import BareUnitQuestion, Conversion, answered, asked_conversion, convert


@pytest.mark.parametrize(
    ("text", "source", "target", "result"),
    [
        ("108 nm to ft lbs", "N·m", "lb-ft", "79.7 lb-ft"),
        ("118 ft lb in nm", "lb-ft", "N·m", "160.0 N·m"),
        ("118 ft-lb in N·m?", "lb-ft", "N·m", "160.0 N·m"),
        (".0015 in mm", "in", "mm", "0.038 mm"),
        (".0015 in in mm", "in", "mm", "0.038 mm"),
        (".0015 in to mm", "in", "mm", "0.038 mm"),
        ('.0015" in mm', "in", "mm", "0.038 mm"),
        ("4/32 in mm", "32nds", "mm", "3.2 mm"),
        ("4/32 to mm", "32nds", "mm", "3.2 mm"),
        ("4/32nds in mm", "32nds", "mm", "3.2 mm"),
        ("4 32nds in mm", "32nds", "mm", "3.2 mm"),
        ("pads at 4/32 how many mm", "32nds", "mm", "3.2 mm"),
        ("Pads at 4/32, how many mm?", "32nds", "mm", "3.2 mm"),
        ("5/8 in mm", "in", "mm", "15.88 mm"),
        ("5/8 to mm", "in", "mm", "15.88 mm"),
        ("1 1/8 in in mm", "in", "mm", "28.58 mm"),
        ("53 inch lbs to nm", "lb-in", "N·m", "6.0 N·m"),
        ("53 in lbs to nm", "lb-in", "N·m", "6.0 N·m"),
        ("53 in-lbs in nm", "lb-in", "N·m", "6.0 N·m"),
        ("3.2mm in 32nds", "mm", "32nds", "4.0 32nds (4/32 in)"),
        ("3 mm in 32nds", "mm", "32nds", "3.8 32nds"),
        ("80 c to f", "°C", "°F", "176 °F"),
        ("-40 c to f", "°C", "°F", "-40 °F"),
        ("212°F in °C", "°F", "°C", "100 °C"),
        ("30 psi in bar", "psi", "bar", "2.07 bar"),
        ("whats 90 nm in foot pounds", "N·m", "lb-ft", "66.4 lb-ft"),
        ("what's 90 Nm in foot-pounds?", "N·m", "lb-ft", "66.4 lb-ft"),
        ("hey what is 90 newton meters in foot pounds please", "N·m", "lb-ft", "66.4 lb-ft"),
        ("convert 45 ft-lbs to inch pounds please", "lb-ft", "lb-in", "540 lb-in"),
        ("26,5 mm in inches", "mm", "in", "1.043 in"),
        ("how many ft lbs is 108 nm", "N·m", "lb-ft", "79.7 lb-ft"),
        ("how many ft lbs in 108 nm", "N·m", "lb-ft", "79.7 lb-ft"),
        ("80 ft lbs to in lbs", "lb-ft", "lb-in", "960 lb-in"),
        ("80 ft lbs in in lbs", "lb-ft", "lb-in", "960 lb-in"),
        ("108 nm = ? ft-lb", "N·m", "lb-ft", "79.7 lb-ft"),
        ("108 nm to lb ft", "N·m", "lb-ft", "79.7 lb-ft"),
        ("10 kgm to nm", "kgf·m", "N·m", "98.1 N·m"),
        ("6.3 l in quarts", "L", "qt", "6.7 qt"),
        ("4 imp qt in litres", "imp qt", "L", "4.55 L"),
        ("1/4 turn in degrees", "turns", "deg", "90 deg"),
        ("15 thou in mm", "thou", "mm", "0.381 mm"),
        ("108 NM TO FT LBS", "N·m", "lb-ft", "79.7 lb-ft"),
        ("  108   nm   to   ft   lbs  !!", "N·m", "lb-ft", "79.7 lb-ft"),
    ],
)  # fmt: skip
def test_conversion_questions(text: str, source: str, target: str, result: str) -> None:
    conversion = asked_conversion(text)
    assert isinstance(conversion, Conversion)
    assert (conversion.source.unit, conversion.target) == (source, target)
    assert [one.text for one in conversion.results] == [result]
    assert conversion.results[0].exact == convert(conversion.source.number, source, target)


@pytest.mark.parametrize(
    ("text", "working"),
    [
        ("108 nm to ft lbs", "1 N·m = 0.737562 lb-ft"),
        ("80 c to f", "°F = °C × 9/5 + 32"),
        ("80 f to c", "°C = (°F \u2212 32) × 5/9"),
        ("45 ft-lbs to inch pounds", "1 lb-ft = 12 lb-in"),
        ("4/32 in mm", "1/32 in = 0.79375 mm"),
        ("2 turns in deg", "1 turn = 360 deg"),
    ],
)
def test_the_working_is_shown(text: str, working: str) -> None:
    conversion = asked_conversion(text)
    assert isinstance(conversion, Conversion)
    assert conversion.results[0].working == working


@pytest.mark.parametrize(
    ("text", "results"),
    [
        ("108 nm?", ["79.7 lb-ft", "956 lb-in", "11.0 kgf·m"]),
        ("convert 80 ft lbs", ["108.5 N·m", "960 lb-in", "11.1 kgf·m"]),
        ("80 in lbs", ["9.0 N·m", "6.7 lb-ft", "0.92 kgf·m"]),
        ("32 psi", ["221 kPa", "2.2 bar"]),
        ("100 °C", ["212 °F"]),
    ],
)
def test_without_a_target_the_usual_units_are_offered(text: str, results: list[str]) -> None:
    conversion = asked_conversion(text)
    assert isinstance(conversion, Conversion)
    assert conversion.target is None
    assert [one.text for one in conversion.results] == results


@pytest.mark.parametrize(
    ("text", "question", "choice", "result"),
    [
        ("80 lbs to nm", BareUnitQuestion("80", "lbs", "source", "N·m", ("lb-ft", "lb-in")), "lb-ft", "108.5 N·m"),
        ("80 pounds in nm", BareUnitQuestion("80", "pounds", "source", "N·m", ("lb-ft", "lb-in")), "lb-in",
        "9.0 N·m"),
        ("45 lb in nm", BareUnitQuestion("45", "lb", "source", "N·m", ("lb-ft", "lb-in")), "lb-in", "5.1 N·m"),
        ("108 nm in lbs", BareUnitQuestion("108", "lbs", "target", "N·m", ("lb-ft", "lb-in")), "lb-ft", "79.7 lb-ft"),
        ("how many pounds is 108 nm", BareUnitQuestion("108", "pounds", "target", "N·m", ("lb-ft",
        "lb-in")), "lb-in", "956 lb-in"),
        ("80 to nm", BareUnitQuestion("80", "", "source", "N·m", ("lb-ft", "lb-in", "kgf·m")), "lb-ft", "108.5 N·m"),
        ("108 in nm", BareUnitQuestion("108", "", "source", "N·m", ("lb-ft", "lb-in", "kgf·m")), "lb-in", "12.2 N·m"),
        ("35 lbs in bar", BareUnitQuestion("35", "lbs", "source", "bar", ("psi",)), "psi", "2.4 bar"),
    ],
)  # fmt: skip
def test_what_is_asked_first(text: str, question: BareUnitQuestion, choice: str, result: str) -> None:
    assert asked_conversion(text) == question
    assert choice in question.choices
    conversion = answered(question, choice)
    assert isinstance(conversion, Conversion)
    assert [one.text for one in conversion.results] == [result]


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "?", "nm", "thanks", "whats that in inch lbs", "in nm?", "nm to ft lbs",
        "lugs 80 nm to ft lbs", "15 quill frt bracket nm", "2015 orrin bracket bolt in ft lbs", "lugs 80 right?",
        "pads at 4/32 good?",
        "pads at 4 mm min?", "rear 108 nm to ft lbs", "108 nm to ft lbs front", "80 nm torque in ft lbs",
        "bracket 80 lbs to nm",
        "80-90 nm to ft lbs", "80 nm 90 nm to ft lbs", "80 nm to ft lbs to in lbs to kgm", "1,500 nm to ft lbs",
        "0 nm to ft lbs", "-5 nm to ft lbs", "99999 nm to ft lbs", "108 mm to nm", "80 c to mm", "12 mm to J",
        "108 nm to joules",
        "5.3 l", "2.0 L", "16 in", "18 mm", "320 mm?", "15 f", "19 c", "80 lbs", "30 bar", "5/8", "4/32", "108",
        "what is 108",
        "M12x1.5", "M10 to mm", "10.9", "🔧 108 nm to ft lbs", "108 nm → ft lbs", "108 нм to ft lbs", "٨ nm to ft lbs",
        "1e5 nm to ft lbs", "108 nm to ft lbs" + " please" * 30, "9" * 40 + " nm to ft lbs", "80 deg to f",
        "1/0 in to mm",
    ],
)  # fmt: skip
def test_everything_else_is_left_alone(text: str) -> None:
    assert asked_conversion(text) is None


@given(st.text(max_size=40) | st.text(alphabet="0123456789./ inmftlbsto?-c°", max_size=30))
def test_any_text_has_one_outcome(text: str) -> None:
    first = asked_conversion(text)
    assert first == asked_conversion(text)
    assert first is None or isinstance(first, (Conversion, BareUnitQuestion))


@given(
    st.sampled_from(["108 nm to ft lbs", ".0015 in mm", "80 lbs to nm", "3.2mm in 32nds", "108 nm?"]),
    st.sampled_from(["front", "quill", "bracket", "torque", "spec", "2wd", "rotor", "min", "same", "lugs", "rear"]),
    st.booleans(),
)
def test_one_word_more_is_no_conversion_question(text: str, word: str, ahead: bool) -> None:
    assert asked_conversion(f"{word} {text}" if ahead else f"{text} {word}") is None


@given(st.integers(1, 900), st.sampled_from([("nm", "ft lbs"), ("ft-lb", "nm"), ("in lbs", "nm"), ("mm", "inches")]))
def test_case_spaces_and_marks_do_not_matter(number: int, pair: tuple[str, str]) -> None:
    plain = asked_conversion(f"{number} {pair[0]} to {pair[1]}")
    assert isinstance(plain, Conversion)
    assert asked_conversion(f"  {number}{pair[0].upper()}  to {pair[1].upper()}?! ") == plain
