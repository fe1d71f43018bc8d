"""A corpus of what is said of a measurement, with the outcome, the rows and the verdicts that must come of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from desk import Desk, brief, labels, shown

from benchbot.conversation.conversation import Turn
from benchbot.conversation.manner import Manner
from benchbot.measuring.limits import DECIDING
from benchbot.outcomes import Answer, Choose

LINES = Path(__file__).with_name("verdicts.txt").read_text(encoding="utf-8").splitlines()
CORPUS = [tuple(line.split(" => ")) for line in LINES if line and not line.startswith("#")]
JUDGED = [(said, wanted) for said, wanted in CORPUS if " | " in wanted]


def said_in_a_chat(desk: Desk, said: str) -> Turn:
    chat = desk.chat()
    turns = [chat.press(int(text[1:])) if text.startswith("#") else chat.say(text) for text in said.split(" / ")]
    return turns[-1]


def told(turn: Turn) -> str:
    outcome = turn.outcome
    if not isinstance(outcome, Answer):
        return brief(turn)
    rows = " ".join(["answer", *sorted(shown(turn)), *(f"+ {one.reason}" for one in outcome.missing)])
    verdicts = ", ".join(" ".join(filter(None, (one.verdict, one.part, one.where))) for one in outcome.judged)
    return f"{rows} | {verdicts}" if verdicts else rows


def test_the_corpus_is_large_and_holds_every_verdict() -> None:
    assert len(CORPUS) >= 80
    assert len(dict(CORPUS)) == len(CORPUS)
    kinds = {wanted.split()[0] for _, wanted in CORPUS}
    assert kinds >= {"answer", "choose", "gap"}


@pytest.mark.parametrize(("said", "wanted"), CORPUS)
def test_the_verdict(desk: Desk, said: str, wanted: str) -> None:
    came = told(said_in_a_chat(desk, said))
    assert came == wanted if " " in wanted else came.split()[0] == wanted


@pytest.mark.parametrize("said", [said for said, _ in JUDGED])
def test_a_verdict_stands_above_the_limit_that_it_rests_on(desk: Desk, said: str) -> None:
    turn = said_in_a_chat(desk, said)
    assert isinstance(turn.outcome, Answer)
    blocks = turn.reply.blocks
    assert blocks[0].kind == "verdict"
    assert any(finding.row.property in DECIDING for finding in turn.outcome.findings)
    text = turn.reply.text()
    for finding in turn.outcome.findings:
        assert all(word in text for word in (finding.row.value, finding.row.source, finding.row.source_ref))
    assert turn.reply.specs == tuple(shown(turn))


@pytest.mark.parametrize("said", [said for said, wanted in JUDGED if "discard" in wanted or "nothing left" in wanted])
def test_what_is_unsafe_is_said_first(desk: Desk, said: str) -> None:
    turn = said_in_a_chat(desk, said)
    assert "DO NOT USE" in turn.reply.text().splitlines()[0]
    assert "as a pair" in turn.reply.text()
    assert "DO NOT USE" in turn.reply.short


@pytest.mark.parametrize(
    "said", [said for said, wanted in JUDGED if ("rotor" in said and " D0061" in wanted) or "drum" in said]
)
def test_the_stamped_limit_is_said_to_win(desk: Desk, said: str) -> None:
    assert "A limit stamped on the part wins over the book" in said_in_a_chat(desk, said).reply.text()


@pytest.mark.parametrize("said", [said for said, wanted in CORPUS if wanted.startswith("gap")])
def test_a_gap_is_logged_and_shows_no_verdict(desk: Desk, said: str) -> None:
    turn = said_in_a_chat(desk, said)
    assert turn.gap is not None
    assert f"no. {turn.gap}" in turn.reply.text()
    assert not any(block.kind in ("verdict", "value") for block in turn.reply.blocks)


@pytest.mark.parametrize("said", [said for said, wanted in CORPUS if wanted.startswith("choose unit")])
def test_an_open_unit_is_asked_with_two_choices(desk: Desk, said: str) -> None:
    turn = said_in_a_chat(desk, said)
    assert isinstance(turn.outcome, Choose)
    assert len(labels(turn)) == 2
    assert all(option.specs for option in turn.outcome.options)
    assert not any(block.kind in ("verdict", "value") for block in turn.reply.blocks)


def test_spanish_says_the_same(desk: Desk) -> None:
    said = "measured 21.9 front rotor 18 ondrel 2.0t"
    turn = desk.conversation.say("es", "tester", said, manner=Manner(language="es"))
    assert turn.reply.text().startswith("NO USAR: 21.9 mm está 0.3 mm por debajo del límite de descarte de 22.2 mm.")


def test_a_changed_message_is_judged_anew(desk: Desk) -> None:
    """Considered again with the memory of that moment, a choice leads to the same verdict; nothing goes on record."""
    chat = desk.chat()
    chat.say("measured 22.4 rotor 18 ondrel 2.0t")
    answered = chat.say("front")
    again = desk.conversation.consider("front", answered.before)
    assert told(again) == told(answered) == "answer D0060 D0061 D0062 | no machining"
    other = desk.conversation.consider("measured 21.9 front rotor 18 ondrel 2.0t", None)
    assert told(other) == "answer D0060 D0061 D0062 | discard"


def test_another_question_lets_the_measurement_go(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("measured 22.4 rotor 18 ondrel 2.0t")
    assert told(chat.say("front rotor min")) == "answer D0061"
    assert told(chat.say("front axle nut torque")).split()[0] != "choose unit"
    assert "|" not in told(chat.say("rear rotor min"))
