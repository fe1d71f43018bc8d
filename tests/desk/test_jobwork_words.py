"""Both languages of a job's pages have the same sentences; what is typed and said hands-free is read strictly."""

from __future__ import annotations

from dataclasses import fields
from typing import Any, get_args

import pytest
from bay import Bay
from hypothesis import given
from hypothesis import strategies as st
from tell_tales import english_in, sounds_english
from test_wordings import blanks
from walking import press, say

from benchbot.desk.jobwork.spoken import Spoken, spoken
from benchbot.desk.jobwork.typed_figures import Figures, Setting, read_figures, read_setting
from benchbot.desk.jobwork.wording import ENGLISH, JobWording, jobwords_of
from benchbot.errors import QuantityError
from benchbot.jobs.agreeing import agrees
from benchbot.jobs.open_points import PointKind
from benchbot.jobs.terms import Refused, RefusedAbout

SPANISH = jobwords_of("es")


def sentences(words: JobWording) -> dict[str, str]:
    held: dict[str, str] = {}
    for one in fields(words):
        value: Any = getattr(words, one.name)
        if isinstance(value, str) and one.name != "language":
            held[one.name] = value
        elif not isinstance(value, str) and one.name != "refusals":
            held |= {f"{one.name} {key}": text for key, text in value.items()}
    return held


def test_every_sentence_is_there_with_the_same_blanks() -> None:
    other = sentences(SPANISH)
    assert set(other) == set(sentences(ENGLISH))
    for where, text in sentences(ENGLISH).items():
        assert blanks(other[where]) == blanks(text), where
        assert other[where].strip() != "", where
    # it has no word of its own
    assert {where for where, text in sentences(ENGLISH).items() if other[where] == text} == {"measured_line"}
    assert [text for text in other.values() if sounds_english(text)] == []
    assert jobwords_of("fr") is ENGLISH


@pytest.mark.parametrize("about", get_args(RefusedAbout))
def test_every_refusal_is_worded(about: RefusedAbout) -> None:
    refused = Refused("in English", about, ("front left",))
    assert SPANISH.refused(refused) not in ("", "in English")
    assert ENGLISH.refused(refused) == "in English"


def test_every_kind_of_open_point_is_worded() -> None:
    assert set(SPANISH.points) == set(ENGLISH.points) == set(get_args(PointKind))


def test_a_spanish_shop_is_spoken_to_in_spanish(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("Sur", "es"))
    say(ana, "/job 12 ondrel")
    press(ana, "Front disc brake service")
    assert english_in(ana.last) == []
    press(ana, "Sin número")
    press(ana, "Al paso")
    say(ana, "listo")
    say(ana, "saltar porque no lo lleva")
    assert ana.last.text.startswith("Trabajo 1 · 2012 Brackwell Ondrel · paso 3 de 45")
    say(ana, "dónde estoy")
    assert "Está en el paso 3 de 45" in ana.last.text


@pytest.mark.parametrize(("text", "word"), [
    ("Done.", "done"), ("done!", "done"), ("it’s done", "done"), ("next", "next"), ("go back", "back"),
    ("Where am I?", "where"), ("¿Dónde estoy?", "where"), ("skip", "skip"), ("atrás", "back"), ("pausa", "pause"),
])  # fmt: skip
def test_hands_free_words(text: str, word: str) -> None:
    assert spoken(text) == Spoken(word)  # type: ignore[arg-type]


@pytest.mark.parametrize("text", [
    "done?", "next car", "next question", "back brakes torque", "rear", "done with the 12 ondrel", "skip because?",
    "whats next on the ondrel", "", "?", "skipped", "measured 22.4 mm", "torqued to 80", "pause light on",
])  # fmt: skip
def test_what_could_be_a_question_is_said_to_no_job(text: str) -> None:
    assert spoken(text) is None


def test_a_reason_is_kept_as_it_was_said() -> None:
    assert spoken("Skip because Rotor is NEW, 22.4") == Spoken("skip", "Rotor is NEW, 22.4")
    assert spoken("skip: not fitted") == Spoken("skip", "not fitted")
    assert spoken("saltar porque no lo lleva") == Spoken("skip", "no lo lleva")


@pytest.mark.parametrize(("text", "read"), [
    ("22.4 mm", Figures(("22.4",), "mm")), (".004 in", Figures((".004",), "in")),
    ("22.41 22.40, 22.43mm", Figures(("22.41", "22.40", "22.43"), "mm")),
    ("after 22.4 mm", Figures(("22.4",), "mm", "after")),
    ("22.4", Figures(("22.4",), "")), ('.882"', Figures((".882",), "in")), ("3/4 in", Figures(("3/4",), "in")),
    ("22,4 mm antes", Figures(("22,4",), "mm", "before")), ("4 thou", Figures(("4",), "thou")),
    ("22 .4 mm", None), ("22.4.1 mm", None), ("1 1/8 in", None), ("22.4 mm 0.88 in", None), ("22-23 mm", None),
    ("about 22 mm", None), ("22.4 mm?", None),
])  # fmt: skip
def test_figures_that_are_typed(text: str, read: Figures | None) -> None:
    assert read_figures(text) == read


def test_a_figure_in_a_unit_of_something_else_is_refused() -> None:
    with pytest.raises(QuantityError):
        read_figures("105 N·m")


@given(st.decimals(min_value="0.001", max_value="9999", places=3), st.sampled_from(["mm", "in", "thou"]))
def test_no_digit_of_a_figure_is_lost(figure: Any, unit: str) -> None:
    assert read_figures(f"{figure} {unit}") == Figures((str(figure),), unit)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        figures = read_figures(text)
    except QuantityError:
        figures = None
    assert figures is None or figures.figures
    read_setting(text)
    spoken(text)


@pytest.mark.parametrize(("text", "read"), [
    ("105 Nm wrench 4", Setting("105 Nm", "wrench 4")), ("50 ft lb, with my clicker", Setting("50 ft lb", "clicker")),
    ("30 Nm + 90 deg digital 3", Setting("30 Nm + 90 deg", "digital 3")), ("105 N·m", Setting("105 N·m", "")),
    ("105 wrench 4", Setting("", "")), ("50 lb wrench 4", Setting("", "")), ("22 mm wrench", Setting("", "")),
    ("wrench 4", None), ("", None),
])  # fmt: skip
def test_settings_that_are_typed(text: str, read: Setting | None) -> None:
    assert read_setting(text) == read


# 1 lb-ft = 1.355 818 N·m: NIST SP 811, appendix B.8
@pytest.mark.parametrize(("set_to", "target", "same"), [
    ("68 Nm", "50 lb-ft", True), ("50 ft-lb", "50 lb-ft", True), ("60 Nm", "50 lb-ft", False),
    ("50 Nm", "50 lb-ft", False),
    ("100 Nm", "95-105 N·m", True), ("110 Nm", "95-105 N·m", False), ("30 Nm + 90 deg", "30 N·m + 90 deg", True),
    ("62 lb-ft", "62 lb-in", False), ("79 nm", "79 lb-ft", False), ("105 N·m by feel", "105 N·m", False),
    ("30 Nm", "30 N·m + 90 deg", False), ("132 lb-ft", "132 lb-ft; rotate; 263 lb-ft", False),
])  # fmt: skip
def test_what_was_set_against_the_book(set_to: str, target: str, same: bool) -> None:
    assert agrees(set_to, target) is same
