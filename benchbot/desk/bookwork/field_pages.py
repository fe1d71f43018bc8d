"""The fields of a row at the phone: one of them asked for, all of them to choose from, and those that may be added."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from benchbot.curation import fill_flow as flow
from benchbot.curation.fill_flow import Asking
from benchbot.curation.fill_steps import ASKED, FIELDS, MORE, Unfit
from benchbot.desk.bookwork.leaves import BUTTONS_AT_MOST, Leaf, Shop, label, line
from benchbot.desk.bookwork.row_words import holds, spoken, summary, unfit_block
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.records.expected import Expected
from benchbot.records.fillings import Filling
from benchbot.reply.reply import Block

ENTRY = "fill"
_FIELDS_A_PAGE = 5


@dataclass(frozen=True, slots=True)
class FieldPages:
    """Each page awaits what is typed for its field, or shows a button for each field."""

    shop: Shop

    def field(self, handling: Handling, held: Filling, field: str, unfit: Unfit | None = None) -> Leaf:
        """One field, with what stands there now and with what was wrong of an entry."""
        today = handling.now.date()
        if field == "unit" or not field:
            asking = flow.asking(self.shop.record, held, self.shop.vocabulary, today)
        else:
            asking = flow.asking(self.shop.record, held, self.shop.vocabulary, today, field)
        return self.ask(handling, asking, unfit)

    def ask(self, handling: Handling, asking: Asking, unfit: Unfit | None = None) -> Leaf:
        """What is asked next: the ways to choose from, and how to write it."""
        words, held, field = self.shop.words(handling), asking.filling, asking.field
        cells = held.fields.cells
        ways = list((unfit.ways if unfit else ()) or asking.ways)
        blocks = [line(summary(cells, held.number, handling.asker.language))]
        if unfit is not None:
            blocks.append(unfit_block(unfit, words))
        blocks.append(line(words.ask[field].format(half=asking.half), "question"))
        if words.how[field]:
            blocks.append(line(words.how[field]))
        number, ends = held.number, []
        standing = self._shown(field, cells, handling) if holds(cells, field) else ""
        if standing:
            blocks.append(line(words.now_line.format(value=standing)))
            ends.append(Button(label(words.keep_it.format(value=standing)), f"fo.{number}"))
        if asking.may_be_empty:
            empty = words.not_printed if field in ("second_value", "thread", "class") else words.none_of_it
            ends.append(Button(empty, f"fe.{number}.{field}"))
        if field in ASKED and any(holds(cells, one) for one in ASKED[: ASKED.index(field)]):
            ends.append(Button(words.back, f"fb.{number}.{field}"))
        elif field not in ASKED and field != "unit":
            ends.append(Button(words.back, f"fo.{number}"))
        ends.append(Button(words.leave, f"fl.{number}"))
        ways = ways[: BUTTONS_AT_MOST - len(ends)]
        buttons = [
            Button(label(self._way(field, way.text, handling)), f"fv.{number}.{field}.{at}")
            for at, way in enumerate(ways)
        ]
        body = {"field": field, "ways": [way.text for way in ways]}
        awaits = Expected(ENTRY, {"filling": number, "field": field})
        return Leaf(tuple(blocks), (*buttons, *ends), body, awaits)

    def change(self, handling: Handling, held: Filling, page: int) -> Leaf:
        """Every field with what stands there, a few buttons at a time."""
        words, cells = self.shop.words(handling), held.fields.cells
        there = [one for one in FIELDS if holds(cells, one)]
        last = max(0, (len(there) - 1) // _FIELDS_A_PAGE)
        at = min(page, last)
        shown = there[at * _FIELDS_A_PAGE : (at + 1) * _FIELDS_A_PAGE]
        texts = [f"{words.names[one]}: {self._shown(one, cells, handling) or '-'}" for one in shown]
        buttons = [Button(words.names[one], f"fq.{held.number}.{one}") for one in shown]
        if at:
            buttons.append(Button(words.previous_page, f"fc.{held.number}.{at - 1}"))
        if at < last:
            buttons.append(Button(words.next_page, f"fc.{held.number}.{at + 1}"))
        buttons.append(Button(words.back, f"fp.{held.number}"))
        return Leaf((Block("question", words.change_which), *map(line, texts)), tuple(buttons))

    def more(self, handling: Handling, held: Filling) -> Leaf:
        """What is asked of nobody and can be added."""
        words = self.shop.words(handling)
        buttons = [Button(words.names[one], f"fq.{held.number}.{one}") for one in MORE]
        buttons.append(Button(words.back, f"fp.{held.number}"))
        return Leaf((Block("question", words.add_which),), tuple(buttons))

    def _way(self, field: str, text: str, handling: Handling) -> str:
        words = self.shop.words(handling)
        if field == "only_if" and not text:
            return words.everyone
        return spoken(field, text, handling.asker.language) or words.none_of_it

    def _shown(self, field: str, cells: Mapping[str, str], handling: Handling) -> str:
        if field == "years":
            first, last = cells["year_from"], cells["year_to"]
            return first if first == last else f"{first}-{last}"
        text = cells.get(field, "")
        if field == "only_if" and not text:
            return self.shop.words(handling).everyone
        return spoken(field, text, handling.asker.language)
