"""What waits to be sent: in order for each chat, chats side by side, kept until the messenger has it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

ADD = """
INSERT INTO sending (bot, chat, body, card, state, tries, not_before, message, why, at, ended_at)
VALUES (:bot, :chat, :body, :card, 'waiting', 0, :not_before, '', '', :at, '') RETURNING sending
"""

# The first of each chat, and none of a chat that has one on its way: a chat is shown things in their order.
_FIRST_OF_CHAT = """
head.state = 'waiting' AND head.bot = :bot
AND NOT EXISTS (
  SELECT 1 FROM sending AS older
  WHERE older.state = 'waiting' AND older.bot = :bot AND older.chat = head.chat AND older.sending < head.sending
)
AND NOT EXISTS (
  SELECT 1 FROM sending AS flying
  WHERE flying.state = 'sending' AND flying.bot = :bot AND flying.chat = head.chat
)
"""

DUE = f"""
SELECT head.sending, head.chat FROM sending AS head
WHERE {_FIRST_OF_CHAT} AND head.not_before <= :now ORDER BY head.sending
"""

NEXT_DUE = f"""
SELECT MIN(CASE WHEN head.not_before = '' THEN head.at ELSE head.not_before END) FROM sending AS head
WHERE {_FIRST_OF_CHAT}
"""

CLAIM = """
UPDATE sending SET state = 'sending', tries = tries + 1 WHERE sending = :sending AND state = 'waiting'
RETURNING chat, body, card, tries
"""

CARD_MESSAGE = "SELECT message FROM card WHERE card = :card"

SENT = """
UPDATE sending SET state = 'sent', message = :message, body = '', why = '', ended_at = :at
WHERE sending = :sending RETURNING card
"""

PUT_CARD_MESSAGE = "UPDATE card SET message = :message WHERE card = :card"

BACK = "UPDATE sending SET state = 'waiting', not_before = :not_before, why = :why WHERE sending = :sending"

UNSURE = "UPDATE sending SET state = 'unsure', why = :why, ended_at = :at WHERE sending = :sending"

REFUSED = "UPDATE sending SET state = 'refused', why = :why, ended_at = :at, body = '' WHERE sending = :sending"

UNFINISHED = """
UPDATE sending SET state = 'waiting' WHERE state = 'sending' AND bot = :bot RETURNING sending
"""

UNFINISHED_IN_CHAT = """
UPDATE sending SET state = 'waiting' WHERE state = 'sending' AND bot = :bot AND chat = :chat RETURNING sending
"""

SET_ASIDE = """
UPDATE sending SET state = 'unsure', why = :why, ended_at = :at WHERE state IN ('waiting', 'sending')
RETURNING sending
"""

WAITING = "SELECT COUNT(*) FROM sending WHERE state IN ('waiting', 'sending')"

AGAIN = """
UPDATE sending SET state = 'waiting', body = :body, tries = 0, not_before = '', why = '', ended_at = ''
WHERE sending = :sending AND state = 'unsure' RETURNING sending
"""

RECHAT = """
UPDATE sending SET chat = :new
WHERE state IN ('waiting', 'sending', 'unsure') AND bot = :bot AND chat = :old
"""

HELD = "SELECT sending, chat, body, card, tries FROM sending WHERE sending = :sending AND state = 'unsure'"

NEWER = "SELECT COUNT(*) FROM sending WHERE card = :card AND sending > :sending"

# The last one stays: SQLite would give its number to another one, which a person could then ask for.
FORGET = """
DELETE FROM sending WHERE state IN ('sent', 'unsure', 'refused') AND ended_at < :before
AND sending < (SELECT MAX(sending) FROM sending)
"""

# Whoever can read a picture's body can read the code that it is drawn from.
FORGET_PICTURES = """
DELETE FROM sending WHERE state = 'unsure' AND ended_at < :before AND body LIKE '{"do":"picture"%'
AND sending < (SELECT MAX(sending) FROM sending)
"""

ALL = (
    ADD, DUE, NEXT_DUE, CLAIM, CARD_MESSAGE, SENT, PUT_CARD_MESSAGE, BACK, UNSURE, REFUSED, UNFINISHED,
    UNFINISHED_IN_CHAT, SET_ASIDE, WAITING, AGAIN, RECHAT, HELD, NEWER, FORGET, FORGET_PICTURES,
)  # fmt: skip

_ENDED = {"unsure": UNSURE, "refused": REFUSED}


@dataclass(frozen=True, slots=True)
class Claimed:
    """One thing to send now.

    chat: where to, which may be newer than what the body says. card_message: the message that its card stands on,
    empty before there is one. tries: how often it was tried, this time included.
    """

    number: int
    chat: str
    body: str
    card: int | None
    card_message: str
    tries: int


def add(
    store: Store,
    bot: str,
    chat: str,
    body: str,
    now: datetime,
    card: int | None = None,
    not_before: datetime | None = None,
) -> int:
    """Puts one behind what waits for the chat; its number."""
    values = {
        "bot": bot,
        "chat": chat,
        "body": body,
        "card": card,
        "at": moment(now),
        "not_before": _or_now(not_before),
    }
    return number_of(store.row(ADD, values))


def claim(
    record: Record, bot: str, busy: Collection[str], now: datetime, limit: int, chat: str | None = None
) -> list[Claimed]:
    """Marks at most `limit` as being sent, one for each chat that is not busy: its oldest, once that is due.

    chat: the only one that is looked at.
    """
    values = {"bot": bot, "now": moment(now)}
    # Looked at first without the write lock: most of the time nothing waits.
    if not _due(record.rows(DUE, values), busy, limit, chat):
        return []
    claimed = []
    with record.writing() as store:
        for number in _due(store.rows(DUE, values), busy, limit, chat):
            row = store.row(CLAIM, {"sending": number})
            if row is not None:
                to, body, card, tries = row
                standing = None if card is None else store.row(CARD_MESSAGE, {"card": card})
                message = "" if standing is None else str(standing[0])
                claimed.append(Claimed(number, to, body, card, message, tries))
    return claimed


def sent(record: Record, number: int, message: str, now: datetime) -> None:
    """The messenger has it. message: its id of the message, which its card then stands on; empty when there is none."""
    with record.writing() as store:
        row = store.row(SENT, {"sending": number, "message": message, "at": moment(now)})
        if row is not None and row[0] is not None and message:
            store.run(PUT_CARD_MESSAGE, {"card": row[0], "message": message})


def back(record: Record, number: int, not_before: datetime | None, why: str) -> None:
    """To be tried again, at once or from that time on; what is younger in its chat waits for it."""
    with record.writing() as store:
        store.run(BACK, {"sending": number, "not_before": _or_now(not_before), "why": why})


def ended(record: Record, number: int, state: Literal["unsure", "refused"], why: str, now: datetime) -> None:
    """Not to be tried again. unsure: nobody knows whether it arrived, so its body stays for whoever asks for it."""
    with record.writing() as store:
        store.run(_ENDED[state], {"sending": number, "why": why, "at": moment(now)})


def unfinished(record: Record, bot: str, chat: str | None = None) -> list[int]:
    """At a start: what was being sent when its process died, in order; all of it waits again and may show twice.

    chat: the only one that this process sends to.
    """
    statement, values = (UNFINISHED, {}) if chat is None else (UNFINISHED_IN_CHAT, {"chat": chat})
    with record.writing() as store:
        return sorted(int(row[0]) for row in store.rows(statement, {"bot": bot} | values))


def set_aside(store: Store, why: str, now: datetime) -> int:
    """All that waits, for every bot, is unsure from now on and nobody is asked about it; how many.

    Their bodies stay: who was asked about one before can still be shown it.
    """
    return len(store.rows(SET_ASIDE, {"why": why, "at": moment(now)}))


def waiting(record: Record) -> int:
    """How many wait or are being sent, for every bot."""
    return number_of(record.row(WAITING, {}))


def again(store: Store, number: int, body: str) -> bool:
    """An unsure one waits again with a new body, and as new; False when it is not, or no longer, unsure."""
    return store.row(AGAIN, {"sending": number, "body": body}) is not None


def unsure(record: Record, number: int) -> Claimed | None:
    """One of which nobody knows whether it arrived; None when it is not, or no longer, unsure."""
    row = record.row(HELD, {"sending": number})
    return None if row is None else Claimed(int(row[0]), row[1], row[2], row[3], "", row[4])


def newer(record: Record, card: int, number: int) -> bool:
    """Whether something was put in for the card after that one, so that the card shows something else by now."""
    return number_of(record.row(NEWER, {"card": card, "sending": number})) > 0


def next_due(record: Record, bot: str) -> datetime | None:
    """When the next can be claimed, in the past when one can be now; None while none waits in a chat that is free."""
    row = record.row(NEXT_DUE, {"bot": bot})
    return None if row is None or row[0] is None else datetime.fromisoformat(row[0])


def rechat(store: Store, bot: str, old: str, new: str) -> None:
    """What waits for one chat, or is unsure there, waits for another; what was sent stays where it was."""
    store.run(RECHAT, {"bot": bot, "old": old, "new": new})


def forget(record: Record, before: datetime) -> None:
    """Removes what ended before that time."""
    with record.writing() as store:
        store.run(FORGET, {"before": moment(before)})


def forget_pictures(record: Record, before: datetime) -> None:
    """Removes pictures that ended before that time and of which nobody knows whether they arrived."""
    with record.writing() as store:
        store.run(FORGET_PICTURES, {"before": moment(before)})


def _due(rows: list[tuple[int, str]], busy: Collection[str], limit: int, only: str | None) -> list[int]:
    return [int(number) for number, chat in rows if chat not in busy and only in (None, chat)][:limit]


def _or_now(not_before: datetime | None) -> str:
    return "" if not_before is None else moment(not_before)
