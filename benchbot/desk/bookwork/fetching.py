"""A picture of a source page once the messenger has given its bytes: kept with its row, or refused and told so."""

from __future__ import annotations

from datetime import datetime

from benchbot.curation.evidence_files import keep_file
from benchbot.desk.bookwork.wording import bookwords_of
from benchbot.desk.sheets import Parcel, Sheet
from benchbot.places import Home
from benchbot.records import evidence, outbox
from benchbot.records.record import Record
from benchbot.reply.reply import Block


def keep_fetched(record: Record, home: Home, bot: str, parcel: Parcel, content: bytes | None, now: datetime) -> bool:
    """Whether it is kept. parcel: the one that asked for it; content None: the messenger will never give it.

    Done again after a kill, it comes to the same. OSError: the disk takes nothing.
    """
    number = int(parcel.code)
    held = evidence.one(record, number)
    if held is None or held.state == "kept":
        return held is not None
    kept = None if content is None else keep_file(home, content)
    with record.writing() as store:
        if kept is not None:
            evidence.kept(record, number, kept.digest, kept.kind, kept.size)
            return True
        if held.state == "awaited":
            evidence.refused(record, number)
            sheet = Sheet((Block("note", bookwords_of(parcel.language).photo_refused),))
            told = Parcel("post", parcel.chat, sheet, language=parcel.language)
            outbox.add(store, bot, parcel.chat, told.to_text(), now)
    return False
