"""A row as the curator's pages say it: its cells, its vehicle, what it is about, and what the checks found of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from benchbot.checking import Found
from benchbot.curation.fill_steps import Unfit
from benchbot.desk.bookwork.leaves import line
from benchbot.desk.bookwork.wording import BookWording
from benchbot.outcomes import Subject
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import (
    component_words,
    position_words,
    property_words,
    qualifier_words,
    subject_words,
)
from benchbot.specs.scope import read_scope


def found_blocks(found: Sequence[Found], words: BookWording) -> list[Block]:
    """What the checks found, a line each, with what would be right."""
    blocks = []
    for one in found:
        text = words.found_line.format(
            level=words.levels[one.level], concern=words.concerns[one.concern], told=one.told
        )
        blocks.append(line(text))
        if one.mend:
            blocks.append(line(words.found_mend.format(mend=one.mend)))
    return blocks


def unfit_block(unfit: Unfit, words: BookWording) -> Block:
    """What is wrong with an entry, and what would be right."""
    text = words.unfit or words.unfit_line
    return line(text.format(wrong=unfit.wrong, mend=unfit.mend, field=words.names.get(unfit.field, unfit.field)))


def spoken(field: str, text: str, language: str) -> str:
    """A cell as a person reads it."""
    wording = wording_of(language)
    if field == "component":
        return component_words(text, wording)
    if field == "position":
        return position_words(text, wording)
    if field == "property":
        return property_words(text, wording)
    if field == "only_if" and text:
        return ", ".join(qualifier_words(key, value, wording) for key, value in read_scope(text).pairs)
    if field == "condition":
        return wording.names.conditions.get(text.casefold(), text)
    if field == "reuse":
        return wording.reuse.get(text, text)
    return text


def vehicle_of(cells: Mapping[str, str], language: str) -> str:
    """Years, make, model and what the row is limited to."""
    first, last = cells["year_from"], cells["year_to"]
    years = first if first == last else f"{first}-{last}"
    only = spoken("only_if", cells.get("only_if", ""), language)
    return ", ".join(part for part in (f"{years} {cells['make']} {cells['model']}", only) if part)


def day_and_time(at: str) -> str:
    """A moment of the record, as far as minutes, UTC."""
    return at[:16].replace("T", " ")


def subject_of(cells: Mapping[str, str]) -> Subject:
    """What a row is about, as far as its cells tell."""
    years = tuple(int(cells[name]) for name in ("year_from", "year_to") if cells.get(name))
    return Subject(
        make=cells.get("make", ""),
        model=cells.get("model", ""),
        years=tuple(dict.fromkeys(years)) if len(set(years)) < 2 else tuple(range(years[0], years[-1] + 1)),
        only_if=read_scope(cells.get("only_if", "")).pairs,
        component=cells.get("component", ""),
        position=cells.get("position", ""),
        property=cells.get("property", ""),
    )


def holds(cells: Mapping[str, str], field: str) -> bool:
    """Whether something was entered in the field, be it that nothing is printed."""
    return "year_from" in cells if field == "years" else field in cells


def summary(cells: Mapping[str, str], number: int, language: str) -> str:
    """What a row is about, in a line; the number of its filling as long as nothing says so."""
    return subject_words(subject_of(cells), wording_of(language)) or f"#{number}"
