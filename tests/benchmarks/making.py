"""Makes the invented shop of one size, each step in a process of its own: table, import, publish.

    python making.py table|import|publish FOLDER ROWS QUESTIONS

Prints one JSON object: seconds, rows a second, and the peak of memory in MB.
"""

from __future__ import annotations

import json
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

from fleet import models_of, rows_of
from memory import peak_mb
from questions import Asking, write_questions
from spec_table import write_table

from benchbot.curation.importing import import_table
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.publishing import publish
from benchbot.places import Home
from benchbot.understanding.lexicon import Lexicon

WARMING = 30


def make_table(folder: Path, rows: int, questions: int) -> int:
    """Writes specs.csv, questions.jsonl, and warming.jsonl: other questions, asked first and not measured."""
    lexicon = Lexicon(shop_vocabulary([]))
    models = models_of(rows, lexicon.is_known)
    table = list(rows_of(models, rows))
    write_table(folder / "specs.csv", table)
    for file, count in (("questions.jsonl", questions), ("warming.jsonl", WARMING)):
        asking = Asking(table, models, lexicon.is_known, f"{file}|{rows}")
        write_questions(folder / file, asking.questions(count))
    return len(models)


def main() -> None:
    step, folder, rows, questions = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
    home, now = Home(folder), datetime.now(UTC)
    told: dict[str, float | int] = {}
    start = time.perf_counter()
    if step == "table":
        told["models"] = make_table(folder, rows, questions)
    elif step == "import":
        told["rows"] = import_table(home, folder / "specs.csv", False, "benchmark", now).new
    else:
        told["rows"] = publish(home, now).rows
    told["seconds"] = time.perf_counter() - start
    told["rows_per_second"] = rows / told["seconds"]
    told["peak_mb"] = peak_mb()
    print(json.dumps(told))


if __name__ == "__main__":
    main()
