"""How long `benchbot ask` takes from nothing to its reply: a whole new process for one question."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

from benchbot.commands.demo import TABLES
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.places import Home, demo_folder

DEMO_QUESTION = "12 ondrel frt cal brkt bolt tq"


def make_demo_shop(folder: Path) -> None:
    """A home with the demo's book."""
    now = datetime.now(UTC)
    for table in TABLES:
        import_table(Home(folder), demo_folder() / table, False, "benchmark", now)
    publish(Home(folder), now)


def cold_start(folder: Path, question: str, bytecode: Path, runs: int) -> dict[str, float]:
    """Seconds, the median and the extremes of so many runs; one run before them writes the bytecode, as installing
    the program would."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"BENCHBOT_HOME": str(folder), "PYTHONPYCACHEPREFIX": str(bytecode)}
    took = []
    for _ in range(runs + 1):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "benchbot", "ask", question], check=True, env=environment, capture_output=True
        )
        took.append(time.perf_counter() - start)
    measured = took[1:]
    return {"median": statistics.median(measured), "least": min(measured), "most": max(measured)}
