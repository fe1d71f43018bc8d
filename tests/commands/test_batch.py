"""benchbot ask --batch: a line in, an object out, in order; others rely on the shape."""

from __future__ import annotations

import io
import json
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchbot.__main__ import main
from benchbot.commands.batch import answer_batch, read_question
from benchbot.conversation.conversation import Conversation
from benchbot.places import Home

Run = Callable[..., "subprocess.CompletedProcess[str]"]
FIELDS = {"outcome", "specs", "choices", "gap", "reading", "text"}
READING = {"make", "model", "year", "only_if", "component", "position", "property"}


def answered(shop: Home, *lines: str | bytes, fails: int = 0) -> list[dict[str, Any]]:
    raw = [line if isinstance(line, bytes) else line.encode() for line in lines]
    out = io.StringIO()
    with Conversation.open(shop) as conversation:
        assert answer_batch(conversation, [line + b"\n" for line in raw], out, "tester") == fails
    replies = [json.loads(line) for line in out.getvalue().splitlines()]
    for reply in replies:
        assert set(reply) == FIELDS
        assert set(reply["reading"]) == READING
        assert bool(reply["specs"]) <= (reply["outcome"] == "answer")
    return replies


def test_one_object_a_line_in_order(shop: Home) -> None:
    replies = answered(
        shop,
        "16 ondrel front caliper bracket bolt torque",
        '{"text": "16 ondrel caliper bracket bolt torque"}',
        '{"chat": "a", "text": "16 ondrel spark plug gap"}',
        "108 nm to ft lbs",
        "thanks man",
    )
    assert [reply["outcome"] for reply in replies] == ["answer", "choose", "gap", "calculation", "other"]
    assert replies[0]["specs"] == ["F0001"]
    assert [choice["label"] for choice in replies[1]["choices"]] == ["front", "rear"]
    assert [choice["specs"] for choice in replies[1]["choices"]] == [["F0001"], ["F0003"]]
    assert replies[2]["gap"] == {"id": 1, "reason": "component not held"}
    assert replies[3]["text"].startswith("108 N·m = 79.7 lb-ft")
    assert replies[3]["reading"] == dict.fromkeys(READING) | {"only_if": {}}


def test_messages_of_one_chat_share_their_context(shop: Home) -> None:
    replies = answered(
        shop,
        '{"chat": "a", "text": "16 ondrel front caliper bracket bolt torque"}',
        '{"chat": "b", "text": "socket?"}',
        '{"chat": "a", "text": "socket?"}',
        '{"chat": 7, "text": "16 ondrel axle nut front"}',
        '{"chat": "7", "text": "1.6"}',
    )
    assert replies[1]["specs"] == []
    assert replies[2]["specs"] == ["F0002"]
    assert replies[4]["specs"] == ["F0005"]


def test_lines_without_a_chat_stand_alone(shop: Home) -> None:
    replies = answered(shop, "16 ondrel front caliper bracket bolt torque", "socket?", '{"text": "socket?"}')
    assert [reply["specs"] for reply in replies] == [["F0001"], [], []]


def test_a_chat_does_not_outlive_its_run(shop: Home) -> None:
    answered(shop, '{"chat": "a", "text": "16 ondrel front caliper bracket bolt torque"}')
    assert answered(shop, '{"chat": "a", "text": "socket?"}')[0]["specs"] == []


def test_what_is_missing_beside_an_answer(shop: Home) -> None:
    reply = answered(shop, "16 ondrel front and rear axle nut torque 1.6")[0]
    assert reply["outcome"] == "answer"
    assert reply["specs"] == ["F0005"]
    assert reply["gap"]["reason"] == "position not held"


def test_two_answers_are_both_in_the_reading(shop: Home) -> None:
    reply = answered(shop, "16 ondrel front and rear caliper bracket bolt torque")[0]
    assert reply["specs"] == ["F0001", "F0003"]
    assert reply["reading"]["position"] == "front and rear"
    assert reply["reading"]["component"] == "caliper bracket bolt"


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ('{"chat": "a", "text": ', "starts as JSON and is none"),
        ("{}", '"text" is missing'),
        ('{"text": 7}', '"text" is missing or is no text'),
        ('{"chat": ["a"], "text": "x"}', '"chat" is neither'),
        ('{"chat": true, "text": "x"}', '"chat" is neither'),
        ('{"chat": 1.5, "text": "x"}', '"chat" is neither'),
        ('{"a": ' + "[" * 100_000, "nested too deep"),
    ],
)
def test_a_line_that_is_no_question_keeps_its_place(shop: Home, line: str, wrong: str) -> None:
    replies = answered(shop, "thanks", line, "thanks", fails=1)
    assert [reply["outcome"] for reply in replies] == ["other"] * 3
    assert replies[1]["text"].startswith("Line 2 is no question: ")
    assert wrong in replies[1]["text"]


@pytest.mark.parametrize(
    "line",
    ["[1, 2]", '"quoted"', "null", "}{", "16 ondrel {front} bracket", b"\xff\xfe bolt", b"\x00\x01", "x" * 50_000],
)
def test_any_other_line_is_a_message(shop: Home, line: str | bytes) -> None:
    assert len(answered(shop, line)) == 1


def test_halves_of_characters_are_taken(shop: Home) -> None:
    assert len(answered(shop, '{"chat": "\\ud800", "text": "thanks \\udfff"}')) == 1


def test_empty_lines_and_a_byte_order_mark_are_passed_over(shop: Home) -> None:
    replies = answered(shop, b"\xef\xbb\xbf16 ondrel front caliper bracket bolt torque", "", "   ", "thanks")
    assert [reply["specs"] for reply in replies] == [["F0001"], []]


def test_why_can_be_added(shop: Home) -> None:
    out = io.StringIO()
    with Conversation.open(shop) as conversation:
        answer_batch(conversation, [b"16 ondrel"], out, "tester", with_why=True)
    assert json.loads(out.getvalue())["why"].startswith("How I read that:")


def test_every_object_is_written_before_the_next_line_is_read(shop: Home) -> None:
    out = io.StringIO()

    def lines() -> Any:
        for already in range(3):
            assert len(out.getvalue().splitlines()) == already
            yield b"thanks\n"

    with Conversation.open(shop) as conversation:
        answer_batch(conversation, lines(), out, "tester")


def test_a_file_and_standard_input(shop: Home, benchbot: Run, tmp_path: Path) -> None:
    file = tmp_path / "questions.jsonl"
    file.write_text('{"chat": "a", "text": "16 ondrel front caliper bracket bolt"}\nsocket?\n', encoding="utf-8")
    from_file = benchbot("ask", "--batch", str(file))
    from_stdin = benchbot("ask", "--batch", "-", typed=file.read_text(encoding="utf-8"))
    assert from_file.returncode == from_stdin.returncode == 0
    assert from_file.stdout == from_stdin.stdout
    assert len(from_file.stdout.splitlines()) == 2
    assert "N·m" in from_file.stdout
    assert benchbot("ask", "--batch", "-", typed="{oops\n").returncode == 1


def test_a_file_that_cannot_be_read(shop: Home, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "--batch", str(tmp_path / "none.jsonl")]) == 1
    assert "none.jsonl: the questions cannot be read" in capsys.readouterr().err


def test_a_question_is_read_from_a_line() -> None:
    assert read_question("plain").chat is None
    assert read_question('{"chat": 3, "text": "x"}').chat == "3"
