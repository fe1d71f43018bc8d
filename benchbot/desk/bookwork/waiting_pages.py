"""The rows that wait for a second person, a few at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.curation.approving import waiting
from benchbot.desk.bookwork.leaves import Leaf, Shop, line
from benchbot.desk.bookwork.row_words import subject_of
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import subject_words

ROWS_A_PAGE = 5


@dataclass(frozen=True, slots=True)
class WaitingPages:
    """Its buttons choose a row from the card's body."""

    shop: Shop

    def all(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """What somebody handed in; what tables left as drafts is a button away."""
        return self._page(handling, about, "a", False)

    def imported(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """What came as a draft in a table: often many, and by nobody who waits."""
        return self._page(handling, about, "ai", True)

    def _page(self, handling: Handling, about: Sequence[str], code: str, imported: bool) -> Leaf:
        words = self.shop.words(handling)
        # the latest first
        whole = waiting(self.shop.record)[::-1]
        found = [one for one in whole if one.imported == imported]
        head = words.waiting_imported if imported else words.waiting_head
        page = number_in(about[0]) if about else 0
        last = max(0, (len(found) - 1) // ROWS_A_PAGE)
        at = min(page or 0, last)
        first = at * ROWS_A_PAGE
        blocks = [Block("question", head if found else words.waiting_none)]
        buttons: list[Button] = []
        specs: list[str] = []
        for number, one in enumerate(found[first : first + ROWS_A_PAGE], first + 1):
            what = subject_words(subject_of(one.cells), wording_of(handling.asker.language))
            text = words.waiting_line.format(
                number=number, spec=one.spec, name=one.name, what=what, value=one.cells["value"]
            )
            blocks.append(line(text))
            buttons.append(Button(str(number), f"a1.{len(specs)}"))
            specs.append(one.spec)
        if at:
            buttons.append(Button(words.previous_page, f"{code}.{at - 1}"))
        if at < last:
            buttons.append(Button(words.next_page, f"{code}.{at + 1}"))
        drafts = sum(one.imported for one in whole)
        if drafts and not imported and not at:
            buttons.append(Button(words.book_imported.format(count=drafts), "ai.0"))
        return Leaf(tuple(blocks), (*buttons, Button(words.back, "a.0" if imported else "b")), {"specs": specs})
