"""Measures how long a whole book takes to leave one shop and to come into another; it prints figures and judges none.

    python tests/benchmarks/exchange.py --rows 10000 1000000 [--folder FOLDER] [--json FILE]

Every step runs in a process of its own, so that its memory is its own. Steps: the CSV table in and out, the database
file out, into an empty shop with everything taken, and once more into the shop that then holds all of it.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from fleet import models_of, rows_of
from memory import peak_mb
from spec_table import write_table

from benchbot.curation.decisions import Decisions
from benchbot.curation.exchange import compared, take
from benchbot.curation.exporting import export, export_file
from benchbot.curation.importing import import_table
from benchbot.curation.language import shop_vocabulary
from benchbot.places import Home
from benchbot.understanding.lexicon import Lexicon

STEPS = ("table", "import csv", "export csv", "export db", "import db", "import db again")
_DATABASE = "BENCHBOT_DATABASE_URL"


def main() -> None:
    if sys.argv[1:2] == ["--step"]:
        print(json.dumps(run_step(sys.argv[2], Path(sys.argv[3]), int(sys.argv[4]))))
        return
    reader = argparse.ArgumentParser(description="Figures of import and export; nothing passes or fails.")
    reader.add_argument("--rows", type=int, nargs="+", default=[10_000], metavar="N")
    reader.add_argument("--folder", type=Path, help="keep the books here")
    reader.add_argument("--json", type=Path, metavar="FILE", help="write the figures here as well")
    args = reader.parse_args()
    # The benchmark must not write into a shop's own database.
    os.environ.pop(_DATABASE, None)
    with tempfile.TemporaryDirectory(prefix="benchbot-exchange-") as made:
        sizes = [measure((args.folder or Path(made)) / f"{rows}", rows) for rows in sorted(args.rows)]
    for size in sizes:
        print(f"{size['rows']:,} rows")
        for step in STEPS[1:]:
            told = size[step]
            speed = f"{told['seconds']:8.1f} s {told['rows_per_second']:10,.0f} rows/s"
            print(f"  {step:16} {speed} {told['peak_mb']:6.0f} MB")
    if args.json:
        args.json.write_text(json.dumps(sizes, indent=1) + "\n", encoding="utf-8")


def measure(folder: Path, rows: int) -> dict[str, Any]:
    """All figures of one size."""
    for shop in ("one", "two"):
        (folder / shop).mkdir(parents=True)
    told: dict[str, Any] = {"rows": rows}
    for step in STEPS:
        print(f"{rows:,} rows: {step}", file=sys.stderr, flush=True)
        command = [sys.executable, __file__, "--step", step, str(folder), str(rows)]
        told[step] = json.loads(subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout)
    return told


def run_step(step: str, folder: Path, rows: int) -> dict[str, float]:
    """Does one step; seconds, rows a second, the peak of memory in MB, and how many rows it told of."""
    one, two, now = Home(folder / "one"), Home(folder / "two"), datetime.now(UTC)
    start = time.perf_counter()
    if step == "table":
        lexicon = Lexicon(shop_vocabulary([]))
        count = write_table(folder / "specs.csv", rows_of(models_of(rows, lexicon.is_known), rows))
    elif step == "import csv":
        count = import_table(one, folder / "specs.csv", False, "benchmark", now).new
    elif step == "export csv":
        count = export(one, folder / "out.csv")
    elif step == "export db":
        count = export_file(one, folder / "book.db", "benchmark", now).tables[0].rows
    else:
        with compared(two, folder / "book.db") as comparison:
            done = take(two, comparison, Decisions(kinds={"new": "take"}), "benchmark", now)
        count = done.taken["new"] if step == "import db" else comparison.unchanged["specs"]
    seconds = time.perf_counter() - start
    return {"seconds": seconds, "rows_per_second": rows / seconds, "peak_mb": peak_mb(), "count": count}


if __name__ == "__main__":
    main()
