"""Whole question sets, asked through the public command: nothing wrong, and few needless questions back."""

from __future__ import annotations

import csv
import json
import os
import subprocess
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

import pytest

from benchbot.places import demo_folder

HERE = Path(__file__).resolve().parent
DEMO = tuple(demo_folder() / name for name in ("specs.csv", "vehicle_names.csv", "words.csv"))
SETS = {"demo": DEMO, "second": (HERE / "second" / "fleet.csv",), "third": (HERE / "third" / "fleet.csv",)}
FLOOR = 0.95
OTHER_SEED, ITS_QUESTIONS = 20260917, 400

Mark = Literal["right", "safe", "wrong"]
Plain = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Judged:
    """One question of a set: its mark, what was wanted, what came."""

    question: Plain
    reply: Plain
    mark: Mark

    def __str__(self) -> str:
        said = " / ".join([*self.question.get("after", []), self.question["q"]])
        wanted = f"{self.question['expect']} {self.question.get('ids', [])}"
        return f"{self.mark}: {said!r}: wanted {wanted}, got {self.reply['outcome']} {self.reply['specs']}"


def mark_of(question: Plain, reply: Plain) -> Mark:
    """right; safe = no value beside what was asked for, but not the outcome wanted; wrong = another value was shown."""
    wanted, shown = set(question.get("ids", [])), set(reply["specs"])
    outcome, expect = reply["outcome"], question["expect"]
    if expect == "answer":
        if shown - wanted - set(question.get("also", [])):
            return "wrong"
        return "right" if outcome == "answer" and wanted <= shown else "safe"
    if shown:
        return "wrong"
    if expect == "choose":
        offered = {spec for choice in reply["choices"] for spec in choice["specs"]}
        return "right" if outcome == "choose" and wanted <= offered else "safe"
    if expect == "gap":
        return "right" if outcome == "gap" and reply["gap"] else "safe"
    return "right" if outcome in ("other", "calculation") else "safe"


def benchbot(home: Path, *words: str) -> str:
    env = {name: value for name, value in os.environ.items() if name != "BENCHBOT_DATABASE_URL"}
    env |= {"BENCHBOT_HOME": str(home), "PYTHONIOENCODING": "utf-8"}
    done = subprocess.run(
        [sys.executable, "-m", "benchbot", *words], env=env, capture_output=True, encoding="utf-8", check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def asked(home: Path, tables: tuple[Path, ...], questions: list[Plain]) -> list[Judged]:
    """Imports and publishes the tables, then asks every question in a chat of its own, in one batch."""
    for table in tables:
        benchbot(home, "specs", "import", str(table))
    benchbot(home, "specs", "publish")
    lines = [
        (number, {"chat": f"c{number}", "text": text})
        for number, question in enumerate(questions)
        for text in (*question.get("after", ()), question["q"])
    ]
    batch = home / "batch.jsonl"
    batch.write_text("".join(json.dumps(line, ensure_ascii=False) + "\n" for _, line in lines), encoding="utf-8")
    replies = [json.loads(line) for line in benchbot(home, "ask", "--batch", str(batch)).splitlines()]
    assert len(replies) == len(lines)
    last = {number: reply for (number, _), reply in zip(lines, replies, strict=True)}
    return [Judged(q, last[n], mark_of(q, last[n])) for n, q in enumerate(questions)]


def read_questions(file: Path) -> list[Plain]:
    return [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines() if line.strip()]


def check(judged: list[Judged], tables: tuple[Path, ...]) -> None:
    """Nothing wrong, nothing leaked, and the floor is held."""
    marks = Counter(one.mark for one in judged)
    print(f"{len(judged)} questions: {marks['right']} right, {marks['safe']} safe, {marks['wrong']} wrong")
    assert not [str(one) for one in judged if one.mark == "wrong"]
    with tables[0].open(encoding="utf-8", newline="") as file:
        figures = {row["value"] for row in csv.DictReader(file) if row["value"][:1].isdigit() and " " in row["value"]}
    leaked = [
        f"{one}: {one.reply['text']!r}"
        for one in judged
        if not one.reply["specs"]
        and one.reply["outcome"] != "calculation"
        and any(f" {figure}" in one.reply["text"] and figure not in one.question["q"] for figure in figures)
    ]
    assert not leaked
    right = marks["right"] / len(judged)
    assert right >= FLOOR, "\n".join(str(one) for one in judged if one.mark != "right")


@pytest.mark.parametrize("name", SETS)
def test_question_set(name: str, tmp_path: Path) -> None:
    tables = SETS[name]
    check(asked(tmp_path, tables, read_questions(HERE / name / "questions.jsonl")), tables)


def test_questions_made_from_another_seed(tmp_path: Path) -> None:
    made = tmp_path / "made"
    script = HERE / "third" / "make_questions.py"
    told = ["--seed", str(OTHER_SEED), "--vehicles", "30", "--questions", str(ITS_QUESTIONS), "--out", str(made)]
    subprocess.run([sys.executable, str(script), *told], check=True)
    tables = (made / "fleet.csv",)
    questions = read_questions(made / "questions.jsonl")
    assert len(questions) == ITS_QUESTIONS
    check(asked(tmp_path, tables, questions), tables)


@pytest.mark.parametrize(
    ("question", "reply", "mark"),
    [
        ({"expect": "answer", "ids": ["A"], "also": ["B"]}, {"outcome": "answer", "specs": ["A", "B"]}, "right"),
        ({"expect": "answer", "ids": ["A"]}, {"outcome": "answer", "specs": ["A", "C"]}, "wrong"),
        ({"expect": "answer", "ids": ["A"], "also": ["B"]}, {"outcome": "answer", "specs": ["B"]}, "safe"),
        ({"expect": "answer", "ids": ["A"]}, {"outcome": "choose", "specs": []}, "safe"),
        ({"expect": "choose", "ids": ["A"]}, {"outcome": "answer", "specs": ["A"]}, "wrong"),
        ({"expect": "choose", "ids": ["A"]}, {"outcome": "choose", "specs": [], "choices": []}, "safe"),
        ({"expect": "gap"}, {"outcome": "answer", "specs": ["A"]}, "wrong"),
        ({"expect": "gap"}, {"outcome": "gap", "specs": [], "gap": None}, "safe"),
        ({"expect": "other"}, {"outcome": "answer", "specs": ["A"]}, "wrong"),
    ],
)
def test_the_judge_tells_wrong_from_safe(question: Plain, reply: Plain, mark: Mark) -> None:
    assert mark_of(question, reply) == mark
