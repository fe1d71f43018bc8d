"""The stand-in of the messenger with people who write on their own, whether they are answered or not.

    python phone_load.py QUESTIONS --people 2000

Runs as a process of its own. The writing is done in the stand-in's own event loop, so that one clock says when an
update was there to be fetched and when the answer to it came in. QUESTIONS is a file with one question a line. Prints
where it listens, in JSON; `stream` is one more order on its control port.
"""

from __future__ import annotations

import argparse
import asyncio
import random
import sys
import time
from collections import defaultdict, deque
from collections.abc import Sequence
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "telegram"))

from standin import chatter, control, events, serving
from standin.exchange import Exchange

FIRST_PERSON = 100_001
# Whoever waits longer than this for the rest has met a bot that does not keep up.
_WAIT_SECONDS = 60.0


async def stream(
    exchange: Exchange, questions: Sequence[str], people: Sequence[int], rate: float, seconds: float, seed: int
) -> dict[str, Any]:
    """Questions come by chance, so many a second on the average, from people by turns; then waits for the answers.

    Gives the latency of every answer in seconds, in the order of the questions.
    """
    chance = random.Random(seed)
    exchange.calls.clear()
    said: list[tuple[float, int]] = []
    begun = time.time()
    at = chance.expovariate(rate)
    late = 0.0
    while at < seconds:
        await asyncio.sleep(max(0.0, begun + at - time.time()))
        late = max(late, time.time() - begun - at)
        person = people[len(said) % len(people)]
        said.append((time.time(), person))
        chatter.say(exchange, person, chance.choice(questions), person)
        at += chance.expovariate(rate)
    ended = time.time()
    at_end = len(said) - _answers(exchange)
    answered = await exchange.until(lambda: _answers(exchange) >= len(said), _WAIT_SECONDS)
    return _figures(exchange, said, begun, ended) | {"waiting_at_end": at_end, "answered": answered, "late": late}


def _answers(exchange: Exchange) -> int:
    return exchange.counts["sendmessage"] - exchange.counts["of earlier streams"]


def _figures(exchange: Exchange, said: Sequence[tuple[float, int]], begun: float, ended: float) -> dict[str, Any]:
    """The n-th answer in a chat is that to the n-th question there: the bot keeps each chat in order."""
    came: defaultdict[int, deque[float]] = defaultdict(deque)
    size = 0
    for call in exchange.calls:
        if call.method == "sendmessage" and call.chat is not None:
            came[call.chat].append(call.at)
            size += len(call.params["text"])
    exchange.counts["of earlier streams"] = exchange.counts["sendmessage"]
    latencies = [came[person].popleft() - at for at, person in said if came[person]]
    in_time = sum(1 for call in exchange.calls if call.method == "sendmessage" and call.at <= ended)
    return {
        "asked": len(said),
        "latencies": latencies,
        "seconds": ended - begun,
        "answered_in_time": in_time,
        "text_size": size / max(1, len(latencies)),
        "polls": sum(call.method == "getupdates" for call in exchange.calls),
    }


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("questions", type=Path)
    parser.add_argument("--people", type=int, required=True)
    chosen = parser.parse_args()
    questions = chosen.questions.read_text(encoding="utf-8").splitlines()
    people = range(FIRST_PERSON, FIRST_PERSON + chosen.people)
    exchange = Exchange(serving.TOKEN)
    for person in people:
        events.person(exchange, person, f"Tech {person}")

    async def order(here: Exchange, rate: float, seconds: float, seed: int) -> dict[str, Any]:
        return await stream(here, questions, people, rate, seconds, seed)

    control.ORDERS["stream"] = order
    asyncio.run(serving.serve(exchange, 0, 0, with_parent=True))
    return 0


if __name__ == "__main__":
    sys.exit(main())
