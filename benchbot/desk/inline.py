"""Queries typed in another chat: a result only where there is a clean answer, and only for members."""

from __future__ import annotations

import json
from dataclasses import dataclass

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.manner import Aside
from benchbot.conversation.recorded import plain_reading, shown_of
from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.pages import length
from benchbot.desk.sheets import SHOWN_AT_MOST, Offer, Offers, Sheet
from benchbot.outcomes import Answer
from benchbot.records import cards, errands
from benchbot.records.cards import Card
from benchbot.records.entry import Entry
from benchbot.reply.languages import wording_of
from benchbot.reply.subjects import subject_words

# The kind of the card that keeps what an offer shows.
_OFFER = "offer"


@dataclass(frozen=True, slots=True)
class Inline:
    """Every query stands alone: whoever types in another chat has no vehicle on the lift there.

    What is only offered is no answer on record, for an offer comes with every few letters that are typed; a card keeps
    for a while which revisions it shows. What was chosen is one, where the messenger tells of it: as it was shown,
    whatever the book says by then.
    """

    conversation: Conversation

    def offer(self, handling: Handling) -> None:
        found = self._clean(handling)
        language = handling.asker.manner.language
        with handling.writing():
            offers = () if found is None else (self._offer(found, language, self._kept(handling, found)),)
            handling.at_once.append(Offers(handling.incoming.query, offers))

    def chosen(self, handling: Handling) -> None:
        """An offer was sent to somebody: the answer that was shown is on record like any other."""
        incoming, asker = handling.incoming, handling.asker
        card = _card(handling)
        if card is not None:
            self._put(handling, card)
            return
        if self._clean(handling) is None:
            # nobody knows any more what it showed, and now it would show nothing
            handling.pass_over()
            return

        def beside(_: Turn) -> None:
            handling.pass_over()

        text = incoming.text.strip()
        self.conversation.say(_chat(handling), asker.person, text, None, asker.manner, beside, Aside())

    def _kept(self, handling: Handling, turn: Turn) -> int:
        """The card of an offer; one that shows the same again has the same."""
        body = {
            "specs": [list(one) for one in shown_of(turn.outcome)],
            "reading": plain_reading(turn.reading),
            "version": self.conversation.book.version,
        }
        chat, person, now = _chat(handling), handling.asker.person, handling.now
        last = cards.last_of(handling.record, chat, _OFFER)
        if last is not None and last.body == body and last.alive(now + CARD_KEPT / 2):
            return last.number
        return cards.put(handling.record, chat, person, _OFFER, "", body, now, now + CARD_KEPT)

    def _put(self, handling: Handling, card: Card) -> None:
        specs = tuple((str(spec), int(revision)) for spec, revision in card.body["specs"])
        entry = Entry(
            chat=card.chat,
            person=handling.asker.person,
            message=None,
            text=handling.incoming.text.strip(),
            at=handling.now,
            outcome=Answer.__name__.lower(),
            reading=card.body["reading"],
            reply=json.dumps([spec for spec, _ in specs]),
            specs=specs,
            book_version=card.body["version"],
            location=handling.asker.manner.location,
        )
        self.conversation.newest_book()
        present = self.conversation.book.version
        with handling.writing() as store:
            handling.record.put(entry)
            if card.body["version"] != present:
                # whoever was shown what holds no more was told before this was on record
                errands.put(store, "follow", {"version": present}, handling.now)

    def _clean(self, handling: Handling) -> Turn | None:
        """The answer, when nothing of it is missing and all of it has room in one message."""
        text = handling.incoming.text.strip()
        if not text:
            return None
        turn = self.conversation.consider(text, None, handling.asker.manner)
        if not isinstance(turn.outcome, Answer) or turn.outcome.missing:
            return None
        return turn if length((*turn.reply.blocks, *turn.reply.below)) <= SHOWN_AT_MOST else None

    def _offer(self, turn: Turn, language: str, card: int) -> Offer:
        assert isinstance(turn.outcome, Answer)
        title, _, _ = turn.reply.short.partition(" - ")
        line = subject_words(turn.outcome.findings[0].subject, wording_of(language))
        return Offer(title, line, Sheet((*turn.reply.blocks, *turn.reply.below)), str(card))


def _chat(handling: Handling) -> str:
    return f"{handling.incoming.person} inline"


def _card(handling: Handling) -> Card | None:
    """The card of the offer that was chosen; None where it is kept no more, or is not theirs."""
    code = handling.incoming.message
    found = cards.one(handling.record, int(code)) if code.isascii() and code.isdecimal() and len(code) < 19 else None
    return found if found is not None and (found.kind, found.chat) == (_OFFER, _chat(handling)) else None
