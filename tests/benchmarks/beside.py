"""How long a sum, a verdict, a step of the work and the look at the job in hand take, on the demo's book.

    python beside.py [--rounds 5]

Each text is said in a chat of its own, a whole turn that goes on record; prints p50 and p99 in ms. `job in hand` is
what every question of somebody at a job takes more: the job is read from the record, with all that happened in it.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path

from coldstart import make_demo_shop
from tally import milliseconds

from benchbot.conversation.conversation import Conversation
from benchbot.desk.at_work import job_of
from benchbot.jobs import beginning, doing
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import Vehicle, Who
from benchbot.places import Home

TESTS = Path(__file__).resolve().parent.parent
STEPS = ("do the slide pins get grease", "how do the front bracket bolts go back", "what goes on the hub face")
DANA = Who("telegram 7", "Dana")


def sums() -> list[str]:
    """The kept questions to the calculators."""
    sys.path.append(str(TESTS / "calculators"))
    from asked_table import ANSWERED

    return list(ANSWERED)


def verdicts() -> list[str]:
    """What the kept measurements say in one message that ends in a verdict."""
    lines = (TESTS / "measuring" / "verdicts.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split(" => ") for line in lines if " => " in line and not line.startswith("#")]
    return [said for said, wanted in pairs if " | " in wanted and " / " not in said]


def timed(do: Callable[[str, str], object], texts: Iterable[str]) -> dict[str, float]:
    """p50, p99 and the longest in ms. do: is given a chat and a text."""
    took = []
    for number, text in enumerate(texts):
        start = time.perf_counter_ns()
        do(f"{number} {text}", text)
        took.append(time.perf_counter_ns() - start)
    return milliseconds(took)


def half_done(conversation: Conversation, now: datetime) -> None:
    """Dana's job, at the middle of its steps."""
    procedures = conversation.book.procedures()
    assert procedures is not None
    vehicle = Vehicle("2012 Brackwell Ondrel", "Brackwell", "Ondrel", 2012)
    vocabulary = conversation.lexicon.vocabulary
    made = beginning.begin(conversation.record, procedures, vocabulary, vehicle, "disc-brake-front", DANA, now)
    assert isinstance(made, JobState)
    for step in made.sheet.steps[: len(made.sheet.steps) // 2]:
        doing.done(conversation.record, made.number, DANA, now, step.key)


def run(folder: Path, rounds: int) -> dict[str, dict[str, float]]:
    """Kind -> p50, p99 and the longest, in ms."""
    make_demo_shop(folder)
    with Conversation.open(Home(folder)) as conversation:

        def say(chat: str, text: str) -> object:
            return conversation.say(chat, "timer", text)

        def look(chat: str, text: str) -> object:
            return job_of(conversation.record, DANA.person)

        kinds = {"sum": sums(), "verdict": verdicts(), "step": list(STEPS) * 20}
        for texts in kinds.values():
            say("warming", texts[0])
        told = {kind: timed(say, texts * rounds) for kind, texts in kinds.items()}
        half_done(conversation, datetime.now(UTC))
        assert look("", "") is not None
        told["job in hand"] = timed(look, ["who"] * 200 * rounds)
    return told


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    rounds = parser.parse_args().rounds
    with tempfile.TemporaryDirectory() as folder:
        print(json.dumps(run(Path(folder), rounds), indent=1))


if __name__ == "__main__":
    main()
