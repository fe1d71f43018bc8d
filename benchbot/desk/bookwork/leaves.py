"""A page of the curator's: what it shows, what its buttons choose from, and the entry that may be written on it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any, TypeVar

from benchbot.conversation.conversation import Conversation
from benchbot.curation.two_people import name_of
from benchbot.desk.bookwork.wording import BookWording, bookwords_of
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button, Sheet
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.people.terms import Decision
from benchbot.places import Home
from benchbot.records import cards, expected
from benchbot.records.cards import Card
from benchbot.records.expected import Expected
from benchbot.records.record import Record
from benchbot.reply.reply import Block
from benchbot.vocabulary.terms import Vocabulary

One = TypeVar("One")
KIND = "work"
# A curator goes to look for a page and comes back to the same message.
KEPT, AWAITED = timedelta(days=7), timedelta(hours=2)
BUTTONS_AT_MOST = 8
A_PAGE = 5
_LABEL_AT_MOST, _LINE_AT_MOST = 40, 300


@dataclass(frozen=True, slots=True)
class Leaf:
    """body: what its buttons choose from, as JSON-able values. awaits: what the next plain message is an entry for."""

    blocks: tuple[Block, ...]
    buttons: tuple[Button, ...] = ()
    body: dict[str, Any] = field(default_factory=dict)
    awaits: Expected | None = None


@dataclass(frozen=True, slots=True)
class Shop:
    """What every page works with."""

    record: Record
    people: People
    conversation: Conversation
    home: Home

    @property
    def vocabulary(self) -> Vocabulary:
        return self.conversation.lexicon.vocabulary

    def words(self, handling: Handling) -> BookWording:
        return bookwords_of(handling.asker.language)

    def words_in(self, language: str) -> BookWording:
        return bookwords_of(language)

    def may(self, handling: Handling, action: Action) -> Decision:
        """By the role at any of their locations: the book is the same for all."""
        return handling.asker.may_anywhere(action, handling.incoming.private)

    def name_of(self, person: str) -> str:
        return name_of(self.record, person) or person


def post(handling: Handling, leaf: Leaf) -> None:
    """As a message of its own. Inside a transaction that notes that it was handled."""
    sheet = Sheet(leaf.blocks, leaf.buttons)
    card = handling.card(KIND, _body(leaf, sheet), handling.incoming.message, KEPT)
    _await(handling, leaf)
    handling.post(sheet, card)


def turn(handling: Handling, card: Card, leaf: Leaf) -> None:
    """In place of what the card shows."""
    sheet = Sheet(leaf.blocks, leaf.buttons)
    body = _body(leaf, sheet)
    _await(handling, leaf)
    cards.change(handling.record, card.number, KIND, body, handling.now + KEPT)
    if body["shown"] != card.body.get("shown"):
        handling.change(sheet, card.number, handling.incoming.message)


def _body(leaf: Leaf, sheet: Sheet) -> dict[str, Any]:
    plain = json.dumps(sheet.to_plain(), ensure_ascii=False, sort_keys=True)
    return leaf.body | {"shown": hashlib.sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()[:16]}


def _await(handling: Handling, leaf: Leaf) -> None:
    person = handling.asker.person
    if leaf.awaits is None:
        expected.taken(handling.record, handling.chat, person)
    else:
        expected.put(handling.record, handling.chat, person, leaf.awaits, handling.now + AWAITED)


def turned(
    whole: Sequence[One], about: Sequence[str], code: str, before: str, after: str
) -> tuple[list[One], list[Button], int]:
    """What stands on a page, the buttons to its neighbours, and how many stand on the pages before."""
    last = max(0, (len(whole) - 1) // A_PAGE)
    at = min((number_in(about[0]) if about else 0) or 0, last)
    buttons = [Button(before, f"{code}.{at - 1}")] if at else []
    if at < last:
        buttons.append(Button(after, f"{code}.{at + 1}"))
    return list(whole[at * A_PAGE : (at + 1) * A_PAGE]), buttons, at * A_PAGE


def line(text: str, kind: str = "note") -> Block:
    """A line of text, cut where it is too long for a phone."""
    return Block("question" if kind == "question" else "note", shortened(text, _LINE_AT_MOST))


def lines(texts: Iterable[str]) -> list[Block]:
    return [line(text) for text in texts]


def label(text: str) -> str:
    """The text as a button bears it."""
    return shortened(text, _LABEL_AT_MOST)


def shortened(text: str, most: int) -> str:
    """On one line, with an ellipsis for what is left out."""
    flat = " ".join(text.split())
    return flat if len(flat) <= most else f"{flat[: most - 1].rstrip()}…"
