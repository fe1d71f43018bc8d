"""What comes in from a phone, the same for every messenger: a message, a changed message, a press, an inline query."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Literal

from benchbot.people.channels import TELEGRAM, TERMINAL

What = Literal["text", "changed", "press", "inline", "chosen", "media", "nobody"]


@dataclass(frozen=True, slots=True)
class Bot:
    """The bot that a message came to.

    number: the messenger's id of it; username, link: by which phones find it, empty where none answers phones.
    phones: the number of the bot that answers this shop's phones, for one that does not do so itself; may be empty.
    """

    number: str
    username: str
    link: str
    channel: str = TELEGRAM
    phones: str = ""

    def of_channel(self, channel: str) -> str:
        """The number of the bot that writes to whoever is on that channel; empty when there is none."""
        if channel == self.channel:
            return self.number
        return {TELEGRAM: self.phones, TERMINAL: TERMINAL}.get(channel, "")


@dataclass(frozen=True, slots=True)
class Incoming:
    """One thing that a person did in a chat.

    bot, number: which bot it came to, and the messenger's number of it, unique for the bot.
    what: text (a message; a caption counts), changed (the same, edited), press (of a button), inline (a query typed
    in another chat), chosen (a result of such a query was sent there), media (a message without any text: `kind` says
    what), nobody (a message behind which no person stands, such as that of an anonymous administrator).
    chat, topic: where; topic is empty outside of a group's topics. private: nobody else reads the chat.
    person: such as "telegram 123"; name: as the messenger shows it.
    message: the messenger's id of the message; for a press, of our message that has the button;
    of what was chosen, the code of the offer.
    text: what was written, without the command and without our own name; for a press, the button's code.
    command: the word after the slash, in lower case, or empty.
    at: when it was written, UTC.
    addressed: it is surely meant for us: a private chat, a mention, our name behind the command, a reply to a message
    of ours. A bare command in a group may be for another bot.
    answers: id of the message that it replies to; answers_us: that message is ours.
    query: the messenger's id of the press or the inline query, which has to be answered.
    channel: what a person's id and a chat's name in the conversation begin with.
    album: id that the photos of one album share. file: what the messenger calls a picture or PDF that is small enough
    to be kept, which may come with a text.
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
    file: str = ""
    channel: str = TELEGRAM

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
