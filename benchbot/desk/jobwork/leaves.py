"""A page of a job: what it shows, what its buttons choose from, and the entry that may be written on it."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field, replace
from datetime import timedelta
from typing import Any

from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button, Sheet
from benchbot.records import cards, expected
from benchbot.records.cards import Card
from benchbot.records.expected import Expected
from benchbot.reply.reply import Block, Kind

KIND, ENTRY = "job", "job entry"
# A job that rests over a weekend is gone on with on the same message; an entry is written within the shift.
KEPT, AWAITED = timedelta(days=7), timedelta(hours=10)


@dataclass(frozen=True, slots=True)
class Leaf:
    """body: what its buttons choose from, as JSON-able values; `job` among them is the number of the job.

    awaits: what the next plain message is an entry for; None when it is none.
    """

    blocks: tuple[Block, ...]
    buttons: tuple[Button, ...] = ()
    body: dict[str, Any] = field(default_factory=dict)
    awaits: dict[str, Any] | None = None

    def below(self, *blocks: Block) -> Leaf:
        """The same below these."""
        return replace(self, blocks=(*blocks, *self.blocks))


def post(handling: Handling, leaf: Leaf) -> None:
    """As a message of its own. Inside a transaction that notes that it was handled."""
    sheet = _sheet(leaf, 1)
    card = handling.card(KIND, leaf.body | {"turn": 1, "shown": _digest(sheet)}, handling.incoming.message, KEPT)
    _await(handling, leaf, card)
    handling.post(sheet, card)


def post_beside(handling: Handling, leaf: Leaf) -> None:
    """Below an answer, for which no entry that is awaited is given up."""
    sheet = _sheet(leaf, 1)
    card = handling.card(KIND, leaf.body | {"turn": 1, "shown": _digest(sheet)}, kept=KEPT)
    handling.post(sheet, card)


def turn(handling: Handling, card: Card, leaf: Leaf) -> None:
    """In place of what the card shows. Each page counts one up, so that no button is pressed on a page that is gone."""
    number = int(card.body["turn"]) + 1
    sheet = _sheet(leaf, number)
    shown = _digest(sheet)
    _await(handling, leaf, card.number)
    cards.change(handling.record, card.number, KIND, leaf.body | {"turn": number, "shown": shown}, handling.now + KEPT)
    if shown != card.body.get("shown"):
        handling.change(sheet, card.number, handling.incoming.message)


def line(text: str, kind: Kind = "note") -> Block:
    return Block(kind, text)


def _sheet(leaf: Leaf, number: int) -> Sheet:
    return Sheet(leaf.blocks, tuple(replace(one, code=f"{number}.{one.code}") for one in leaf.buttons))


def _digest(sheet: Sheet) -> str:
    plain = json.dumps(sheet.to_plain(), ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()[:16]


def _await(handling: Handling, leaf: Leaf, card: int) -> None:
    person = handling.asker.person
    if leaf.awaits is None:
        expected.taken(handling.record, handling.chat, person)
    else:
        entry = Expected(ENTRY, leaf.awaits | {"card": card})
        expected.put(handling.record, handling.chat, person, entry, handling.now + AWAITED)
