"""Filling a row at the phone: one field a message, a look at it as the technician will see it, and handing it in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.checking import CONCERNS
from benchbot.curation import fill_flow as flow
from benchbot.curation import gaps
from benchbot.curation.fill_flow import Refused, Taken
from benchbot.curation.fill_steps import ASKED, FIELDS, Unfit, next_field
from benchbot.desk.bookwork.field_pages import FieldPages
from benchbot.desk.bookwork.leaves import Leaf, Shop, line
from benchbot.desk.bookwork.row_words import day_and_time, holds, summary
from benchbot.desk.bookwork.whole_pages import REASON, WholePages
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.records.expected import Expected
from benchbot.records.fillings import Filling
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class FillPages:
    """Each page takes what its button is about: the number of the filling, and the field. The row lies on record.

    A page is made from the record alone, so that it is the same after a restart, by a press or by typing.
    """

    shop: Shop
    fields: FieldPages
    ready: WholePages

    @classmethod
    def of(cls, shop: Shop) -> FillPages:
        return cls(shop, FieldPages(shop), WholePages(shop))

    def begin(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """For a group of gaps."""
        number = number_in(about[0]) if about else None
        group = None if number is None else gaps.group(self.shop.record, number)
        if group is None:
            return self._closed(handling)
        person, location = handling.asker.person, handling.asker.manner.location
        return self._begun(
            handling, flow.begin(self.shop.record, group, self.shop.vocabulary, person, location, handling.now)
        )

    def begin_row(self, handling: Handling, spec: str) -> Leaf:
        """For a row on record that is to be corrected or looked at again."""
        person, location = handling.asker.person, handling.asker.manner.location
        return self._begun(handling, flow.begin_row(self.shop.record, spec, person, location, handling.now))

    def take_over(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        number = number_in(about[0]) if about else None
        if number is None:
            return self._closed(handling)
        person, location = handling.asker.person, handling.asker.manner.location
        return self._begun(handling, flow.take_over(self.shop.record, number, person, location, handling.now))

    def go_on(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """What is asked next, or the look at the whole row."""
        held = self._mine(handling, about)
        return held if isinstance(held, Leaf) else self.next(handling, held)

    def ask_again(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """One field, with what stands there now."""
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        field = about[1] if len(about) > 1 else ""
        return self.fields.field(handling, held, field) if field in FIELDS else self.next(handling, held)

    def back(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The field that was asked before this one."""
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        field = about[1] if len(about) > 1 else ""
        at = ASKED.index(field) if field in ASKED else len(ASKED)
        there = [one for one in ASKED[:at] if holds(held.fields.cells, one)]
        return self.fields.field(handling, held, there[-1]) if there else self.next(handling, held)

    def choose(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """A button of a closed list."""
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        field, at = (about[1], number_in(about[2])) if len(about) > 2 else ("", None)
        ways = body.get("ways", [])
        if body.get("field") != field or at is None or not 0 <= at < len(ways):
            return self.next(handling, held)
        return self.entered(handling, held, field, str(ways[at]))

    def empty(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        return self.entered(handling, held, about[1] if len(about) > 1 else "", "")

    def entered(self, handling: Handling, held: Filling, field: str, text: str) -> Leaf:
        """The next page once a field was entered, or the same field with what is wrong."""
        done = flow.put(self.shop.record, held, field, text, self.shop.vocabulary, handling.now)
        if isinstance(done, Unfit):
            return self.fields.field(handling, held, field, done)
        return self._closed(handling, done) if isinstance(done, Refused) else self.next(handling, done)

    def next(self, handling: Handling, held: Filling) -> Leaf:
        asking = flow.asking(self.shop.record, held, self.shop.vocabulary, handling.now.date())
        return self.fields.ask(handling, asking) if asking.field else self.whole(handling, held)

    def whole(self, handling: Handling, held: Filling) -> Leaf:
        """The row as a technician will see it, once nothing is missing."""
        if next_field(held.fields, self.shop.vocabulary) or held.fields.half:
            return self.next(handling, held)
        return self.ready.whole(handling, held)

    def submit(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Hands it in, asks why a warning may pass, or shows what stands in the way."""
        held = self._mine(handling, about)
        return held if isinstance(held, Leaf) else self.ready.handed_in(handling, held)

    def change(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Every field with what stands there, a few buttons at a time."""
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        page = number_in(about[1]) if len(about) > 1 else 0
        return self.fields.change(handling, held, page or 0)

    def more(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """What is asked of nobody and can be added."""
        held = self._mine(handling, about)
        return held if isinstance(held, Leaf) else self.fields.more(handling, held)

    def leave(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words = self.shop.words(handling)
        return Leaf((Block("question", words.left),), (Button(words.back, "g.0"),))

    def drop(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        words = self.shop.words(handling)
        buttons = (Button(words.drop_yes, f"fy.{held.number}"), Button(words.back, f"fo.{held.number}"))
        return Leaf((Block("question", words.drop_sure),), buttons)

    def dropped(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        held = self._mine(handling, about)
        if isinstance(held, Leaf):
            return held
        refused = flow.drop(self.shop.record, held, handling.asker.person, handling.now)
        if refused is not None:
            return self._closed(handling, refused)
        words = self.shop.words(handling)
        return Leaf((Block("question", words.dropped),), (Button(words.back, "g.0"),))

    def written(self, handling: Handling, entry: Expected, text: str) -> Leaf:
        """A field, its unit or a reason, as it was typed."""
        held = self._mine(handling, [str(entry.body["filling"])])
        if isinstance(held, Leaf):
            return held
        if entry.what == REASON:
            concern = next((one for one in CONCERNS if one == entry.body["concern"]), None)
            return self.ready.reasoned(handling, held, concern, text) if concern else self.whole(handling, held)
        return self.entered(handling, held, str(entry.body["field"]), text)

    def would_take(self, handling: Handling, entry: Expected, text: str) -> bool:
        """Whether the text is what the entry waits for; looks only."""
        held = flow.mine(self.shop.record, int(entry.body["filling"]), handling.asker.person)
        if isinstance(held, Refused) or entry.what == REASON:
            return True
        field = str(entry.body["field"])
        return flow.fits(held, field, text, self.shop.vocabulary, handling.now.date())

    def summary(self, held: Filling, language: str) -> str:
        """What the row is about, in a line."""
        return summary(held.fields.cells, held.number, language)

    def _begun(self, handling: Handling, begun: Filling | Taken | Refused) -> Leaf:
        words = self.shop.words(handling)
        if isinstance(begun, Taken):
            there = begun.filling
            text = words.taken.format(name=self.shop.name_of(there.author), at=day_and_time(there.at))
            buttons = (Button(words.take_over, f"ft.{there.number}"), Button(words.back, "g.0"))
            return Leaf((Block("question", text), line(self.summary(there, handling.asker.language))), buttons)
        return self._closed(handling, begun) if isinstance(begun, Refused) else self.next(handling, begun)

    def _mine(self, handling: Handling, about: Sequence[str]) -> Filling | Leaf:
        number = number_in(about[0]) if about else None
        if number is None:
            return self._closed(handling)
        held = flow.mine(self.shop.record, number, handling.asker.person)
        return self._closed(handling, held) if isinstance(held, Refused) else held

    def _closed(self, handling: Handling, refused: Refused | None = None) -> Leaf:
        words = self.shop.words(handling)
        text = words.gone if refused is None else words.not_open
        if refused is not None and refused.why == "not yours" and refused.filling is not None:
            text = words.taken_over.format(name=self.shop.name_of(refused.filling.author))
        elif refused is not None and refused.why == "handed in" and refused.filling is not None:
            text = words.handed_in.format(spec=refused.filling.spec, name=self.shop.name_of(refused.filling.author))
            look = Button(words.look, "a1")
            return Leaf((Block("question", text),), (look, Button(words.back, "g.0")), {"spec": refused.filling.spec})
        return Leaf((Block("question", text),), (Button(words.back, "g.0"),))
