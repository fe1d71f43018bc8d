"""Asks one published book in a process of its own, as a worker of a shop would serve it.

    python asking.py FOLDER [--profile LINES]

Prints one JSON object. Times in ms: `look_up` is understanding and lookup alone, `say` the whole turn with its entry on
the record; `cpu` is what the processor spent on `look_up`, which other programs disturb less; memory in MB after all
questions.
"""

from __future__ import annotations

import argparse
import cProfile
import json
import pstats
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from memory import peak_mb, resident_mb
from questions import Question, read_questions
from tally import Tally, milliseconds

from benchbot.conversation.conversation import Conversation
from benchbot.conversation.past import Past
from benchbot.lookup.lookup import look_up
from benchbot.outcomes import Answer, Choose
from benchbot.places import Home

_NONE = Past()


def ask_book(folder: Path) -> dict[str, Any]:
    """Every question twice: read and looked up, then said; each time with the book opened anew."""
    warming, questions = read_questions(folder / "warming.jsonl"), read_questions(folder / "questions.jsonl")
    before = resident_mb()
    start = time.perf_counter_ns()
    conversation = Conversation.open(Home(folder))
    opened = (time.perf_counter_ns() - start) / 1e6
    with conversation:
        looked_up, cpu = _timed(warming, questions, lambda _, one: read_and_look_up(conversation, one))
    tally = Tally()
    with Conversation.open(Home(folder)) as conversation:
        said, _ = _timed(warming, questions, lambda chat, one: _say(conversation, f"{chat}", one, tally))
    return {
        "questions": len(questions),
        "open_ms": opened,
        "look_up": milliseconds(looked_up),
        "cpu": milliseconds(cpu),
        "say": milliseconds(said),
        "resident_mb": resident_mb(),
        "resident_before_mb": before,
        "peak_mb": peak_mb(),
        "counts": tally.counts(),
        "not_right": tally.not_right,
    }


def read_and_look_up(conversation: Conversation, question: Question) -> None:
    now = datetime.now(UTC)
    _, completed = conversation.read(question.text, _NONE, now)
    look_up(completed, conversation.book, conversation.lexicon.vocabulary, now.date())


def _say(conversation: Conversation, chat: str, question: Question, tally: Tally) -> Callable[[], None]:
    outcome = conversation.say(f"benchmark {chat}", "benchmark", question.text).outcome
    shown = [finding.row.spec for finding in outcome.findings] if isinstance(outcome, Answer) else []
    return lambda: tally.add(question.kind, question.text, question.spec, shown, isinstance(outcome, Choose))


def _timed(
    warming: list[Question], questions: list[Question], ask: Callable[[int, Question], Callable[[], None] | None]
) -> tuple[list[int], list[int]]:
    """Nanoseconds of each question, by the clock and of the processor; what `ask` gives back is called off both."""
    took, cpu = [], []
    for number, question in enumerate((*warming, *questions)):
        start, start_cpu = time.perf_counter_ns(), time.process_time_ns()
        afterwards = ask(number, question)
        cpu.append(time.process_time_ns() - start_cpu)
        took.append(time.perf_counter_ns() - start)
        if afterwards is not None and number >= len(warming):
            afterwards()
    return took[len(warming) :], cpu[len(warming) :]


def profile_book(folder: Path, lines: int) -> None:
    """Where the time of understanding and lookup goes, and where that of opening the book."""
    for by in ("tottime", "cumulative"):
        opening, profile = cProfile.Profile(), cProfile.Profile()
        with opening:
            conversation = Conversation.open(Home(folder))
        with conversation:
            questions = read_questions(folder / "questions.jsonl")
            for question in read_questions(folder / "warming.jsonl"):
                read_and_look_up(conversation, question)
            with profile:
                for question in questions:
                    read_and_look_up(conversation, question)
        for title, of in (("opening", opening), (f"{len(questions)} questions read and looked up", profile)):
            print(f"\n{title}, by {by}")
            pstats.Stats(of, stream=sys.stdout).strip_dirs().sort_stats(by).print_stats(lines)


def main() -> None:
    reader = argparse.ArgumentParser()
    reader.add_argument("folder", type=Path)
    reader.add_argument("--profile", type=int, default=0, metavar="LINES")
    args = reader.parse_args()
    if args.profile:
        profile_book(args.folder, args.profile)
    else:
        print(json.dumps(ask_book(args.folder)))


if __name__ == "__main__":
    main()
