"""Measures the bot under load: how long an answer takes at a rate, and the most it sustains; it judges nothing.

    python tests/benchmarks/phones.py [--seconds 20] [--rates 50 150 200 250] [--json FILE]

Three processes on loopback: the stand-in of the messenger, in which the people write (see phone_load.py), `benchbot
telegram` on the demo book without limits of sending, and, after it at every rate, a bot of the same library that only
echoes. A latency runs from the moment when an update is there to be fetched to the moment when its answer comes in.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import random
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import psutil

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "telegram"))

from bay_questions import Kind, Questions
from bot_process import BotProcess, let_in
from coldstart import make_demo_shop
from phone_load import FIRST_PERSON
from standin.client import StandIn

from benchbot.places import Home

_HERE = Path(__file__).resolve().parent
PEOPLE = 2_000
QUESTIONS = 1_500
# Of ten questions in a bay so many are answered at once, asked back, and not held.
SHARES: dict[Kind, int] = {"answer": 8, "choice": 1, "gap": 1}
# A bot that keeps up has no more waiting at the end than it was asked in this time.
KEEPS_UP_SECONDS = 0.5
_DATABASE = "BENCHBOT_DATABASE_URL"
_HEAD = (
    "rate", "bot", "asked", "answered/s", "p50 ms", "p99 ms", "longest", "cpu ms each", "left at end", "keeps up",
)  # fmt: skip


def main() -> None:
    reader = argparse.ArgumentParser(description="Figures of the bot under load; nothing passes or fails.")
    reader.add_argument("--seconds", type=float, default=20.0, metavar="S", help="for each rate (default: 20)")
    reader.add_argument("--rates", type=float, nargs="+", default=[50, 150, 200, 250, 300, 400], metavar="N")
    reader.add_argument("--json", type=Path, metavar="FILE", help="write the figures here as well")
    args = reader.parse_args()
    if args.seconds <= 0 or min(args.rates) <= 0:
        reader.error("a rate and a time are above 0")
    # The benchmark must not write into a shop's own database.
    os.environ.pop(_DATABASE, None)
    with tempfile.TemporaryDirectory(prefix="benchbot-benchmark-") as made:
        figures = measure(Path(made), args.rates, args.seconds)
    print_figures(figures)
    if args.json:
        args.json.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")


def measure(folder: Path, rates: list[float], seconds: float) -> dict[str, Any]:
    """Figures of both bots at each rate, until neither keeps up any more."""
    home = _shop(folder)
    told: dict[str, Any] = {
        "python": platform.python_version(),
        "cores": os.cpu_count(),
        "load_before": os.getloadavg(),
        "seconds": seconds,
        "runs": [],
    }
    slow: set[str] = set()
    size = 0
    with _standin(folder) as server:
        for number, rate in enumerate(rates):
            for name in ("benchbot", "echo"):
                if name in slow:
                    continue
                _say(f"{name} at {rate:g} a second")
                words = (home, folder) if name == "benchbot" else (size,)
                with _bot(server, name, *words) as bot:
                    run = _run(server, bot, rate, seconds, number)
                size = round(run["text_size"])
                told["runs"].append({"bot": name, "rate": rate} | run)
                if not run["keeps_up"]:
                    slow.add(name)
    told["load_after"] = os.getloadavg()
    return told


def _shop(folder: Path) -> Home:
    """A home with the demo's book and members, and the file of questions beside it."""
    home = Home(folder / "home")
    home.folder.mkdir()
    make_demo_shop(home.folder)
    let_in(home, FIRST_PERSON - 1, {"technician": range(FIRST_PERSON, FIRST_PERSON + PEOPLE)})
    aside = folder / "aside"
    aside.mkdir()
    make_demo_shop(aside)
    chance = random.Random(5)
    kinds = [kind for kind, share in SHARES.items() for _ in range(QUESTIONS * share // sum(SHARES.values()))]
    questions = Questions(Home(aside), chance)
    texts = [questions.draw(kind, f"chat {number}").text for number, kind in enumerate(kinds)]
    questions.close()
    chance.shuffle(texts)
    (folder / "questions.txt").write_text("\n".join(texts) + "\n", encoding="utf-8")
    return home


@contextmanager
def _standin(folder: Path) -> Iterator[StandIn]:
    command = [sys.executable, str(_HERE / "phone_load.py"), str(folder / "questions.txt"), "--people", str(PEOPLE)]
    process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    with StandIn(process, json.loads(process.stdout.readline())) as server:
        yield server


@contextmanager
def _bot(server: StandIn, name: str, *words: Any) -> Iterator[psutil.Process]:
    """The running bot, as soon as it polls."""
    if name == "benchbot":
        home, folder = words
        log = folder / "bot.log"
        process = BotProcess.start(home, server.url, server.token, log, "--sends-per-second", "0").process
    else:
        command = [sys.executable, str(_HERE / "echo_bot.py"), server.url, server.token, str(words[0])]
        process = subprocess.Popen(command)
    try:
        server.wait_for(polling=True, seconds=30)
        yield psutil.Process(process.pid)
    finally:
        process.terminate()
        process.wait(30)
        server.wait_for(polling=False, seconds=30)


def _run(server: StandIn, bot: psutil.Process, rate: float, seconds: float, number: int) -> dict[str, Any]:
    before = bot.cpu_times()
    told: dict[str, Any] = server.order("stream", seconds + 120, rate=rate, seconds=seconds, seed=number)
    after = bot.cpu_times()
    cpu = after.user + after.system - before.user - before.system
    latencies = sorted(told.pop("latencies"))
    told["p50_ms"], told["p99_ms"], told["longest_ms"] = (
        1000 * value for value in (statistics.median(latencies), latencies[len(latencies) * 99 // 100], latencies[-1])
    )
    told["answered_per_second"] = told["answered_in_time"] / told["seconds"]
    told["cpu_ms"] = 1000 * cpu / told["asked"]
    told["rss_mb"] = bot.memory_info().rss / 1e6
    told["load"] = os.getloadavg()[0]
    told["keeps_up"] = told["answered"] and told["waiting_at_end"] <= rate * KEEPS_UP_SECONDS
    return told


def print_figures(told: dict[str, Any]) -> None:
    """A line a run, the ratios to the echo, and what else went on."""
    lines = [_HEAD, tuple("-" * len(name) for name in _HEAD)]
    for run in told["runs"]:
        lines.append((
            f"{run['rate']:g}", run["bot"], f"{run['asked']}", f"{run['answered_per_second']:.0f}",
            f"{run['p50_ms']:.1f}", f"{run['p99_ms']:.1f}", f"{run['longest_ms']:.0f}", f"{run['cpu_ms']:.2f}",
            f"{run['waiting_at_end']}", "yes" if run["keeps_up"] else "no",
        ))  # fmt: skip
    widths = [max(len(line[at]) for line in lines) for at in range(len(_HEAD))]
    for line in lines:
        print("  ".join(cell.rjust(width) for cell, width in zip(line, widths, strict=True)))
    for rate in dict.fromkeys(run["rate"] for run in told["runs"]):
        both = {run["bot"]: run for run in told["runs"] if run["rate"] == rate}
        if len(both) == 2:
            ratios = (
                f"{what} {both['benchbot'][key] / both['echo'][key]:.2f}"
                for what, key in (("p50", "p50_ms"), ("p99", "p99_ms"), ("cpu", "cpu_ms"))
            )
            print(f"benchbot / echo at {rate:g} a second: {', '.join(ratios)}")
    load = ", ".join(f"{value:.1f}" for value in (*told["load_before"][:1], *told["load_after"][:1]))
    print(f"Python {told['python']}, {told['cores']} cores, load of the machine before and after: {load}")


def _say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


if __name__ == "__main__":
    main()
