"""Photos of a source page: offered as evidence of the row being filled in, and kept with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from benchbot.curation import fill_flow as flow
from benchbot.curation.fill_flow import Refused
from benchbot.desk.bookwork.leaves import KIND, Leaf, Shop
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button, Parcel, Sheet
from benchbot.desk.wording import counted
from benchbot.records import cards, evidence, expected, fillings
from benchbot.records.cards import Card
from benchbot.reply.reply import Block

_ALBUM_KEPT, _MOST_OF_AN_ALBUM = timedelta(hours=1), 10


@dataclass(frozen=True, slots=True)
class PagePhotos:
    """A card's body holds what the messenger calls the pictures that it offers."""

    shop: Shop

    def takes(self, handling: Handling) -> bool:
        """Whether it is a picture from somebody who is filling a row here."""
        incoming = handling.incoming
        if not (incoming.file and incoming.private):
            return False
        if not self.shop.may(handling, "fill gap").allowed:
            return False
        return bool(fillings.open_of(self.shop.record, handling.asker.person))

    def offer(self, handling: Handling) -> None:
        """Asks whether it is a page of the row that this person was at last; an album is asked about once."""
        incoming, record = handling.incoming, self.shop.record
        held = fillings.open_of(record, handling.asker.person)[0]
        before = self._of_album(handling)
        if before is not None and before.body.get("filling") == held.number and "files" in before.body:
            files = [*before.body["files"], incoming.file][:_MOST_OF_AN_ALBUM]
            sheet = self._sheet(handling, held.number, len(files))
            cards.change(record, before.number, KIND, before.body | {"files": files}, handling.now + _ALBUM_KEPT)
            handling.change(sheet, before.number)
            return
        sheet = self._sheet(handling, held.number, 1)
        asked = _album(incoming.album) if incoming.album else incoming.message
        body = {"filling": held.number, "files": [incoming.file]}
        handling.post(sheet, handling.card(KIND, body, asked))

    def keep(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The pictures are to be fetched and kept; what is no page is told once it was looked at."""
        words, record, person = self.shop.words(handling), self.shop.record, handling.asker.person
        number = number_in(about[0]) if about else None
        held = Refused("closed") if number is None else flow.mine(record, number, person)
        if isinstance(held, Refused):
            return Leaf((Block("question", words.not_open),), (Button(words.back, "g.0"),))
        for handle in body.get("files", []):
            made, new = evidence.put(record, held.number, str(handle), person, handling.now)
            if new:
                chat = handling.incoming.chat
                handling.send(Parcel("fetch", chat, code=str(made), title=str(handle), twice=True))
        return self._done(handling, words.photo_kept, held.number)

    def leave(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words = self.shop.words(handling)
        number = number_in(about[0]) if about else 0
        return self._done(handling, words.photo_left, number or 0)

    def _done(self, handling: Handling, text: str, filling: int) -> Leaf:
        """What was awaited before the picture came is awaited on."""
        awaits = expected.one(handling.record, handling.chat, handling.asker.person, handling.now)
        button = Button(self.shop.words(handling).go_on_alone, f"fo.{filling}")
        return Leaf((Block("question", text),), (button,), awaits=awaits)

    def _sheet(self, handling: Handling, filling: int, count: int) -> Sheet:
        words = self.shop.words(handling)
        text = counted(count, words.photo_offer_one, words.photo_offer_many)
        buttons = (Button(words.photo_keep, f"p.{filling}"), Button(words.photo_not, f"pn.{filling}"))
        return Sheet((Block("question", text),), buttons)

    def _of_album(self, handling: Handling) -> Card | None:
        album = handling.incoming.album
        card = cards.asked(self.shop.record, handling.chat, _album(album)) if album else None
        return card if card is not None and card.kind == KIND and card.alive(handling.now) else None


def _album(album: str) -> str:
    return f"pages {album}"
