"""Plain questions to the calculators: the right figure, one question back, or left alone; never a wrong figure."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from itertools import permutations, product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))

from asked_table import (
    ANSWERED,
    ASKED_BACK,
    ASKED_UNIT,
    CONVERTED,
    NAMED_FIGURES,
    REFUSED,
    REFUSED_WITH_A_PART,
    REFUSED_WITH_A_VEHICLE,
)

from benchbot.calculators import asking_back
from benchbot.calculators.asked import calculate
from benchbot.outcomes import Calculation, Choose, Sentence
from benchbot.reply.compose import compose
from benchbot.reply.english import ENGLISH
from benchbot.reply.languages import LANGUAGES
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.terms import Vocabulary

EMPTY = Vocabulary("", {}, (), (), {}, {}, {}, {}, {})


def done(text: str, begun: str = "") -> Calculation:
    found = calculate(text, begun)
    assert isinstance(found, Calculation), (text, found)
    return found


def sentences(one: Calculation) -> tuple[Sentence, ...]:
    return (*([one.title] if one.title else []), *one.lines, *one.cautions)


def test_there_are_enough_questions() -> None:
    assert len(ANSWERED) + len(REFUSED) + len(ASKED_BACK) + len(ASKED_UNIT) >= 140


@pytest.mark.parametrize(("text", "result"), ANSWERED.items())
def test_the_right_figure(text: str, result: str) -> None:
    found = done(text)
    assert found.result == result
    assert found.formula
    assert not found.refused


@pytest.mark.parametrize("text", ANSWERED)
def test_letters_case_and_politeness_do_not_matter(text: str) -> None:
    assert done(f"hey, {text.upper()}, thanks").result == ANSWERED[text]


@pytest.mark.parametrize("text", [*REFUSED, *REFUSED_WITH_A_PART, *REFUSED_WITH_A_VEHICLE])
def test_a_torque_for_a_thread_is_refused_with_the_reason(text: str) -> None:
    found = done(text)
    assert found.refused
    assert found.result == ""
    for language in LANGUAGES:
        reply = compose(found, Reading(), None, EMPTY, False, language)
        assert (reply.outcome, reply.specs) == ("other", ())
        assert not re.search(r"\d+ ?(?:N·m|lb-ft|lb-in)", reply.text())
        assert len(reply.blocks) >= 4
    said = compose(found, Reading(), None, EMPTY, False).text()
    for reason in (
        "year, make, model, axle and which bolt",
        "comes from the book",
        "Friction decides",
        "I can explain",
    ):
        assert reason in said


@pytest.mark.parametrize(("text", "question"), ASKED_BACK.items())
def test_a_missing_piece_is_asked_back_in_one_question(text: str, question: str) -> None:
    asked = calculate(text)
    assert isinstance(asked, Choose)
    assert asked.about == "sum"
    assert asked.question in asking_back.QUESTIONS
    assert asked.question.startswith(question)
    assert asked.question.count("?") == 1


@pytest.mark.parametrize(("text", "units"), ASKED_UNIT.items())
def test_a_unit_is_never_assumed(text: str, units: tuple[str, ...]) -> None:
    asked = calculate(text)
    assert isinstance(asked, Choose)
    assert asked.about == "unit"
    assert tuple(option.label for option in asked.options) == units
    for option in asked.options:
        again = calculate(option.states["text"])
        assert isinstance(again, Calculation) or (isinstance(again, Choose) and again.about == "unit"), option


@pytest.mark.parametrize(("text", "named"), NAMED_FIGURES.items())
def test_the_question_about_a_unit_names_its_figure(text: str, named: str) -> None:
    asked = calculate(text)
    assert isinstance(asked, Choose)
    for language in LANGUAGES:
        assert named in compose(asked, Reading(), None, EMPTY, False, language).blocks[0].text


@pytest.mark.parametrize(("text", "result"), CONVERTED.items())
def test_a_conversion_in_spanish_or_of_a_part(text: str, result: str) -> None:
    """NIST SP 811, appendix B.8, for the pound force; 8/32 in are 6.35 mm."""
    assert done(text).result == result
    assert calculate(f"2018 Brackwell Ondrel {text}") is None


def test_no_pad_is_thicker_than_a_hand() -> None:
    found = done("front pads 12 in new 5 mm now min 3 mm how much is left")
    assert (found.refused, found.result) == (True, "")
    assert "12 in" in compose(found, Reading(), None, EMPTY, False).text()


@pytest.mark.parametrize("text", ["can i mix dot 3 and dot 4", "dot 4 and dot 3 together", "dot 4 and dot 3"])
def test_of_two_fluids_the_first_line_is_the_safe_one(text: str) -> None:
    reply = compose(done(text), Reading(), None, EMPTY, False)
    assert reply.short.startswith("Only up: DOT 3 into a DOT 4 system: no.")
    assert "mixed" not in reply.short
    assert "vehicle's own grade decides" in reply.short
    assert reply.text().index("What the reservoir cap") < reply.text().index("may be mixed")
    assert compose(done("dot 5.1 in a dot 3 car"), Reading(), None, EMPTY, False).short.startswith("Only up: ")


@pytest.mark.parametrize("text", ["15 mm head what thread", "what socket for an m12 bolt", "is an m12 a 19 mm head"])
def test_a_hex_is_no_verdict_on_a_thread(text: str) -> None:
    reply = compose(done(text), Reading(), None, EMPTY, False)
    said = [block.text for block in reply.blocks if block.kind != "source"]
    assert "Other standards and makers differ." in reply.text()
    assert "value from memory" in reply.text()
    assert "can be M" not in " ".join(said)


@pytest.mark.parametrize(
    ("text", "answer", "result"),
    [
        ("need 80 ft lbs with a 2 in crowfoot", "18 in", "72.0 lb-ft"),
        ("80 ft lbs on my 18 in torque wrench with a crowfoot", "2 inches", "72.0 lb-ft"),
        ("need 80 ft lbs with a crowfoot", "wrench 18 in, adapter 2 in", "72.0 lb-ft"),
        ("2 in crowfoot on an 18 in wrench", "80 ft lb", "72.0 lb-ft"),
        ("pads were 11 mm now 6 mm after 30000 km", "3 mm", "18000 km"),
        ("clamp load m12x1.75 at 126 nm", "10.9", "30.0-105.0 kN"),
        ("click at 8 nm how accurate", "5 to 25 nm", "5 ≤ 8.0 ≤ 25 N·m"),
        ("can i top off with dot 4", "dot 3", "DOT 4 ≥ DOT 3"),
        ("wrench 250 ft lb max, need 12 in lb", "10 to 250 ft lb", "1.0 lb-ft < 10 lb-ft"),
        ("readings 22.41 22.40 2243", "22.41 22.40 22.43 mm", "0.03 mm"),
    ],
)
def test_the_answer_to_a_question_back_goes_on(text: str, answer: str, result: str) -> None:
    asked = calculate(text)
    assert isinstance(asked, Choose)
    assert done(answer, asked.key).result == result


def test_a_new_question_is_not_taken_for_the_answer() -> None:
    asked = calculate("need 80 ft lbs with a 2 in crowfoot")
    assert isinstance(asked, Choose)
    assert done("108 nm to ft lbs", asked.key).result == "79.7 lb-ft"
    assert done("inner 4mm outer 9mm", asked.key).result == "5 mm"
    assert calculate("16 ondrel front bracket", asked.key) is None


OF_A_LIST = re.compile("generic|chart|tabla|ballpark|thumb|by bolt size")


@pytest.mark.parametrize("text", [*ANSWERED, *REFUSED, *REFUSED_WITH_A_PART, *ASKED_BACK, *ASKED_UNIT])
def test_a_vehicle_or_a_part_leaves_it_to_the_book(text: str) -> None:
    """Only the plain conversions and these calculators speak; whatever names more is no sum."""
    in_general = text in REFUSED_WITH_A_PART or OF_A_LIST.search(text)
    parts = () if in_general else ("bracket", "knuckle side", "slide pin")
    for beside in ("2018 Brackwell Ondrel", "ondrel", *parts):
        assert calculate(f"{text} {beside}") is None
        assert calculate(f"{beside} {text}") is None


@pytest.mark.parametrize(
    "text",
    [
        "front bracket torque", "m12 bracket bolt torque", "the m12 ones", "lug nut torque",
        "torque for the 18 mm", "head bolt torque m10", "how much does the bracket bolt need",
        "max caliper bolt torque", "12 bolt torque", "250 hp bolt torque", "8.8 axle bolt torque", "bolt torque",
        "front caliper bracket bolt m12 torque", "1/2 inch studs lug torque", "axle nut 36mm socket torque",
        "7 mm allen slide pin torque", "usual rotor min", "is there a torque chart for the 16 wendla",
        "standard m14 lug nut torque", "calculate my torque", "torque for slide pin m10 hex 17",
        "rotor min", "2016 rear rotor min", "pads 3 mm",
        "3500 rear pads min, 140k miles on it", "1600 rear rotor runout '15", "runout .004", "socket size front 18",
        "brake fluid", "dot 4", "dot 4?", "which dot", "measured 22.4 front rotor", "rotor 22.41 22.40 22.43 ok?",
        "left 22.4 right 22.1 rotor", "wrench", "who took my torque wrench", "how long is the job", "17 mm",
        "torque wrench 80", "extension", "what extension do i need", "m13 socket",
        "m12 12.9", "lugs 80 right?", "16 1600 with the 300 mm wear limit shoes", "1,500 nm crowfoot 2 in wrench 18 in",
    ],
)  # fmt: skip
def test_what_is_no_sum_is_left_alone(text: str) -> None:
    assert calculate(text) is None


SAID_IN_ANY_ORDER = (
    (
        "how long will the pads last",
        (
            ("12 mm new", "new 12 mm", "started at 12 mm"),
            ("now 8 mm", "8 mm left", "they are at 8 mm"),
            ("limit 2 mm", "2 mm minimum", "replace at 2 mm"),
            ("after 30000 km",),
        ),
        "45000 km",
    ),
    (
        "setting",
        (
            ("80 ft lb", "want 80 ft lb"),
            ("2 in crowfoot", "crowfoot is 2 in long"),
            ("18 in wrench", "wrench 18 in", "18 in long torque wrench"),
        ),
        "72.0 lb-ft",
    ),
    ("pad", (("inner 4 mm", "4 mm inner"), ("outer 9 mm", "outer pad is 9 mm")), "5 mm"),
)


@pytest.mark.parametrize(("head", "parts", "result"), SAID_IN_ANY_ORDER)
def test_in_any_order_the_figure_is_right_or_asked_for(
    head: str, parts: tuple[tuple[str, ...], ...], result: str
) -> None:
    answered = 0
    told = [order for said in product(*parts) for order in permutations(said)]
    for order in told:
        for parting in (" ", ", ", " and "):
            found = calculate(f"{head} {parting.join(order)}")
            assert isinstance(found, Choose) or (isinstance(found, Calculation) and found.result == result), order
            answered += isinstance(found, Calculation)
    assert answered > 0.9 * 3 * len(told)


HEAP = """
rotor pad wrench crowfoot adapter extension 2 18 in mm 80 nm ft lbs dot 4 5.1 m12 10.9 torque load inner outer
9 new now min 30000 km click runout 0 .002 at 90 deg to set what hex socket mix boiling 22.41 22.40 22.43 ?
"""
WORD = st.sampled_from(HEAP.split())


@given(st.lists(WORD, min_size=1, max_size=10))
def test_any_heap_of_words_gives_one_outcome_that_can_be_said(words: list[str]) -> None:
    found = calculate(" ".join(words))
    if found is not None:
        for language in LANGUAGES:
            assert compose(found, Reading(), None, EMPTY, False, language).text()


@given(st.text(max_size=60))
def test_any_text_is_read_without_fault(text: str) -> None:
    found = calculate(text)
    assert found is None or isinstance(found, (Calculation, Choose))


REACHED_ALSO = (
    "100 nm 450mm wrench 50mm crowfoot at 90 deg set at, what did it get",
    "set at 100 nm wrench 450 mm adapter 50 mm reversed what did it get",
    "set at 100 nm wrench 450 mm adapter 50 mm 45 deg what did it get",
    "set at 100 nm wrench 450 mm adapter 50 mm 90 deg what did it get",
    "100 nm wrench 450 mm adapter 440 mm reversed",
    "is an m12 22 mm head", "pad 5 mm at the top 5 mm at the bottom", "variation rotor 22.41 22.40 mm",
    "pads 12 mm new 12 mm now 5000 km limit 3 mm", "is a 40-200 nm clicker ok for 41 nm",
    "front pads 12 in new 5 mm now min 3 mm how much is left", "m12 8.8 150 nm k 0.1 clamp load", "torque chart",
    "dot 4 tested 240 c", "dot 4 tested 150 c", "is a 40-400 nm wrench ok for 50 nm",
)  # fmt: skip


def test_every_sentence_has_its_blanks_filled_and_is_reached() -> None:
    reached = set()
    for text in (*ANSWERED, *REFUSED, *REACHED_ALSO):
        for sentence in sentences(done(text)):
            assert {name for name, _ in sentence.values} >= set(re.findall(r"\{(\w+)\}", ENGLISH.sums[sentence.name]))
            reached.add(sentence.name)
    assert set(ENGLISH.sums) - reached == {"got across"}


@pytest.mark.parametrize("text", ANSWERED)
def test_the_reply_says_the_figure_and_how(text: str) -> None:
    found = done(text)
    for language in LANGUAGES:
        reply = compose(found, Reading(), None, EMPTY, False, language)
        assert reply.outcome == "calculation"
        said = reply.text()
        assert found.formula in said
        assert "{" not in said
        assert found.source in said
        assert reply.short == reply.blocks[0].text


def test_what_is_unsafe_is_said_before_the_rest() -> None:
    reply = compose(done("rotor 21.8 mm, discard 22 mm, whats left"), Reading(), None, EMPTY, False)
    assert [block.kind for block in reply.blocks[:2]] == ["calculation", "before"]
    assert "Do not put it back on the road" in reply.blocks[1].text
    plain = replace(done("dot 5 in a dot 4 car ok"), lines=())
    assert compose(plain, Reading(), None, EMPTY, False).blocks[1].kind == "before"


def test_a_sum_loads_nothing_heavy() -> None:
    code = (
        "import sys; from benchbot.calculators.asked import calculate; "
        "calculate('80 ft lbs 2 in crowfoot 18 in wrench'); calculate('clamp load m12x1.75 10.9 at 93 ft lbs'); "
        "print(sorted(set(sys.modules) & {'pint', 'pydantic', 'yaml', 'sqlalchemy'}))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
