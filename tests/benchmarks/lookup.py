"""Measures the way from a message to its row on invented books of several sizes; it prints figures and judges none.

    python tests/benchmarks/lookup.py --rows 1000 100000 1000000 [--questions 400] [--peers] [--json FILE]

Every engine runs in a process of its own, so that its memory is its own. `--peers` asks general-purpose search engines
the same questions on the same rows; `--profile 30` prints where the time goes; `--folder FOLDER` keeps the books, and
a later run with the same folder, sizes and questions asks them again without making them.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from coldstart import DEMO_QUESTION, cold_start, make_demo_shop
from figures_table import print_figures
from peers import ENGINES
from questions import read_questions

_HERE = Path(__file__).resolve().parent
_PEER_SECONDS = 60
_DATABASE = "BENCHBOT_DATABASE_URL"


def main() -> None:
    reader = argparse.ArgumentParser(description="Figures of understanding and lookup; nothing passes or fails.")
    reader.add_argument("--rows", type=int, nargs="+", default=[1_000], metavar="N")
    reader.add_argument("--questions", type=int, default=400, metavar="N")
    reader.add_argument("--peers", action="store_true", help="ask rapidfuzz, SQLite FTS5 and bm25s as well")
    reader.add_argument("--peer-seconds", type=float, default=_PEER_SECONDS, metavar="S", help="the most for each peer")
    reader.add_argument("--cold-runs", type=int, default=7, metavar="N", help="whole processes, for the cold start")
    reader.add_argument("--profile", type=int, default=0, metavar="LINES", help="print so many lines of a profile")
    reader.add_argument("--folder", type=Path, help="keep the books here")
    reader.add_argument("--json", type=Path, metavar="FILE", help="write the figures here as well")
    args = reader.parse_args()
    if min(args.rows) < 1_000 or args.questions < 4 or args.cold_runs < 1:
        reader.error("a benchmark takes at least 1,000 rows, 4 questions and 1 cold run")
    # The benchmark must not write into a shop's own database.
    os.environ.pop(_DATABASE, None)
    with tempfile.TemporaryDirectory(prefix="benchbot-benchmark-") as made:
        figures = measure(args.folder or Path(made), args)
    print_figures(figures)
    if args.json:
        args.json.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")


def measure(folder: Path, args: argparse.Namespace) -> dict[str, Any]:
    """All figures of one run."""
    demo, bytecode = folder / "demo", folder / "bytecode"
    demo.mkdir(parents=True, exist_ok=True)
    make_demo_shop(demo)
    return {
        "python": platform.python_version(),
        "cores": os.cpu_count(),
        "demo_cold_start": cold_start(demo, DEMO_QUESTION, bytecode, args.cold_runs),
        "sizes": [_measure_size(folder / f"{rows}", rows, bytecode, args) for rows in sorted(args.rows)],
    }


def _measure_size(folder: Path, rows: int, bytecode: Path, args: argparse.Namespace) -> dict[str, Any]:
    told: dict[str, Any] = {"rows": rows, **_made(folder, rows, args.questions)}
    told["book_mb"] = (folder / "book.sqlite").stat().st_size / 1e6
    told["record_mb"] = (folder / "record.sqlite").stat().st_size / 1e6
    _say(f"{rows:,} rows: asking the book")
    told["book"] = json.loads(_run("asking.py", folder))
    first = read_questions(folder / "questions.jsonl")[0]
    told["cold_start"] = cold_start(folder, first.text, bytecode, args.cold_runs)
    told["peers"] = {}
    for name in ENGINES if args.peers else ():
        _say(f"{rows:,} rows: asking {name}")
        told["peers"][name] = json.loads(_run("peers.py", name, folder, rows, args.peer_seconds))
    if args.profile:
        print(_run("asking.py", folder, "--profile", args.profile))
    return told


def _made(folder: Path, rows: int, questions: int) -> dict[str, Any]:
    """The table, import and publishing of one size, or what was told of them when they were made before."""
    kept = folder / "made.json"
    if kept.is_file():
        made: dict[str, Any] = json.loads(kept.read_text(encoding="utf-8"))
        if made["questions"] == questions:
            return made
        raise SystemExit(f"{folder} holds a book with {made['questions']} questions; ask as many, or name a new folder")
    folder.mkdir(parents=True, exist_ok=True)
    made = {"questions": questions}
    for step in ("table", "import", "publish"):
        _say(f"{rows:,} rows: {step}")
        made[step] = json.loads(_run("making.py", step, folder, rows, questions))
    kept.write_text(json.dumps(made), encoding="utf-8")
    return made


def _run(script: str, *words: object) -> str:
    command = [sys.executable, str(_HERE / script), *map(str, words)]
    return subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True, encoding="utf-8").stdout


def _say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


if __name__ == "__main__":
    main()
