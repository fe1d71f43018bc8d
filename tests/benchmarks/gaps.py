"""Measures how questions that a book cannot answer are grouped by what was meant, and how long a list of them takes.

    python tests/benchmarks/gaps.py [--questions 10000] [--rows N] [--wrong 20] [--json FILE]

Without --rows it asks the demo book, with it an invented book of so many rows. `--wrong` prints that many pairs that
were joined wrongly or kept apart. Precision and recall are of pairs of questions: of the pairs that stand in one group,
how many mean the same; of the pairs that mean the same, how many stand in one group.
"""

from __future__ import annotations

import argparse
import csv
import json
import os
import sys
import tempfile
import time
from collections import Counter
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

from fleet import models_of, rows_of
from gaps_asking import PLACES, Asking, Meant, Question, Vehicle
from gaps_pairs import Placed, pairs_of, wrong_pairs
from spec_table import write_table

from benchbot.conversation.conversation import Conversation
from benchbot.conversation.manner import Manner
from benchbot.curation.gaps import STATES, group, groups, nearby
from benchbot.curation.importing import import_table
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.publishing import publish
from benchbot.outcomes import Answer, Gap
from benchbot.people.register import People
from benchbot.places import Home, demo_folder
from benchbot.understanding.lexicon import Lexicon

_NOW = datetime(2026, 3, 2, 7, 0, tzinfo=UTC)
_DATABASE = "BENCHBOT_DATABASE_URL"
_LOOKS = 20


def main() -> None:
    reader = argparse.ArgumentParser(description="Figures of grouping gaps; nothing passes or fails.")
    reader.add_argument("--questions", type=int, default=1_000, metavar="N")
    reader.add_argument("--rows", type=int, default=0, metavar="N", help="an invented book of so many rows")
    reader.add_argument("--wrong", type=int, default=0, metavar="N", help="print so many pairs of each kind of mistake")
    reader.add_argument("--seed", default="", help="other questions")
    reader.add_argument("--json", type=Path, metavar="FILE", help="write the figures here as well")
    args = reader.parse_args()
    # The benchmark must not write into a shop's own database.
    os.environ.pop(_DATABASE, None)
    with tempfile.TemporaryDirectory(prefix="benchbot-gaps-") as made:
        figures = measure(Home(Path(made)), args)
    for name, figure in figures.items():
        print(f"{name:28} {figure:.4f}" if isinstance(figure, float) else f"{name:28} {figure}")
    if args.json:
        args.json.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")


def measure(home: Home, args: argparse.Namespace) -> dict[str, Any]:
    """All figures of one run."""
    table = _table(home.folder, args.rows)
    import_table(home, table, False, "benchmark", _NOW)
    publish(home, _NOW)
    asking = Asking(_vehicles(table), Lexicon(shop_vocabulary([])), args.seed)
    ticks = count()
    with Conversation.open(home, lambda: _NOW + timedelta(seconds=next(ticks))) as conversation:
        for place in range(PLACES):
            _ = People(conversation.record).add_location(f"Bay {place + 1}", "benchmark", _NOW)
        places = [one.number for one in People(conversation.record).locations()]
        asked, outcomes = _ask(conversation, list(asking.questions(args.questions)), places)
        now = _NOW + timedelta(days=30)
        found = groups(conversation.record, now, STATES)
        of_gap: dict[int, set[int]] = {}
        for one in found:
            for gap in one.gaps:
                of_gap.setdefault(gap, set()).add(one.number)
        placed = [Placed(question, frozenset(of_gap[gap])) for question, gap in asked]
        told = pairs_of(placed)
        for pair in wrong_pairs(placed, args.wrong):
            print(pair, file=sys.stderr)
        start = time.perf_counter()
        groups(conversation.record, now)
        listed = time.perf_counter() - start
        some = found[:: max(1, len(found) // _LOOKS)]
        start = time.perf_counter()
        for one in some:
            again = group(conversation.record, one.number)
            assert again == one
            nearby(one, conversation.book, conversation.lexicon.vocabulary, _NOW.date())
        shown = (time.perf_counter() - start) / len(some)
        rows = conversation.book.rows
    truths = len({question.meant for question, _ in asked})
    return {
        "rows_in_book": rows, "questions": args.questions, "gaps": len(asked), "not_gaps": dict(outcomes),
        "meant": truths, "groups": len(found), **told, "list_seconds": listed, "show_seconds": shown,
    }  # fmt: skip


def _ask(
    conversation: Conversation, questions: list[Question], places: list[int]
) -> tuple[list[tuple[Question, int]], Counter[str]]:
    """Each question in a chat of its own; those that became gaps with their numbers, and what became of the others."""
    found: list[tuple[Question, int]] = []
    outcomes: Counter[str] = Counter()
    for number, one in enumerate(questions):
        manner, chat = Manner(location=places[one.place]), f"chat {number}"
        if one.before:
            conversation.say(chat, f"person {one.person}", one.before, manner=manner)
        turn = conversation.say(chat, f"person {one.person}", one.text, manner=manner)
        if isinstance(turn.outcome, Gap) and turn.gap is not None:
            found.append((one, turn.gap))
        else:
            kind = "answer" if isinstance(turn.outcome, Answer) else type(turn.outcome).__name__.lower()
            outcomes[kind] += 1
    return found, outcomes


def _table(folder: Path, rows: int) -> Path:
    if not rows:
        return demo_folder() / "specs.csv"
    lexicon = Lexicon(shop_vocabulary([]))
    path = folder / "specs.csv"
    write_table(path, rows_of(models_of(rows, lexicon.is_known), rows))
    return path


def _vehicles(table: Path) -> list[Vehicle]:
    held: dict[tuple[str, str], list[dict[str, str]]] = {}
    with table.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            held.setdefault((row["make"], row["model"]), []).append(row)
            if len(held) > 400:
                break
    return [
        Vehicle(
            make,
            model,
            min(int(row["year_from"]) for row in rows),
            max(int(row["year_to"]) for row in rows),
            frozenset(row["component"] for row in rows),
        )
        for (make, model), rows in held.items()
    ]


__all__ = ["Meant", "main"]

if __name__ == "__main__":
    main()
