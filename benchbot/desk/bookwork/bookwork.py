"""`/gaps` and `/book`: one message that turns from page to page, and the entries that its pages ask for."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.past import Past
from benchbot.conversation.typed_choices import typed_choice
from benchbot.desk.bookwork import book_pages, field_pages, gap_pages, row_pages, whole_pages, word_pages
from benchbot.desk.bookwork.book_pages import BookPages
from benchbot.desk.bookwork.fill_pages import FillPages
from benchbot.desk.bookwork.gap_pages import GapPages
from benchbot.desk.bookwork.leaves import Leaf, Shop, line, post, turn
from benchbot.desk.bookwork.own_word_pages import OwnWordPages
from benchbot.desk.bookwork.page_photos import PagePhotos
from benchbot.desk.bookwork.row_pages import RowPages
from benchbot.desk.bookwork.waiting_pages import WaitingPages
from benchbot.desk.bookwork.word_pages import WordPages
from benchbot.desk.handling import Handling
from benchbot.desk.questions import Questions
from benchbot.outcomes import Answer, Calculation, Choose, Gap
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.places import Home
from benchbot.quantities.units import read_unit
from benchbot.records import expected
from benchbot.records.cards import Card
from benchbot.records.expected import Expected

COMMANDS = ("gaps", "book")
_ROWS = (row_pages.SEND_BACK, row_pages.WITHDRAW, row_pages.DROP, row_pages.PASS)
_WORDS = (word_pages.WORD, word_pages.VEHICLE, word_pages.OTHER)
_FILLS = (field_pages.ENTRY, whole_pages.REASON)
ENTRIES = frozenset({gap_pages.ENTRY, book_pages.ENTRY, *_ROWS, *_WORDS, *_FILLS})

Page = Callable[[Handling, Sequence[str], Mapping[str, Any]], Leaf]


@dataclass(frozen=True, slots=True)
class Bookwork:
    """A button's code is the name of a page and what it is about, with dots between; rights are decided anew each time.

    pages: by name, with the action of the table of rights that each is.
    """

    shop: Shop
    questions: Questions
    gaps: GapPages
    filling: FillPages
    rows: RowPages
    words: WordPages
    book: BookPages
    photos: PagePhotos
    pages: dict[str, tuple[Action, Page]]

    @classmethod
    def of(cls, home: Home, conversation: Conversation, people: People, questions: Questions) -> Bookwork:
        shop = Shop(conversation.record, people, conversation, home)
        filling = FillPages.of(shop)
        gaps, rows, waiting = GapPages(shop, filling), RowPages(shop, filling), WaitingPages(shop)
        words, book, photos = WordPages(shop, gaps), BookPages(shop, filling), PagePhotos(shop)
        pages: dict[str, tuple[Action, Page]] = {
            "g": ("see gaps", gaps.all),
            "g1": ("see gaps", gaps.one),
            "gw": ("fill gap", gaps.wait),
            "ga": ("fill gap", gaps.set_aside),
            "go": ("fill gap", gaps.reopen),
            "f": ("fill gap", filling.begin),
            "fo": ("fill gap", filling.go_on),
            "ft": ("fill gap", filling.take_over),
            "fv": ("fill gap", filling.choose),
            "fe": ("fill gap", filling.empty),
            "fq": ("fill gap", filling.ask_again),
            "fb": ("fill gap", filling.back),
            "fp": ("fill gap", filling.go_on),
            "fs": ("fill gap", filling.submit),
            "fc": ("fill gap", filling.change),
            "fm": ("fill gap", filling.more),
            "fl": ("fill gap", filling.leave),
            "fd": ("fill gap", filling.drop),
            "fy": ("fill gap", filling.dropped),
            "w": ("fill gap", words.ask_part),
            "v": ("fill gap", words.ask_vehicle),
            "wo": ("fill gap", words.ask_other),
            "wv": ("fill gap", words.choose),
            "a": ("approve", waiting.all),
            "ai": ("approve", waiting.imported),
            "a1": ("approve", rows.one),
            "ay": ("approve", rows.approve),
            "ab": ("approve", rows.send_back),
            "ah": ("approve", rows.history),
            "aw": ("approve", rows.withdraw),
            "ad": ("approve", rows.drop),
            "ac": ("fill gap", rows.correct),
            "ap": ("approve", rows.pages),
            "p": ("fill gap", photos.keep),
            "pn": ("fill gap", photos.leave),
            **book.pages(),
            **OwnWordPages(shop).pages(),
        }
        return cls(shop, questions, gaps, filling, rows, words, book, photos, pages)

    def command(self, handling: Handling, command: str, text: str) -> None:
        """The first page; of `/book ID` that row."""
        self.shop.conversation.newest_book()
        with handling.writing():
            if command == "gaps":
                post(handling, self.gaps.all(handling, (), {}))
            elif text.strip():
                post(handling, self.rows.page(handling, text.strip()))
            else:
                post(handling, self.book.first(handling, (), {}))

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """Turns the page, when they may still do that."""
        name, *about = code.split(".")
        action, page = self.pages.get(name, (None, None))
        if action is None or page is None:
            handling.refuse(handling.words.pressed_old)
            return
        decision = self.shop.may(handling, action)
        if not decision.allowed:
            handling.refuse(handling.words.denied(decision))
            return
        self.shop.conversation.newest_book()
        with handling.writing():
            handling.notice()
            turn(handling, card, page(handling, about, card.body))

    def written(self, handling: Handling, entry: Expected, text: str) -> None:
        """What was typed is the entry, unless it is a question: that is answered, and the entry is awaited on."""
        self.shop.conversation.newest_book()
        decision = self.shop.may(handling, "approve" if entry.what in _ROWS else "fill gap")
        if not decision.allowed:
            with handling.writing():
                expected.taken(handling.record, handling.chat, handling.asker.person)
            handling.say(handling.words.denied(decision))
        elif handling.asker.standing is not None and self._is_question(handling, entry, text):
            self._answer_between(handling, entry, text)
        else:
            with handling.writing():
                post(handling, self._entered(handling, entry, text))

    def awaits(self, handling: Handling) -> bool:
        """Whether an entry of a row is awaited here."""
        entry = expected.one(handling.record, handling.chat, handling.asker.person, handling.now)
        return entry is not None and entry.what in _FILLS and handling.asker.standing is not None

    def ask_between(self, handling: Handling, text: str) -> None:
        """A question in so many words while an entry of a row is awaited."""
        entry = expected.one(handling.record, handling.chat, handling.asker.person, handling.now)
        if entry is not None:
            self._answer_between(handling, entry, text)

    def _entered(self, handling: Handling, entry: Expected, text: str) -> Leaf:
        if entry.what in _FILLS:
            return self.filling.written(handling, entry, text)
        if entry.what in _WORDS:
            return self.words.written(handling, entry, text)
        if entry.what in _ROWS:
            return self.rows.written(handling, entry, text)
        if entry.what == book_pages.ENTRY:
            return self.book.written(handling, entry, text)
        return self.gaps.written(handling, entry, text)

    def _is_question(self, handling: Handling, entry: Expected, text: str) -> bool:
        """Whether somebody asks in between. Words that fit the entry are a question only when the book answers them."""
        conversation, manner = self.shop.conversation, handling.asker.manner
        strict = entry.what == field_pages.ENTRY
        stored = handling.record.chat_state(handling.chat, handling.now)
        if entry.body.get("aside") and stored and typed_choice(text, Past.from_text(stored)) is not None:
            return True
        if strict and self.filling.would_take(handling, entry, text) and entry.body["field"] not in _FREE:
            return False
        alone = conversation.consider(text, None, manner)
        if isinstance(alone.outcome, Calculation):
            # a figure in the wrong place is an entry that does not fit, and no sum
            return strict and not _is_amount(text)
        if not _names_vehicle_and_part(alone):
            return False
        taken = not strict or self.filling.would_take(handling, entry, text)
        return not taken or text.rstrip().endswith("?") or isinstance(alone.outcome, Answer)

    def _answer_between(self, handling: Handling, entry: Expected, text: str) -> None:
        """The answer, and below it what is still awaited; all on record or nothing."""
        with handling.writing():
            self.questions.ask(handling, text)
            if entry.what not in _FILLS:
                return
            about = (str(entry.body["filling"]), str(entry.body.get("field", "")))
            reason = entry.what == whole_pages.REASON
            leaf = (self.filling.submit if reason else self.filling.ask_again)(handling, about, {})
            awaits = leaf.awaits and Expected(leaf.awaits.what, leaf.awaits.body | {"aside": True})
            head = line(self.shop.words(handling).still_open)
            post(handling, replace(leaf, blocks=(head, *leaf.blocks), awaits=awaits))


_AMOUNT = re.compile(r"[0-9][0-9.,/ ]*(.*)", re.DOTALL)
# Fields that take any text; a question among them would be taken as well.
_FREE = frozenset({"make", "model", "source", "source_ref", "condition", "order", "class"})


def _is_amount(text: str) -> bool:
    """Whether it is a figure and its unit, and nothing is asked of it."""
    amount = _AMOUNT.fullmatch(text.strip())
    return amount is not None and read_unit(amount[1]) is not None


def _names_vehicle_and_part(turned: Turn) -> bool:
    reading = turned.reading
    vehicle = reading.vehicle.state != "none" or bool(reading.years and reading.asks)
    return reading.kind == "question" and vehicle and isinstance(turned.outcome, (Answer, Choose, Gap))
