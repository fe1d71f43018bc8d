"""A thread or a bolt size never leads to another bolt's value, and no choice leaves one out."""

from __future__ import annotations

import pytest
from desk import Desk, labels

from benchbot.outcomes import Answer, Choose

SIZES = [
    "torque for the m10 bolt", "torque for m10 bolt", "m10 torque", "torque for the m10x1.25", "torque m8",
    "what torque for a half inch bolt", "torque for a 15mm bolt", "what should i torque a 12mm bolt to",
    "torque 3/8 bolt", "torque for the 1/2-20 stud", "10-32 screw torque", "torque for the 19mm", "10mm torque",
    "and the 3/8 one", "and the 19 mm", "torque for m12x1.5", "how tight is the m14 bolt", "and the m10?",
    "torque for the 14x1.5", "torque para el tornillo m10", "torque for the m10 bolt please mate it is getting late",
]  # fmt: skip


@pytest.mark.parametrize("said", SIZES)
def test_a_size_shows_no_value_of_the_bolt_that_was_asked_for_before(desk: Desk, said: str) -> None:
    turn = desk.ask("12 ondrel wheel nut torque", said)
    assert not isinstance(turn.outcome, Answer)
    assert not any("leave out" in label for label in labels(turn))


@pytest.mark.parametrize("thread", ["m10", "m14x1.5", "M12x1.25", "1/2-20", "10-32", "14x1.5", "half inch", "20 tpi"])
@pytest.mark.parametrize("asked", ["12 ondrel {} wheel nut torque", "12 ondrel {} zorbly wheel nut torque"])
def test_a_thread_that_the_row_has_not_is_never_left_out(desk: Desk, thread: str, asked: str) -> None:
    first = asked.format(thread)
    for after in ([], ["1"], ["torque"], ["1.6"], ["leave it out"]):
        turn = desk.ask(first, *after)
        assert not isinstance(turn.outcome, Answer), after
        assert not any("leave out" in label for label in labels(turn))


@pytest.mark.parametrize("thread", ["m12", "M12x1.5", "m12 x 1.50", "m12×1.5", "12x1.5"])
def test_a_thread_that_the_row_has_is_no_obstacle(desk: Desk, thread: str) -> None:
    assert isinstance(desk.ask(f"12 ondrel {thread} wheel nut torque").outcome, Answer)


def test_another_word_may_be_left_out_beside_a_thread_that_the_row_has(desk: Desk) -> None:
    chat = desk.chat()
    turn = chat.say("12 ondrel m12x1.5 blue wheel nut torque")
    assert labels(turn) == ["leave out “blue”"]
    assert isinstance(chat.say("1").outcome, Answer)


def test_the_thread_is_still_known_once_the_part_is_chosen(desk: Desk) -> None:
    asked = "12 ondrel torque for the m10 bolt"
    offered = labels(desk.ask(asked))
    assert "backing plate bolt" in offered
    assert not {"wheel nut", "wheel cylinder bolt"} & set(offered)
    for typed in ("lug nut", "wheel nut"):
        assert isinstance(desk.ask(asked, typed).outcome, Choose)
    assert isinstance(desk.ask(asked, "backing plate bolt", "rear").outcome, Answer)


def test_the_part_named_with_its_size_is_looked_up(desk: Desk) -> None:
    assert isinstance(desk.ask("12 ondrel 17mm bolt on front caliper bracket torque").outcome, Answer)
    assert isinstance(desk.ask("12 ondrel front rotor min", "19 mm").outcome, Answer)
