"""Tells people that a value which they were shown is another one now."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchbot.book.rows import SpecRow
from benchbot.curation.recalling import RecallState, recall_days, state_of
from benchbot.desk.one_message import in_one
from benchbot.desk.recalls_card import KIND, SEEN
from benchbot.desk.sheets import Button, Parcel, Sheet
from benchbot.following.addressing import Addressee, Addresses
from benchbot.following.telling import tell_lines
from benchbot.following.wording import Wording
from benchbot.outcomes import Subject
from benchbot.people.terms import Role
from benchbot.quantities.presentation import present
from benchbot.records import cards, outbox, recalls
from benchbot.records.recalls import Notice, Revision
from benchbot.records.record import Record
from benchbot.reply.figures import short_value
from benchbot.reply.languages import wording_of as reply_wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import component_words, position_words, property_words, subject_words
from benchbot.specs.figure import read_figure


@dataclass(frozen=True, slots=True)
class Values:
    """A recalled value as one line each: what it is of, what was shown, what holds now ("" when it is withdrawn)."""

    subject: str
    old: str
    new: str


def tell_recalls(record: Record, numbers: Iterable[int], addresses: Addresses, now: datetime) -> int:
    """In the caller's transaction: tells everybody of these recalls who can be told and was not; how many.

    The owners of the places concerned hear how many were told, and who is no member any more.
    """
    count = 0
    kept = timedelta(days=recall_days(record))
    for number in sorted(set(numbers)):
        recall = recalls.one(record, number)
        if recall is None:
            continue
        state = state_of(record, recall)
        told = []
        for notice, old in state.shown:
            addressee = addresses.of_person(notice.person, notice.location)
            if notice.told_at is None and addressee is not None:
                _tell(record, state, notice, old, addressee, now, kept)
                told.append(notice)
        gone = [notice for notice, _ in state.shown if notice.told_at is None and notice not in told]
        if told or (gone and recall.at == now):
            _tell_owners(record, state, told, gone, addresses, now)
        count += len(told)
    return count


def values_of(state: RecallState, old: Revision | None, language: str = "en", units: tuple[str, ...] = ()) -> Values:
    """For lists: the lines of one recall as somebody who saw `old` reads them."""
    of = state.present if state.present is not None else old
    subject = "" if of is None else subject_words(_subject(of, ()), reply_wording_of(language))
    withdrawn = state.present is None or state.recall.what == "withdrawn"
    new = "" if withdrawn or state.present is None else _value(state.present, units, language)
    return Values(subject, "" if old is None or not old.says else _value(old, units, language), new)


def sheet_of(state: RecallState, notice: Notice, old: Revision | None, addressee: Addressee) -> Sheet:
    """The message, with the button that confirms it."""
    words, language, units = addressee.words, addressee.asker.language, addressee.manner.units
    values = values_of(state, old, language, units)
    head = words.withdrawn if state.recall.what == "withdrawn" else words.corrected
    if state.recall.what == "corrected" and old is not None and not old.says:
        head = words.restored
    of = old if old is not None and old.says else state.present
    blocks = [Block("question", head.format(number=state.recall.number))]
    if of is not None:
        asked = subject_words(_subject(of, _years_asked(notice)), reply_wording_of(language))
        blocks.append(Block("subject", asked))
    blocks.append(Block("note", words.asked_on.format(date=_asked_on(notice), question=notice.asked)))
    blocks.append(Block("before", words.old.format(value=values.old or words.none)))
    blocks.append(Block("value", words.new.format(value=values.new or words.none)))
    if values.new and state.present is not None:
        blocks += [Block("note", line) for line in changes(old, state.present, words, language)]
        blocks.append(Block("source", _source(state.present, words)))
    blocks.append(Block("note", words.look))
    return Sheet(tuple(blocks), (Button(words.seen, SEEN, wide=True),))


def changes(old: Revision | None, new: Revision, words: Wording, language: str) -> list[str]:
    """What differs besides the value itself; nothing where the old one said nothing."""
    if old is None or not old.says:
        return []
    before, after = _cells(old, language), _cells(new, language)
    return [
        words.differs.format(what=words.cells[name], old=before[name] or words.nothing, new=text or words.nothing)
        for name, text in after.items()
        if before[name] != text
    ]


def _tell(
    record: Record, state: RecallState, notice: Notice, old: Revision | None, addressee: Addressee, now: datetime,
    kept: timedelta,
) -> None:  # fmt: skip
    sheet = in_one(sheet_of(state, notice, old, addressee), addressee.desk_words)
    body = {"notice": notice.number, "sheet": sheet.to_plain()}
    with record.writing() as store:
        recalls.told(store, notice.number, now)
        card = cards.put(
            record, addressee.address.conversation, notice.person, KIND, "", body, now, now + kept
        )  # fmt: skip
        parcel = Parcel("post", addressee.address.chat, sheet, card=card)
        outbox.add(store, addressee.address.bot, addressee.address.chat, parcel.to_text(), now, card)


def _tell_owners(
    record: Record, state: RecallState, told: Sequence[Notice], gone: Sequence[Notice], addresses: Addresses,
    now: datetime,
) -> None:  # fmt: skip
    known = {location.number for location in addresses.people.locations()}
    places = {one.location for one in (*told, *gone)}
    # who asked where nobody knows concerns every owner
    concerned = known if None in places else known & {one for one in places if one is not None}
    owner: Role = "owner"
    owners = {
        one.person: number for number in concerned for one in addresses.people.people_with((owner,), number)
    }  # fmt: skip
    for person, number in owners.items():
        addressee = addresses.of_person(person, number)
        if addressee is None:
            continue
        words, language = addressee.words, addressee.asker.language
        what = values_of(state, None, language).subject
        lines = [words.owner_told.format(number=state.recall.number, what=what, told=len(told))]
        if gone:
            lines.append(words.owner_gone.format(names=", ".join(dict.fromkeys(one.name for one in gone))))
        tell_lines(record, addressee, tuple(lines), now)


def _subject(revision: Revision, years: tuple[int, ...]) -> Subject:
    cells = revision.cells
    first, last = int(cells["year_from"]), int(cells["year_to"])
    pairs = (part.partition("=") for part in cells["scope_read"].split(";") if part.strip())
    only_if = tuple((key.strip(), value.strip()) for key, _, value in pairs)
    held = tuple(year for year in years if first <= year <= last) or tuple(range(first, last + 1))
    return Subject(
        cells["make"], cells["model"], held, only_if, cells["component_read"], cells["position_read"],
        cells["property"],
    )  # fmt: skip


def _years_asked(notice: Notice) -> tuple[int, ...]:
    years = json.loads(notice.reading).get("years", ())
    return tuple(year for year in years if isinstance(year, int))


def _asked_on(notice: Notice) -> str:
    """The day; of an answer that was told later, the day of the question."""
    return str(json.loads(notice.reading).get("asked_on") or f"{notice.asked_at:%Y-%m-%d}")


def _value(revision: Revision, units: tuple[str, ...], language: str) -> str:
    """Condition, value and conversions on one line, as a lock screen shows them."""
    return short_value(_row(revision), units, reply_wording_of(language))


def _row(revision: Revision) -> SpecRow:
    cells = revision.cells
    figure = read_figure(cells["property"], cells["value"], cells["second_value"])
    shown = json.dumps(present(figure.value, figure.second).to_plain(), ensure_ascii=False)
    return SpecRow(
        spec="", revision=revision.number, vehicle=0, year_from=int(cells["year_from"]),
        year_to=int(cells["year_to"]), only_if=cells["scope_read"], component=cells["component_read"],
        position=cells["position_read"], property=cells["property"], value=cells["value"],
        second_value=cells["second_value"], shown=shown, thread=cells["thread"], strength_class=cells["class"],
        condition=cells["condition"], reuse=cells["reuse"], order=cells["tightening_order"],
        cautions=tuple(one for one in cells["cautions"].split("; ") if one), source=cells["source"],
        source_ref=cells["source_ref"], checked_by=cells["checked_by"], checked_on=cells["checked_on"],
        review_by=cells["review_by"],
    )  # fmt: skip


def _cells(revision: Revision, language: str) -> dict[str, str]:
    """What else a revision says, each under its name in CELLS."""
    cells, wording = revision.cells, reply_wording_of(language)
    first, last = cells["year_from"], cells["year_to"]
    return {
        "vehicle": f"{cells['make']} {cells['model']}",
        "years": first if first == last else f"{first}-{last}",
        "scope": cells["scope_read"],
        "component": component_words(cells["component_read"], wording),
        "position": position_words(cells["position_read"], wording),
        "property": property_words(cells["property"], wording),
        "second_value": cells["second_value"],
        "thread": cells["thread"],
        "class": cells["class"],
        "condition": cells["condition"],
        "reuse": cells["reuse"],
        "tightening_order": cells["tightening_order"],
        "cautions": cells["cautions"],
    }


def _source(revision: Revision, words: Wording) -> str:
    cells = revision.cells
    source = ", ".join(word for word in (cells["source"], cells["source_ref"]) if word)
    return words.source.format(source=source, who=cells["checked_by"], when=cells["checked_on"])
