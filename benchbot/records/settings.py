"""What the shop's owner has settled for the whole shop, on record with who settled it and when."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from benchbot.records.entry import moment
from benchbot.records.record import Record

PUT = "INSERT INTO shop_setting (name, value, author, at) VALUES (:name, :value, :author, :at)"

NEWEST = "SELECT value, author, at FROM shop_setting WHERE name = :name ORDER BY entry DESC LIMIT 1"

ALL = (PUT, NEWEST)


@dataclass(frozen=True, slots=True)
class Setting:
    """A value in force, who set it, and when as the record writes times."""

    value: str
    author: str
    at: str


def setting(record: Record, name: str) -> Setting | None:
    """The setting in force; None when nobody has ever set it."""
    row = record.row(NEWEST, {"name": name})
    return None if row is None else Setting(str(row[0]), str(row[1]), str(row[2]))


def put(record: Record, name: str, value: str, author: str, now: datetime) -> None:
    """From now on that value counts; those before it stay on record."""
    with record.writing() as store:
        store.run(PUT, {"name": name, "value": value, "author": author, "at": moment(now)})
