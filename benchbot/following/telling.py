"""Tells somebody the answer to what they asked when the book did not hold it, once, with the buttons of any answer."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime

from benchbot.conversation.conversation import Turn
from benchbot.desk.done_already import with_done
from benchbot.desk.handling import CARD_KEPT
from benchbot.desk.one_message import in_one
from benchbot.desk.questions import specs_of
from benchbot.desk.sheets import Parcel, Sheet
from benchbot.desk.showing import answer_sheet
from benchbot.following.addressing import Addressee
from benchbot.following.answered import Answered
from benchbot.outcomes import Answer
from benchbot.records import cards, outbox
from benchbot.records.entry import Entry
from benchbot.records.record import Record
from benchbot.reply.reply import Block

# The outcome of what was told without having been asked just then.
TOLD = "told"


def tell(record: Record, found: Answered, addressee: Addressee, version: int, now: datetime) -> None:
    """In the caller's transaction: on record as an answer shown, and waiting to be sent."""
    turn = found.turn
    specs: tuple[tuple[str, int], ...] = ()
    if isinstance(turn.outcome, Answer):
        specs = tuple((finding.row.spec, finding.row.revision) for finding in turn.outcome.findings)
    with record.writing() as store:
        kept = record.put(_entry(found, addressee, specs, version, now))
        turn = replace(turn, answer=kept.answer, before=found.gap.memory)
        # as the desk keeps a card of its own, so that its buttons do the same
        body = {
            "before": turn.before, "said": found.gap.question, "answer": turn.answer, "specs": specs_of(turn),
            "gap": found.gap.number, "labels": [], "step": 1, "left": "",
        }  # fmt: skip
        kind = "answer" if specs else "said"
        card = cards.put(
            record, addressee.address.conversation, found.gap.person, kind, "", body, now, now + CARD_KEPT
        )  # fmt: skip
        sheet = with_done(_sheet(found, turn, addressee), found.gap.number, addressee.desk_words)
        parcel = Parcel("post", addressee.address.chat, in_one(sheet, addressee.desk_words), card=card)
        outbox.add(store, addressee.address.bot, addressee.address.chat, parcel.to_text(), now, card)


def tell_lines(record: Record, addressee: Addressee, lines: tuple[str, ...], now: datetime) -> None:
    """Plain lines to somebody's private chat."""
    sheet = in_one(Sheet(tuple(Block("note", line) for line in lines)), addressee.desk_words)
    parcel = Parcel("post", addressee.address.chat, sheet)
    with record.writing() as store:
        outbox.add(store, addressee.address.bot, addressee.address.chat, parcel.to_text(), now)


def _entry(
    found: Answered, addressee: Addressee, specs: tuple[tuple[str, int], ...], version: int, now: datetime
) -> Entry:
    reading = {
        "kind": found.turn.reading.kind,
        "vehicle": found.turn.reading.vehicle.said,
        "years": found.turn.reading.years,
        "gap": found.gap.number,
        "asked_on": f"{found.gap.at:%Y-%m-%d}",
    }
    return Entry(
        chat=addressee.address.conversation,
        person=found.gap.person,
        message=None,
        text=found.asked,
        at=now,
        outcome=TOLD,
        reading=json.dumps(reading, ensure_ascii=False),
        reply=json.dumps([spec for spec, _ in specs]),
        specs=specs,
        book_version=version,
        location=addressee.place.location.number,
    )


def _sheet(found: Answered, turn: Turn, addressee: Addressee) -> Sheet:
    words, asked = addressee.words, {"date": f"{found.gap.at:%Y-%m-%d}", "question": found.asked}
    if isinstance(turn.outcome, Answer):
        head = Block("note", words.answered.format(**asked))
        turn = replace(turn, reply=replace(turn.reply, blocks=(head, *turn.reply.blocks)))
        return answer_sheet(turn, addressee.desk_words, addressee.asker.language)
    head, foot = Block("note", words.asks_back.format(**asked)), Block("note", words.ask_again)
    return Sheet((head, *turn.reply.blocks, foot, *turn.reply.below))
