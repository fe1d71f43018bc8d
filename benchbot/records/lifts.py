"""The vehicles that were on the lift of a chat, on record."""

from __future__ import annotations

from datetime import datetime

from benchbot.records.entry import moment
from benchbot.records.record import Record

LATEST = "SELECT vehicle FROM lift WHERE chat = :chat ORDER BY at DESC, vehicle LIMIT :count"

PUT = """
INSERT INTO lift (chat, vehicle, at) VALUES (:chat, :vehicle, :at)
ON CONFLICT (chat, vehicle) DO UPDATE SET at = excluded.at
"""

ALL = (LATEST, PUT)


def latest(record: Record, chat: str, count: int) -> list[str]:
    """The last vehicles of the chat as they were put in, the latest first."""
    return [str(row[0]) for row in record.rows(LATEST, {"chat": chat, "count": count})]


def put(record: Record, chat: str, vehicle: str, now: datetime) -> None:
    """A vehicle is on the lift now; once more only moves it to the front."""
    with record.writing() as store:
        store.run(PUT, {"chat": chat, "vehicle": vehicle, "at": moment(now)})
