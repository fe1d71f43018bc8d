"""An answer that looks wrong to a technician: marked at once, with their words, told to the curators."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from benchbot.desk.handling import CARD_KEPT, Handling, plain
from benchbot.desk.questions import Questions
from benchbot.desk.sheets import Button, Sheet
from benchbot.people.register import People
from benchbot.records import cards, expected, notes
from benchbot.records.cards import Card
from benchbot.records.expected import Expected
from benchbot.reply.reply import Block

WORDS_AWAITED = timedelta(minutes=15)
WHAT = "words of a note"


@dataclass(frozen=True, slots=True)
class Notes:
    """The button "Not right?" and the line that is written after it."""

    questions: Questions
    people: People

    def mark(self, handling: Handling, card: Card) -> None:
        """The answer is marked; what is not right with it may be written next."""
        words, asker = handling.words, handling.asker
        sheet = self.questions.doubted(handling, card)
        if sheet is None:
            handling.refuse(words.book_changed)
            return
        location = asker.manner.location
        with handling.writing():
            number, new = notes.put(handling.record, card.body["answer"], asker.person, location, handling.now)
            handling.notice("" if new else words.note_again)
            if not new:
                return
            body = card.body | {"view": ["main", 0]}
            cards.change(handling.record, card.number, card.kind, body, handling.now + CARD_KEPT, "doubted")
            handling.change(sheet, card.number, handling.incoming.message)
            page = handling.card("note", {"note": number})
            skip = Button(words.note_skip, "skip")
            handling.post(Sheet((Block("question", words.note_ask),), (skip,)), page)
            shown = "\n".join(block.text for block in sheet.blocks if block.kind in ("value", "converted", "subject"))
            entry = Expected(WHAT, {"note": number, "card": page})
            expected.put(handling.record, handling.chat, asker.person, entry, handling.now + WORDS_AWAITED)
            # at once: whoever never writes the words has still seen something wrong
            place = asker.standing.location.name if asker.standing else ""
            self._tell(handling, words.note_told.format(name=asker.name, location=place, number=number), shown)

    def written(self, handling: Handling, entry: Expected, text: str) -> None:
        """The words to the note that was marked last."""
        with handling.writing():
            notes.say(handling.record, entry.body["note"], text[:1000])
            self._end(handling, entry)
            handling.post(plain(handling.words.note_kept.format(number=entry.body["note"])))
            self._tell(handling, handling.words.note_words.format(number=entry.body["note"]), text[:1000])

    def skip(self, handling: Handling, card: Card) -> None:
        """They have no words; the note stands without."""
        entry = expected.one(handling.record, handling.chat, handling.asker.person, handling.now)
        if entry is None or entry.what != WHAT or entry.body["note"] != card.body["note"]:
            handling.refuse(handling.words.pressed_done)
            return
        with handling.writing():
            handling.notice()
            self._end(handling, entry)
            kept = plain(handling.words.note_kept.format(number=entry.body["note"]))
            handling.change(kept, card.number, handling.incoming.message)

    def _end(self, handling: Handling, entry: Expected) -> None:
        expected.taken(handling.record, handling.chat, handling.asker.person)
        page = cards.one(handling.record, entry.body["card"])
        if page is not None:
            cards.change(handling.record, page.number, "said", {}, handling.now)

    def _tell(self, handling: Handling, *lines: str) -> None:
        """The curators and owners of the place hear of it in their private chats."""
        asker = handling.asker
        if asker.standing is not None:
            for member in self.people.people_with(("curator", "owner"), asker.standing.location.number):
                if member.person != asker.person:
                    handling.tell(member.person, plain(*lines))
