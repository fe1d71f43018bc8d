"""One incoming thing on its way: what is sent for it, written down together with the fact that it was handled."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Any

from benchbot.desk.asker import Asker
from benchbot.desk.incoming import Bot, Incoming
from benchbot.desk.menus import menu
from benchbot.desk.one_message import in_one
from benchbot.desk.pages import pages
from benchbot.desk.sheets import CAPTION_AT_MOST, AtOnce, Notice, Parcel, Sheet
from benchbot.desk.wording import Wording
from benchbot.people.channels import channel_of, name_there
from benchbot.people.register import People
from benchbot.records import arrivals, cards, outbox
from benchbot.records.record import Record, Store
from benchbot.reply.reply import Block

# As long as a messenger lets a person change what they wrote.
CARD_KEPT = timedelta(hours=48)


@dataclass(slots=True)
class Handling:
    """Everything that `writing` encloses is on record whole or not at all, and at_once is what needs no record.

    asked_in: the conversation that a pressed button belongs to; empty for whatever is no press.
    alongside: what goes on record with whatever comes of it, in the same transaction.
    """

    bot: Bot
    record: Record
    incoming: Incoming
    now: datetime
    asker: Asker
    at_once: list[AtOnce] = field(default_factory=list)
    asked_in: str = ""
    alongside: list[Callable[[], object]] = field(default_factory=list)

    @property
    def words(self) -> Wording:
        return self.asker.words

    @property
    def chat(self) -> str:
        """The chat's name in the conversation: each member of a group has their own, in each topic another one."""
        topic = f" topic {self.incoming.topic}" if self.incoming.topic else ""
        return self.asked_in or f"{self._where}{topic}{self._whose}"

    @property
    def _where(self) -> str:
        return f"{self.incoming.channel} {self.incoming.chat}"

    @property
    def _whose(self) -> str:
        return "" if self.incoming.private else f" of {name_there(self.incoming.person)}"

    def goes_on_in(self, chat: str) -> bool:
        """Whether that conversation is one of this person in this chat; if so, this belongs to it from here on.

        A message of ours can stand outside of the topic that it was asked in, as when the topic was closed since.
        """
        in_topic = chat.startswith(f"{self._where} topic ") and chat.endswith(self._whose)
        if chat != f"{self._where}{self._whose}" and not in_topic:
            return False
        self.asked_in = chat
        return True

    @contextmanager
    def writing(self) -> Iterator[Store]:
        """One transaction that also notes that this was handled."""
        with self.record.writing() as store:
            while self.alongside:
                self.alongside.pop(0)()
            yield store
            arrivals.handled(store, self.incoming.bot, self.incoming.number, self.now)

    def pass_over(self) -> None:
        """It is handled, and nothing is sent for it."""
        with self.writing():
            return

    def say(self, *lines: str) -> None:
        """Posts plain lines."""
        with self.writing():
            self.post(plain(*lines))

    def post(self, sheet: Sheet, card: int | None = None) -> None:
        """A new message of ours in this chat; it quotes what it answers where others write too."""
        quote = "" if self.incoming.private or self.incoming.what == "press" else self.incoming.message
        parcel = Parcel("post", self.incoming.chat, topic=self.incoming.topic, quote=quote)
        self.send(replace(parcel, sheet=in_one(sheet, self.words), card=card))

    def change(self, sheet: Sheet, card: int, message: str = "", picture: bool = False) -> None:
        """Our message that the card stands on shows something else; of a picture, what stands below it."""
        parcel = Parcel("change", self.incoming.chat, topic=self.incoming.topic, message=message, card=card)
        if picture:
            self.send(replace(parcel, do="caption", sheet=in_one(sheet, self.words, CAPTION_AT_MOST)))
        else:
            self.send(replace(parcel, sheet=in_one(sheet, self.words)))

    def picture(self, sheet: Sheet, card: int | None, code: str, title: str = "", twice: bool = False) -> None:
        """A picture with the sheet below it, buttons included; lines that have no room there follow as messages.

        twice: it does no harm when it stands twice.
        """
        caption, *further = pages(Sheet(sheet.blocks), CAPTION_AT_MOST)
        parcel = Parcel("picture", self.incoming.chat, topic=self.incoming.topic, code=code, title=title, card=card)
        self.send(replace(parcel, twice=twice, sheet=replace(caption, buttons=sheet.buttons)))
        for page in further:
            self.send(Parcel("post", self.incoming.chat, page, self.incoming.topic))

    def send(self, parcel: Parcel, bot: str = "") -> None:
        """Anything else, to any chat. bot: the number of the one that is to send it; empty for this one."""
        parcel = replace(parcel, language=self.asker.language)
        with self.record.writing() as store:
            outbox.add(store, bot or self.incoming.bot, parcel.chat, parcel.to_text(), self.now, parcel.card)

    def tell(self, person: str, sheet: Sheet) -> None:
        """A message to somebody's private chat; nothing to whoever has none."""
        self._send_to(person, Parcel("post", name_there(person), in_one(sheet, self.words)))

    def after_change(self, person: str, people: People) -> None:
        """Somebody belongs elsewhere, stands elsewhere or is something else now: their menu is the one for that."""
        self._send_to(person, menu(Asker.of(person, "", people)))

    def _send_to(self, person: str, parcel: Parcel) -> None:
        """By the bot of their channel, which may be another one than this."""
        bot = self.bot.of_channel(channel_of(person))
        if bot:
            self.send(parcel, bot)

    def notice(self, text: str = "") -> None:
        """Answers a press."""
        self.at_once.append(Notice(self.incoming.query, text))

    def refuse(self, text: str) -> None:
        """Answers a press that changes nothing."""
        with self.writing():
            self.notice(text)

    def card(self, kind: str, body: dict[str, Any], asked: str = "", kept: timedelta = CARD_KEPT) -> int:
        """A new card of this person in this chat."""
        return cards.put(self.record, self.chat, self.incoming.person, kind, asked, body, self.now, self.now + kept)


def plain(*lines: str) -> Sheet:
    """A sheet of plain lines."""
    return Sheet(tuple(Block("note", line) for line in lines))
