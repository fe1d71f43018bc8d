"""The half of the client in which people act: who there is, what they write and press."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from typing import Any

from .looks import Asked, Made
from .ordering import Ordering


class People(Ordering):
    """Ids of persons are above 0 and are those of their private chats; ids of groups and channels are below 0."""

    def person(
        self,
        person: int,
        first_name: str = "",
        username: str = "",
        last_name: str = "",
        opened: bool = True,
        is_bot: bool = False,
    ) -> int:
        """Adds a person; opened: they once started the bot, so that it may write to them."""
        given: dict[str, Any] = {"first_name": first_name, "username": username, "last_name": last_name}
        self.order("person", person=person, opened=opened, is_bot=is_bot, **given)
        return person

    def group(
        self,
        chat: int,
        members: Sequence[int] = (),
        title: str = "",
        supergroup: bool = True,
        forum: bool = False,
        privacy: bool = True,
        bot: str = "member",
    ) -> int:
        """A group that the bot is in. privacy False: it hears everything. bot: member or administrator."""
        given: dict[str, Any] = {"supergroup": supergroup, "forum": forum, "privacy": privacy, "bot": bot}
        self.order("group", chat=chat, members=list(members), title=title, **given)
        return chat

    def channel(self, chat: int, title: str = "", username: str = "", bot: str = "administrator") -> int:
        self.order("channel", chat=chat, title=title, username=username, bot=bot)
        return chat

    def topic(self, chat: int, title: str, person: int) -> int:
        """Opens a topic of a forum; returns its message_thread_id."""
        return int(self.order("topic", chat=chat, title=title, person=person))

    def close_topic(self, chat: int, topic: int) -> None:
        self.order("close_topic", chat=chat, topic=topic)

    def join(self, chat: int, person: int) -> Made:
        return Made(**self.order("join", chat=chat, person=person))

    def leave(self, chat: int, person: int) -> Made:
        return Made(**self.order("leave", chat=chat, person=person))

    def block(self, person: int) -> int | None:
        """Returns the number of the update (my_chat_member)."""
        number: int | None = self.order("block", person=person)
        return number

    def unblock(self, person: int) -> int | None:
        number: int | None = self.order("unblock", person=person)
        return number

    def stand(self, chat: int, person: int, status: str) -> int | None:
        """A person makes the bot member, administrator, left or kicked in a group or channel."""
        number: int | None = self.order("stand", chat=chat, person=person, status=status)
        return number

    def migrate(self, chat: int, to: int) -> tuple[Made, Made]:
        """A group becomes a supergroup; the service messages in the old chat and in the new one."""
        told = self.order("migrate", chat=chat, to=to)
        return Made(**told["old"]), Made(**told["new"])

    def say(
        self,
        chat: int,
        text: str,
        person: int | None = None,
        reply_to: int | None = None,
        topic: int | None = None,
        by: str = "person",
        entities: list[dict[str, Any]] | None = None,
    ) -> Made:
        """Somebody writes; in a private chat the person may be left out. by: see the functions below."""
        who = chat if person is None and by == "person" and chat > 0 else person
        given: dict[str, Any] = {"reply_to": reply_to, "topic": topic, "by": by, "entities": entities}
        return Made(**self.order("say", chat=chat, text=text, person=who, **given))

    def say_anonymously(self, chat: int, text: str, **given: Any) -> Made:
        """An administrator who hides behind the group."""
        return self.say(chat, text, by="anonymous", **given)

    def post(self, chat: int, text: str, **given: Any) -> Made:
        """A post of a channel."""
        return self.say(chat, text, by="channel", **given)

    def say_via_bot(self, chat: int, text: str, person: int, **given: Any) -> Made:
        """A person sends what the bot's inline mode gave them."""
        return self.say(chat, text, person, by="via_bot", **given)

    def send(
        self,
        chat: int,
        kind: str,
        person: int | None = None,
        caption: str = "",
        content: bytes = b"",
        filename: str = "note.pdf",
        reply_to: int | None = None,
        topic: int | None = None,
    ) -> Made:
        """kind: photo, document, voice, video, sticker, contact, location, poll. content: invented when empty.

        filename: of a document; the kind that it is sent as comes of its ending.
        """
        who = chat if person is None and chat > 0 else person
        given: dict[str, Any] = {"reply_to": reply_to, "topic": topic, "filename": filename}
        given["content"] = base64.b64encode(content).decode()
        return Made(**self.order("say", chat=chat, text=caption, person=who, kind=kind, **given))

    def album(
        self, chat: int, captions: Sequence[str], person: int | None = None, topic: int | None = None
    ) -> list[Made]:
        """Photos that belong together, one for each caption, which may be empty."""
        who = chat if person is None else person
        return [Made(**one) for one in self.order("album", chat=chat, person=who, captions=list(captions), topic=topic)]

    def edit(self, chat: int, message: int, text: str) -> Made:
        return Made(**self.order("edit", chat=chat, message=message, text=text))

    def retract(self, chat: int, message: int) -> None:
        """A person deletes a message; the bot is not told."""
        self.order("retract", chat=chat, message=message)

    def press(
        self,
        chat: int,
        message: int,
        label: str = "",
        data: str = "",
        person: int | None = None,
        stale: bool = False,
    ) -> Asked:
        """Presses the button with this label or data. stale: it is gone already, but still on the person's screen."""
        who = chat if person is None else person
        given: dict[str, Any] = {"label": label, "data": data, "stale": stale}
        return Asked(**self.order("press", chat=chat, person=who, message=message, **given))

    def inline(self, person: int, text: str = "", offset: str = "", chat_type: str = "supergroup") -> Asked:
        return Asked(**self.order("inline", person=person, text=text, offset=offset, chat_type=chat_type))

    def choose(self, query: str, result: str, chat: int) -> Made:
        """Whoever asked inline takes a result, which is sent to the chat in their name."""
        return Made(**self.order("choose", query=query, result=result, chat=chat))

    def raw_update(self, kind: str, body: dict[str, Any]) -> int | None:
        """Any update at all."""
        number: int | None = self.order("raw_update", kind=kind, body=body)
        return number

    def batch(self, orders: Sequence[tuple[str, dict[str, Any]]]) -> list[Any]:
        """Many orders at once, by their names and parameters, before any call of the bot comes between."""
        told: list[Any] = self.order("batch", orders=list(orders))
        return told
