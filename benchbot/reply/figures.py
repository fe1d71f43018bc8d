"""Puts one spec row into blocks: the value as entered, with what must be known before it is used."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence

from benchbot.book.rows import SpecRow
from benchbot.quantities import Presentation
from benchbot.reply.reply import Block
from benchbot.reply.subjects import property_words
from benchbot.reply.wording import Wording

# "30 N·m + 90 deg" and "132 lb-ft; rotate; 263 lb-ft", but not "100 +/- 5 N·m".
_STAGES = re.compile(r"\+(?!\s*/)|;")


def presented(row: SpecRow) -> Presentation:
    """The row's value and its conversions, as they were reckoned when the book was made."""
    return Presentation.from_plain(json.loads(row.shown))


def value_line(
    row: SpecRow, units: tuple[str, ...], label: str, part: int, wording: Wording, beside: bool = False
) -> list[Block]:
    """Label, what changes the doing, the value in its source unit, then the conversions, the asked unit first."""
    shown = presented(row)
    blocks = [Block("label", wording.one_of_several.format(what=label), part)] if label else []
    flags = flag_words(row, wording)
    if flags:
        blocks.append(Block("condition", f"{flags}:", part, beside=True))
    blocks.append(Block("value", shown.source, part, beside=True))
    if shown.second:
        blocks.append(Block("value", wording.printed_too.format(text=shown.second), part, beside=True))
    texts = first_conversions(shown, units)
    if texts:
        blocks.append(Block("converted", wording.converted.format(texts=", ".join(texts)), part, beside=True))
    first = blocks[0]
    return [Block(first.kind, first.text, part, beside), *blocks[1:]]


def flag_words(row: SpecRow, wording: Wording) -> str:
    """What changes the doing: a new fastener, the condition of the threads, at ride height."""
    handling = wording.names.handling.get(row.reuse.casefold(), row.reuse)
    reuse = "" if row.reuse == "reuse" else wording.reuse.get(row.reuse, handling)
    return ", ".join(word for word in (reuse, condition_words(row.condition, wording)) if word)


def condition_words(condition: str, wording: Wording) -> str:
    """The condition, or as the book has it where this language has no word for a part of it: half a one misleads."""
    known = wording.names.conditions
    pieces = condition.casefold().split(", ")
    return ", ".join(known[piece] for piece in pieces) if all(piece in known for piece in pieces) else condition


def first_conversions(shown: Presentation, units: tuple[str, ...]) -> list[str]:
    """The conversions for the first line: the units liked best, then the usual ones; what the source prints is none."""
    asked = [shown.converted[unit] for unit in units if unit in shown.converted]
    texts = [*asked, *shown.primary]
    return [text for text in dict.fromkeys(texts) if text not in (shown.second, shown.source)]


def before_lines(row: SpecRow, part: int, wording: Wording) -> list[Block]:
    """What else is to be known before tightening: stages, tightening order, and that a fastener may be used again."""
    blocks = []
    if row.property == "torque" and _STAGES.search(row.value):
        blocks.append(Block("before", wording.stages, part))
    if row.order:
        order = wording.names.orders.get(row.order.casefold(), row.order)
        blocks.append(Block("before", wording.order.format(order=order), part))
    if row.reuse == "reuse":
        blocks.append(Block("before", wording.reuse_line.format(reuse=wording.reuse["reuse"]), part))
    return blocks


def source_lines(rows: Sequence[SpecRow], part: int, wording: Wording) -> list[Block]:
    """Where the rows come from and who checked them; of which figure, where rows of one part differ in that."""
    alike = len({(row.source, row.source_ref, row.checked_by, row.checked_on, row.one_person) for row in rows}) == 1
    return [_source_line(row, part, "" if alike else row.property, wording) for row in (rows[:1] if alike else rows)]


def _source_line(row: SpecRow, part: int, name: str, wording: Wording) -> Block:
    what = property_words(name, wording)
    form = wording.source_of_one if what else wording.source
    source = ", ".join(word for word in (row.source, row.source_ref) if word)
    who = checked_by_words(row, wording)
    return Block("source", form.format(what=what, source=source, who=who, when=row.checked_on), part)


def checked_by_words(row: SpecRow, wording: Wording) -> str:
    """Who checked the row, and that nobody else has where it is so."""
    return wording.one_person.format(who=row.checked_by) if row.one_person else row.checked_by


def more_lines(row: SpecRow, units: tuple[str, ...], label: str, wording: Wording) -> list[Block]:
    """What a technician seldom needs: further units, thread and class, where the row holds."""
    shown = presented(row)
    what = f"{label}: " if label else ""
    first = {*first_conversions(shown, units), shown.second}
    others = [text for text in dict.fromkeys(shown.converted.values()) if text not in first]
    blocks = []
    if others:
        blocks.append(Block("converted", wording.other_units.format(what=what, texts=", ".join(others))))
    if row.thread:
        blocks.append(Block("note", wording.thread.format(what=what, thread=row.thread)))
    if row.strength_class:
        blocks.append(Block("note", wording.strength_class.format(what=what, strength_class=row.strength_class)))
    years = str(row.year_from) if row.year_from == row.year_to else f"{row.year_from}-{row.year_to}"
    held = wording.row.format(what=what, spec=row.spec, revision=row.revision, years=years)
    blocks.append(Block("note", held))
    if row.review_by:
        blocks.append(Block("note", wording.review.format(what=what, when=row.review_by)))
    return [Block(block.kind, block.text[:1].upper() + block.text[1:]) for block in blocks]


def short_value(row: SpecRow, units: tuple[str, ...], wording: Wording) -> str:
    """The value on a lock screen: condition, value, unit, first conversions."""
    shown = presented(row)
    flags = flag_words(row, wording)
    texts = first_conversions(shown, units)
    beside = wording.short_converted.format(texts=", ".join(texts)) if texts else ""
    return (f"{flags}: " if flags else "") + shown.source + beside
