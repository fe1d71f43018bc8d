"""Persons, chats and messages as the server keeps them, and how it shows them to a bot."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from .markup import Marked

ANONYMOUS_ADMIN = {"id": 1087968824, "is_bot": True, "first_name": "Group", "username": "GroupAnonymousBot"}
GENERAL = 1  # the topic of a forum that needs no id


@dataclass(slots=True)
class Person:
    id: int
    first_name: str
    username: str = ""
    last_name: str = ""
    language: str = ""
    is_bot: bool = False

    def shown(self) -> dict[str, Any]:
        found: dict[str, Any] = {"id": self.id, "is_bot": self.is_bot, "first_name": self.first_name}
        if self.last_name:
            found["last_name"] = self.last_name
        if self.username:
            found["username"] = self.username
        if self.language:
            found["language_code"] = self.language
        return found


@dataclass(slots=True)
class Message:
    """content: what the message holds beside its text, as the Bot API shows it. topic: it stands in a forum's topic.

    text: the text, or the caption when `captioned`. asked: a reply keyboard or forced reply that came with it.
    """

    id: int
    chat: Chat
    date: int
    kind: str = "text"
    sender: dict[str, Any] | None = None
    ours: bool = False
    text: Marked | None = None
    captioned: bool = False
    content: dict[str, Any] = field(default_factory=dict)
    reply_to: Message | None = None
    thread: int | None = None
    topic: bool = False
    sender_chat: dict[str, Any] | None = None
    via_bot: dict[str, Any] | None = None
    album: str = ""
    keyboard: dict[str, Any] | None = None
    asked: dict[str, Any] | None = None
    edit_date: int = 0
    edits: int = 0
    earlier: list[str] = field(default_factory=list)
    deleted: bool = False
    inline_id: str = ""
    file: str = ""

    def shown(self, with_reply: bool = True) -> dict[str, Any]:
        found: dict[str, Any] = {"message_id": self.id, "date": self.date, "chat": self.chat.shown()}
        if self.sender is not None:
            found["from"] = self.sender
        if self.sender_chat is not None:
            found["sender_chat"] = self.sender_chat
        if self.thread is not None:
            found["message_thread_id"] = self.thread
        if self.topic:
            found["is_topic_message"] = True
        if self.reply_to is not None and with_reply and not self.reply_to.deleted:
            found["reply_to_message"] = self.reply_to.shown(with_reply=False)
        if self.via_bot is not None:
            found["via_bot"] = self.via_bot
        if self.album:
            found["media_group_id"] = self.album
        if self.edit_date:
            found["edit_date"] = self.edit_date
        found.update(self.content)
        if self.text is not None and self.text.plain:
            found["caption" if self.captioned else "text"] = self.text.plain
            if self.text.entities:
                found["caption_entities" if self.captioned else "entities"] = list(self.text.entities)
        if self.keyboard is not None:
            found["reply_markup"] = self.keyboard
        return found


@dataclass(slots=True)
class Chat:
    """kind: private, group, supergroup or channel. bot: the bot's standing: member, administrator, left or kicked.

    opened, blocked: of a private chat. hears_all: the bot's privacy mode does not count here.
    """

    id: int
    kind: str
    title: str
    instance: str
    username: str = ""
    person: Person | None = None
    opened: bool = True
    blocked: bool = False
    members: dict[int, Person] = field(default_factory=dict)
    bot: str = "member"
    hears_all: bool = False
    forum: bool = False
    topics: dict[int, str] = field(default_factory=dict)
    migrated_to: int | None = None
    messages: dict[int, Message] = field(default_factory=dict)
    last_id: int = 0
    from_bot: int = 0

    @property
    def shares_ids(self) -> bool:
        """Private chats and small groups number their messages together (value from memory)."""
        return self.kind in ("private", "group")

    def shown(self) -> dict[str, Any]:
        found: dict[str, Any] = {"id": self.id, "type": self.kind}
        if self.person is not None:
            found["first_name"] = self.person.first_name
            for name in ("last_name", "username"):
                if getattr(self.person, name):
                    found[name] = getattr(self.person, name)
            return found
        found["title"] = self.title
        if self.username:
            found["username"] = self.username
        if self.forum:
            found["is_forum"] = True
        return found

    def standing(self, message_id: int) -> Message | None:
        """The message, unless it is deleted."""
        message = self.messages.get(message_id)
        return None if message is None or message.deleted else message
