"""One whole run: people ask, the bot is killed with SIGKILL at moments drawn by a seed and started again, often."""

from __future__ import annotations

import random
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import cycle
from pathlib import Path
from typing import Any, Literal

from bay_questions import Kind, Questions
from bot_process import BotProcess, let_in, person_name
from kill_phones import Crowd, Doubt, Errand, Phone, Post
from standin.client import StandIn

from benchbot.places import Home
from benchbot.records.record import open_record

CURATOR, OWNER, FIRST, GROUP = 901, 902, 1001, -1_001_000_000_000
# All of what Telegram allows but its limit for a group, which would make the run take hours.
WORDS = ("--sends-per-minute-in-a-group", "0", "--polling-timeout", "20")
START_SECONDS, DRAIN_SECONDS, STILL_SECONDS = 60.0, 180.0, 3.0
LEFT = """
SELECT (SELECT count(*) FROM arrival WHERE handled_at = ''),
(SELECT count(*) FROM sending WHERE state IN ('waiting', 'sending'))
"""

When = Literal["starting", "any", "sending"]


@dataclass(frozen=True, slots=True)
class Plan:
    """Of ten questions about one is asked in a group, two are asked back, two are not held; one answer is marked."""

    kills: int
    questions: int
    people: int
    groups: int
    seed: int = 7


@dataclass(slots=True)
class Run:
    """What a run leaves: everything is answered, and the bot has ended.

    kills: each with its kind of moment: while the bot was starting, at any moment, or when the server had just taken a
    message of its; and its time, Unix.
    """

    plan: Plan
    home: Home
    server: StandIn
    crowd: Crowd
    owed: dict[int, list[Post]]
    logs: list[list[dict[str, Any]]] = field(default_factory=list)
    kills: list[tuple[str, float]] = field(default_factory=list)
    seconds: float = 0.0


@contextmanager
def whole_run(plan: Plan, home: Home, aside: Home, folder: Path) -> Iterator[Run]:
    """home: has a book; aside: another with the same book, to find out what the answers must be."""
    chance = random.Random(plan.seed)
    with StandIn.start() as server:
        run = _begun(plan, home, aside, server, chance)
        feeder = threading.Thread(target=run.crowd.run, name="crowd")
        begun = time.monotonic()
        feeder.start()
        try:
            _kill_all(run, chance, folder)
            _finish(run, feeder, folder)
        finally:
            run.crowd.stop()
            feeder.join()
        run.seconds = time.monotonic() - begun
        yield run


def _begun(plan: Plan, home: Home, aside: Home, server: StandIn, chance: random.Random) -> Run:
    """Members, their chats, and each question with somebody who will ask it."""
    people = range(FIRST, FIRST + plan.people)
    let_in(home, OWNER, {"curator": [CURATOR], "technician": people})
    for person in (CURATOR, OWNER, *people):
        server.person(person, person_name(person))
    owed: dict[int, list[Post]] = {person: [] for person in people}
    phones = [Phone(server, person, person, owed[person]) for person in people]
    in_groups = []
    for number in range(plan.groups):
        chat, members = GROUP - number, chance.sample(people, 5)
        server.group(chat, members)
        owed[chat] = []
        in_groups += [Phone(server, person, chat, owed[chat]) for person in members]
    _hand_out(plan, aside, chance, phones, in_groups)
    return Run(plan, home, server, Crowd([*phones, *in_groups], random.Random(plan.seed + 1)), owed)


def _hand_out(plan: Plan, aside: Home, chance: random.Random, phones: list[Phone], in_groups: list[Phone]) -> None:
    kinds: list[Kind] = [*["answer"] * 6, "choice", "choice", "gap", "gap"]
    doubts: Iterator[Doubt] = cycle(("words", "", "skip", "", "", ""))
    questions = Questions(aside, chance)
    for at in range(plan.questions):
        kind = kinds[at % len(kinds)]
        doubt = next(doubts) if kind == "answer" else ""
        # A mark is told in private: in a group its messages answer no question that they could be told by.
        phone = chance.choice(in_groups if not doubt and chance.random() < 0.12 else phones)
        phone.errands.append(Errand(questions.draw(kind, phone.name), doubt))
    questions.close()


def _kill_all(run: Run, chance: random.Random, folder: Path) -> None:
    a_kill = run.plan.questions / run.plan.kills
    begun, starting = time.monotonic(), 1.5
    for number in range(run.plan.kills):
        run.crowd.allowed = round(a_kill * (number + 1.5))
        if number:
            # So that about as many questions come in between two kills, however fast this machine is.
            run.crowd.gap = (time.monotonic() - begun) / number / a_kill / 2
        polls = _calls(run.server, "getupdates")
        bot = BotProcess.start(run.home, run.server.url, run.server.token, folder / f"bot{number}.log", *WORDS)
        when: When = chance.choices(("starting", "any", "sending"), (15, 45, 40))[0]
        if when == "starting":
            time.sleep(chance.uniform(0, starting))
        else:
            _wait_for_poll(run, bot, polls)
            starting = time.monotonic() - bot.began
            if when == "any":
                time.sleep(chance.uniform(0, 1.5))
            else:
                _wait_for_sending(run.server, chance)
        alive = bot.running
        bot.kill()
        run.kills.append((when, time.time()))
        run.logs.append(bot.events())
        assert alive, f"it ended by itself\n{bot.log.read_text(encoding='utf-8')}"
        if run.crowd.fault is not None:
            raise run.crowd.fault


def _wait_for_poll(run: Run, bot: BotProcess, polls: int) -> None:
    until = time.monotonic() + START_SECONDS
    while not run.server.order("wait", 1, seconds=0.5, method="getUpdates", calls=polls + 1):
        assert bot.running and time.monotonic() < until, bot.log.read_text(encoding="utf-8")


def _wait_for_sending(server: StandIn, chance: random.Random) -> None:
    """Until the server has just taken a message, of which the record cannot know yet."""
    sent = _calls(server, "sendmessage") + chance.randint(1, 8)
    server.order("wait", STILL_SECONDS, seconds=STILL_SECONDS, method="sendMessage", calls=sent)
    time.sleep(chance.choice((0, 0, 0.002, 0.005)))


def _finish(run: Run, feeder: threading.Thread, folder: Path) -> None:
    """The bot runs for as long as it takes, and is stopped as a supervisor would."""
    run.crowd.allowed = run.plan.questions
    bot = BotProcess.start(run.home, run.server.url, run.server.token, folder / "last.log", *WORDS)
    try:
        feeder.join(DRAIN_SECONDS)
        if run.crowd.fault is not None:
            raise run.crowd.fault
        assert not feeder.is_alive(), _who_waits(run)
        run.server.wait_for(pending=0, seconds=DRAIN_SECONDS)
        until = time.monotonic() + DRAIN_SECONDS
        while left(run.home) != (0, 0):
            assert time.monotonic() < until, left(run.home)
            time.sleep(0.05)
        assert bot.stop() == 0
    finally:
        if bot.running:
            bot.kill()
        run.logs.append(bot.events())


def _who_waits(run: Run) -> str:
    waiting = next(phone for phone in run.crowd.phones if not phone.over)
    stands = "\n".join(f"{one.id} {one.text!r} {one.labels}" for one in run.server.transcript(waiting.chat))
    return f"{waiting.name} waits for more than stands there, having asked {waiting.asked}\n{stands}"


def left(home: Home) -> tuple[int, int]:
    """How much of what came in is not handled, and how much is not sent."""
    with open_record(f"sqlite:///{home.record}") as record:
        row = record.row(LEFT, {})
    assert row is not None
    return int(row[0]), int(row[1])


def _calls(server: StandIn, method: str) -> int:
    return int(server.state()["counts"].get(method, 0))
