"""What a line typed at a terminal means: a press of a button, a change of the last question, a command, a message."""

from __future__ import annotations

import re
from dataclasses import dataclass

# As long as a phone's message can be.
LONGEST = 4096
LEAVE = frozenset({"quit", "exit", "/quit", "/exit"})

_PRESS = re.compile(r"#\s*([0-9]{1,3})(?:\s*(?:of|/|\s)\s*([0-9]{1,9}))?", re.IGNORECASE)
# the blank sets it apart from short forms of words, such as "e/brake"
_CHANGE = re.compile(r"e/(?:\s+(.*))?", re.IGNORECASE)
_COMMAND = re.compile(r"/([A-Za-z0-9_]{1,32})(?:\s+(.*))?")


@dataclass(frozen=True, slots=True)
class Press:
    """The button of that number, from 1, on the message of that handle; 0: on the one that was shown last."""

    button: int
    message: int = 0


@dataclass(frozen=True, slots=True)
class Message:
    """What is handed to the desk; command: in lower case, without its slash, or empty."""

    text: str
    command: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """The last question is to read so."""

    message: Message


@dataclass(frozen=True, slots=True)
class File:
    """The picture or PDF at that path is sent."""

    path: str


Typed = Press | Message | Change | File


def typed(line: str) -> Typed | None:
    """None for a line on which nothing stands."""
    text = _plain(line)
    if not text:
        return None
    if press := _PRESS.fullmatch(text):
        return Press(int(press[1]), int(press[2] or 0))
    if change := _CHANGE.fullmatch(text):
        return Change(_message(change[1] or ""))
    message = _message(text)
    return File(message.text) if message.command == "file" else message


def _message(text: str) -> Message:
    command = _COMMAND.fullmatch(text)
    return Message((command[2] or "").strip(), command[1].lower()) if command else Message(text)


def _plain(line: str) -> str:
    """Without what no database takes: halves of characters, and what is no letter at all."""
    whole = line.encode("utf-8", "replace").decode("utf-8")
    return "".join(" " if ord(letter) < 32 or 127 <= ord(letter) < 160 else letter for letter in whole).strip()
