"""benchbot demo and benchbot chat through pipes, as scripts and tests use them."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchbot.channels.screens import PlainScreen
from benchbot.commands import demo
from benchbot.commands.demo import EXAMPLES, MARK, demo_home
from benchbot.conversation.conversation import Conversation
from benchbot.outcomes import Answer, Calculation, Choose, Gap, Procedure
from benchbot.places import Home
from benchbot.records.record import open_record

Run = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="module")
def invented() -> Iterator[Home]:
    with demo_home() as home:
        yield home


def test_the_examples_show_each_kind_of_outcome(invented: Home) -> None:
    with Conversation.open(invented) as conversation:
        kinds = [type(conversation.say(f"c{n}", "p", text).outcome) for n, text in enumerate(EXAMPLES)]
    assert kinds == [Answer, Choose, Answer, Gap, Calculation, Procedure]


def test_one_question_one_answer(benchbot: Run) -> None:
    done = benchbot("demo", *EXAMPLES[0].split())
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert lines[0].startswith("50 lb-ft = 68 N·m")
    assert "current service information" in done.stdout
    assert MARK in lines


def test_without_a_terminal_it_answers_what_comes_in(benchbot: Run) -> None:
    done = benchbot("demo", typed=f"{EXAMPLES[0]}\n\nsocket?\nwhy\nmore\n")
    assert done.returncode == 0, done.stderr
    assert "50 lb-ft" in done.stdout
    assert "16 mm" in done.stdout
    assert "How I read that:" in done.stdout
    assert done.stdout.count("current service information") == 1
    assert done.stdout.startswith(MARK)


def test_without_a_terminal_and_questions_it_shows_examples(benchbot: Run) -> None:
    done = benchbot("demo")
    assert done.returncode == 0, done.stderr
    for question in EXAMPLES:
        assert f"> {question}" in done.stdout
    assert MARK in done.stdout


def test_the_demo_home_is_thrown_away_and_no_shop_is_touched(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    database = tmp_path / "shop.sqlite"
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path / "shop"))
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", f"sqlite:///{database}")
    with demo_home() as home:
        assert home.book.is_file()
        folder = home.folder
    assert not folder.exists()
    assert os.environ["BENCHBOT_DATABASE_URL"] == f"sqlite:///{database}"
    assert list(tmp_path.iterdir()) == []


def test_every_answer_of_the_demo_is_marked(invented: Home, capsys: pytest.CaptureFixture[str]) -> None:
    with Conversation.open(invented) as conversation:
        chat = demo._chat(conversation, PlainScreen(sys.stdin, sys.stdout))
        for question in EXAMPLES:
            chat.take(question)
            shown = capsys.readouterr().out
            assert chat.last is not None
            assert (MARK in shown) == bool(chat.last.reply.specs)


def test_a_chat_through_a_pipe(shop: Home, benchbot: Run) -> None:
    done = benchbot("chat", typed="16 ondrel front caliper bracket bolt\nsocket?\n")
    assert done.returncode == 0, done.stderr
    assert "88 lb-ft" in done.stdout
    assert "18 mm" in done.stdout
    assert "> " not in done.stdout


def test_a_named_chat_keeps_its_vehicle_and_others_start_afresh(shop: Home, benchbot: Run) -> None:
    benchbot("chat", "--chat", "bay 3", typed="16 ondrel\n")
    assert "88 lb-ft" in benchbot("chat", "--chat", "bay 3", typed="front bracket bolt torque\n").stdout
    assert "88 lb-ft" not in benchbot("chat", typed="front bracket bolt torque\n").stdout


def test_chat_without_a_book(benchbot: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path))
    done = benchbot("chat")
    assert done.returncode == 1
    assert "there is no book yet" in done.stderr


def test_answers_are_on_record_with_who_asked(shop: Home, benchbot: Run) -> None:
    benchbot("ask", "--chat", "bay 3", "16 ondrel lugs torque")
    with open_record(shop) as record:
        assert record.chat_state("command line bay 3", datetime.now(UTC)) is not None


def test_a_reader_that_leaves_early_is_no_crash(shop: Home) -> None:
    command = [sys.executable, "-m", "benchbot", "ask", "--batch", "-"]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdin and process.stdout and process.stderr
        process.stdout.close()
        process.stdin.write("thanks\n" * 20)
        process.stdin.close()
        assert process.wait(60) == 1
        assert process.stderr.read() == ""
