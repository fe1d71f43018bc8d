"""Answers a file of questions: one line in, one JSON object out, in order."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TextIO

from benchbot.commands.asker import fresh_chat, printable
from benchbot.commands.contract import of_turn, refused
from benchbot.conversation.conversation import Conversation
from benchbot.reply.why import why

_SHAPE = '{"chat": "c1", "text": "16 make model front bracket bolt torque"}'


@dataclass(frozen=True, slots=True)
class Question:
    """One line of a batch: its text, and the chat that it belongs to (None: it stands alone)."""

    text: str
    chat: str | None = None


def answer_batch(
    conversation: Conversation, lines: Iterable[bytes], out: TextIO, person: str, with_why: bool = False
) -> int:
    """Writes an object a line, each as soon as it is known. 1 when a line was no question, else 0.

    Messages with the same `chat` share context, within this run only. Empty lines are passed over.
    """
    run = fresh_chat("batch")
    failed = 0
    for number, raw in enumerate(lines, 1):
        line = raw.decode("utf-8-sig" if number == 1 else "utf-8", "replace").strip()
        if not line:
            continue
        try:
            question = read_question(line)
        except ValueError as error:
            failed = 1
            plain = refused(f"Line {number} is no question: {error}. Write plain text, or {_SHAPE}")
        else:
            chat = f"{run} line {number}" if question.chat is None else f"{run} chat {question.chat}"
            turn = conversation.say(chat, person, question.text)
            plain = of_turn(turn) | ({"why": why(turn.reading)} if with_why else {})
        out.write(json.dumps(plain, ensure_ascii=False) + "\n")
        out.flush()
    return failed


def read_question(line: str) -> Question:
    """A line that starts with { is a JSON object, any other is the message itself. ValueError says what is wrong."""
    if not line.startswith("{"):
        return Question(line)
    try:
        plain = json.loads(line)
    except json.JSONDecodeError as error:
        raise ValueError(f"it starts as JSON and is none ({error.msg} at character {error.pos + 1})") from error
    except RecursionError as error:
        raise ValueError("its JSON is nested too deep") from error
    text, chat = plain.get("text"), plain.get("chat")
    if not isinstance(text, str):
        raise ValueError('its "text" is missing or is no text')
    if chat is None:
        return Question(printable(text))
    if isinstance(chat, bool) or not isinstance(chat, (str, int)):
        raise ValueError('its "chat" is neither a text nor a whole number')
    return Question(printable(text), printable(str(chat)))
