"""Questions back, gaps, sums and small talk, word for word."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import get_args

import pytest
from every_outcome import EXPLAINED, ONDREL, OPTIONS

from benchbot.outcomes import About, Calculation, Choose, Gap, Missing, Other, Outcome, Reason, Subject
from benchbot.reply.compose import compose
from benchbot.reply.english import ENGLISH
from benchbot.reply.reply import Reply
from benchbot.reply.subjects import qualifier_words, years_words
from benchbot.reply.why import why
from benchbot.understanding.reading import Reading, Role, VehicleRead, VehicleState, WordNote
from benchbot.vocabulary.qualifiers import KEYS
from benchbot.vocabulary.terms import Vocabulary


@pytest.fixture
def said(vocabulary: Vocabulary) -> Callable[..., Reply]:
    def _said(outcome: Outcome, reading: Reading | None = None, gap: int | None = None) -> Reply:
        return compose(outcome, reading or Reading(), gap, vocabulary, first=False)

    return _said


def test_a_question_back_shows_what_is_known_and_numbers_the_choices(said: Callable[..., Reply]) -> None:
    subject = Subject("Brackwell", "Ondrel", (2018,), (), "caliper bracket bolt", "", "torque")
    reply = said(Choose("axle", "", "", OPTIONS, subject))
    assert reply.text() == ("Front or rear?\n2018 Brackwell Ondrel, caliper bracket bolt, torque\n1  front\n2  rear")
    assert reply.outcome == "choose"
    assert [choice.states for choice in reply.choices] == [{"axle": "front"}, {"axle": "rear"}]
    assert reply.specs == ()
    assert reply.short == "Front or rear?"


def test_the_question_of_the_outcome_wins(said: Callable[..., Reply]) -> None:
    reply = said(Choose("component", "", "Which bolt is it?", OPTIONS, Subject()))
    assert reply.text().splitlines()[0] == "Which bolt is it?"


@pytest.mark.parametrize("about", get_args(About))
def test_every_kind_of_question_is_one_line_that_asks(said: Callable[..., Reply], about: About) -> None:
    question = said(Choose(about, "xyz", "", OPTIONS, Subject())).text().splitlines()[0]
    assert "{" not in question
    assert "?" in question or about == "left over"


@pytest.mark.parametrize("key", KEYS)
def test_every_qualifier_has_its_question(said: Callable[..., Reply], key: str) -> None:
    question = said(Choose("qualifier", key, "", OPTIONS, Subject())).text().splitlines()[0]
    assert question == ENGLISH.qualifier_questions[key]


def test_questions_that_must_be_typed(said: Callable[..., Reply]) -> None:
    assert said(Choose("vehicle", "", "", (), Subject())).text() == "Which vehicle? Say year, make and model."
    assert said(Choose("component", "", "", (), ONDREL)).text().splitlines()[0] == (
        "Which part, and what do you need of it?"
    )
    assert said(Choose("component", "", "", OPTIONS, ONDREL)).text().splitlines()[0] == "Which part?"
    assert said(Choose("vehicle", "", "", OPTIONS, Subject())).text().splitlines()[0] == "Which vehicle is it?"
    assert said(Choose("unit", "", "", (), Subject())).text() == "In which unit is that figure?"
    assert said(Choose("left over", "blue ones", "", (), Subject())).text() == (
        "I cannot place “blue ones”, and it could matter. Say it another way, or leave it out."
    )


def test_a_gap_says_what_why_and_its_number(said: Callable[..., Reply]) -> None:
    reply = said(Gap((Missing("component not held", "", ONDREL),)), gap=12)
    assert reply.text() == (
        "Not in our book: 2018 Brackwell Ondrel, engine 1.6, REAR axle nut, torque. "
        "Nothing checked is held of that part for this vehicle.\n"
        "Logged as no. 12 for the curator. I will not estimate."
    )
    assert reply.outcome == "gap"
    assert (reply.specs, reply.choices) == ((), ())


@pytest.mark.parametrize("reason", get_args(Reason))
def test_every_reason_is_said_in_plain_words(said: Callable[..., Reply], reason: Reason) -> None:
    text = said(Gap((Missing(reason, "", ONDREL),)), gap=1).text()
    assert ENGLISH.reasons[reason] in text
    assert "{" not in text


def test_a_gap_without_a_number_or_a_subject(said: Callable[..., Reply]) -> None:
    unknown = Missing("unknown component", "flux capacitor", Subject("Brackwell", "Ondrel", (2018,)))
    assert said(Gap((unknown,))).text() == (
        "Not in our book: 2018 Brackwell Ondrel, “flux capacitor”. The book has no part of that name.\n"
        "I will not estimate."
    )
    assert said(Gap((Missing("unknown component", "gizmo", Subject()),))).text().startswith("Not in our book: “gizmo”.")
    assert said(Gap((Missing("unknown vehicle", "zorg", Subject()),))).text().startswith("Not in our book: “zorg”.")
    assert said(Gap((Missing("no such choice", "", Subject()),))).text().startswith("Not in our book: what was asked.")


def test_two_gaps_are_each_named(said: Callable[..., Reply]) -> None:
    front = Subject("Brackwell", "Ondrel", (2018,), (), "axle nut", "front", "torque")
    lines = said(Gap((Missing("year not covered", "", front), Missing("year not covered", "", ONDREL))), gap=3).text()
    assert lines.count("Not in our book:") == 2
    assert lines.count("Logged as no. 3") == 1


def test_a_sum_shows_what_was_given_and_how(said: Callable[..., Reply]) -> None:
    reply = said(Calculation("108 N·m", "79.7 lb-ft", "1 N·m = 0.737562 lb-ft"))
    assert reply.text() == ("108 N·m = 79.7 lb-ft\nCalculated (1 N·m = 0.737562 lb-ft). It is no spec of a vehicle.")
    assert reply.outcome == "calculation"


def test_a_vehicle_set_says_what_the_book_holds(said: Callable[..., Reply]) -> None:
    set_ = Other("vehicle set", Subject("Brackwell", "Ondrel", (2018,)), ("axle nut", "brake pad"))
    assert said(set_).text() == ("2018 Brackwell Ondrel: what do you need of it?\nThe book holds: axle nut, brake pad.")
    many = Other("vehicle set", Subject("Brackwell", "Ondrel"), tuple(f"part {n}" for n in range(11)))
    reply = said(many)
    assert reply.text() == (
        "Brackwell Ondrel: what do you need of it?\n"
        "The book holds: part 0, part 1, part 2, part 3, part 4, part 5, part 6, part 7 and 3 more.\n"
        "Say the model year when you ask."
    )
    assert reply.more_text().endswith("part 9, part 10.")
    nothing = said(Other("vehicle set", Subject("Brackwell", "Ondrel", (2018,))))
    assert nothing.text().endswith("The book holds nothing checked for it.")


def test_a_vehicle_named_in_part_is_not_set(said: Callable[..., Reply]) -> None:
    reply = said(Other("vehicle set", Subject(model="ondrel", years=(2018,)), options=OPTIONS))
    assert reply.text() == (
        "“2018 ondrel” can be more than one vehicle. Say make, whole model and year.\n1  front\n2  rear"
    )


@pytest.mark.parametrize("what", ["small talk", "out of scope", "too long", "not understood", "nothing asked"])
def test_every_other_outcome_is_short_and_shows_no_figure(said: Callable[..., Reply], what: str) -> None:
    reply = said(Other(what))  # type: ignore[arg-type]
    assert reply.outcome == "other"
    assert len(reply.text()) < 120
    assert not re.search(r"\d", reply.text())


def test_words_that_could_not_be_placed_are_named(said: Callable[..., Reply]) -> None:
    reply = said(Other("not understood"), Reading(left_over=("blorp", "zink")))
    assert reply.text().splitlines()[0] == "I cannot place “blorp zink”."


def test_a_misspelt_vehicle_is_echoed_by_its_own_name_once_it_is_known(said: Callable[..., Reply]) -> None:
    reading = Reading(notes=(WordNote("ondrell", "vehicle", "ondrell", "spelling"),))
    assert "Read “ondrell” as Brackwell Ondrel." in said(Choose("axle", "", "", OPTIONS, ONDREL), reading).text()
    assert "Read" not in said(Choose("model", "", "", OPTIONS, Subject(model="ondrell")), reading).text()
    assert "Read" not in said(Calculation("1 in", "25.4 mm", "1 in = 25.4 mm"), reading).text()


def test_years_in_words() -> None:
    assert years_words((), ENGLISH) == ""
    assert years_words((2018,), ENGLISH) == "2018"
    assert years_words((2015, 2016), ENGLISH) == "2015 or 2016"
    assert years_words((2015, 2016, 2017), ENGLISH) == "2015-2017"
    assert years_words((2014, 2015, 2018), ENGLISH) == "2014 or 2015 or 2018"
    assert qualifier_words("build", "2016-05", ENGLISH) == "built 2016-05"


def test_why_explains_every_word() -> None:
    assert why(EXPLAINED) == (
        "How I read that:\n"
        "  “15”: model year 2015\n"
        "  “ondrell”: vehicle (spelling put right)\n"
        "  “1.6”: engine 1.6\n"
        "  “frt”: where: front\n"
        "  “calliper bolt”: part: caliper bracket bolt or caliper slide pin bolt (another spelling)\n"
        "  “tork”: figure: torque (as dictation or autocorrect writes it)\n"
        "  “tq”: figure: torque (short form)\n"
        "  “apriete”: figure: torque (Spanish)\n"
        "  “nm”: unit N·m\n"
        "  “80”: a value you state\n"
        "  “2”: left out of account: a count\n"
        "  “plese”: left out of account (an everyday word, misspelt)\n"
        "  “next”: steers the message: next vehicle\n"
        "  “blorp”: not understood, so it holds back any value\n"
        "  “27”: not understood (a number beside the vehicle), so it holds back any value\n"
        "  “odd”: left out of account (some other way)\n"
        "The vehicle is named in full.\n"
        "Asked: front, caliper bracket bolt or caliper slide pin bolt, torque.\n"
        "“caliper bracket bolt or caliper slide pin bolt” has two meanings in the trade, so I ask even when one alone"
        " is held.\n"
        "No figure was named; of this part torque is meant."
    )


def test_why_without_words() -> None:
    assert why(Reading()) == "There were no words to read."


@pytest.mark.parametrize("state", get_args(VehicleState))
def test_every_state_of_the_vehicle_is_explained(state: VehicleState) -> None:
    text = why(Reading(vehicle=VehicleRead(state), notes=(WordNote("x", "noise"),)))
    assert text.splitlines()[-1] == ENGLISH.vehicle_states[state]


def test_every_role_has_words() -> None:
    assert set(ENGLISH.roles) == set(get_args(Role))
