"""A row on its way from a gap into the book: begun, filled in field by field, submitted; the same for every channel."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Literal

from benchbot.book.reader import Book
from benchbot.checking import Concern, Found
from benchbot.curation import gaps
from benchbot.curation.approving import state_of
from benchbot.curation.fill_steps import FIELDS, Unfit, Way, fields_of, next_field, read_field, ways_of
from benchbot.curation.gaps import Group
from benchbot.curation.submitting import Looked, NotOpen, RowRefused, Submitted, look_over, submit
from benchbot.errors import TableError
from benchbot.records import fillings, revisions
from benchbot.records.fillings import Fields, Filling
from benchbot.records.record import Record
from benchbot.specs.cell import shielded
from benchbot.vocabulary.terms import Vocabulary

# A new property or figure makes these mean something else.
_HANGS_ON: dict[str, tuple[str, ...]] = {
    "component": ("position", "property", "value", "second_value", "thread", "class"),
    "property": ("value", "second_value", "thread", "class"),
    "value": ("second_value",),
    "thread": ("class",),
}
_GONE = ("dropped", "withdrawn")
# The fields of a row by the column that a fault names.
_FIELD_OF = {"year_from": "years", "year_to": "years"}
# What a row that is checked again is asked anew, with what stands there now to choose.
_READ_AGAIN = ("value", "second_value", "source", "source_ref", "review_by")


@dataclass(frozen=True, slots=True)
class Taken:
    """Somebody is at it already."""

    filling: Filling


@dataclass(frozen=True, slots=True)
class Refused:
    """What was begun cannot go on: why is "closed" (submitted or dropped), "not yours", "no such row", "a word",
    "handed in" (a row for it waits for approval or for the next book)."""

    why: Literal["closed", "not yours", "no such row", "a word", "handed in"]
    filling: Filling | None = None


@dataclass(frozen=True, slots=True)
class Asking:
    """What is asked next. field: a field of the row, "unit" of `half`, or "" when every field was asked.

    half: the figure that waits for its unit. unfit: what was wrong with the last answer. warning: what a reason is
    asked for, and then `field` is its concern.
    """

    filling: Filling
    field: str
    ways: tuple[Way, ...] = ()
    may_be_empty: bool = False
    half: str = ""
    unfit: Unfit | None = None
    warning: Found | None = None


def begin(
    record: Record, group: Group, vocabulary: Vocabulary, author: str, location: int | None, now: datetime
) -> Filling | Taken | Refused:
    """Fills the row that a group of gaps asks for; goes on with it when this person has begun already."""
    if group.kind == "word":
        # What nobody knows the meaning of cannot be a row before somebody says what it means.
        return Refused("a word")
    with record.writing():
        there = fillings.open_for(record, group.meanings)
        if there is not None:
            return there if there.author == author else Taken(there)
        before = _handed_in(record, group)
        if before is not None:
            return Refused("handed in", before)
        fields = fields_of(group.subject, vocabulary)
        made = fillings.put(record, group.number, "", author, location, fields, now)
        if group.state != "being filled":
            gaps.set_state(record, group, "being filled", "", author, now)
        return made


def handed_in(record: Record, group: Group) -> str:
    """The id of the row that was handed in for a group and waits for approval or for the next book; else ""."""
    before = _handed_in(record, group)
    return "" if before is None else before.spec


def _handed_in(record: Record, group: Group) -> Filling | None:
    before = fillings.handed_in_for(record, group.meanings) if group.state == "being filled" else None
    row = None if before is None else revisions.newest(record, before.spec)
    # A change that was dropped is nothing that anybody waits for, and neither is a row that was withdrawn.
    return before if row is not None and state_of(record, row) not in _GONE else None


def begin_row(record: Record, spec: str, author: str, location: int | None, now: datetime) -> Filling | Taken | Refused:
    """Corrects or checks a row that is on record: what its source page says is to be read there again."""
    with record.writing():
        there = fillings.open_for(record, (), spec)
        if there is not None:
            return there if there.author == author else Taken(there)
        cells = fillings.standing_cells(record, spec)
        if cells is None:
            return Refused("no such row")
        years = int(cells["year_from"]), int(cells["year_to"])
        kept = {name: cell for name, cell in cells.items() if name not in _READ_AGAIN}
        fields = Fields(kept, asked_years=years, asked_only_if=cells["only_if"])
        return fillings.put(record, None, spec, author, location, fields, now)


def take_over(record: Record, number: int, author: str, location: int | None, now: datetime) -> Filling | Refused:
    """Another person goes on with it, with everything entered so far."""
    with record.writing() as store:
        there = fillings.one(record, number)
        if there is None or fillings.hold(store, number, there.author) is None:
            return Refused("closed", there)
        fillings.give(record, number, author, location, now)
        return replace(there, author=author, location=location)


def mine(record: Record, number: int, author: str) -> Filling | Refused:
    """The open one of that number, when this person has it."""
    there = fillings.one(record, number)
    if there is None or there.state != "open":
        return Refused("closed", there)
    return there if there.author == author else Refused("not yours", there)


def drop(record: Record, filling: Filling, author: str, now: datetime) -> Refused | None:
    """It is given up; what it was for is open again."""
    with record.writing() as store:
        if fillings.hold(store, filling.number, author) is None:
            return _refused(record, filling.number, author)
        fillings.set_state(record, filling.number, "dropped", now)
        group = None if filling.meaning is None else gaps.group(record, filling.meaning)
        if group is not None and group.state == "being filled":
            gaps.set_state(record, group, "open", "", author, now)
    return None


def asking(record: Record, filling: Filling, vocabulary: Vocabulary, today: date, field: str = "") -> Asking:
    """What to ask next, or how to ask for one field again."""
    fields = filling.fields
    name = field or next_field(fields, vocabulary)
    half = next(iter(fields.half.items()), None)
    if half is not None and (not field or field == half[0]):
        unfit = read_field(half[0], half[1], fields.cells, vocabulary, today)
        if isinstance(unfit, Unfit) and unfit.half:
            return Asking(filling, "unit", unfit.ways, half=unfit.half)
    if not name:
        return Asking(filling, "")
    make, model = fields.cells.get("make", ""), fields.cells.get("model", "")
    scopes = fillings.scopes_of(record, make, model) if name == "only_if" else ()
    sources = fillings.last_sources(record, filling.author, make) if name == "source" else ()
    before = fillings.standing_cells(record, filling.spec) if filling.spec and name in _READ_AGAIN else None
    standing = (Way(before[name], default=True),) if before and before[name] else ()
    offered = ways_of(name, fields, vocabulary, scopes, sources, today)
    ways = (*standing, *(way for way in offered if not standing or way.text != standing[0].text))
    empty = not isinstance(read_field(name, "", fields.cells, vocabulary, today), Unfit)
    return Asking(filling, name, ways, empty and not any(way.text == "" for way in ways))


def put(
    record: Record, filling: Filling, field: str, text: str, vocabulary: Vocabulary, now: datetime
) -> Filling | Unfit | Refused:
    """Enters one field, or the unit of a figure that waits for it; on record before it returns.

    A figure without its unit is kept, and what is asked next is the unit. Refused: it was handed in or dropped since,
    or somebody else has it.
    """
    with record.writing() as store:
        there = fillings.hold(store, filling.number, filling.author)
        if there is None:
            return _refused(record, filling.number, filling.author)
        return _put(record, there, field, text, vocabulary, now)


def _put(
    record: Record, filling: Filling, field: str, text: str, vocabulary: Vocabulary, now: datetime
) -> Filling | Unfit | Refused:
    fields = filling.fields
    if field == "unit":
        whole = _with_unit(fields, text, vocabulary, now.date())
        if whole is None:
            return Unfit(field, "no figure waits for its unit", "write the value with its unit")
        field, text = whole
    if field not in FIELDS:
        return Unfit(field, f"{field!r} is no field of a row", f"the fields are {', '.join(FIELDS)}")
    found = read_field(field, text, fields.cells, vocabulary, now.date())
    if isinstance(found, Unfit):
        if not found.half:
            return found
        return _keep(record, filling, replace(fields, half={field: text.strip()}), now)
    cells = dict(fields.cells)
    changed = any(cells.get(name) != cell for name, cell in found.items())
    cells |= found
    if changed:
        for name in _HANGS_ON.get(field, ()):
            cells.pop(name, None)
    # a reason was given for the row as it was
    reasons = {} if changed else fields.reasons
    return _keep(record, filling, replace(fields, cells=cells, half={}, reasons=reasons), now)


def fits(filling: Filling, field: str, text: str, vocabulary: Vocabulary, today: date) -> bool:
    """Whether `put` would take the text, be it a figure that then waits for its unit; looks only."""
    fields = filling.fields
    if field == "unit":
        field, text = _with_unit(fields, text, vocabulary, today) or ("", "")
    found = read_field(field, text, fields.cells, vocabulary, today) if field else None
    return not isinstance(found, Unfit) or bool(found.half)


def give_reason(
    record: Record, filling: Filling, concern: Concern, text: str, now: datetime
) -> Filling | Unfit | Refused:
    """Why a warning may pass, in the curator's own words."""
    said = " ".join(text.split())
    if len([sign for sign in said if sign.isalpha()]) < 3:
        return Unfit(concern, "that is no reason", "write in a few words why it is right all the same")
    with record.writing() as store:
        there = fillings.hold(store, filling.number, filling.author)
        if there is None:
            return _refused(record, filling.number, filling.author)
        reasons = dict(there.fields.reasons) | {concern: said[:500]}
        return _keep(record, there, replace(there.fields, reasons=reasons), now)


def look(
    record: Record, filling: Filling, name: str, vocabulary: Vocabulary, book: Book | None, now: datetime
) -> Looked | Unfit:
    """What handing it in would find. name: of whoever fills it in."""
    fields = filling.fields
    missing = next_field(fields, vocabulary)
    if missing or fields.half:
        return Unfit(missing or "unit", "the row is not whole yet", "fill in what is asked")
    asked, only_if = fields.asked_years, fields.asked_only_if
    try:
        return look_over(record, _cells(filling), name, now.date(), vocabulary, book, asked, only_if)
    except TableError as error:
        fault = error.faults[0]
        return Unfit(_FIELD_OF.get(fault.column, fault.column), fault.wrong, fault.mend)


def hand_in(
    record: Record, filling: Filling, why: str, vocabulary: Vocabulary, book: Book | None, now: datetime
) -> Submitted | RowRefused | Unfit | Refused:
    """Submits the row for approval, with its pages; a fault or a warning without a reason leaves it open.

    The cells are those on record, whatever the caller last saw. Refused: as of `put`.
    """
    with record.writing() as store:
        there = fillings.hold(store, filling.number, filling.author)
        if there is None:
            return _refused(record, filling.number, filling.author)
        missing = next_field(there.fields, vocabulary)
        if missing or there.fields.half:
            return Unfit(missing or "unit", "the row is not whole yet", "fill in what is asked")
        reasons = there.fields.reasons
        done = submit(record, _cells(there), there.author, why, now, reasons, there.number, vocabulary, book)
    return Refused("closed", there) if isinstance(done, NotOpen) else done


def _cells(filling: Filling) -> dict[str, str]:
    """As a table has them: with the id of the row that it changes, texts that a sheet would run shielded."""
    cells = {name: shielded(cell) for name, cell in filling.fields.cells.items()}
    return cells | {"id": filling.spec} if filling.spec else cells


def unreasoned(found: Iterable[Found], reasons: Mapping[Concern, str]) -> list[Found]:
    """The warnings that nobody has given a reason for."""
    return [one for one in found if one.level == "warning" and not reasons.get(one.concern)]


def _with_unit(fields: Fields, text: str, vocabulary: Vocabulary, today: date) -> tuple[str, str] | None:
    """The field whose figure waits and the figure with the unit that was said, or with what was written anew."""
    half = next(iter(fields.half.items()), None)
    if half is None:
        return None
    waits = read_field(half[0], half[1], fields.cells, vocabulary, today)
    figure = waits.half if isinstance(waits, Unfit) else half[1]
    return half[0], text if any(sign.isdigit() for sign in text) else f"{figure} {text}"


def _keep(record: Record, filling: Filling, fields: Fields, now: datetime) -> Filling | Refused:
    if not fillings.change(record, filling.number, filling.author, fields, now):
        return _refused(record, filling.number, filling.author)
    return replace(filling, fields=fields)


def _refused(record: Record, number: int, author: str) -> Refused:
    found = mine(record, number, author)
    return found if isinstance(found, Refused) else Refused("closed", found)
