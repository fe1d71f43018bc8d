"""Whether a row is about a fastener with the thread that was said, by the row itself or by the rows beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from benchbot.book.reader import SpecRow
from benchbot.understanding.threads import Thread, thread_of

_THREAD = "thread"


def has_thread(row: SpecRow, said: str, beside: Sequence[SpecRow]) -> bool:
    """Whether the book says that the row's fastener has this thread; a row that tells the thread answers anyway."""
    if row.property == _THREAD:
        return True
    wanted = thread_of(said)
    held = _threads_of(row, beside)
    return wanted is not None and bool(held) and all(one.agrees(wanted) for one in held)


def lacks_thread(row: SpecRow, said: str, beside: Sequence[SpecRow]) -> bool:
    """Whether the book says that the row's fastener has another thread."""
    wanted = thread_of(said)
    held = _threads_of(row, beside)
    return wanted is not None and row.property != _THREAD and any(not one.agrees(wanted) for one in held)


def _threads_of(row: SpecRow, beside: Iterable[SpecRow]) -> list[Thread]:
    """The threads that the book has for the row's fastener: its own, else those of the rows of the same bolt."""
    if row.thread:
        return [thread] if (thread := thread_of(row.thread)) else []
    same = [one for one in beside if _is_of_the_same(one, row)]
    written = [one.value if one.property == _THREAD else one.thread for one in same]
    return [thread for text in written if text and (thread := thread_of(text))]


def _is_of_the_same(one: SpecRow, row: SpecRow) -> bool:
    return (one.component, one.position, one.only_if) == (row.component, row.position, row.only_if) and (
        one.year_from <= row.year_to and row.year_from <= one.year_to
    )
