"""Whole turns, word for word: what is said in a chat, and the reply to the last of it."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict

import pytest
import yaml
from desk import Desk

from benchbot.outcomes import Answer


class Golden(TypedDict):
    say: list[str]
    reply: str


TURNS: list[Golden] = yaml.safe_load(Path(__file__).with_name("turns.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("golden", TURNS, ids=[" / ".join(golden["say"]) for golden in TURNS])
def test_the_whole_reply(desk: Desk, golden: Golden) -> None:
    turn = desk.ask(*golden["say"])
    assert turn.reply.text() == golden["reply"].replace("{gap}", str(turn.gap))


@pytest.mark.parametrize("golden", TURNS, ids=[" / ".join(golden["say"]) for golden in TURNS])
def test_a_value_never_parts_from_its_subject_and_source(desk: Desk, golden: Golden) -> None:
    turn = desk.ask(*golden["say"])
    text = turn.reply.text()
    for finding in turn.outcome.findings if isinstance(turn.outcome, Answer) else ():
        row, subject = finding.row, finding.subject
        assert all(word in text for word in (row.value, subject.make, subject.model, row.component, row.source))
        assert row.source_ref in text
        assert f"checked by {row.checked_by} on {row.checked_on}" in text
        assert not row.position or row.position.split()[0].upper() in text


def test_the_turns_show_every_kind_of_outcome(desk: Desk) -> None:
    kinds = {desk.ask(*golden["say"]).reply.outcome for golden in TURNS}
    assert kinds == {"answer", "choose", "gap", "calculation", "other"}
    assert len(TURNS) >= 25
