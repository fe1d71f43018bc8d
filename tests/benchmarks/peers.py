"""What general-purpose search makes of the same rows and questions: each engine in a process of its own.

    python peers.py rapidfuzz|fts5|bm25s FOLDER ROWS SECONDS

A search always has a best row, so that row counts as shown, and a question that no row may answer counts wrong. Prints
one JSON object; memory in MB with the rows' texts in it.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from fleet import models_of, rows_of
from memory import peak_mb, resident_mb
from questions import read_questions
from spec_table import row_text
from tally import Tally, milliseconds

from benchbot.curation.language import shop_vocabulary
from benchbot.understanding.lexicon import Lexicon

Search = Callable[[str], int]
"""The place of the best row for a question, -1 when the engine finds none."""


def with_rapidfuzz(texts: list[str], folder: Path) -> Search:
    """token_set_ratio over every row."""
    from rapidfuzz import fuzz, process

    def search(question: str) -> int:
        found = process.extractOne(question, texts, scorer=fuzz.token_set_ratio)
        return -1 if found is None else int(found[2])

    return search


def with_fts5(texts: list[str], folder: Path) -> Search:
    """SQLite FTS5 with its trigram tokenizer: any of the question's trigrams, ranked by bm25."""
    file = folder / "peer.sqlite"
    file.unlink(missing_ok=True)
    connection = sqlite3.connect(file)
    connection.execute("PRAGMA journal_mode = OFF")
    connection.execute("CREATE VIRTUAL TABLE line USING fts5 (body, tokenize = 'trigram', content = '')")
    with connection:
        numbered = enumerate(texts, 1)
        connection.executemany("INSERT INTO line (rowid, body) VALUES (?, ?)", numbered)
    connection.execute("INSERT INTO line (line) VALUES ('optimize')")
    connection.commit()
    texts.clear()

    def search(question: str) -> int:
        grams = " OR ".join('"' + gram.replace('"', '""') + '"' for gram in _grams(question))
        found = connection.execute("SELECT rowid FROM line WHERE line MATCH ? ORDER BY rank LIMIT 1", (grams,))
        row = found.fetchone()
        return -1 if row is None else int(row[0]) - 1

    return search


def with_bm25s(texts: list[str], folder: Path) -> Search:
    """bm25s over the trigrams of every word."""
    import bm25s

    numbers: dict[str, int] = {}
    lines = [[numbers.setdefault(gram, len(numbers)) for gram in _grams(text)] for text in texts]
    texts.clear()
    engine = bm25s.BM25()
    engine.index((lines, numbers), show_progress=False)

    def search(question: str) -> int:
        known = [gram for gram in _grams(question) if gram in numbers]
        if not known:
            return -1
        found, _ = engine.retrieve([known], k=1, show_progress=False)
        return int(found[0][0])

    return search


def _grams(text: str) -> list[str]:
    """The runs of three letters of each word, without those across a space; short words whole and padded."""
    grams: list[str] = []
    for word in text.lower().split():
        grams.extend(word[at : at + 3] for at in range(len(word) - 2))
    return grams


ENGINES = {"rapidfuzz": with_rapidfuzz, "fts5": with_fts5, "bm25s": with_bm25s}


def ask_peer(name: str, folder: Path, rows: int, seconds: float) -> dict[str, Any]:
    """Builds the engine and asks as many of the questions as `seconds` allow, in their order."""
    models = models_of(rows, Lexicon(shop_vocabulary([])).is_known)
    specs, texts = [], []
    for row in rows_of(models, rows):
        specs.append(row.spec)
        texts.append(row_text(row))
    questions = read_questions(folder / "questions.jsonl")
    start = time.perf_counter()
    search = ENGINES[name](texts, folder)
    built = time.perf_counter() - start
    took: list[int] = []
    tally, end = Tally(), time.perf_counter() + seconds
    for question in questions:
        if took and time.perf_counter() > end:
            break
        start_ns = time.perf_counter_ns()
        place = search(question.text.lower())
        took.append(time.perf_counter_ns() - start_ns)
        tally.add(question.kind, question.text, question.spec, [specs[place]] if place >= 0 else [], False)
    return {
        "questions": len(took),
        "build_seconds": built,
        "look_up": milliseconds(took),
        "resident_mb": resident_mb(),
        "peak_mb": peak_mb(),
        "counts": tally.counts(),
    }


def main() -> None:
    name, folder, rows, seconds = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]), float(sys.argv[4])
    print(json.dumps(ask_peer(name, folder, rows, seconds)))


if __name__ == "__main__":
    main()
