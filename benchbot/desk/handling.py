"""One incoming thing on its way: what is sent for it, written down together with the fact that it was handled."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Any, Literal

from benchbot.desk.asker import Asker
from benchbot.desk.incoming import Bot, Incoming
from benchbot.desk.menus import menu
from benchbot.desk.pages import pages
from benchbot.desk.sheets import AtOnce, Notice, Parcel, Sheet
from benchbot.desk.wording import Wording
from benchbot.people.register import People
from benchbot.records import arrivals, cards, outbox
from benchbot.records.record import Record, Store
from benchbot.reply.reply import Block

# As long as a messenger lets a person change what they wrote.
CARD_KEPT = timedelta(hours=48)


@dataclass(slots=True)
class Handling:
    """Everything that `writing` encloses is on record whole or not at all, and at_once is what needs no record."""

    bot: Bot
    record: Record
    incoming: Incoming
    now: datetime
    asker: Asker
    at_once: list[AtOnce] = field(default_factory=list)

    @property
    def words(self) -> Wording:
        return self.asker.words

    @property
    def chat(self) -> str:
        """The chat's name in the conversation: each member of a group has their own."""
        where = f"telegram {self.incoming.chat}"
        return where if self.incoming.private else f"{where} of {self.incoming.person.removeprefix('telegram ')}"

    @contextmanager
    def writing(self) -> Iterator[Store]:
        """One transaction that also notes that this was handled."""
        with self.record.writing() as store:
            yield store
            arrivals.handled(store, self.incoming.bot, self.incoming.number, self.now)

    def say(self, *lines: str) -> None:
        """Posts plain lines."""
        with self.writing():
            self.post(plain(*lines))

    def post(self, sheet: Sheet, card: int | None = None, asks: bool = False) -> None:
        """A new message of ours in this chat; it quotes what it answers where others write too."""
        quote = "" if self.incoming.private or self.incoming.what == "press" else self.incoming.message
        parcel = Parcel("post", self.incoming.chat, topic=self.incoming.topic, quote=quote, asks=asks)
        self._send_pages(parcel, sheet, card)

    def change(self, sheet: Sheet, card: int, message: str = "", picture: bool = False) -> None:
        """Our message that the card stands on shows something else; of a picture, what stands below it."""
        do: Literal["caption", "change"] = "caption" if picture else "change"
        parcel = Parcel(do, self.incoming.chat, topic=self.incoming.topic, message=message)
        self._send_pages(parcel, sheet, card)

    def send(self, parcel: Parcel) -> None:
        """Anything else, to any chat."""
        with self.record.writing() as store:
            outbox.add(store, self.incoming.bot, parcel.chat, parcel.to_text(), self.now, parcel.card)

    def tell(self, person: str, sheet: Sheet) -> None:
        """A message to somebody's private chat, which has their own number."""
        self.send(Parcel("post", person.removeprefix("telegram "), sheet))

    def after_change(self, person: str, people: People) -> None:
        """Somebody belongs elsewhere, stands elsewhere or is something else now: their menu is the one for that."""
        self.send(menu(Asker.of(person, "", people)))

    def notice(self, text: str = "", loud: bool = False) -> None:
        """Answers a press."""
        self.at_once.append(Notice(self.incoming.query, text, loud))

    def refuse(self, text: str) -> None:
        """Answers a press that changes nothing."""
        with self.writing():
            self.notice(text)

    def card(self, kind: str, body: dict[str, Any], asked: str = "", kept: timedelta = CARD_KEPT) -> int:
        """A new card of this person in this chat."""
        return cards.put(self.record, self.chat, self.incoming.person, kind, asked, body, self.now, self.now + kept)

    def _send_pages(self, parcel: Parcel, sheet: Sheet, card: int | None) -> None:
        """What is too long for one message goes on in further ones; the card stands on the last, with the buttons."""
        first, *further = pages(sheet)
        self.send(replace(parcel, sheet=first, card=None if further else card, message=parcel.message))
        for number, page in enumerate(further, 1):
            last = card if number == len(further) else None
            self.send(replace(parcel, do="post", message="", quote="", sheet=page, card=last))


def plain(*lines: str) -> Sheet:
    """A sheet of plain lines."""
    return Sheet(tuple(Block("note", line) for line in lines))
