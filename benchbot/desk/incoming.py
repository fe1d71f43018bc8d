"""What comes in from a phone, the same for every messenger: a message, a changed message, a press, an inline query."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Literal

What = Literal["text", "changed", "press", "inline", "media", "nobody"]


@dataclass(frozen=True, slots=True)
class Bot:
    """The bot that a message came to. number: the messenger's id of it; link: what a deep link starts with."""

    number: str
    username: str
    link: str


@dataclass(frozen=True, slots=True)
class Incoming:
    """One thing that a person did in a chat.

    bot, number: which bot it came to, and the messenger's number of it, unique for the bot.
    what: text (a message; a caption counts), changed (the same, edited), press (of a button), inline (a query typed
    in another chat), media (a message without any text: `kind` says what), nobody (a message behind which no person
    stands, such as that of an anonymous administrator).
    chat, topic: where; topic is empty outside of a group's topics. private: nobody else reads the chat.
    person: such as "telegram 123"; name: as the messenger shows it.
    message: the messenger's id of the message; for a press, of our message that has the button.
    text: what was written, without the command and without our own name; for a press, the button's code.
    command: the word after the slash, in lower case, or empty.
    at: when it was written, UTC.
    addressed: it is meant for us: a private chat, a command, a mention, a reply to a message of ours.
    answers: id of the message that it replies to; answers_us: that message is ours.
    query: the messenger's id of the press or the inline query, which has to be answered.
    album: id that the photos of one album share.
    """

    bot: str
    number: int
    what: What
    chat: str
    private: bool
    person: str
    name: str
    at: datetime
    message: str = ""
    text: str = ""
    command: str = ""
    topic: str = ""
    addressed: bool = True
    answers: str = ""
    answers_us: bool = False
    query: str = ""
    kind: str = ""
    album: str = ""

    @property
    def lane(self) -> str:
        """What has the same lane is handled in the order in which it came."""
        return self.chat or self.person

    def to_text(self) -> str:
        return json.dumps(asdict(self) | {"at": self.at.isoformat()}, ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> Incoming:
        plain = json.loads(text)
        return cls(**plain | {"at": datetime.fromisoformat(plain["at"])})
