"""The fleets in memory, which the properties run on, answer as the same rows do from a published book."""

from __future__ import annotations

import csv
from pathlib import Path
from random import Random

from bay_messages import BEFORE, CHANGES, Style, message, of_row
from desk import Desk, published
from fleets import say, shop

from benchbot.conversation.conversation import Turn
from benchbot.outcomes import Answer, Choose
from benchbot.specs.columns import SPECS

QUESTIONS = 200


def brief(turn: Turn) -> tuple[str, list[str]]:
    """The kind of outcome, with the specs shown or the labels offered."""
    outcome = turn.outcome
    if isinstance(outcome, Answer):
        return "answer", [finding.row.spec for finding in outcome.findings]
    return type(outcome).__name__, [option.label for option in outcome.options] if isinstance(outcome, Choose) else []


def test_memory_and_book_answer_alike(tmp_path: Path) -> None:
    there = shop(5)
    table = tmp_path / "specs.csv"
    with table.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, SPECS.columns)
        writer.writeheader()
        for row in there.rows:
            make, model = there.named[row.vehicle - 1]
            same = ("year_from", "year_to", "only_if", "component", "position", "property", "value")
            told = {name: getattr(row, name) for name in (*same, "source", "source_ref", "checked_by", "checked_on")}
            writer.writerow(told | {"id": row.spec, "make": make, "model": model, "status": "verified"})
    desk = Desk(published(tmp_path, table))
    rng = Random(1)
    try:
        for _ in range(QUESTIONS):
            slots = of_row(5, rng.randrange(10_000), rng.randrange(20))
            style = Style(form=rng.randrange(12), phrase=rng.choice((0, rng.randrange(400))), before=rng.choice(BEFORE))
            texts = [message(slots, style), rng.choice(("socket?", "rear", "front", "2012", *CHANGES))]
            assert brief(say(there, texts[0])) == brief(desk.ask(texts[0]))
            assert brief(say(there, *texts)) == brief(desk.ask(*texts))
    finally:
        desk.conversation.close()
