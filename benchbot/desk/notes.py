"""An answer that looks wrong to a technician: marked at once, with their words, told to the curators."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from benchbot.desk.handling import CARD_KEPT, Handling, plain
from benchbot.desk.questions import DOUBTED, Questions, doubted_specs
from benchbot.desk.sheets import Button, Sheet
from benchbot.desk.showing import WRONG, wrong_step
from benchbot.people.register import People
from benchbot.records import cards, expected, notes
from benchbot.records.cards import Card
from benchbot.records.expected import Expected
from benchbot.reply.reply import Block

WORDS_AWAITED = timedelta(minutes=15)
WHAT = "words of a note"
# what a curator needs of an answer to know which figure of which bolt was doubted
TOLD = ("label", "condition", "value", "converted", "subject")


@dataclass(frozen=True, slots=True)
class Notes:
    """The button "Not right?" of a value, alone or in a step, and the line that is written after it."""

    questions: Questions
    people: People

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """The button of an answer or a step; that of a step which stood there before marks nothing of this one."""
        shown = card.kind == "answer" or (card.body.get("work") and card.body["specs"])
        if shown and code == (WRONG if card.kind == "answer" else wrong_step(card.body["step"])):
            self._mark(handling, card)
        else:
            handling.refuse(handling.words.pressed_old)

    def _mark(self, handling: Handling, card: Card) -> None:
        """The answer is marked; what is not right with it may be written next."""
        words, asker = handling.words, handling.asker
        if card.state == DOUBTED:
            # the button is gone from the answer, but a phone may show an old copy
            handling.refuse(words.note_again)
            return
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
            marked = [*doubted_specs(card), *card.body["specs"]]
            body = card.body | {"view": ["main", 0], "doubted": marked}
            cards.change(handling.record, card.number, card.kind, body, handling.now + CARD_KEPT, DOUBTED)
            handling.change(sheet, card.number, handling.incoming.message)
            page = handling.card("note", {"note": number})
            skip = Button(words.note_skip, "skip")
            ask = words.note_ask if handling.incoming.private else words.note_ask_in_group
            handling.post(Sheet((Block("question", ask),), (skip,)), page)
            # what belongs to no part is of a step, not of a value
            shown = [block for block in sheet.blocks if block.kind in TOLD and block.part]
            entry = Expected(WHAT, {"note": number, "card": page})
            expected.put(handling.record, handling.chat, asker.person, entry, handling.now + WORDS_AWAITED)
            # at once: whoever never writes the words has still seen something wrong
            place = asker.standing.location.name if asker.standing else ""
            head = words.note_told.format(name=asker.name, location=place, number=number)
            # of the part of the first figure, so that it stands right above it
            self._tell(handling, Sheet((Block("note", head, shown[0].part if shown else 0), *shown)))

    def written(self, handling: Handling, entry: Expected, text: str) -> None:
        """The words to the note that was marked last."""
        with handling.writing():
            notes.say(handling.record, entry.body["note"], text[:1000])
            self._end(handling, entry)
            handling.post(plain(handling.words.note_kept.format(number=entry.body["note"])))
            self._tell(handling, plain(handling.words.note_words.format(number=entry.body["note"]), text[:1000]))

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

    def _tell(self, handling: Handling, sheet: Sheet) -> None:
        """The curators and owners of the place hear of it in their private chats."""
        asker = handling.asker
        if asker.standing is not None:
            for member in self.people.people_with(("curator", "owner"), asker.standing.location.number):
                if member.person != asker.person:
                    handling.tell(member.person, sheet)
