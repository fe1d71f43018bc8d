"""What came in, kept on record before the messenger is told that we have it, until it was handled."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

KEEP = """
INSERT INTO arrival (bot, number, chat, body, at, handled_at) VALUES (:bot, :number, :chat, :body, :at, '')
ON CONFLICT (bot, number) DO NOTHING RETURNING number
"""

# By time first: after a week without news a messenger may start its numbers anew, below the old ones.
LEFT = "SELECT body FROM arrival WHERE handled_at = '' AND bot = :bot ORDER BY at, number"

# What was asked stands in the answer; anything else in a body, such as the code of an invite, is not to be kept.
HANDLED = "UPDATE arrival SET handled_at = :at, body = '' WHERE bot = :bot AND number = :number"

SET_ASIDE = "UPDATE arrival SET handled_at = :at, body = '' WHERE handled_at = '' RETURNING number"

WAITING = "SELECT COUNT(*) FROM arrival WHERE handled_at = ''"

FORGET = "DELETE FROM arrival WHERE handled_at > '' AND handled_at < :before"

ALL = (KEEP, LEFT, HANDLED, SET_ASIDE, WAITING, FORGET)


def keep(record: Record, bot: str, rows: Sequence[tuple[int, str, str]], now: datetime) -> set[int]:
    """Keeps all of (number, chat, body) or nothing; the numbers that this bot did not have yet."""
    if not rows:
        return set()
    new: set[int] = set()
    with record.writing() as store:
        for number, chat, body in rows:
            values = {"bot": bot, "number": number, "chat": chat, "body": body, "at": moment(now)}
            if store.row(KEEP, values) is not None:
                new.add(number)
    return new


def left(record: Record, bot: str) -> list[str]:
    """The bodies that were taken in and not handled, in the order in which they came."""
    return [str(row[0]) for row in record.rows(LEFT, {"bot": bot})]


def handled(store: Store, bot: str, number: int, now: datetime) -> None:
    """Marks one as handled, in the transaction that handles it."""
    store.run(HANDLED, {"bot": bot, "number": number, "at": moment(now)})


def set_aside(store: Store, now: datetime) -> int:
    """Marks all that was left, of every bot, as handled without handling it; how many."""
    return len(store.rows(SET_ASIDE, {"at": moment(now)}))


def waiting(record: Record) -> int:
    """How many were left, of every bot."""
    return number_of(record.row(WAITING, {}))


def forget(record: Record, before: datetime) -> None:
    """Removes what was handled before that time; earlier than the messenger could send it once more is too soon."""
    with record.writing() as store:
        store.run(FORGET, {"before": moment(before)})
