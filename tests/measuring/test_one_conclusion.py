"""One message has one conclusion: nothing is usable beside a failed check, and little left is no pass."""

from __future__ import annotations

import pytest
from desk import Desk

from benchbot.conversation.manner import Manner
from benchbot.conversation.wanted import Wanted
from benchbot.jobs.judged import verdict_of
from benchbot.measuring.measured import Measure, Measured
from benchbot.outcomes import Answer

FAILED = "18 ondrel 2.0t front rotor 22.41 22.40 22.43"


def test_too_much_variation_where_machining_is_ruled_out_means_a_new_pair(desk: Desk) -> None:
    text = desk.ask(FAILED).reply.text()
    assert text.startswith("TOO MUCH THICKNESS VARIATION")
    assert "NO MACHINING" in text and "replace the pair" in text
    assert "sable as it is" not in text and "Machine both sides" not in text


def test_too_much_variation_with_room_is_machined_and_not_called_usable(desk: Desk) -> None:
    text = desk.ask("18 ondrel 2.0t front rotor 23.41 23.40 23.43").reply.text()
    assert text.startswith("TOO MUCH THICKNESS VARIATION")
    assert "Machine both sides of the axle" in text and "USABLE" not in text
    assert "0.8 mm" in text


def test_below_the_discard_limit_nothing_but_a_new_pair_is_advised(desk: Desk) -> None:
    text = desk.ask("18 ondrel 2.0t front rotor 22.21 22.19 22.17").reply.text()
    assert text.startswith("DO NOT USE")
    assert "as a pair" in text and "Machine" not in text


def test_in_spanish(desk: Desk) -> None:
    turn = desk.conversation.say(desk.chat().name, "tester", FAILED, manner=Manner(language="es"))
    assert "puede usar" not in turn.reply.text().casefold() and "cambie el par" in turn.reply.text().casefold()


@pytest.mark.parametrize(
    ("said", "margin"),
    [
        ("18 ondrel 2.0t front pads 1/16 in", "0.088 mm"),
        ("18 ondrel 2.0t front pads 1.6 mm", "0.1 mm"),
        ("18 ondrel 2.0t front rotor 22.3 mm ok?", "0.1 mm"),
        ("12 ondrel rear drum 200.9 mm good?", "0.1 mm"),
        ("18 ondrel 2.0t front rotor 23 mm", "0.8 mm"),
    ],
)
def test_little_left_is_told_as_little_left(desk: Desk, said: str, margin: str) -> None:
    text = desk.ask(said).reply.text()
    first = text.splitlines()[0]
    assert first.startswith((f"ABOVE THE LIMIT by {margin}", f"UNDER THE LIMIT by {margin}"))
    assert "lead tech" in first and "pair" in first
    assert "USABLE" not in text and "sable as it is" not in text


def test_a_nearly_worn_rotor_under_the_machine_to_limit_gets_a_clear_no(desk: Desk) -> None:
    assert "no machining" in desk.ask("18 ondrel 2.0t front rotor 22.3 mm ok to turn?").reply.text().splitlines()[0]


def test_the_record_of_a_job_does_not_call_it_good(desk: Desk) -> None:
    outcome = desk.ask("18 ondrel 2.0t front rotor 22.3 mm").outcome
    assert isinstance(outcome, Answer)
    assert verdict_of(outcome.judged, "text", [one.row for one in outcome.findings]).judged != "good"


@pytest.mark.parametrize(
    ("name", "texts", "verdict"),
    [
        ("maximum runout", ("0.02", "-0.05"), "use"),
        ("maximum runout", ("0.02", "-0.08"), "out of limit"),
        ("maximum thickness variation", ("22.41", "22.40", "22.40"), "use"),
        ("maximum thickness variation", ("22.41",), "no verdict"),
    ],
)
def test_a_step_of_a_job_is_judged_by_the_whole_swing(
    desk: Desk, name: str, texts: tuple[str, ...], verdict: str
) -> None:
    """The limits of the 2014-2020 Ondrel 2.0T front rotor: runout 0.09 mm, variation 0.015 mm."""
    chat = desk.chat()
    chat.say("18 ondrel 2.0t front rotor")
    readings = Measured(tuple(Measure(one, "mm") for one in texts), unit_chosen=True)
    wanted = Wanted(desk.conversation.lifts(chat.name)[0], "brake rotor", name, ("front",), measured=readings)
    talk = desk.conversation
    _, outcome = wanted.outcome(talk.book, talk.lexicon.vocabulary, desk.clock().date())
    assert isinstance(outcome, Answer)
    assert [one.verdict for one in outcome.judged] == [verdict]
