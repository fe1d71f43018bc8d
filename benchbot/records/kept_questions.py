"""Questions whose outcome a new book must not change unawares, on record."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from benchbot.records.entry import moment
from benchbot.records.record import Record, Store

_COLUMNS = "question, said, memory, expected, gap"

OPEN = f"SELECT {_COLUMNS} FROM kept_question WHERE ended_at = '' ORDER BY question"

ANY = "SELECT question FROM kept_question WHERE ended_at = '' LIMIT 1"

ALIKE = """
SELECT question FROM kept_question
WHERE ended_at = '' AND said = :said AND coalesce(memory, '') = :memory LIMIT 1
"""

PUT = """
INSERT INTO kept_question (said, memory, expected, gap, author, at, ended_at)
VALUES (:said, :memory, :expected, :gap, :author, :at, '')
"""

END = """
UPDATE kept_question SET ended_at = :at WHERE question = :question AND ended_at = '' RETURNING said, memory, gap
"""

ALL = (OPEN, ANY, ALIKE, PUT, END)


@dataclass(frozen=True, slots=True)
class Expected:
    """What a question must come to. outcome: its kind, such as "answer"; specs: ids of the rows that an answer shows.

    why: the reason of whoever accepted this in place of another outcome, or empty.
    """

    outcome: str
    specs: tuple[str, ...] = ()
    why: str = ""

    def same(self, other: Expected) -> bool:
        """Whether it is the same kind of outcome with the same rows."""
        return (self.outcome, self.specs) == (other.outcome, other.specs)

    def to_text(self) -> str:
        plain = {"outcome": self.outcome, "specs": list(self.specs), "why": self.why}
        return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> Expected:
        plain = json.loads(text)
        return cls(plain["outcome"], tuple(plain["specs"]), plain.get("why", ""))


@dataclass(frozen=True, slots=True)
class KeptQuestion:
    """said: the message, or the number of the choice that was pressed; memory: of the chat that it was said in."""

    number: int
    said: str
    memory: str | None
    expected: Expected
    gap: int | None


def kept(record: Record | Store) -> list[KeptQuestion]:
    """All that are asked of every new book, oldest first."""
    return [
        KeptQuestion(int(number), said, memory, Expected.from_text(expected), gap)
        for number, said, memory, expected, gap in record.rows(OPEN, {})
    ]


def are_any(record: Record) -> bool:
    return record.row(ANY, {}) is not None


def put(
    store: Store, said: str, memory: str | None, expected: Expected, gap: int | None, author: str, now: datetime
) -> None:
    """A question more; the same words with the same memory are kept but once."""
    if store.row(ALIKE, {"said": said, "memory": memory or ""}) is not None:
        return
    values = {"said": said, "memory": memory, "expected": expected.to_text(), "gap": gap, "author": author}
    store.run(PUT, values | {"at": moment(now)})


def replace(store: Store, changed: Sequence[tuple[int, Expected]], author: str, now: datetime) -> None:
    """Each of these questions is to come to something else from now on; what was expected before stays on record."""
    for number, expected in changed:
        row = store.row(END, {"question": number, "at": moment(now)})
        if row is not None:
            put(store, row[0], row[1], expected, row[2], author, now)
