"""What the client gives back to a test: messages, calls, notices and inline answers as plain values."""

from __future__ import annotations

import base64
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Button:
    """does: callback_data, url, switch_inline_query ...; value: its data, address or text."""

    label: str
    does: str
    value: str

    @property
    def data(self) -> str:
        return self.value if self.does == "callback_data" else ""


@dataclass(frozen=True, slots=True)
class Shown:
    """A message as it stands in its chat now.

    ours: the bot sent it. html: as the bot wrote it. earlier: the HTML that it had before, oldest first.
    asked: a reply keyboard or forced reply that came with it. thread: message_thread_id; topic: of a forum.
    filename: of a document.
    """

    id: int
    ours: bool
    sender: int | None
    kind: str
    text: str
    html: str
    buttons: tuple[tuple[Button, ...], ...]
    asked: dict[str, Any] | None
    edits: int
    earlier: tuple[str, ...]
    reply_to: int | None
    thread: int | None
    topic: bool
    file: bytes | None
    filename: str
    album: str
    via_bot: bool
    deleted: bool
    date: int

    @property
    def photo(self) -> bytes | None:
        return self.file if self.kind == "photo" else None

    @property
    def labels(self) -> list[str]:
        return [button.label for row in self.buttons for button in row]

    def data(self, label: str) -> str:
        """The data of the button with this label."""
        for row in self.buttons:
            for button in row:
                if button.label == label:
                    return button.data
        raise KeyError(f"message {self.id} has no button {label!r}; it has {self.labels}")


@dataclass(frozen=True, slots=True)
class Made:
    """What came of an act: the message it made, and the update; None when the bot did not get to know of it."""

    message: int
    update: int | None


@dataclass(frozen=True, slots=True)
class Asked:
    """A press or an inline query, and its update."""

    query: str
    update: int | None


@dataclass(frozen=True, slots=True)
class Call:
    """A call of the bot. status: what it was told, None: nothing. handled: it was carried out all the same."""

    method: str
    params: dict[str, Any]
    chat: int | None
    at: float
    status: int | None
    description: str
    fault: str
    handled: bool

    @property
    def refused(self) -> bool:
        """Refused by the checks, not by an ordered fault."""
        return not self.fault and self.status not in (200, None)


@dataclass(frozen=True, slots=True)
class Notice:
    query: str
    person: int
    text: str
    alert: bool
    url: str


@dataclass(frozen=True, slots=True)
class Result:
    id: str
    title: str
    description: str
    text: str
    html: str


@dataclass(frozen=True, slots=True)
class InlineAnswer:
    query: str
    person: int
    results: tuple[Result, ...]
    button: dict[str, Any] | None
    cache_time: int
    personal: bool
    next_offset: str


@dataclass(frozen=True, slots=True)
class Menu:
    """commands: names and descriptions in order."""

    scope: str
    chat: int
    person: int
    language: str
    commands: tuple[tuple[str, str], ...]


def shown(plain: dict[str, Any]) -> Shown:
    given = dict(plain)
    given["buttons"] = tuple(tuple(Button(**one) for one in row) for row in plain["buttons"])
    given["earlier"] = tuple(plain["earlier"])
    given["file"] = None if plain["file"] is None else base64.b64decode(plain["file"])
    return Shown(**given)


def inline_answer(plain: dict[str, Any]) -> InlineAnswer:
    names = ("id", "title", "description", "text", "html")
    results = tuple(Result(**{name: one[name] for name in names}) for one in plain["results"])
    return InlineAnswer(**plain | {"results": results})


def menu(plain: dict[str, Any]) -> Menu:
    commands = tuple((one["command"], one["description"]) for one in plain["commands"])
    return Menu(plain["scope"], plain["chat"], plain["person"], plain["language"], commands)
